"""One record per home; the design, the commissioning and the handover pack computed from it."""

__version__ = "0.1.0"
