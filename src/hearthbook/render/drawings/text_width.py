"""How wide words are when set, and how they break into lines.

The table holds the advance widths of the typeface the drawings are set in, in thousandths of the
text size and rounded up to the next twenty, so that a word never turns out wider than was planned.

Source: horizontal metrics of Source Sans Pro, regular (SIL Open Font License).
"""

from __future__ import annotations

__all__ = ["LINE_HEIGHT", "text_width", "wrapped"]

LINE_HEIGHT = 1.25  # of the text size, from baseline to baseline

_BY_WIDTH = {
    200: " ",
    220: "\N{NO-BREAK SPACE}",
    260: "',.:;ijl|¦·ìíîïı‘’‚′",
    280: "IÌÍÎÏłİ",
    300: "!f¡",
    320: "()-[]{}•",
    340: "t°ť",
    360: "/\\rªř",
    380: "²³¹º₂",
    420: "*sśšş",
    440: '"?z«®»¿źżž“”„″',
    460: "xcçćč",
    480: "JYvyÝýÿŸ–",
    500: "#$+0123456789<=>FL^_ek~¢£¤¥§¬±×èéêë÷ęěŁ−€≥≤≈",
    520: "VXagàáâãäåąğ",
    540: "ESTZÈÉÊËĘĚŚŠŤŹŻŽŞ",
    560: "A`bdhnopqu¨¯´¶¸ÀÁÂÃÄÅðñòóôõöøùúûüþĄńňőůű",
    580: "CKPRµÇßĆČďŘ",
    600: "BÞ",
    620: "&DGĎĞ→←↑↓",
    640: "Ð",
    660: "HNUÑÙÚÛÜŃŇŮŰ",
    680: "OQÒÓÔÕÖØŐ",
    720: "w",
    740: "M",
    760: "©",
    800: "W¼¾æ—",
    820: "½",
    840: "%mÆœ",
    860: "@Œ",
    960: "…",
    1200: "‰",
}
_WIDTHS = {character: width / 1000 for width, group in _BY_WIDTH.items() for character in group}
_UNKNOWN = 1.0  # of the text size: a full square, as wide as anything a font falls back on
_SEMIBOLD = 1.06  # semibold over regular: 1.03 on average, 1.09 for letters at worst


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Width of one line of text, in the unit of its size.

    Example:
        >>> round(text_width("Flow 42 °C", 10.0), 1)
        43.6
    """
    width = sum(_WIDTHS.get(character, _UNKNOWN) for character in text) * size
    return width * _SEMIBOLD if bold else width


def wrapped(text: str, width: float, size: float, *, bold: bool = False) -> tuple[str, ...]:
    """The text in lines no wider than the width; a word too long for a line is divided.

    A no-break space holds its words together. A width too small for one character still gives
    lines of one character.

    Example:
        >>> wrapped("Top up below 1.0 bar", 50.0, 10.0)
        ('Top up', 'below 1.0', 'bar')
    """
    lines: list[str] = []
    line = ""
    for word in _words(text, width, size, bold=bold):
        longer = f"{line} {word}" if line else word
        if line and text_width(longer, size, bold=bold) > width:
            lines.append(line)
            line = word
        else:
            line = longer
    return (*lines, line) if line else tuple(lines)


def _words(text: str, width: float, size: float, *, bold: bool) -> list[str]:
    parts: list[str] = []
    for word in text.replace("\n", " ").replace("\t", " ").split(" "):
        if word:
            parts.extend(_divided(word, width, size, bold=bold))
    return parts


def _divided(word: str, width: float, size: float, *, bold: bool) -> list[str]:
    """A word in pieces that fit; all but the last end in a hyphen."""
    pieces: list[str] = []
    while len(word) > 1 and text_width(word, size, bold=bold) > width:
        length = len(word) - 1
        while length > 1 and text_width(word[:length] + "-", size, bold=bold) > width:
            length -= 1
        piece = word[:length]
        pieces.append(piece if piece.endswith("-") or length == 1 else f"{piece}-")
        word = word[length:]
    return [*pieces, word]
