"""The bill of materials of a build: parts, what comes with the frame, screws and wire."""

from __future__ import annotations

import math
from dataclasses import dataclass

from slipfit.build import Build
from slipfit.fit.screws import screw_fits
from slipfit.parts.kinds import KINDS

GROUPS = ("parts", "with the frame", "screws", "wire")


@dataclass(frozen=True, kw_only=True)
class BillLine:
    """One thing to have on the table. `mass_kg` is that of one; None where it is counted in
    another line, which `note` says."""

    group: str
    what: str
    name: str
    count: int
    mass_kg: float | None
    note: str = ""


def bill(build: Build) -> tuple[BillLine, ...]:
    """Everything a build is made of, in the order of the groups."""
    return (*_parts(build), *_hardware(build), *_screws(build), *_wires(build))


def bill_mass(lines: tuple[BillLine, ...]) -> float:
    """Mass of everything that has one: that of the build. [kg]"""
    return sum(line.count * line.mass_kg for line in lines if line.mass_kg is not None)


def _parts(build: Build) -> list[BillLine]:
    lines = []
    for kind in KINDS:
        part = build.parts.get(kind.id)
        if part is None:
            continue
        origin = part.origins.get("mass_kg")
        note = "" if origin is None else f"mass {origin.kind}"
        lines.append(
            BillLine(
                group="parts",
                what=kind.label,
                name=part.name,
                count=build.rotor_count if kind.count > 1 else 1,
                mass_kg=part.mass_kg,
                note=note,
            )
        )
    return lines


def _hardware(build: Build) -> list[BillLine]:
    return [
        BillLine(
            group="with the frame", what="", name=item.name, count=item.count, mass_kg=item.mass_kg
        )
        for item in build.frame.hardware
    ]


def _screws(build: Build) -> list[BillLine]:
    """Screws of one size and head together, whatever they join; the shortest first."""
    counts: dict[tuple[float, float, str, str, str], list[str]] = {}
    numbers: dict[tuple[float, float, str, str, str], int] = {}
    masses: dict[tuple[float, float, str, str, str], float] = {}
    for fit in screw_fits(build):
        joint = fit.joint
        key = (
            fit.thread.diameter_m,
            fit.length_m,
            fit.thread.name,
            joint.head,
            joint.strength,
        )
        counts.setdefault(key, []).append(joint.label)
        numbers[key] = numbers.get(key, 0) + joint.count
        masses[key] = fit.mass_kg
    return [
        BillLine(
            group="screws",
            what=f"{key[3]} head, {key[4]}",
            name=f"{key[2]} × {key[1] * 1e3:g} mm",
            count=numbers[key],
            mass_kg=masses[key],
            note=", ".join(labels),
        )
        for key, labels in sorted(counts.items())
    ]


def _wires(build: Build) -> list[BillLine]:
    wire, rotors = build.frame.wire, build.rotor_count

    def line(gauge: int, length_m: float, count: int, note: str) -> BillLine:
        whole_mm = math.ceil(length_m * 1e3 - 1e-6)
        return BillLine(
            group="wire",
            what=f"{gauge} AWG",
            name=f"silicone wire, {whole_mm} mm",
            count=count,
            mass_kg=None,
            note=note,
        )

    lines = []
    if wire.motor_lead_length_m > 0.0:
        lines.append(line(wire.motor_gauge, wire.motor_lead_length_m, 3 * rotors, "motor leads"))
    if wire.pack_lead_length_m > 0.0:
        lines.append(line(wire.pack_gauge, wire.pack_lead_length_m, 2, "leads to the plug"))
    return lines
