"""A build: a frame, the parts a reader chose for it, and the day it flies on; with its masses."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from slipfit.frame.frame import Day, Frame, Shot
from slipfit.frame.leg import Leg
from slipfit.numerics import Array
from slipfit.parts.kinds import KINDS
from slipfit.parts.origin import DATA_SHEET, Origin
from slipfit.parts.part import Part
from slipfit.physics.air import Air, air_of_day

# Relative 10-90 % half-width of the mass of wire, solder and hardware that an author weighed.
HARDWARE_SPREAD = 0.05
# And of what follows from a drawing's volume; our judgement, see `printed_mass`.
PRINTED_SPREAD = 0.10


@dataclass(frozen=True, kw_only=True)
class MassItem:
    """Something that weighs: its mass in all, where its centre is, and how sure the mass is.

    `gyration_m2` is its own inertia over its mass, about lines through its centre along the axis,
    to the right and to the front.
    """

    name: str
    kind: str | None
    mass_kg: float
    station_m: float
    right_m: float
    front_m: float
    spread: float
    gyration_m2: tuple[float, float, float] = (0.0, 0.0, 0.0)


@dataclass(frozen=True, kw_only=True)
class Balance:
    """Centre of mass in the frame's coordinates."""

    station_m: float
    right_m: float
    front_m: float


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


def mass_items(build: Build) -> tuple[MassItem, ...]:
    """Everything in the build that weighs: parts where the frame seats them, then hardware."""
    items = []
    for kind in KINDS:
        part = build.parts.get(kind.id)
        if part is None:
            continue
        spread = part.origins.get("mass_kg", Origin(DATA_SHEET)).spread
        for station, right, front in places(build.frame, kind.id):
            items.append(
                MassItem(
                    name=part.name,
                    kind=kind.id,
                    mass_kg=part.mass_kg,
                    station_m=station,
                    right_m=right,
                    front_m=front,
                    spread=spread,
                    gyration_m2=_part_gyration(build.frame, kind.id, part),
                )
            )
    items += [
        MassItem(
            name=item.name,
            kind=None,
            mass_kg=item.mass_kg * item.count,
            station_m=item.station_m,
            right_m=item.right_m,
            front_m=item.front_m,
            spread=PRINTED_SPREAD if item.volume_m3 > 0.0 else HARDWARE_SPREAD,
            gyration_m2=_ring_gyration(item.ring_m, item.length_m),
        )
        for item in build.frame.hardware
    ]
    return tuple(items)


def _ring_gyration(radius_m: float, length_m: float) -> tuple[float, float, float]:
    """Of things that stand evenly on a ring, or of a shell's wall, as long as they are."""
    across = 0.5 * radius_m**2 + length_m**2 / 12.0
    return (radius_m**2, across, across)


def _part_gyration(frame: Frame, kind: str, part: Part) -> tuple[float, float, float]:
    """Of a part as a full box or cylinder, in its bay's direction; 0 for what is small."""
    if kind == "motor":
        r2, length = 0.25 * part.can_diameter_m**2, part.can_length_m  # type: ignore[attr-defined]
        across = 0.25 * r2 + length**2 / 12.0
        return (0.5 * r2, across, across)
    bay = frame.bay_for(kind)
    if bay is None:
        return (0.0, 0.0, 0.0)
    along, right, front = (
        getattr(part, name) ** 2 / 12.0 for name in ("length_m", "width_m", "height_m")
    )
    if bay.lies == "across":
        along, front = front, along
    return (right + front, along + front, along + right)


def mass_total(build: Build) -> float:
    """Mass of the build ready to fly. [kg]"""
    return sum(item.mass_kg for item in mass_items(build))


def mass_spread(build: Build) -> float:
    """Relative 10-90 % half-width of the total, the items' errors taken as independent."""
    items = mass_items(build)
    variance = sum((item.mass_kg * item.spread) ** 2 for item in items)
    return float(np.sqrt(variance) / sum(item.mass_kg for item in items))


def balance(build: Build) -> Balance:
    """Centre of mass of the build."""
    items = mass_items(build)
    masses: Array = np.array([item.mass_kg for item in items])
    places: Array = np.array([(i.station_m, i.right_m, i.front_m) for i in items])
    station, right, front = (masses @ places) / masses.sum()
    return Balance(station_m=float(station), right_m=float(right), front_m=float(front))
