"""A thin disk square to the rotor axis, such as a bare motor bell or a mounting flange."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from slipfit.numerics import Real
from slipfit.physics.air import Air
from slipfit.physics.body.loads import BodyLoads, flow_past, require, shape_key
from slipfit.physics.fin import lift_slope_helmbold, plate_normal_force

_WHO: Final = "Disk"
_BROADSIDE: Final = 1.1  # thin disk; Munson, figure 9.20
_EDGE: Final = 0.63  # rim as a cylinder of one diameter or less; Matthews, figure 5.13b
_ASPECT: Final = 4.0 / math.pi  # span squared over area of a circle


@dataclass(frozen=True, kw_only=True)
class Disk:
    """A round disk that faces along the rotor axis."""

    diameter_m: float = shape_key("diameter", "length", shown="mm")
    thickness_m: float = shape_key("thickness, along the rotor axis", "length", shown="mm")

    def __post_init__(self) -> None:
        require(
            0.001 <= self.diameter_m <= 5.0, _WHO, "diameter_m", "0.001 to 5 m", self.diameter_m
        )
        require(
            0.0 < self.thickness_m <= 0.5 * self.diameter_m,
            _WHO,
            "thickness_m",
            "above 0 and at most half of diameter_m (longer is a cylinder)",
            self.thickness_m,
        )


def disk_loads(shape: Disk, axial_speed_m_s: Real, side_speed_m_s: Real, air: Air) -> BodyLoads:
    r"""Loads on a thin disk square to the rotor axis.

    $$ A = \tfrac12 \rho \tfrac{\pi d^2}{4}\, V u \left[1.1 + (C_{L\alpha} - 1.1)
       \frac{w^2}{w^2 + u^2/\tan^2 20^\circ}\right], \quad
       N = \tfrac12 \rho\, V w\, 0.63\, d\, t $$

    Parameters
    ----------
    shape : Disk
        The disk. [-]
    axial_speed_m_s : float or array, shape (...)
        Air along the axis, onto the flat side, $u$. [m/s]
    side_speed_m_s : float or array, shape (...)
        Air in the disk plane, onto the rim, $w$. [m/s]
    air : Air
        State of the air. [-]

    Returns
    -------
    loads : BodyLoads
        Axial force by cause and normal force. [N]

    Validity
    --------
    Whole speed 0 to 200 m/s; ValidityError beyond. Sharp edges, Reynolds number above 1e3; alone
    in the flow, so not for a disk hidden behind a body. Both directions alike.

    Source
    ------
    Munson et al., *Fundamentals of Fluid Mechanics*, figure 9.20; rim: Matthews, *Aeronautical
    Engineer's Data Book*, figure 5.13b; lift slope: H. B. Helmbold, 1942.

    Examples
    --------
    A 40 mm disk in 20 m/s along the axis, coefficient 1.1:

    >>> from slipfit.physics.air import air_of_day
    >>> bell = Disk(diameter_m=0.04, thickness_m=0.004)
    >>> float(disk_loads(bell, 20.0, 0.0, air_of_day()).axial_N)
    0.339
    """
    flow = flow_past(_WHO, axial_speed_m_s, side_speed_m_s, air)
    area = 0.25 * math.pi * shape.diameter_m**2
    flat = plate_normal_force(
        flow.side_m_s,
        flow.axial_m_s,
        area,
        float(lift_slope_helmbold(_ASPECT)),
        _BROADSIDE,
        air.density_kg_m3,
    )
    rim = _EDGE * shape.diameter_m * shape.thickness_m
    normal_N = flow.pressure_Pa(flow.speed_m_s * flow.side_m_s) * rim
    return BodyLoads(causes={"flat disks": np.asarray(flat)}, normal_N=normal_N)
