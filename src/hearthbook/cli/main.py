"""The command line: parse, call one action, print. Heavy imports stand inside the commands."""

from __future__ import annotations

import atexit
import gc
import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import click

from hearthbook import __version__
from hearthbook.cli.exits import EXIT_UNUSABLE
from hearthbook.cli.whatif_commands import whatif

__all__ = ["cli", "main"]

_Command = TypeVar("_Command", bound=Callable[..., Any])

_RECORD = click.Path(path_type=Path, dir_okay=True)


def _record_argument(command: _Command) -> _Command:
    return click.argument("record", type=_RECORD)(command)


def _json_option(command: _Command) -> _Command:
    return click.option("--json", "as_json", is_flag=True, help="Print JSON for machines.")(command)


class _Commands(click.Group):
    """Shows the commands in the order of the job, not of the alphabet."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click passes it
        """The commands in the order they were written."""
        return list(self.commands)


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="hearthbook")
def cli() -> None:
    """Keep one record per home; compute its design, its verdicts and its handover pack.

    Exit codes: 0 all is well, 1 faults or shortcomings were found, 2 the input cannot be used.
    """


@cli.command()
@click.option(
    "--out", type=click.Path(path_type=Path), default=Path("packs"), help="Folder for the packs."
)
def demo(out: Path) -> None:
    """Do the whole job on the two invented demo homes."""
    _wake_drawer()
    from hearthbook.cli import commands

    _end(commands.demo(out))


@cli.command()
@click.argument("record", type=_RECORD, default=Path("home.yaml"))
def new(record: Path) -> None:
    """Write a commented starter record."""
    from hearthbook.cli import commands

    _end(commands.new(record))


@cli.command()
@_record_argument
@_json_option
def check(record: Path, as_json: bool) -> None:
    """Check a record: every fault with its line, and what is still to be found out."""
    from hearthbook.cli import commands

    _end(commands.check(record, as_json=as_json))


@cli.command()
@_record_argument
@_json_option
def design(record: Path, as_json: bool) -> None:
    """Compute the design: results, and what falls short."""
    from hearthbook.cli import commands

    _end(commands.design(record, as_json=as_json))


@cli.command()
@_record_argument
@_json_option
def commission(record: Path, as_json: bool) -> None:
    """Hold every reading against its target and give the verdicts."""
    from hearthbook.cli import commands

    _end(commands.commission(record, as_json=as_json))


@cli.command()
@_record_argument
@click.option("--out", type=click.Path(path_type=Path), default=None, help="Folder for the pack.")
@_json_option
def handover(record: Path, out: Path | None, as_json: bool) -> None:
    """Make the home's handover pack."""
    _wake_drawer()
    from hearthbook.cli import commands

    _end(commands.handover(record, out, as_json=as_json))


@cli.command()
@_record_argument
@click.option(
    "--weather",
    "file",
    type=click.Path(path_type=Path),
    default=None,
    help="Weather file (EPW, PVGIS or plain CSV), in place of the record's.",
)
@click.option("--years", type=int, default=None, help="Years of generated weather; 1 if not given.")
@click.option("--seed", type=int, default=1, help="Another seed, another generated weather.")
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    default=None,
    help="Folder for page, print, pictures, days and figures.",
)
@click.option("--ranges", is_flag=True, help="With ranges, from 200 simulated years.")
@_json_option
def year(record: Path, out: Path | None, ranges: bool, as_json: bool, **weather: Any) -> None:
    """Run the home through a year, minute by minute, and say what it does."""
    if out is not None:
        _wake_drawer()
    from hearthbook.actions.years import WeatherAsked
    from hearthbook.cli import year_commands

    asked = WeatherAsked(**weather)
    _end(year_commands.year(record, asked, out, has_ranges=ranges, as_json=as_json))


cli.add_command(whatif)


@cli.command()
@_record_argument
@click.argument("figure", default="")
@_json_option
def explain(record: Path, figure: str, as_json: bool) -> None:
    """Print a figure's working down to its sources; without a name, list the figures."""
    from hearthbook.cli import commands

    _end(commands.explain(record, figure, as_json=as_json))


@cli.command()
@click.option("--out", type=click.Path(path_type=Path), default=None, help="Write it to a file.")
def schema(out: Path | None) -> None:
    """Print the JSON Schema of the record, for editors."""
    from hearthbook.cli import commands

    _end(commands.schema(out))


def _wake_drawer() -> None:
    """Let the drawer of charts wake on another core while the rest is imported and computed."""
    from hearthbook.render import chart_drawer

    chart_drawer.wake()


def _end(code: int) -> None:
    if code:
        raise SystemExit(code)


def main() -> None:
    """Run the command line; an error of ours is told plainly, without a traceback."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # for sums this small, more only take turns
    from hearthbook.errors import HearthbookError

    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
    gc.disable()  # a command lives for seconds; looking for cycles would take a tenth of that
    atexit.register(gc.freeze)  # and at its end they go with everything else
    try:
        cli(prog_name="hearthbook")
    except HearthbookError as error:
        click.echo(str(error), err=True)
        raise SystemExit(EXIT_UNUSABLE) from error
    except BrokenPipeError:
        sys.stderr.close()
        raise SystemExit(0) from None
