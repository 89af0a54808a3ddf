"""A build: a frame, the parts a reader chose for it, and the day it flies on; with its masses."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from slipfit.frame.frame import Day, Frame
from slipfit.numerics import Array
from slipfit.parts.kinds import KINDS
from slipfit.parts.origin import DATA_SHEET, Origin
from slipfit.parts.part import Part
from slipfit.physics.air import Air, air_of_day

# Relative 10-90 % half-width of the mass of wire, solder and hardware that an author weighed.
HARDWARE_SPREAD = 0.05


@dataclass(frozen=True, kw_only=True)
class MassItem:
    """Something that weighs: its mass in all, where its centre is, and how sure the mass is."""

    name: str
    kind: str | None
    mass_kg: float
    station_m: float
    right_m: float
    front_m: float
    spread: float


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

    @property
    def rotor_count(self) -> int:
        """How many rotors lift the frame."""
        return len(self.frame.rotors)

    @property
    def air(self) -> Air:
        """The air of the build's day."""
        return air_of_day(self.day.height_m, self.day.air_temperature_K, self.day.relative_humidity)


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
            spread=HARDWARE_SPREAD,
        )
        for item in build.frame.hardware
    ]
    return tuple(items)


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
