"""How fast the commands are: wall time, and how many bare interpreter starts that is.

The ratio says the same on a slow machine and a fast one, and the processor's time the same on a
busy one; the ceilings are promises of wall time on a quiet machine of two cores. Run by
`./run bench`; it fails when a ceiling is passed. Afterwards `year.py` sets the simulated
year beside other ways to run it.
"""

from __future__ import annotations

import resource
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parent.parent
HOME = ROOT / "examples" / "well_done" / "home.yaml"
HEARTHBOOK = ("-m", "hearthbook")


@dataclass(frozen=True)
class Measured:
    """Something timed: its fastest run, the processor time of that run, the longest it may take."""

    name: str
    times: tuple[float, float]
    ceiling: float | None = None

    @property
    def seconds(self) -> float:
        return self.times[0]

    @property
    def is_slow(self) -> bool:
        return self.ceiling is not None and self.seconds > self.ceiling


def _processor_time() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def _fastest(arguments: tuple[str, ...], runs: int) -> tuple[float, float]:
    """The fastest of some runs, each a process of its own; one before them warms the disk."""
    return min([_timed(arguments) for _ in range(runs + 1)][1:])


def _timed(arguments: tuple[str, ...]) -> tuple[float, float]:
    start, used = time.perf_counter(), _processor_time()
    answer = subprocess.run([sys.executable, *arguments], capture_output=True, check=False)
    taken = time.perf_counter() - start, _processor_time() - used
    if answer.returncode > 1:  # 1 says that faults were found, which is an answer too
        sys.stderr.write(answer.stderr.decode())
        raise SystemExit(f"{' '.join(arguments)} ended with code {answer.returncode}")
    return taken


def _measure(scratch: str) -> list[Measured]:
    home = str(HOME)
    pack = str(Path(scratch) / "pack")
    return [
        Measured("a bare start of Python", _fastest(("-c", "pass"), 10)),
        Measured("hearthbook --help", _fastest((*HEARTHBOOK, "--help"), 10), 0.5),
        Measured("hearthbook check", _fastest((*HEARTHBOOK, "check", home), 3)),
        Measured("hearthbook design", _fastest((*HEARTHBOOK, "design", home), 3)),
        Measured("hearthbook commission", _fastest((*HEARTHBOOK, "commission", home), 3)),
        Measured(
            "hearthbook handover, its years kept",
            _fastest((*HEARTHBOOK, "handover", home, "--out", pack), 3),
            5.0,
        ),
        Measured("hearthbook handover, a home's first", _first_pack(scratch)),
    ]


def _first_pack(scratch: str) -> tuple[float, float]:
    """A pack of a home whose years nobody has run yet, with the loops compiled before."""
    record = Path(scratch) / "home.yaml"
    name = f"name: a home of {time.time_ns()}"
    text = HOME.read_text(encoding="utf-8")
    record.write_text(text.replace("name: 7 Tarn Close", name, 1), encoding="utf-8")
    pack = str(Path(scratch) / "first")
    return _timed((*HEARTHBOOK, "handover", str(record), "--out", pack))


def main() -> int:
    """Measure and print; 1 when something is slower than promised."""
    with tempfile.TemporaryDirectory() as scratch:
        measured = _measure(scratch)
    bare = measured[0].seconds
    lines = [f"{'':<38}{'seconds':>9}{'processor':>11}{'ratio':>8}{'ceiling':>9}"]
    for one in measured:
        ceiling = f"{one.ceiling:.1f}" if one.ceiling is not None else ""
        mark = "  too slow" if one.is_slow else ""
        lines.append(
            f"{one.name:<38}{one.seconds:>9.3f}{one.times[1]:>11.3f}"
            f"{one.seconds / bare:>8.1f}{ceiling:>9}{mark}"
        )
    sys.stdout.write("\n".join(lines) + "\n")
    sys.stdout.flush()
    subprocess.run([sys.executable, str(Path(__file__).with_name("year.py"))], check=True)
    return int(any(one.is_slow for one in measured))


if __name__ == "__main__":
    raise SystemExit(main())
