"""The command that tries changes of a home in its simulated year."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from hearthbook.actions.whatifs import Given, Wishes
    from hearthbook.documents.blocks import Document

__all__ = ["whatif"]

_FILE = click.Path(path_type=Path, dir_okay=True)
_IDEAS = 14  # of the usual ones, about; the bar need not be exact


@click.command()
@click.argument("record", type=_FILE)
@click.option("--warmer", type=float, help="K by which all rooms are warmer; minus for cooler.")
@click.option("--setback", type=float, help="K colder for a stretch of each day; 0 for none.")
@click.option("--from", "setback_from", help="When the colder stretch begins; 22:00 if not given.")
@click.option("--to", "setback_to", help="When it ends; 06:00 if not given.")
@click.option("--curve", type=float, help="K by which the curve is raised; minus for lower.")
@click.option("--flow-temperature", type=float, help="°C of flow at the design temperature.")
@click.option("--close", multiple=True, help="A room let go cold; may be given again.")
@click.option("--larger", multiple=True, help="An emitter exchanged for the next larger one.")
@click.option("--insulate", multiple=True, help="CONSTRUCTION=U, such as loft_ceiling=0.12.")
@click.option("--volumiser", type=float, help="L of added volume; 0 for none.")
@click.option("--heat-pump", type=_FILE, help="Record file with another heat pump.")
@click.option("--hot-water-window", help="Hours for hot water, such as 13:00-15:00.")
@click.option("--tariff", type=_FILE, help="Record file with another tariff.")
@click.option("--flow-temperatures", is_flag=True, help="Compare design flow temperatures.")
@click.option("--weather", type=_FILE, help="Weather file, in place of the record's.")
@click.option("--draws", type=int, help="Pairs of homes behind each range; 31 if not given.")
@click.option("--seed", type=int, default=1, help="Another seed, other weather and draws.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON for machines.")
def whatif(record: Path, **asked: Any) -> None:
    """Try changes in the home's simulated year; without a change, the usual ideas, ranked.

    Changes given together are tried together. Each difference comes with its range.
    """
    from hearthbook.actions.whatifs import Given, Wishes

    given = Given(asked.pop("weather"), asked.pop("draws"), asked.pop("seed"))
    as_json, flows = asked.pop("as_json"), asked.pop("flow_temperatures")
    wishes = Wishes(**asked)
    if flows and not wishes.is_nothing:
        from hearthbook.errors import Conflict

        raise Conflict(
            "Changes and --flow-temperatures are questions of their own; ask one at a time."
        )
    if flows:
        _say_flows(record, given, as_json=as_json)
    else:
        _say_whatif(record, wishes, given, as_json=as_json)


def _say_whatif(record: Path, wishes: Wishes, given: Given, *, as_json: bool) -> None:
    from hearthbook.actions import whatifs
    from hearthbook.cli.printing import progress
    from hearthbook.year.whatif_document import whatif_document

    with progress(_IDEAS if wishes.is_nothing else 2, "Design") as advance:
        if wishes.is_nothing:
            design, found = whatifs.usual_whatifs(record, given, advance)
        else:
            design, found = whatifs.asked_whatif(record, wishes, given, advance)
    _print(whatif_document(design.home, found), found.ideas, as_json=as_json)


def _say_flows(record: Path, given: Given, *, as_json: bool) -> None:
    from hearthbook.actions import whatifs
    from hearthbook.cli.printing import progress
    from hearthbook.year.flow_temperature_choice import STEPS
    from hearthbook.year.whatif_document import whatif_document

    with progress(len(STEPS) + 1, "Design") as advance:
        design, found = whatifs.flow_choices(record, given, advance)
    _print(whatif_document(design.home, found), found, as_json=as_json)


def _print(document: Document, found: object, *, as_json: bool) -> None:
    from hearthbook.cli.printing import as_json as figures_as_json
    from hearthbook.cli.printing import print_document, print_json
    from hearthbook.documents.figures import figures_in

    if as_json:
        print_json(figures_as_json(figures_in(found)))
    else:
        print_document(document)
