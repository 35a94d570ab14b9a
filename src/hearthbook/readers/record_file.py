"""A home's record from its YAML file."""

from __future__ import annotations

from pathlib import Path

from ruamel.yaml import YAML

from hearthbook.record.home import Home

__all__ = ["read_home"]


def read_home(path: Path | str) -> Home:
    """The home a record file describes."""
    written = YAML(typ="safe").load(Path(path).read_text(encoding="utf-8"))
    return Home.model_validate(written)
