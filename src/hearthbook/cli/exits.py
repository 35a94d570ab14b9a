"""The codes a command ends with, apart from 0 when all is well."""

from __future__ import annotations

__all__ = ["EXIT_FAULTS", "EXIT_UNUSABLE"]

EXIT_FAULTS = 1
EXIT_UNUSABLE = 2
