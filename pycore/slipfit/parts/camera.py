"""A camera: the small one in the nose, known by its width and by what it sees."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians

from slipfit.parts.key import key
from slipfit.parts.part import Part
from slipfit.physics.lens import LENSES, Lens

USUAL_FOV_RAD = radians(125.0)
BY_ANGLE = "by its angle"
FISHEYE_FROM_RAD = radians(100.0)  # across; wider lenses of this size are fisheyes; our choice


def _lenses() -> tuple[str, ...]:
    return (BY_ANGLE, *LENSES)


@dataclass(frozen=True, kw_only=True)
class Camera(Part):
    """One camera. `width_m` is between its side screws' faces, the class of the trade."""

    width_m: float = key("width", "length", "mm", low=0.006, high=0.12)
    height_m: float = key("height", "length", "mm", low=0.006, high=0.12)
    depth_m: float = key("depth", "length", "mm", low=0.005, high=0.15, help="With the lens.")
    lens_diameter_m: float = key("lens diameter", "length", "mm", low=0.003, high=0.08)
    power_W: float = key("power", "power", "W", low=0.0, high=30.0, default=1.2)
    horizontal_fov_rad: float = key(
        "horizontal field of view", "angle", "deg", low=0.2, high=3.6, spread=0.10,
        help="Across the picture, as printed.",
        estimate="from sensor width and focal length where both are given, else 125 deg",
    )  # fmt: skip
    sensor_width_m: float = key(
        "sensor width", "length", "mm", low=0.0005, high=0.06, default=0.0,
        help="Of the part that makes the picture; with the focal length in place of the field "
        "of view.",
    )  # fmt: skip
    focal_length_m: float = key(
        "focal length", "length", "mm", low=0.0003, high=0.2, default=0.0,
        help="As printed on the lens; not the one for a full frame.",
    )  # fmt: skip
    lens: str = key(
        "lens", "choice", choices=_lenses, default=BY_ANGLE,
        help="By its angle it is a fisheye where it sees 100° or more across, else a pinhole.",
    )  # fmt: skip
    pixels_across: int = key("pixels across", "count", low=16, high=20_000, default=1920)
    pixels_down: int = key("pixels down", "count", low=16, high=20_000, default=1080)

    @property
    def lens_model(self) -> Lens:
        """How its lens draws: as stated, or by how wide it sees."""
        wide = self.horizontal_fov_rad >= FISHEYE_FROM_RAD
        by_angle = "fisheye" if wide else "pinhole"
        return LENSES[by_angle if self.lens == BY_ANGLE else self.lens]
