"""The firm that answers for the system."""

from __future__ import annotations

from hearthbook.record.parts import Part, Words

__all__ = ["Firm"]


class Firm(Part):
    """The firm's contact card."""

    name: Words
    """Name of the firm."""
    phone: Words
    """Telephone in office hours."""
    hours: Words
    """When the telephone is answered."""
    emergency_phone: str = ""
    """Telephone at other times, for what cannot wait."""
    email: str = ""
    """E-mail address."""
    address: tuple[Words, ...] = ()
    """Postal address."""
    website: str = ""
    """Web address of the home's own page, for the codes on labels."""
    answers_within: str = ""
    """How soon a question is answered."""
