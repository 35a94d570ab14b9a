"""Write the pages of docs/ that are made from the code: run by `./run docs`, watched by a test.

`--check` writes nothing and fails when a page is not what it would be.
"""

from __future__ import annotations

import inspect
import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any, get_type_hints

import click
import numpy as np
from typing_extensions import TypeAliasType

ROOT = Path(__file__).parent.parent
sys.path.insert(0, str(ROOT))  # started by its path, a script sees only its own folder

from docs.record_page import record_page  # noqa: E402 - after the path above
from hearthbook.actions.records import demo_records, schema_text  # noqa: E402 - likewise
from hearthbook.cli.main import cli  # noqa: E402 - after the path above
from hearthbook.design.results import design_home  # noqa: E402 - after the path above
from hearthbook.documents.figures import KeyFigure, assumptions_in  # noqa: E402 - likewise
from hearthbook.documents.inline import plain  # noqa: E402 - after the path above
from hearthbook.readers.record_file import read_home  # noqa: E402 - after the path above
from hearthbook.units import Unit  # noqa: E402 - after the path above
from hearthbook.year.assumed_table import assumptions_table  # noqa: E402 - after the path above
from hearthbook.year.model import year_model  # noqa: E402 - after the path above
from tests.published.reading import computed, function_of, sources  # noqa: E402 - likewise
from tests.published.room_cases import deviations, room_cases  # noqa: E402 - likewise

DOCS = ROOT / "docs"

SUBJECTS = {
    "3.1": "Fabric: U-values and ground floors",
    "3.2": "Heat loss of rooms and the home",
    "3.3": "Radiators and underfloor heating",
    "3.4": "Weather curve",
    "3.5": "Water volume",
    "3.6": "Expansion vessel and pressures",
    "3.7": "Flow rates and pipes",
    "3.8": "Hot water",
    "3.9": "How the heat pump fits the home",
    "3.10": "Sound and condensate",
    "3.11": "Commissioning verdicts",
    "year": "The year, minute by minute",
}

HELD = {
    "seen": "read where it is printed or quoted",
    "from memory": "from memory",
    "derived": "worked by hand from the formula named",
    "library": "from an independent reference library",
}

HEAD = "<!-- Written by docs/generate.py (./run docs); do not edit. -->\n"


def how_we_know() -> str:
    """The page that shows every published check: expected, computed, source."""
    found = list(sources().values())
    kinds = Counter(source["basis"] for source in found for _ in source["check"])
    total = sum(kinds.values())
    lines = [
        HEAD,
        "# How we know\n",
        f"{total} values from outside this project, from {len(found)} sources, each run through "
        "the function it checks whenever the tests run. None was produced by our own code.\n",
        *(f"- {kinds[kind]} {words}" for kind, words in HELD.items() if kinds[kind]),
        "",
        "“May differ by” is the widest difference the test lets pass, and the last column says "
        "why it is no narrower. Values compared point by point with reference libraries (water, "
        "moist air, refrigerants, pipe friction) are ordinary tests beside these and are not "
        "listed here.\n",
    ]
    for item in sorted({str(source["item"]) for source in found}, key=_in_order):
        lines.append(f"## {_subject(item)}\n")
        for source in sorted(
            (one for one in found if str(one["item"]) == item), key=lambda one: one["source"]
        ):
            lines += _source(source)
    return "\n".join([*lines, *_test_rooms()]).rstrip() + "\n"


def _test_rooms() -> Iterator[str]:
    """How far the room model lands from published test rooms, case by case."""
    yield "## Rooms of the year's model\n"
    yield f"**{_cell(room_cases()['source'])}** ({HELD[room_cases()['basis']]})\n"
    yield (
        "Means of 72 hours, days 1, 10 and 60, in steps of a minute. The guideline lets pass "
        "0.15 K and 1.5 W; printed values are rounded to 0.1 K and 1 W. Cases 4, 7, 8 and 12 "
        "were not at hand.\n"
    )
    yield "| case | room | largest deviation | root mean square | lets pass | hours beyond |"
    yield "| --- | --- | --- | --- | --- | --- |"
    for one in deviations():
        digits = 3 if one.unit == "K" else 2
        yield (
            f"| {one.case} | {_cell(one.what)} | {one.largest:.{digits}f} {one.unit} | "
            f"{one.mean:.{digits}f} {one.unit} | {one.within:g} {one.unit} | "
            f"{one.hours_beyond} of 72 |"
        )
    yield ""
    yield (
        "Test rooms of ANSI/ASHRAE 140 need a third party's weather: their deviations are in "
        "[bestest.md](bestest.md).\n"
    )


def _in_order(item: str) -> tuple[int, ...]:
    first = item.split(",", maxsplit=1)[0].strip()
    return tuple(int(part) for part in first.split(".") if part.isdigit()) or (sys.maxsize,)


def _subject(item: str) -> str:
    return "; ".join(SUBJECTS.get(part.strip(), part.strip()) for part in item.split(","))


def _source(source: dict[str, Any]) -> Iterator[str]:
    yield f"**{_cell(source['source'])}** ({HELD[source['basis']]})\n"
    if "note" in source:
        yield f"{_cell(source['note'])}\n"
    yield "| what is checked | with | expected | computed | may differ by | why |"
    yield "| --- | --- | --- | --- | --- | --- |"
    for check in source["check"]:
        yield _row(check)
    yield ""


def _row(check: dict[str, Any]) -> str:
    function = function_of(check)
    hints = get_type_hints(function, include_extras=True)
    inputs = "; ".join(
        f"{name.replace('_', ' ')} {_shown(value, _unit(hints.get(name)))}"
        for name, value in check["inputs"].items()
    )
    unit = "" if "result" in check else _unit(hints.get("return"))
    tolerance = "" if isinstance(check["expected"], str | bool) else _shown(check["tolerance"], "")
    cells = (
        _what(function, check),
        inputs,
        _shown(check["expected"], unit),
        _shown(computed(check), unit),
        tolerance,
        check["why"],
    )
    return "| " + " | ".join(_cell(cell) for cell in cells) + " |"


def _what(function: Any, check: dict[str, Any]) -> str:
    first = (inspect.getdoc(function) or function.__name__).splitlines()[0].rstrip(".")
    part = f", {check['result']}".replace("_", " ") if "result" in check else ""
    return f"{first}{part} (`{check['id']}`)"


def _unit(hint: Any) -> str:
    """The unit's symbol behind a signature's alias."""
    if isinstance(hint, TypeAliasType):
        hint = hint.__value__
    notes = getattr(hint, "__metadata__", ())
    return next((note.symbol for note in notes if isinstance(note, Unit)), "")


def _shown(value: Any, unit: str) -> str:
    """A value with five digits, which no two machines disagree about, and its unit."""
    if isinstance(value, str | bool | np.bool_):
        return str(value)
    if isinstance(value, Iterable) and np.ndim(np.asarray(value, dtype=object)) == 1:
        numbers = ", ".join(_shown(one, "") for one in value)
    elif isinstance(value, int | float | np.number | np.ndarray) and np.ndim(value) == 0:
        numbers = f"{float(value) + 0.0:.5g}".replace("-", "−")
    else:
        numbers = str(value)
    return f"{numbers} {unit}".rstrip()


def _cell(text: str) -> str:
    return " ".join(text.split()).replace("|", "\\|")


def commands() -> str:
    """The reference of the command line, from its own help."""
    lines = [
        HEAD,
        "# Commands\n",
        f"{_help(cli)}\n",
        "Human tables by default; `--json` for machines. A record is a YAML file, or the folder "
        "that holds it.\n",
    ]
    for name, command in cli.commands.items():
        context = click.Context(command, info_name=f"hearthbook {name}")
        usage = command.get_usage(context).removeprefix("Usage: ")
        lines += [f"## {name}\n", f"    {usage}\n", f"{_help(command)}\n"]
        for parameter in command.params:
            if isinstance(parameter, click.Option) and parameter.help:
                lines.append(f"- `{', '.join(parameter.opts)}`: {parameter.help}")
        lines.append("")
    return "\n".join(lines).rstrip() + "\n"


def _help(command: click.Command) -> str:
    return inspect.cleandoc(command.help or "")


def year_assumptions() -> str:
    """What the example home's year assumes."""
    design = design_home(read_home(demo_records()[0]))
    table = assumptions_table(assumptions_in(year_model(design).assumptions))
    lines = [
        HEAD,
        "# What the year assumes\n",
        f"For {design.home.name}, an invented example: what the year needs and its record does not "
        "say. [the_year.md](the_year.md) tells what it is for.\n",
        "| assumed | value | source |",
        "| --- | --- | --- |",
    ]
    for row in table.rows:
        cells = (cell.shown() if isinstance(cell, KeyFigure) else plain(str(cell)) for cell in row)
        lines.append("| " + " | ".join(_cell(cell) for cell in cells) + " |")
    return "\n".join(lines) + "\n"


PAGES = {
    "how_we_know.md": how_we_know,
    "commands.md": commands,
    "year_assumptions.md": year_assumptions,
    "record.md": lambda: f"{HEAD}\n{record_page()}",
    "record.schema.json": schema_text,
}


def main(arguments: list[str]) -> int:
    """Write every page, or say which are out of date."""
    stale = []
    for name, page in PAGES.items():
        path, text = DOCS / name, page()
        before = path.read_text(encoding="utf-8") if path.exists() else None
        if before == text:
            continue
        stale.append(name)
        if "--check" not in arguments:
            path.write_text(text, encoding="utf-8")
            sys.stdout.write(f"wrote docs/{name}\n")
    if stale and "--check" in arguments:
        sys.stderr.write(f"out of date: {', '.join(stale)}. Write them anew: ./run docs\n")
        return 1
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
