"""The drawer of charts: a process of its own, slow to wake, and it lets no thread work beside it.

Run as a module it reads one Vega-Lite description a line and answers each with a line of SVG. It
needs nothing else of ours, so that it wakes while the rest is still being imported.
"""

from __future__ import annotations

import atexit
import json
import signal
import subprocess
import sys
import threading
from functools import cache
from typing import IO, Any

__all__ = ["draw", "wake"]

_VEGA_LITE = "6.4"
_TURN = threading.Lock()  # one question at a time, so that each gets its own answer


def wake() -> None:
    """Let the drawer wake while other work is done."""
    _drawer()


def draw(specification: dict[str, Any]) -> str:
    """A Vega-Lite description drawn as SVG, the same bytes each time.

    Raises:
        ChildProcessError: the drawer gave up; it has said why.
    """
    with _TURN:
        answer = _answer(json.dumps(specification) + "\n")
    if not answer:
        raise ChildProcessError("a chart could not be drawn; the reason stands above")
    svg: str = json.loads(answer)
    return svg


def _answer(question: str) -> str:
    """What the drawer answers; nothing when it is gone."""
    asked, answered = _drawer()
    try:
        asked.write(question)
        asked.flush()
    except BrokenPipeError:
        return ""
    return answered.readline()


@cache
def _drawer() -> tuple[IO[str], IO[str]]:
    """What the drawer reads and what it writes; it ends when this process does."""
    from hearthbook.render.fonts import font_folder

    process = subprocess.Popen(
        [sys.executable, "-m", "hearthbook.render.chart_drawer", str(font_folder())],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        encoding="utf-8",
    )
    atexit.register(process.communicate)
    atexit.register(process.kill)  # comes first; it may still be waking
    if process.stdin is None or process.stdout is None:
        raise ChildProcessError("the drawer of charts cannot be spoken to")
    return process.stdin, process.stdout


def _answer_all(fonts: str) -> None:
    """Answer descriptions until there are no more; a first one of our own wakes what is slow."""
    import vl_convert

    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the end comes with the end of the questions
    vl_convert.register_font_directory(fonts)  # letters are measured in the family they are set in
    vl_convert.vegalite_to_svg({"mark": "bar"}, vl_version=_VEGA_LITE)
    for question in sys.stdin:
        svg = vl_convert.vegalite_to_svg(question, vl_version=_VEGA_LITE)
        sys.stdout.write(json.dumps(svg) + "\n")
        sys.stdout.flush()


if __name__ == "__main__":
    _answer_all(sys.argv[1])
