"""The airframe's forces: the sum of its bodies, each in the air that reaches it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from slipfit.frame.frame import Frame
from slipfit.numerics import Array, Real
from slipfit.physics.air import Air
from slipfit.physics.body import MODELS

# A slipstream that has contracted fully moves at twice the induced speed at the disk (momentum
# theory); a body's `washed` says which share of that rise reaches it.
FULL_SLIPSTREAM = 2.0


@dataclass(frozen=True, kw_only=True)
class AirframeLoads:
    """Forces of all bodies: axial along the oncoming axial flow (also by cause), and normal to
    the rotor axis along the in-plane flow."""

    causes: Mapping[str, Array]
    axial_N: Array
    normal_N: Array


def airframe_loads(
    frame: Frame,
    axial_speed_m_s: Array,
    side_speed_m_s: Array,
    induced_speed_m_s: Array,
    air: Air,
    drag_factor: Real,
) -> AirframeLoads:
    """Axial and normal force of the whole frame; `drag_factor` scales all of it."""
    causes: dict[str, Array] = {}
    normal: Array = np.zeros_like(np.asarray(side_speed_m_s, dtype=float))
    for entry in frame.bodies:
        model = MODELS[entry.model]
        axial = axial_speed_m_s + entry.washed * FULL_SLIPSTREAM * induced_speed_m_s
        loads = model.loads(entry.shape, axial, side_speed_m_s, air)
        scale = entry.count * np.asarray(drag_factor)
        for cause, force in loads.causes.items():
            label = f"{entry.name}: {cause}"
            causes[label] = causes.get(label, 0.0) + scale * force
        normal = normal + scale * loads.normal_N
    axial_total: Array = np.sum([*causes.values()], axis=0) if causes else np.zeros_like(normal)
    return AirframeLoads(causes=causes, axial_N=axial_total, normal_N=normal)
