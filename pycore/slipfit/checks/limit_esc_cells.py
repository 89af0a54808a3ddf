"""Cells in series against what the ESC is made for."""

from __future__ import annotations

from slipfit.checks.limit import Asked, LimitKind
from slipfit.flight.inputs import esc_of, pack_of
from slipfit.flight.performance import Performance
from slipfit.units import COUNT


def _asked(p: Performance) -> Asked | None:
    return Asked(value=pack_of(p.build).cell_count, allowed=esc_of(p.build).max_cells)


def _fix(p: Performance, asked: Asked) -> str:
    return f"a pack of {esc_of(p.build).max_cells} cells or fewer, or an ESC made for more"


LIMIT = LimitKind(
    id="esc_cells",
    kind="esc",
    subject="cell count for the ESC",
    when="fully charged",
    display=COUNT,
    asked=_asked,
    basis="the largest number of cells on the part",
    fix=_fix,
    near=1.0,
)
