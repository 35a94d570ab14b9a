"""The drawer of charts answers in turn, and says so when it cannot."""

from __future__ import annotations

import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor

import pytest

from hearthbook.render import chart_drawer


def _words(text: str) -> dict[str, object]:
    return {"data": {"values": [{}]}, "mark": {"type": "text", "text": text}}


def test_each_thread_gets_the_chart_it_asked_for() -> None:
    texts = [f"chart {number}" for number in range(12)]
    with ThreadPoolExecutor(max_workers=4) as pool:
        drawn = list(pool.map(chart_drawer.draw, map(_words, texts)))
    assert all(f">{text}<" in svg for text, svg in zip(texts, drawn, strict=True))


def test_a_chart_that_cannot_be_drawn_is_told() -> None:
    program = (
        "from hearthbook.render import chart_drawer as drawer\n"
        "for _ in range(2):\n"
        "    try:\n"
        "        drawer.draw({'mark': 'no such mark'})\n"
        "    except ChildProcessError as told:\n"
        "        print(told)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, timeout=60, check=True
    )
    assert done.stdout.splitlines() == ["a chart could not be drawn; the reason stands above"] * 2
    assert "VegaLite" in done.stderr


@pytest.mark.parametrize("command", ["pass", "drawer.draw({'mark': 'bar'})"])
def test_the_drawer_ends_with_the_program_that_woke_it(command: str) -> None:
    program = f"from hearthbook.render import chart_drawer as drawer\ndrawer.wake()\n{command}"
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", program],
        capture_output=True,
        text=True,
        timeout=60,
        check=True,
    )  # returns only when nobody holds the streams any more
    assert done.stderr == ""
