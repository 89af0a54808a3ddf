"""A build: a frame, the parts a reader chose for it, and the day it flies on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from slipfit.frame.frame import Day, Frame, Shot
from slipfit.frame.leg import Leg
from slipfit.parts.part import Part
from slipfit.physics.air import Air, air_of_day


@dataclass(frozen=True, kw_only=True)
class Build:
    """A frame with one part per kind (motors and props count once per rotor) on a given day."""

    frame: Frame
    parts: Mapping[str, Part]
    day: Day
    uptilt_rad: float
    chase_speed_m_s: float | None = None  # the reader's, else the frame's
    shot: Shot | None = None  # the reader's, else the frame's
    legs: tuple[Leg, ...] | None = None  # of the flight: the reader's, else the frame's

    @property
    def rotor_count(self) -> int:
        """How many rotors lift the frame."""
        return len(self.frame.rotors)

    @property
    def chase(self) -> float:
        """Speed of the subject that is followed; 0 where none is known. [m/s]"""
        return self.frame.chase_speed_m_s if self.chase_speed_m_s is None else self.chase_speed_m_s

    @property
    def framing(self) -> Shot:
        """The shot that is wanted."""
        return self.shot or self.frame.shot

    @property
    def air(self) -> Air:
        """The air of the build's day."""
        return _air(self.day.height_m, self.day.air_temperature_K, self.day.relative_humidity)


@lru_cache(maxsize=32)
def _air(height_m: float, temperature_K: float, relative_humidity: float) -> Air:
    return air_of_day(height_m, temperature_K, relative_humidity)


def places(frame: Frame, kind: str) -> tuple[tuple[float, float, float], ...]:
    """Where the frame puts the parts of a kind: (station, right, front) in m, one per piece."""
    if kind == "prop":
        return tuple((r.station_m, r.right_m, r.front_m) for r in frame.rotors)
    if kind == "motor":
        aft = frame.motor_seat.behind_prop_m
        return tuple((r.station_m + aft, r.right_m, r.front_m) for r in frame.rotors)
    bay = frame.bay_for(kind)
    seat = bay or (frame.camera_seat if kind == "camera" else frame.stack_seat)
    return ((seat.station_m, seat.right_m, seat.front_m),)
