"""What follows from where the masses are: inertia, and how the motors share the hover."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from slipfit.build import Build
from slipfit.masses import balance, mass_items
from slipfit.numerics import Array


@dataclass(frozen=True, kw_only=True)
class Inertia:
    """Moments of inertia about lines through the balance point: along the rotor axis (turning the
    picture in hover), to the right (nodding) and to the front (rolling)."""

    axis_kg_m2: float
    right_kg_m2: float
    front_kg_m2: float


def inertia(build: Build) -> Inertia:
    """Inertia of a build: every mass at its place, and its own extent where that is known."""
    items, centre = mass_items(build), balance(build)
    m: Array = np.array([item.mass_kg for item in items])
    own: Array = np.array([item.gyration_m2 for item in items])
    x, y, z = (
        np.array([getattr(item, name) for item in items]) - getattr(centre, name)
        for name in ("station_m", "right_m", "front_m")
    )
    away = np.stack([y**2 + z**2, x**2 + z**2, x**2 + y**2], axis=1)
    about = m @ (away + own)
    return Inertia(
        axis_kg_m2=float(about[0]), right_kg_m2=float(about[1]), front_kg_m2=float(about[2])
    )


def hover_shares(build: Build) -> Array:
    """Each motor's thrust in hover over the mean, (rotors,): what holds the weight at the balance
    point with the least differences; with more than three rotors there are other ways."""
    centre = balance(build)
    right: Array = np.array([rotor.right_m for rotor in build.frame.rotors]) - centre.right_m
    front: Array = np.array([rotor.front_m for rotor in build.frame.rotors]) - centre.front_m
    held = np.stack([np.ones_like(right), right, front])
    shares = np.linalg.pinv(held) @ np.array([1.0, 0.0, 0.0])
    return np.asarray(shares * len(right))


def rotor_place(build: Build, k: int) -> str:
    """Where a rotor is, in words: `front left`."""
    rotor = build.frame.rotors[k]
    ahead = "front" if rotor.front_m > 1e-6 else "back" if rotor.front_m < -1e-6 else ""
    beside = "right" if rotor.right_m > 1e-6 else "left" if rotor.right_m < -1e-6 else ""
    return " ".join(word for word in (ahead, beside) if word) or "middle"
