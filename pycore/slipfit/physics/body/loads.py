"""What every body model gives back, and the oncoming air in the form every body model needs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, Final

import numpy as np

from slipfit.errors import InputError, require_range
from slipfit.numerics import Array, Real
from slipfit.physics.air import Air

TOP_SPEED_M_S: Final = 200.0  # Mach 0.6 at sea level, where the boat-tail data end
_STILL_M_S: Final = 1e-9  # added to a speed before dividing by it, so that still air is no 0/0


@dataclass(frozen=True, kw_only=True)
class BodyLoads:
    """Forces of the air on one body, by cause.

    `causes` are drag forces along the rotor axis, each with the sign of the axial speed;
    `normal_N` is the force in the disk plane along the in-plane flow.
    """

    causes: Mapping[str, Array]
    normal_N: Array

    @property
    def axial_N(self) -> Array:
        """All causes together."""
        return np.asarray(sum(self.causes.values(), start=np.zeros(np.shape(self.normal_N))))

    def scaled(self, factor: Real) -> BodyLoads:
        """The loads of `factor` such bodies, or of one whose every force is `factor` larger."""
        return BodyLoads(
            causes={cause: np.asarray(force * factor) for cause, force in self.causes.items()},
            normal_N=np.asarray(self.normal_N * factor),
        )


def combined(several: Iterable[BodyLoads]) -> BodyLoads:
    """Several bodies' loads added cause by cause; no body at all gives no causes and no force."""
    causes: dict[str, Array] = {}
    normal_N: Array = np.zeros(())
    for loads in several:
        for cause, force in loads.causes.items():
            causes[cause] = np.asarray(causes[cause] + force) if cause in causes else force
        normal_N = np.asarray(normal_N + loads.normal_N)
    return BodyLoads(causes=causes, normal_N=normal_N)


@dataclass(frozen=True, kw_only=True)
class Flow:
    """The oncoming air: along the axis, in the disk plane, both together."""

    axial_m_s: Array
    side_m_s: Array
    speed_m_s: Array
    air: Air

    def pressure_Pa(self, speed_squared: Array) -> Array:
        """Half the density times a product of two speeds: a force per area, with its sign."""
        return np.asarray(0.5 * self.air.density_kg_m3 * speed_squared)

    def reynolds(self, length_m: float) -> Array:
        """Reynolds number of a length at the whole speed."""
        scale = self.air.density_kg_m3 * length_m / self.air.viscosity_Pa_s
        return np.asarray(self.speed_m_s * scale)

    def share(self, component_m_s: Array) -> Array:
        """A component as a share of the whole speed, -1 to 1; 0 in still air."""
        return np.asarray(component_m_s / (self.speed_m_s + _STILL_M_S))


def flow_past(who: str, axial_speed_m_s: Real, side_speed_m_s: Real, air: Air) -> Flow:
    """The flow of two broadcast components; ValidityError past the speed the models are for."""
    u, w = np.broadcast_arrays(
        np.asarray(axial_speed_m_s, dtype=float), np.asarray(side_speed_m_s, dtype=float)
    )
    V = np.hypot(u, w)
    require_range(who, "speed_m_s", V, 0.0, TOP_SPEED_M_S, "low subsonic coefficients")
    return Flow(axial_m_s=u, side_m_s=w, speed_m_s=V, air=air)


def shape_key(help: str, dimension: str, default: Any = None, *, shown: str = "") -> Any:
    """A field of a shape: what it is, its dimension in `units.UNITS` (or "text"), a default.

    Without a default the field must be given. `shown` is the unit to show it in.
    """
    metadata = {"help": help, "dimension": dimension, "unit": shown, "required": default is None}
    return (
        field(metadata=metadata) if default is None else field(default=default, metadata=metadata)
    )


def require(holds: bool, who: str, name: str, rule: str, value: object) -> None:
    """InputError in the project's form unless the rule holds (a NaN holds none)."""
    if not holds:
        shown = f"{value:g}" if isinstance(value, float | int) else repr(value)
        raise InputError(f"{who}: {name} must be {rule}, got {shown}", field=name)


def no_moment(shape: object, axial_speed_m_s: Real, side_speed_m_s: Real, air: Air) -> Array:
    """Moment about the middle of a body whose normal force acts there: none.

    Parameters
    ----------
    shape : Shape
        Any body's shape. [-]
    axial_speed_m_s : float or array, shape (...)
        Air along the axis. [m/s]
    side_speed_m_s : float or array, shape (...)
        Air in the disk plane. [m/s]
    air : Air
        State of the air. [-]

    Returns
    -------
    moment_Nm : array, broadcast shape
        Zeros. [N m]

    Validity
    --------
    Bodies that are alike fore and aft, and those without a normal force.

    Source
    ------
    Symmetry.
    """
    return np.zeros(np.broadcast_shapes(np.shape(axial_speed_m_s), np.shape(side_speed_m_s)))
