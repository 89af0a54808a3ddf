"""A propeller: what is printed on it, and its blade table where somebody measured one."""

from __future__ import annotations

from dataclasses import dataclass

from slipfit.parts.key import key
from slipfit.parts.part import Part
from slipfit.physics.material import material_names


def _styles() -> tuple[str, ...]:
    from slipfit.physics.blade import STYLES

    return tuple(STYLES)


@dataclass(frozen=True, kw_only=True)
class Prop(Part):
    """One propeller. `r_R`, `c_R`, `beta_rad` (and `t_c`) are empty or a measured blade table."""

    mass_kg: float = key(
        "mass", "mass", "g", low=1e-4, high=1.0, spread=0.25,
        estimate="0.5 g for the hub and 84 g for each blade and square metre of diameter squared",
    )  # fmt: skip
    diameter_m: float = key("diameter", "length", "in", low=0.025, high=0.8, stated=0.004)
    pitch_m: float = key("pitch", "length", "in", low=0.01, high=0.8, stated=0.05)
    blade_count: int = key("blades", "count", low=2, high=8)
    style: str = key(
        "blade style", "choice", choices=_styles, help="The planform: chord and thickness families."
    )
    chord_scale: float = key(
        "chord scale", "number", low=0.4, high=2.5, default=1.0,
        help="Blades wider (above 1) or slimmer than the style's.",
    )  # fmt: skip
    bore_m: float = key("bore", "length", "mm", low=0.0005, high=0.02, default=0.005)
    hub_thickness_m: float = key(
        "hub thickness", "length", "mm", low=0.001, high=0.04, default=0.006
    )
    material: str = key(
        "material", "choice", choices=material_names, default="PC",
        help="For the pull in its blades.",
    )  # fmt: skip
    r_R: tuple[float, ...] = key(
        "blade table: radius", "numbers", default=(), help="Radius over tip radius, rising."
    )
    c_R: tuple[float, ...] = key(
        "blade table: chord", "numbers", default=(), help="Chord over tip radius."
    )
    beta_rad: tuple[float, ...] = key(
        "blade table: pitch angle",
        "numbers",
        "deg",
        default=(),
        typed="beta_deg",
        help="In degrees, at each radius.",
    )
    t_c: tuple[float, ...] = key(
        "blade table: thickness", "numbers", default=(), help="Thickness over chord."
    )
