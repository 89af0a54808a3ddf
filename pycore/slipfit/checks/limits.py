"""Every limit that a build is held against, in the order in which lists show them."""

from __future__ import annotations

from slipfit.checks import (
    limit_arm_bending,
    limit_cell_voltage,
    limit_connector_current,
    limit_esc_board,
    limit_esc_burst,
    limit_esc_cells,
    limit_esc_current,
    limit_flight_voltage,
    limit_hover_margin,
    limit_motor_current,
    limit_motor_lead,
    limit_pack_current,
    limit_pack_heat,
    limit_pack_lead,
    limit_screw_torque,
    limit_tip_mach,
    limit_winding,
)
from slipfit.checks.limit import LimitKind

LIMITS: tuple[LimitKind, ...] = (
    limit_esc_current.LIMIT,
    limit_esc_burst.LIMIT,
    limit_esc_cells.LIMIT,
    limit_motor_current.LIMIT,
    limit_pack_current.LIMIT,
    limit_cell_voltage.LIMIT,
    limit_flight_voltage.LIMIT,
    limit_connector_current.LIMIT,
    limit_pack_lead.LIMIT,
    limit_motor_lead.LIMIT,
    limit_winding.LIMIT,
    limit_esc_board.LIMIT,
    limit_pack_heat.LIMIT,
    limit_tip_mach.LIMIT,
    limit_arm_bending.LIMIT,
    limit_hover_margin.LIMIT,
    limit_screw_torque.LIMIT,
)
