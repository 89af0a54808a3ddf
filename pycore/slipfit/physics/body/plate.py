"""A thin plate in the disk plane, such as the deck or a bare arm of a flat carbon frame."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from slipfit.numerics import Real
from slipfit.physics.air import Air
from slipfit.physics.body.loads import BodyLoads, flow_past, require, shape_key
from slipfit.physics.body.skin import body_friction
from slipfit.physics.fin import lift_slope_helmbold, plate_drag_broadside, plate_normal_force

_WHO: Final = "Plate"
_SQUARE_EDGE: Final = (
    0.9  # a long square-edged rod; Munson, figure 9.19, 1.3 at l/D = 3 and falling
)


@dataclass(frozen=True, kw_only=True)
class Plate:
    """A thin plate whose flat side faces along the rotor axis."""

    depth_m: float = shape_key("extent to the front, along the in-plane flow", "length", shown="mm")
    width_m: float = shape_key("extent to the right", "length", shown="mm")
    thickness_m: float = shape_key("thickness, along the rotor axis", "length", shown="mm")
    solid: float = shape_key("share of the outline that is not cut away", "ratio", 1.0)
    edge_drag_coefficient: float = shape_key(
        "edge on, on width times thickness: 0.9 square, 0.25 rounded", "ratio", _SQUARE_EDGE
    )

    def __post_init__(self) -> None:
        for name in ("depth_m", "width_m"):
            value = getattr(self, name)
            require(0.001 <= value <= 5.0, _WHO, name, "0.001 to 5 m", value)
        ratio = self.depth_m / self.width_m
        require(0.01 <= ratio <= 100.0, _WHO, "depth_m", "0.01 to 100 times width_m", self.depth_m)
        narrow = min(self.depth_m, self.width_m)
        require(
            0.0 < self.thickness_m <= 0.5 * narrow,
            _WHO,
            "thickness_m",
            f"above 0 and at most {0.5 * narrow:g} m (half the narrower side; thicker is a box)",
            self.thickness_m,
        )
        require(0.05 <= self.solid <= 1.0, _WHO, "solid", "0.05 to 1", self.solid)
        require(
            0.0 <= self.edge_drag_coefficient <= 3.0,
            _WHO,
            "edge_drag_coefficient",
            "0 to 3",
            self.edge_drag_coefficient,
        )


def plate_loads(shape: Plate, axial_speed_m_s: Real, side_speed_m_s: Real, air: Air) -> BodyLoads:
    r"""Loads on a thin plate that lies in the disk plane.

    $$ A = \tfrac12 \rho S\, V u \left[C_{D90} + (C_{L\alpha} - C_{D90})
       \frac{w^2}{w^2 + u^2/\tan^2 20^\circ}\right], \quad
       N = \tfrac12 \rho\, V w \left[2 C_f S + C_e\, b\, t\right] $$

    Parameters
    ----------
    shape : Plate
        The plate. [-]
    axial_speed_m_s : float or array, shape (...)
        Air along the axis, onto the flat side, $u$. [m/s]
    side_speed_m_s : float or array, shape (...)
        Air in the disk plane, onto the edge, $w$. [m/s]
    air : Air
        State of the air. [-]

    Returns
    -------
    loads : BodyLoads
        Axial force by cause and normal force. [N]

    Validity
    --------
    Whole speed 0 to 200 m/s; ValidityError beyond. The plate is a wing to a shallow flow (lift
    slope of its outline) and full broadside drag to an axial one; both directions alike. Cut-outs
    lower the area by `solid`, not the coefficients.

    Source
    ------
    Broadside: Matthews, *Aeronautical Engineer's Data Book*, figure 5.13b; edge: Munson,
    *Fundamentals of Fluid Mechanics*, figure 9.19; lift slope: H. B. Helmbold, 1942.

    Examples
    --------
    A square plate of 100 mm in 10 m/s along the axis, coefficient 1.17:

    >>> from slipfit.physics.air import air_of_day
    >>> deck = Plate(depth_m=0.1, width_m=0.1, thickness_m=0.003)
    >>> float(plate_loads(deck, 10.0, 0.0, air_of_day()).axial_N)
    0.717
    """
    flow = flow_past(_WHO, axial_speed_m_s, side_speed_m_s, air)
    area = shape.solid * shape.depth_m * shape.width_m
    slope = float(lift_slope_helmbold(min(shape.width_m / shape.depth_m, 100.0)))
    broadside = float(plate_drag_broadside(shape.width_m / shape.depth_m))
    flat = plate_normal_force(
        flow.side_m_s, flow.axial_m_s, area, slope, broadside, air.density_kg_m3
    )
    friction = body_friction(flow.reynolds(shape.depth_m), shape.depth_m, 0.0)
    edge = shape.edge_drag_coefficient * shape.width_m * shape.thickness_m
    normal_N = flow.pressure_Pa(flow.speed_m_s * flow.side_m_s) * (2.0 * friction * area + edge)
    return BodyLoads(causes={"flat plates": np.asarray(flat)}, normal_N=normal_N)
