"""Voltage per cell under load against the least that packs bear."""

from __future__ import annotations

from slipfit.checks.limit import Asked, LimitKind, first
from slipfit.flight.inputs import pack_of
from slipfit.flight.performance import Performance
from slipfit.units import VOLTAGE

LEAST_CELL_V = 3.3  # under load; common practice, no source


def _asked(p: Performance) -> Asked | None:
    if not p.can_hover[0, 0]:
        return None
    cells = pack_of(p.build).cell_count
    return Asked(value=first(p.top.drive.pack_voltage_V) / cells, allowed=LEAST_CELL_V, floor=True)


def _fix(p: Performance, asked: Asked) -> str:
    return "a larger or warmer pack, less pitch, or a landing with more charge left"


LIMIT = LimitKind(
    id="cell_voltage",
    kind="pack",
    subject="voltage per cell",
    when="flat out in level flight",
    display=VOLTAGE,
    asked=_asked,
    basis="3.3 V per cell under load: common practice, no source",
    fix=_fix,
)
