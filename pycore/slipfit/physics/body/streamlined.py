"""A body of revolution, or near one: rounded nose, straight middle, boat-tail, blunt base."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np

from slipfit.numerics import Array, Real
from slipfit.physics.air import Air
from slipfit.physics.body.afterbody import afterbody_drag, form_factor_hoerner
from slipfit.physics.body.crossflow import (
    apparent_mass_factor_munk,
    crossflow_drag_jorgensen,
    end_factor_jorgensen,
    slender_lift_pressure,
)
from slipfit.physics.body.loads import BodyLoads, Flow, flow_past, require, shape_key
from slipfit.physics.body.skin import body_friction
from slipfit.physics.centre_of_pressure import NOSES, transition_barrowman

_WHO: Final = "Streamlined body"
_ELLIPSE: Final = math.pi / 4  # area of an ellipse over that of the box around it
# A flat face adds 0.72 of the section (a blunt cylinder's 0.86 less its base and skin); rounding
# lowers it as a square rod's front does in Munson's figure 9.19 (0.17 left at a radius of 0.17 D).
_FLAT_NOSE: Final = (0.72, 4.4)


@dataclass(frozen=True, kw_only=True)
class Streamlined:
    """A streamlined body along the rotor axis, nose to the oncoming air."""

    length_m: float = shape_key("nose to base", "length", shown="mm")
    width_m: float = shape_key("largest width, to the right", "length", shown="mm")
    height_m: float = shape_key("largest height, to the front", "length", shown="mm")
    nose_length_m: float = shape_key("from the tip to the full section", "length", shown="mm")
    base_diameter_m: float = shape_key(
        "equivalent diameter of the blunt or open rear end; as wide as the body without boat-tail",
        "length",
        shown="mm",
    )
    boat_tail_half_angle_rad: float = shape_key(
        "half angle of the cone that narrows to the base; any value where the base is full width",
        "angle",
        math.radians(12.0),
        shown="deg",
    )
    roughness_m: float = shape_key(
        "equivalent sand roughness, about 0.3 of the layer height of an unsanded print",
        "length",
        20e-6,
        shown="um",
    )
    bleed: float = shape_key(
        "share of the base drag that air leaving through an open base takes away: 0 closed,"
        " 0.1 open to a still hollow, to 0.5 where cooling air flows out; uncertain",
        "ratio",
        0.0,
    )
    flat_nose_diameter_m: float = shape_key(
        "diameter of a flat front end, 0 for a rounded nose or spinner", "length", 0.0, shown="mm"
    )
    fullness: float = shape_key(
        "area of the section over that of the box around it: 0.785 ellipse, 1 box",
        "ratio",
        _ELLIPSE,
    )
    laminar_saving: float = shape_key(
        "1700 for a smooth laminar nose (transition at Re 5e5); 0 turbulent from the nose, as"
        " screws, seams and rotor wash make it",
        "ratio",
        0.0,
    )

    def __post_init__(self) -> None:
        for name in ("length_m", "width_m", "height_m"):
            value = getattr(self, name)
            require(0.001 <= value <= 10.0, _WHO, name, "0.001 to 10 m", value)
        require(
            _ELLIPSE - 1e-6 <= self.fullness <= 1.0, _WHO, "fullness", "0.785 to 1", self.fullness
        )
        d = self.diameter_m
        require(
            1.0 <= self.length_m / d <= 40.0,
            _WHO,
            "length_m",
            f"1 to 40 times the equivalent diameter of {d:g} m",
            self.length_m,
        )
        require(
            0.0 <= self.base_diameter_m <= d * (1.0 + 1e-9),
            _WHO,
            "base_diameter_m",
            f"0 to {d:.4g} m (the equivalent diameter of the section)",
            self.base_diameter_m,
        )
        angle = self.boat_tail_half_angle_rad
        require(
            math.radians(1.0) <= angle <= math.radians(60.0) or self.base_ratio > 1.0 - 1e-6,
            _WHO,
            "boat_tail_half_angle_rad",
            "1 to 60 deg (0.0175 to 1.047 rad) where base_diameter_m is less than the body's",
            angle,
        )
        longest = self.length_m - self.boat_tail_length_m
        require(
            0.0 < self.nose_length_m <= longest * (1.0 + 1e-9),
            _WHO,
            "nose_length_m",
            f"above 0 and at most {longest:.4g} m (the length less a boat-tail of"
            f" {self.boat_tail_length_m:.4g} m)",
            self.nose_length_m,
        )
        require(
            0.0 <= self.roughness_m <= self.length_m / 100.0,
            _WHO,
            "roughness_m",
            "0 to a hundredth of the length",
            self.roughness_m,
        )
        require(0.0 <= self.bleed <= 1.0, _WHO, "bleed", "0 to 1", self.bleed)
        require(
            0.0 <= self.flat_nose_diameter_m <= d * (1.0 + 1e-9),
            _WHO,
            "flat_nose_diameter_m",
            f"0 to {d:.4g} m (the equivalent diameter of the section)",
            self.flat_nose_diameter_m,
        )
        require(
            0.0 <= self.laminar_saving <= 1e4,
            _WHO,
            "laminar_saving",
            "0 to 10000",
            self.laminar_saving,
        )

    @cached_property
    def section_m2(self) -> float:
        """Largest section."""
        return self.fullness * self.width_m * self.height_m

    @cached_property
    def diameter_m(self) -> float:
        """Diameter of the circle with the largest section's area."""
        return math.sqrt(4.0 * self.section_m2 / math.pi)

    @cached_property
    def base_ratio(self) -> float:
        """Base diameter over equivalent diameter."""
        return min(self.base_diameter_m / self.diameter_m, 1.0)

    @cached_property
    def base_m2(self) -> float:
        """Area of the base."""
        return self.section_m2 * self.base_ratio**2

    @cached_property
    def boat_tail_length_m(self) -> float:
        """Length of the cone that narrows to the base."""
        step = 0.5 * self.diameter_m * (1.0 - self.base_ratio)
        return step / math.tan(self.boat_tail_half_angle_rad) if step > 1e-9 else 0.0

    @cached_property
    def wetted_m2(self) -> float:
        """Skin area: half a spheroid, a prism, a truncated cone; base not counted."""
        d, tail = self.diameter_m, self.boat_tail_length_m
        rounder = self._perimeter_m / (math.pi * d)
        middle = math.pi * d * (self.length_m - self.nose_length_m - tail)
        slant = math.hypot(tail, 0.5 * d * (1.0 - self.base_ratio))
        cone = 0.5 * math.pi * d * (1.0 + self.base_ratio) * slant
        return rounder * (half_spheroid_area(self.nose_length_m, 0.5 * d) + middle + cone)

    @cached_property
    def planform_m2(self) -> float:
        """Area seen by the in-plane flow, which comes from the front."""
        tail = self.boat_tail_length_m
        middle = self.length_m - self.nose_length_m - tail
        mean_tail = 0.5 * (1.0 + self.base_ratio)
        return self.width_m * (_ELLIPSE * self.nose_length_m + middle + mean_tail * tail)

    @cached_property
    def planform_centre_m(self) -> float:
        """Centroid of `planform_m2`, from the nose."""
        nose, tail = self.nose_length_m, self.boat_tail_length_m
        middle, r = self.length_m - nose - tail, self.base_ratio
        areas = (_ELLIPSE * nose, middle, 0.5 * (1.0 + r) * tail)
        centres = (
            nose * (1.0 - 4.0 / (3.0 * math.pi)),
            nose + 0.5 * middle,
            self.length_m - tail + tail * (1.0 + 2.0 * r) / (3.0 * (1.0 + r)),
        )
        return sum(a * x for a, x in zip(areas, centres, strict=True)) / sum(areas)

    @cached_property
    def slender_factor(self) -> float:
        """Slender-body lift over that of a long round body: more where it is wider than high,
        less where it is short."""
        munk = float(apparent_mass_factor_munk(self.length_m / self.diameter_m))
        return munk * self.width_m / self.height_m

    @cached_property
    def friction_factor(self) -> float:
        """Form factor times wetted area over section: what multiplies a plate's friction."""
        form = float(form_factor_hoerner(self.length_m / self.diameter_m))
        return form * self.wetted_m2 / self.section_m2

    @cached_property
    def end_factor(self) -> float:
        """Cross-flow drag over that of an endless body."""
        return float(end_factor_jorgensen(self.length_m / self.diameter_m))

    @cached_property
    def _perimeter_m(self) -> float:
        """Ramanujan's ellipse, on the way to the box as the section fills it."""
        a, b = 0.5 * self.width_m, 0.5 * self.height_m
        ellipse = math.pi * (3.0 * (a + b) - math.sqrt((3.0 * a + b) * (a + 3.0 * b)))
        boxy = (self.fullness - _ELLIPSE) / (1.0 - _ELLIPSE)
        return ellipse + boxy * (4.0 * (a + b) - ellipse)


def half_spheroid_area(length_m: float, radius_m: float) -> float:
    r"""Curved area of half a spheroid, long or flat.

    $$ S = \pi b^2 \left(1 + \frac{a}{b e} \arcsin e\right), \quad e^2 = 1 - (b/a)^2 $$

    Parameters
    ----------
    length_m : float
        Half axis along the body, $a$. [m]
    radius_m : float
        Half axis across it, $b$. [m]

    Returns
    -------
    area_m2 : float
        Curved area; the flat side is not counted. [m2]

    Validity
    --------
    Positive half axes. Where it is shorter than wide, the oblate form
    $\pi b^2 (1 + (1 - e^2)/e \operatorname{artanh} e)$ with $e^2 = 1 - (a/b)^2$.

    Source
    ------
    Geometry.

    Examples
    --------
    A whole spheroid of fineness 4 has 12.8908 times its frontal area:

    >>> 2.0 * half_spheroid_area(4.0, 1.0) / 3.14159265
    12.8908
    """
    a, b = length_m, radius_m
    e2 = 1.0 - (b / a) ** 2 if a >= b else 1.0 - (a / b) ** 2
    e = math.sqrt(e2)
    if e < 1e-4:
        return 2.0 * math.pi * b * b
    if a > b:
        return math.pi * b * b * (1.0 + a / (b * e) * math.asin(e))
    return math.pi * b * b * (1.0 + (1.0 - e2) / e * math.atanh(e))


def streamlined_loads(
    shape: Streamlined, axial_speed_m_s: Real, side_speed_m_s: Real, air: Air
) -> BodyLoads:
    r"""Loads on a streamlined body along the rotor axis.

    $$ A = \tfrac12 \rho\, u |u| \left[C_f F S_w + \left(C_{D\beta} + (1 - b) C_{Db}
       + C_{D,flat}\right) S\right] $$
    $$ N = \tfrac12 \rho \left[ (k_2 - k_1) S_b \frac{w_b}{h_b} V^2 \sin 2\alpha
       \cos\tfrac{\alpha}{2} + \eta\, C_{dn} S_p\, w |w| \right] $$

    Parameters
    ----------
    shape : Streamlined
        The body; every length in metres, angles in radians. [-]
    axial_speed_m_s : float or array, shape (...)
        Air along the axis towards the nose, $u$. [m/s]
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
    Whole speed 0 to 200 m/s; ValidityError beyond. Coefficients of low subsonic flow without a
    Mach correction: at 120 m/s (Mach 0.35) pressures are 7 % higher, friction 1 % lower. Axial
    force at incidence falls with $\cos^2\alpha$ (Jorgensen). Air from behind ($u < 0$) gets the
    same coefficients with the other sign; a real body has about twice the drag backwards. Where
    the tail is steeper than 15 deg, see `afterbody_drag`. The width-over-height factor on the
    slender-body term is that of ellipses.

    Source
    ------
    S. F. Hoerner, *Fluid-Dynamic Drag*, 1965 (form factor, base); NASA TN D-6789, 1972 (boat-
    tail); H. J. Allen and E. W. Perkins, NACA Report 1048, 1951, with L. H. Jorgensen, NASA TR
    R-474, 1977 (normal force).

    Examples
    --------
    A closed body of 330 x 85 x 65 mm at 80 m/s:

    >>> from slipfit.physics.air import air_of_day
    >>> body = Streamlined(length_m=0.33, width_m=0.085, height_m=0.065, nose_length_m=0.12,
    ...                    base_diameter_m=0.035)
    >>> float(streamlined_loads(body, 80.0, 0.0, air_of_day()).axial_N)
    2.20
    """
    flow = flow_past(_WHO, axial_speed_m_s, side_speed_m_s, air)
    u, w = flow.axial_m_s, flow.side_m_s
    q = flow.pressure_Pa(u * np.abs(u))
    S, d = shape.section_m2, shape.diameter_m

    friction = body_friction(
        flow.reynolds(shape.length_m), shape.length_m, shape.roughness_m, shape.laminar_saving
    )
    skin = friction * shape.friction_factor
    tail, base = afterbody_drag(shape.boat_tail_half_angle_rad, shape.base_ratio, skin)
    causes: dict[str, Array] = {"skin friction": q * S * skin}
    if shape.boat_tail_length_m > 0.0:
        causes["pressure on the boat-tail"] = q * S * tail
    if shape.base_ratio > 0.0:
        causes["open base" if shape.bleed > 0.0 else "blunt base"] = (
            q * S * base * (1.0 - shape.bleed)
        )
    if shape.flat_nose_diameter_m > 0.0:
        flat, power = _FLAT_NOSE
        causes["flat nose"] = q * S * flat * (shape.flat_nose_diameter_m / d) ** power

    lift = np.asarray(slender_lift_pressure(u, w, air.density_kg_m3))
    across = flow.pressure_Pa(w * np.abs(w)) * _crossflow_area(shape, flow)
    return BodyLoads(causes=causes, normal_N=lift * (shape.slender_factor * shape.base_m2) + across)


def streamlined_moment(
    shape: Streamlined, axial_speed_m_s: Real, side_speed_m_s: Real, air: Air
) -> Array:
    r"""Moment of a streamlined body's normal force about the middle of its length.

    $$ M = \tfrac12 \rho \left\{ f V^2 \sin 2\alpha \cos\tfrac{\alpha}{2}
       \left[S (x_n - \tfrac{l}{2}) - (S - S_b)(x_t - \tfrac{l}{2})\right]
       + \eta\, C_{dn} S_p\, w |w| (x_p - \tfrac{l}{2}) \right\} $$

    Parameters
    ----------
    shape : Streamlined
        The body. [-]
    axial_speed_m_s : float or array, shape (...)
        Air along the axis towards the nose, $u$. [m/s]
    side_speed_m_s : float or array, shape (...)
        Air in the disk plane, $w$. [m/s]
    air : Air
        State of the air. [-]

    Returns
    -------
    moment_Nm : array, broadcast shape
        Positive where the force acts aft of the middle and turns the nose into the air. [N m]

    Validity
    --------
    As for `streamlined_loads`, with air from ahead: slender-body lift on nose ($x_n$, of an
    ellipsoid) and boat-tail ($x_t$, of a cone), cross-flow drag at the centroid of the side
    view ($x_p$). At small incidence a body without fins is unstable: $M < 0$. A stalled
    boat-tail takes away less than this.

    Source
    ------
    M. M. Munk, NACA Report 184, 1924; H. J. Allen and E. W. Perkins, NACA Report 1048, 1951;
    stations after J. S. Barrowman, 1966.

    Examples
    --------
    The shell of `streamlined_loads` at 80 m/s and 5 deg:

    >>> from slipfit.physics.air import air_of_day
    >>> body = Streamlined(length_m=0.33, width_m=0.085, height_m=0.065, nose_length_m=0.12,
    ...                    base_diameter_m=0.035)
    >>> float(streamlined_moment(body, 79.7, 6.97, air_of_day()))
    -0.7
    """
    flow = flow_past(_WHO, axial_speed_m_s, side_speed_m_s, air)
    u, w = flow.axial_m_s, flow.side_m_s
    S, middle, tail = shape.section_m2, 0.5 * shape.length_m, shape.boat_tail_length_m
    lever_m3 = S * (NOSES["ellipsoid"] * shape.nose_length_m - middle)
    if tail > 0.0:
        d, start = shape.diameter_m, shape.length_m - tail
        cone = transition_barrowman(d, d * shape.base_ratio, tail, start, d)
        lever_m3 -= (S - shape.base_m2) * (float(cone.station_m) - middle)
    lift = np.asarray(slender_lift_pressure(u, w, air.density_kg_m3))
    across = flow.pressure_Pa(w * np.abs(w)) * _crossflow_area(shape, flow)
    return np.asarray(
        lift * (shape.slender_factor * lever_m3) + across * (shape.planform_centre_m - middle)
    )


def _crossflow_area(shape: Streamlined, flow: Flow) -> Array:
    """Drag area across the axis: section coefficient, end factor and side view."""
    mach = np.abs(flow.side_m_s) / flow.air.sound_speed_m_s
    return np.asarray(
        shape.end_factor * shape.planform_m2 * np.asarray(crossflow_drag_jorgensen(mach))
    )
