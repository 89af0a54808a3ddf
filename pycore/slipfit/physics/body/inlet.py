"""A cooling inlet: the momentum of the air it takes in and lets out slower."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from slipfit.errors import require_range
from slipfit.numerics import Real, as_real
from slipfit.physics.air import Air
from slipfit.physics.body.loads import BodyLoads, flow_past, require, shape_key

_WHO: Final = "Cooling inlet"


@dataclass(frozen=True, kw_only=True)
class Inlet:
    """An opening that faces the axial flow and feeds cooling air through the body."""

    area_m2: float = shape_key("area of the opening", "area", shown="mm2")
    capture: float = shape_key(
        "speed through the opening over the speed of flight: 0 blocked, 0.6 usual, 1 free",
        "ratio",
        0.6,
    )
    exit_speed_ratio: float = shape_key(
        "axial speed of the air that leaves over the speed of flight; 0 where it leaves sideways",
        "ratio",
        0.3,
    )

    def __post_init__(self) -> None:
        require(1e-7 <= self.area_m2 <= 0.1, _WHO, "area_m2", "1e-7 to 0.1 m2", self.area_m2)
        require(0.0 <= self.capture <= 1.0, _WHO, "capture", "0 to 1", self.capture)
        require(
            0.0 <= self.exit_speed_ratio <= 1.0,
            _WHO,
            "exit_speed_ratio",
            "0 to 1",
            self.exit_speed_ratio,
        )


def inlet_drag(capture: Real, exit_speed_ratio: Real) -> Real:
    r"""Momentum drag coefficient of a cooling inlet, on its opening.

    $$ C_D = \frac{\dot m V (1 - V_e/V)}{\tfrac12 \rho V^2 S} = 2 \frac{V_i}{V}
       \left(1 - \frac{V_e}{V}\right) $$

    Parameters
    ----------
    capture : float or array, shape (...)
        Speed through the opening over the speed of flight, $V_i/V$. [-]
    exit_speed_ratio : float or array, shape (...)
        Axial speed at the outlet over the speed of flight, $V_e/V$. [-]

    Returns
    -------
    drag_coefficient : float or array, broadcast shape
        $C_D$ on the opening's area. [-]

    Validity
    --------
    0 <= capture <= 1, 0 <= exit_speed_ratio <= 1; ValidityError outside. Momentum theorem, outlet
    at ambient pressure; air spilled round a blocked opening is not counted.

    Source
    ------
    Momentum theorem.

    Examples
    --------
    Air taken in at the full speed and dumped sideways costs twice its dynamic pressure:

    >>> inlet_drag(1.0, 0.0)
    2.0
    """
    require_range("inlet_drag", "capture", capture, 0.0, 1.0, "a share of the speed")
    require_range("inlet_drag", "exit_speed_ratio", exit_speed_ratio, 0.0, 1.0, "a share")
    captured = np.asarray(capture, dtype=float)
    return as_real(2.0 * captured * (1.0 - np.asarray(exit_speed_ratio, dtype=float)))


def inlet_loads(shape: Inlet, axial_speed_m_s: Real, side_speed_m_s: Real, air: Air) -> BodyLoads:
    r"""Loads that a cooling inlet adds to the body it sits in.

    $$ A = \tfrac12 \rho\, u |u|\, C_D S, \quad N = \tfrac12 \rho\, |u| w\, 2 \frac{V_i}{V} S $$

    Parameters
    ----------
    shape : Inlet
        The inlet. [-]
    axial_speed_m_s : float or array, shape (...)
        Air along the rotor axis, into the opening, $u$. [m/s]
    side_speed_m_s : float or array, shape (...)
        Air in the disk plane, $w$. [m/s]
    air : Air
        State of the air. [-]

    Returns
    -------
    loads : BodyLoads
        Axial force by cause and normal force. [N]

    Validity
    --------
    Whole speed 0 to 200 m/s; ValidityError beyond. The air taken in loses all of its in-plane
    momentum, which is the normal force. Both directions alike.

    Source
    ------
    Coefficient of `inlet_drag`.

    Examples
    --------
    An opening of 1 cm2 at 80 m/s:

    >>> from slipfit.physics.air import air_of_day
    >>> float(inlet_loads(Inlet(area_m2=1e-4), 80.0, 0.0, air_of_day()).axial_N)
    0.329
    """
    flow = flow_past(_WHO, axial_speed_m_s, side_speed_m_s, air)
    u, w = flow.axial_m_s, flow.side_m_s
    drag = float(inlet_drag(shape.capture, shape.exit_speed_ratio)) * shape.area_m2
    turned = 2.0 * shape.capture * shape.area_m2
    return BodyLoads(
        causes={"cooling air": flow.pressure_Pa(u * np.abs(u)) * drag},
        normal_N=flow.pressure_Pa(np.abs(u) * w) * turned,
    )
