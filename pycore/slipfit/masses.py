"""What a build weighs, piece by piece, and where its balance point is."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from slipfit.build import Build, places
from slipfit.fit.screws import ScrewFit, screw_fits
from slipfit.frame.frame import Frame
from slipfit.numerics import Array
from slipfit.ondemand import kept_for_latest
from slipfit.parts.kinds import KINDS
from slipfit.parts.origin import DATA_SHEET, Origin
from slipfit.parts.part import Part

# Relative 10-90 % half-width of the mass of wire, solder and hardware that an author weighed.
HARDWARE_SPREAD = 0.05
# And of what follows from a drawing's volume; our judgement, see `printed_mass`.
PRINTED_SPREAD = 0.10
# And of a screw from its dimensions; see `screw_mass`.
SCREW_SPREAD = 0.10


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


@kept_for_latest
def mass_items(build: Build) -> tuple[MassItem, ...]:
    """Everything in the build that weighs: parts where the frame seats them, hardware, screws."""
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
    for fit in screw_fits(build):
        items += _screws(build, fit)
    return tuple(items)


def _screws(build: Build, fit: ScrewFit) -> list[MassItem]:
    """The screws of a joint: where it says, else spread over the pieces of the part whose screws
    they are, else amid the frame's hardware."""
    joint, where = fit.joint, places(build.frame, fit.kind) if fit.kind else ()
    if joint.station_m or joint.right_m or joint.front_m:
        where = ((joint.station_m, joint.right_m, joint.front_m),)
    where = where or (_middle(build.frame),)
    return [
        MassItem(
            name=f"screws, {joint.label}",
            kind=None,
            mass_kg=joint.count * fit.mass_kg / len(where),
            station_m=station,
            right_m=right,
            front_m=front,
            spread=SCREW_SPREAD,
            gyration_m2=_ring_gyration(joint.ring_m, 0.0),
        )
        for station, right, front in where
    ]


def _middle(frame: Frame) -> tuple[float, float, float]:
    """Centre of mass of a frame's hardware; the axis at the nose where it has none."""
    whole = sum(item.mass_kg * item.count for item in frame.hardware) or 1.0

    def mean(field: str) -> float:
        return float(sum(i.mass_kg * i.count * getattr(i, field) for i in frame.hardware) / whole)

    return mean("station_m"), mean("right_m"), mean("front_m")


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
