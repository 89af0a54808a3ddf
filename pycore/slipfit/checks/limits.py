"""Every limit that a build is held against, in the order in which lists show them."""

from __future__ import annotations

from slipfit.checks import (
    limit_cell_voltage,
    limit_esc_burst,
    limit_esc_cells,
    limit_esc_current,
    limit_hover_margin,
    limit_motor_current,
    limit_pack_current,
    limit_screw_torque,
    limit_tip_mach,
)
from slipfit.checks.limit import LimitKind

LIMITS: tuple[LimitKind, ...] = (
    limit_esc_current.LIMIT,
    limit_esc_burst.LIMIT,
    limit_esc_cells.LIMIT,
    limit_motor_current.LIMIT,
    limit_pack_current.LIMIT,
    limit_cell_voltage.LIMIT,
    limit_tip_mach.LIMIT,
    limit_hover_margin.LIMIT,
    limit_screw_torque.LIMIT,
)
