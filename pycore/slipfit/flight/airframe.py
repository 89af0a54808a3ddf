"""The airframe's forces: the sum of its bodies, each in the air that reaches it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from slipfit.frame.frame import BodyEntry, Frame
from slipfit.numerics import Array, Mask, Real
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
    valid: Mask  # false where some body's air is faster than its model reaches


def body_causes(
    entries: Iterable[BodyEntry], axial_speed_m_s: Array, side_speed_m_s: Array, air: Air
) -> tuple[dict[str, Array], Array]:
    """Axial forces by body and cause, and the normal force in all, of bodies in the same air."""
    causes: dict[str, Array] = {}
    normal: Array = np.zeros_like(np.asarray(side_speed_m_s, dtype=float))
    for entry in entries:
        loads = MODELS[entry.model].loads(entry.shape, axial_speed_m_s, side_speed_m_s, air)
        for cause, force in loads.causes.items():
            name = f"{entry.name}: {cause}" if cause != entry.name else cause
            causes[name] = causes.get(name, 0.0) + entry.count * (1.0 - entry.sheltered) * force
        normal = normal + entry.count * loads.normal_N
    return causes, normal


def airframe_loads(
    frame: Frame,
    axial_speed_m_s: Array,
    side_speed_m_s: Array,
    induced_speed_m_s: Array,
    air: Air,
    drag_factor: Real,
) -> AirframeLoads:
    """Axial and normal force of the whole frame by its bodies' own models; `drag_factor` scales
    all of it. Raises outside the models' range; `airframe_map` is the same as a fast table."""
    causes: dict[str, Array] = {}
    normal: Array = np.zeros_like(np.asarray(side_speed_m_s, dtype=float))
    for entry in frame.bodies:
        axial = axial_speed_m_s + entry.washed * FULL_SLIPSTREAM * induced_speed_m_s
        found, across = body_causes([entry], axial, side_speed_m_s, air)
        for name, force in found.items():
            causes[name] = causes.get(name, 0.0) + force * drag_factor
        normal = normal + across * drag_factor
    axial_total: Array = np.sum([*causes.values()], axis=0) if causes else np.zeros_like(normal)
    return AirframeLoads(
        causes=causes,
        axial_N=axial_total,
        normal_N=normal,
        valid=np.ones(normal.shape, dtype=bool),
    )
