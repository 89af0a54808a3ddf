"""Cameras in their cage: width classes, and the uptilts that they reach."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from slipfit.errors import InputError
from slipfit.frame.frame import CameraSeat
from slipfit.parts.camera import Camera

# Width classes of the trade. Micro was seen at 19 mm; the others are from memory, and cameras
# called mini are 21 to 22 mm wide.
CLASSES_M: Final = {"nano": 0.014, "micro": 0.019, "digital": 0.020, "mini": 0.022}
# Widths are quoted to the millimetre and cage plates give a little; common practice, no source.
CLASS_ROUNDING_M: Final = 0.25e-3


@dataclass(frozen=True, kw_only=True)
class CageFit:
    """The cage width that suits a camera best, and the gap that is left; negative where the camera
    is wider than the widest."""

    cage_m: float
    gap_m: float

    @property
    def washer_m(self) -> float:
        """Thickness of the washer that each side takes; 0 where the camera fills the cage."""
        return self.gap_m / 2 if self.gap_m > CLASS_ROUNDING_M else 0.0


def cage_fit(width_m: float, cage_widths_m: Sequence[float]) -> CageFit:
    """A camera in a cage that takes certain widths as it is: the narrowest that takes it."""
    if not cage_widths_m:
        raise InputError("camera seat: widths_m must name at least one width, got none")
    wide_enough = [cage for cage in cage_widths_m if width_m <= cage + CLASS_ROUNDING_M]
    cage = min(wide_enough) if wide_enough else max(cage_widths_m)
    gap = cage - width_m
    return CageFit(cage_m=cage, gap_m=max(gap, 0.0) if wide_enough else gap)


def uptilt_reach(seat: CameraSeat, camera: Camera) -> tuple[float, float]:
    """Least and largest uptilt that a camera reaches in its cage, turned up from the least. [rad]

    It is the cage's own arc, unless the lower corner of the camera's back meets what stands behind
    it first. The pivot is taken to be in the middle of the camera's depth and height. One that is
    too deep to go in has its least uptilt alone.
    """
    low, high = seat.uptilt_low_rad, seat.uptilt_high_rad
    back, half = camera.depth_m / 2, camera.height_m / 2
    swing = math.hypot(back, half)
    if seat.behind_m <= 0.0 or swing <= seat.behind_m:
        return low, high
    # back cos(turn) + half sin(turn) = behind
    turn = math.atan2(half, back) - math.acos(seat.behind_m / swing)
    return low, min(high, low + max(turn, 0.0))


def class_name(width_m: float) -> str:
    """The class whose width is nearest, within a millimetre; empty where none is."""
    name = min(CLASSES_M, key=lambda key: abs(CLASSES_M[key] - width_m))
    return name if abs(CLASSES_M[name] - width_m) <= 0.5e-3 else ""
