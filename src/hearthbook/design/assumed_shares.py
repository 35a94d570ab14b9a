"""How much of a home's heat loss rests on constructions nobody has seen or documented."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.design.heat_loss import HeatLoss
from hearthbook.documents.figures import Basis, KeyFigure, calculated

__all__ = ["AssumedShare", "assumed_shares"]

_HEAVY = 0.15  # common practice, no source: from here on measure it, or try both ends of its range


@dataclass(frozen=True)
class AssumedShare:
    """A construction whose U-value is assumed, and what rests on it.

    Attributes:
        u_value: the assumed figure.
        share: of the dwelling's loss that passes through it.
        is_heavy: whether it carries more than 15 % and should be measured.
    """

    u_value: KeyFigure
    share: KeyFigure
    is_heavy: bool


def assumed_shares(loss: HeatLoss) -> tuple[AssumedShare, ...]:
    """The assumed U-values of a home by what rests on them, the heaviest first."""
    parts: dict[str, list[KeyFigure]] = {}
    figures: dict[str, KeyFigure] = {}
    for room in loss.rooms:
        for element in room.elements:
            u_value = element.u_value
            if u_value.basis is Basis.ASSUMED and element.kind != "between_rooms":
                figures[u_value.name] = u_value
                parts.setdefault(u_value.name, []).append(element.loss)
    found = [_share(figures[name], tuple(losses), loss.total) for name, losses in parts.items()]
    return tuple(sorted(found, key=lambda each: -each.share.value))


def _share(u_value: KeyFigure, losses: tuple[KeyFigure, ...], total: KeyFigure) -> AssumedShare:
    share = calculated(
        u_value.name.replace("u_value", "share"),
        f"share of the loss that rests on the assumed {u_value.label}",
        sum(part.value for part in losses) / total.value,
        "%",
        formula="Σ losses through it / loss of the dwelling",
        inputs=(*losses, total),
        source="common practice, no source: measure it above 15 %",
    )
    return AssumedShare(u_value, share, share.value > _HEAVY)
