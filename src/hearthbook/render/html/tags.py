"""Safe HTML: text is escaped unless it was made here."""

from __future__ import annotations

import base64
import html
import re

__all__ = ["Html", "image", "joined", "tag"]

_APOSTROPHE = re.compile(r"(?<=[^\W\d_])'(?=[^\W\d_])")
_VOID = frozenset({"img", "input", "br", "meta", "source", "link", "hr"})


class Html(str):
    """A string that is HTML already, and is not escaped again."""

    __slots__ = ()


def tag(name: str, /, *children: str, **attributes: str | bool | None) -> Html:
    """An element.

    Args:
        name: of the element.
        children: HTML as it is, anything else escaped.
        attributes: escaped; a trailing underscore is dropped and others become dashes; None and
            False leave the attribute out, True writes it without a value.

    Example:
        >>> tag("p", "a < b", class_="note")
        '<p class="note">a &lt; b</p>'
    """
    written = "".join(_attribute(key, value) for key, value in attributes.items())
    if name in _VOID:
        return Html(f"<{name}{written}>")
    return Html(f"<{name}{written}>{joined(*children)}</{name}>")


def _attribute(key: str, value: str | bool | None) -> str:
    """One attribute as written."""
    name = key.rstrip("_").replace("_", "-")
    if value is None or value is False:
        return ""
    return f" {name}" if value is True else f' {name}="{html.escape(value)}"'


def joined(*parts: str) -> Html:
    """Parts one after another, each escaped unless it is HTML.

    Example:
        >>> joined("1 < 2", tag("b", "!"))
        '1 &lt; 2<b>!</b>'
    """
    return Html(
        "".join(
            part if isinstance(part, Html) else html.escape(part, quote=False) for part in parts
        )
    )


def image(svg: str) -> str:
    """An SVG as an address that an image can hold, so that nothing in it can act."""
    return "data:image/svg+xml;base64," + base64.b64encode(svg.encode("utf-8")).decode("ascii")
