"""A camera: the small one in the nose, known by its width."""

from __future__ import annotations

from dataclasses import dataclass

from slipfit.parts.key import key
from slipfit.parts.part import Part


@dataclass(frozen=True, kw_only=True)
class Camera(Part):
    """One camera. `width_m` is between its side screws' faces, the class of the trade."""

    width_m: float = key("width", "length", "mm", low=0.006, high=0.12)
    height_m: float = key("height", "length", "mm", low=0.006, high=0.12)
    depth_m: float = key("depth", "length", "mm", low=0.005, high=0.15, help="With the lens.")
    lens_diameter_m: float = key("lens diameter", "length", "mm", low=0.003, high=0.08)
    power_W: float = key("power", "power", "W", low=0.0, high=30.0, default=1.2)
    horizontal_fov_rad: float = key(
        "horizontal field of view", "angle", "deg", low=0.2, high=3.6, default=2.1816615649929116
    )
