"""A home's record as YAML text, in the documented unit of every field, defaults left out."""

from __future__ import annotations

import io
import re
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.nodes import ScalarNode
from ruamel.yaml.representer import SafeRepresenter

from hearthbook.record.home import Home

__all__ = ["write_home"]

_SAFE_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9_/()·-]*( [A-Za-z0-9_/()·-]+)*")
_TAKEN_WORDS = {"true", "false", "null", "yes", "no", "on", "off", "y", "n"}
_UNFOLDED = 10_000
_LARGEST_WHOLE = 1e15
"""Up to here a float holds every whole number exactly (IEEE 754 double)."""


class _Representer(SafeRepresenter):
    """Writes text in quotes wherever another reader could take it for something else."""

    def represent_str(self, data: str) -> ScalarNode:
        is_plain = _SAFE_PLAIN.fullmatch(data) and data.lower() not in _TAKEN_WORDS
        style = None if is_plain else '"'
        return self.represent_scalar("tag:yaml.org,2002:str", data, style=style)

    def represent_float(self, data: float) -> ScalarNode:
        is_whole = data.is_integer() and abs(data) < _LARGEST_WHOLE
        if is_whole:
            return self.represent_scalar("tag:yaml.org,2002:int", f"{data:.0f}")
        return self.represent_scalar("tag:yaml.org,2002:float", repr(data))


_Representer.add_representer(str, _Representer.represent_str)
_Representer.add_representer(float, _Representer.represent_float)


def write_home(home: Home) -> str:
    """The text of a record that reads back as the same home.

    Args:
        home: its numbers are written to ten significant digits in their documented units.
    """
    content = home.model_dump(mode="json", exclude_defaults=True)
    yaml: Any = YAML(typ="safe", pure=True)
    yaml.Representer = _Representer
    yaml.default_flow_style = False
    yaml.allow_unicode = True
    yaml.width = _UNFOLDED
    yaml.sort_base_mapping_type_on_output = False
    yaml.representer.ignore_aliases = lambda _: True
    stream = io.StringIO()
    yaml.dump(content, stream)
    return stream.getvalue()
