"""Blades: planform, twist, thickness and section of a rotor, from a style or from a table."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from slipfit.errors import InputError, nearest
from slipfit.numerics import Array, pchip
from slipfit.physics.section import section_names

STATIONS: Final = np.array([0.12, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 1.0])


@dataclass(frozen=True, kw_only=True, eq=False)
class Blade:
    """A rotor's blades: stations rise from the root to the tip (r_R = 1).

    `pitch_angle_rad` is the angle of the chord line to the rotor disk. Blades with equal values
    are equal and share what is cached for them.
    """

    radius_m: float
    blade_count: int
    r_R: Array
    chord_m: Array
    pitch_angle_rad: Array
    thickness_ratio: Array
    section: str
    hub_r_R: float

    @cached_property
    def _values(self) -> tuple[object, ...]:
        arrays = (self.r_R, self.chord_m, self.pitch_angle_rad, self.thickness_ratio)
        return (
            self.radius_m,
            self.blade_count,
            self.section,
            self.hub_r_R,
            *(a.tobytes() for a in arrays),
        )

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Blade) and self._values == other._values

    def __hash__(self) -> int:
        return hash(self._values)

    @property
    def aspect_ratio(self) -> float:
        """Blade length over mean chord."""
        span = 1.0 - self.hub_r_R
        area = np.trapezoid(self.chord_m, self.r_R * self.radius_m)
        return float(np.square(span * self.radius_m) / area)

    @property
    def solidity(self) -> float:
        """Blade area over disk area, from the root cut-out to the tip."""
        area = np.trapezoid(self.chord_m, self.r_R * self.radius_m)
        return float(self.blade_count * area / (np.pi * self.radius_m**2))


@dataclass(frozen=True, kw_only=True)
class Style:
    """A family of planforms: chord over radius and thickness at `STATIONS`, and the section."""

    label: str
    about: str
    c_R: tuple[float, ...]
    thickness_ratio: tuple[float, ...]
    section: str
    hub_r_R: float


# Planforms of our own, drawn for the use that each is named for, not taken from any product.
# common practice, no source: chords of 5 to 7 inch propellers run from 0.15 to 0.25 of the radius.
STYLES: Final[Mapping[str, Style]] = {
    "slim": Style(
        label="slim two-blade racer",
        about="narrow blades that taper to a pointed tip; thin outboard, for high speed",
        c_R=(0.13, 0.155, 0.183, 0.200, 0.205, 0.198, 0.180, 0.152, 0.112, 0.084, 0.030),
        thickness_ratio=(0.16, 0.13, 0.105, 0.09, 0.08, 0.072, 0.066, 0.061, 0.058, 0.057, 0.057),
        section="cambered-3",
        hub_r_R=0.12,
    ),
    "wide": Style(
        label="wide freestyle three-blade",
        about="broad blades with a full tip, for thrust and quick response",
        c_R=(0.15, 0.190, 0.235, 0.262, 0.270, 0.265, 0.250, 0.225, 0.185, 0.150, 0.060),
        thickness_ratio=(0.16, 0.13, 0.105, 0.09, 0.08, 0.073, 0.068, 0.065, 0.062, 0.061, 0.060),
        section="cambered-5",
        hub_r_R=0.12,
    ),
    "cruise": Style(
        label="slow cruiser three-blade",
        about="moderate chord, rounded tip, more camber: long flights at low speed",
        c_R=(0.12, 0.155, 0.190, 0.208, 0.212, 0.205, 0.190, 0.166, 0.130, 0.102, 0.040),
        thickness_ratio=(0.15, 0.12, 0.095, 0.082, 0.073, 0.067, 0.062, 0.058, 0.055, 0.054, 0.053),
        section="cambered-5",
        hub_r_R=0.12,
    ),
    "plain": Style(
        label="plain all-round blade",
        about="where nothing is known of the shape: between slim and wide",
        c_R=(0.14, 0.172, 0.208, 0.230, 0.236, 0.230, 0.214, 0.187, 0.147, 0.115, 0.045),
        thickness_ratio=(0.16, 0.13, 0.105, 0.09, 0.08, 0.073, 0.067, 0.063, 0.060, 0.059, 0.058),
        section="cambered-3",
        hub_r_R=0.12,
    ),
}  # fmt: skip


def blade_from_style(
    diameter_m: float, pitch_m: float, blade_count: int, style: str, chord_scale: float = 1.0
) -> Blade:
    r"""A blade of constant geometric pitch with the planform of a style.

    $$ \beta(r) = \arctan \frac{P}{2 \pi r} $$

    Parameters
    ----------
    diameter_m : float
        Tip circle diameter. [m]
    pitch_m : float
        Geometric pitch $P$: advance per turn without slip. [m]
    blade_count : int
        Number of blades. [1]
    style : str
        Key of `STYLES`. [1]
    chord_scale : float
        Factor on the style's chord, pinned by a bench point where there is one. [1]

    Returns
    -------
    blade : Blade
        The blade, with stations from the root cut-out to the tip. [1]

    Validity
    --------
    0 < pitch_m <= 2.5 diameter_m; 1 to 8 blades; 0.4 <= chord_scale <= 2.5. Makers measure pitch
    in different ways (at 0.75 R, on the lower face): a fifth either way is common.

    Source
    ------
    Definition of geometric pitch; planforms stated in this module.

    Examples
    --------
    A pitch of half the tip circumference has 40 degrees at 0.6 R, as 0.5 = 0.6 tan(beta) asks:

    >>> float(np.rad2deg(blade_from_style(0.1, 0.05 * np.pi, 2, "slim").pitch_angle_rad[5]))
    39.8
    """
    if style not in STYLES:
        raise InputError(
            f"blade_from_style: style must be known, got '{style}'{nearest(style, STYLES)}",
            field="style",
        )
    _positive("blade_from_style", "diameter_m", diameter_m)
    _between("blade_from_style", "pitch_m / diameter_m", pitch_m / diameter_m, 0.0, 2.5)
    _between("blade_from_style", "chord_scale", chord_scale, 0.4, 2.5)
    _count("blade_from_style", blade_count)
    shape = STYLES[style]
    radius_m = 0.5 * diameter_m
    return Blade(
        radius_m=radius_m,
        blade_count=blade_count,
        r_R=STATIONS,
        chord_m=np.array(shape.c_R) * chord_scale * radius_m,
        pitch_angle_rad=np.arctan(pitch_m / (2 * np.pi * STATIONS * radius_m)),
        thickness_ratio=np.array(shape.thickness_ratio),
        section=shape.section,
        hub_r_R=shape.hub_r_R,
    )


def blade_from_table(
    r_R: ArrayLike,
    c_R: ArrayLike,
    pitch_angle_rad: ArrayLike,
    diameter_m: float,
    blade_count: int,
    thickness_ratio: ArrayLike | None = None,
    section: str = "cambered-3",
) -> Blade:
    """Blade from measured stations.

    Parameters
    ----------
    r_R : array, shape (n,)
        Radius of each station over the tip radius, rising. [1]
    c_R : array, shape (n,)
        Chord over the tip radius. [1]
    pitch_angle_rad : array, shape (n,)
        Angle of the chord line to the disk. [rad]
    diameter_m : float
        Tip circle diameter. [m]
    blade_count : int
        Number of blades. [1]
    thickness_ratio : array, shape (n,), or None
        Thickness over chord; that of the plain style where None. [1]
    section : str
        Family, one of `section_names()`. [1]

    Returns
    -------
    blade : Blade
        The blade, from the first station to the tip. [1]

    Validity
    --------
    Four or more stations within 0.01 to 1. Where the last lies short of the tip, its values are
    carried on to it.

    Source
    ------
    Measurement.
    """
    who = "blade_from_table"
    _positive(who, "diameter_m", diameter_m)
    _count(who, blade_count)
    if section not in section_names():
        raise InputError(
            f"{who}: section must be a known family, got '{section}'"
            f"{nearest(section, section_names())}",
            field="section",
        )
    r = np.asarray(r_R, dtype=float)
    c, b = np.asarray(c_R, dtype=float), np.asarray(pitch_angle_rad, dtype=float)
    if thickness_ratio is None:
        t = pchip(STATIONS, np.array(STYLES["plain"].thickness_ratio), np.clip(r, STATIONS[0], 1.0))
    else:
        t = np.asarray(thickness_ratio, dtype=float)
    if r.ndim != 1 or len(r) < 4 or not len(r) == len(c) == len(b) == len(t):
        raise InputError(
            f"{who}: columns must be of one length, 4 or more stations, "
            f"got {[len(np.atleast_1d(x)) for x in (r, c, b, t)]}"
        )
    for name, values, low, high in (
        ("r_R", r, 0.01, 1.0), ("c_R", c, 1e-4, 1.0),
        ("pitch_angle_rad", b, -0.5 * np.pi, 0.5 * np.pi), ("thickness_ratio", t, 0.005, 1.0),
    ):  # fmt: skip
        outside = ~((values >= low) & (values <= high))
        if outside.any():
            raise InputError(
                f"{who}: {name} must be {low:g} to {high:g}, got {values[outside][0]:g}", field=name
            )
    if not (np.diff(r) > 0).all():
        k = int(np.argmax(np.diff(r) <= 0)) + 1
        raise InputError(f"{who}: r_R must rise, got {r[k]:g} after {r[k - 1]:g}", field="r_R")
    if r[-1] < 1.0:
        r = np.append(r, 1.0)
        c, b, t = (np.append(x, x[-1]) for x in (c, b, t))
    radius_m = 0.5 * diameter_m
    return Blade(
        radius_m=radius_m,
        blade_count=blade_count,
        r_R=r,
        chord_m=c * radius_m,
        pitch_angle_rad=b,
        thickness_ratio=t,
        section=section,
        hub_r_R=float(r[0]),
    )


# column -> rule in words, low, high
_CSV_COLUMNS: Final[Mapping[str, tuple[str, float, float]]] = {
    "r_R": ("a number 0.01 to 1", 0.01, 1.0),
    "c_R": ("a number 0.0001 to 1", 1e-4, 1.0),
    "beta_deg": ("a number -90 to 90", -90.0, 90.0),
    "t_c": ("a number 0.005 to 1", 0.005, 1.0),
}


def blade_from_csv(
    text: str,
    diameter_m: float,
    blade_count: int,
    section: str = "cambered-3",
    file: str = "geometry",
) -> Blade:
    """A blade from the text of a CSV file with the columns r_R, c_R, beta_deg and, if known, t_c.

    Lines that are empty or start with # are skipped; other columns are errors. Every wrong value
    is reported at once as `file:line: column must be …, got …`.
    """
    numbered = [
        (k, line)
        for k, line in enumerate(text.replace("\ufeff", "").splitlines(), start=1)
        if line.strip() and not line.lstrip().startswith("#")
    ]
    if not numbered:
        raise InputError(
            f"{file}:1: a header must name the columns r_R, c_R, beta_deg, got nothing"
        )
    rows = list(csv.reader(io.StringIO("\n".join(line for _, line in numbered))))
    header_line = numbered[0][0]
    titles = [title.strip() for title in rows[0]]
    problems = [
        f"{file}:{header_line}: column must be known, got '{title}'{nearest(title, _CSV_COLUMNS)}"
        for title in titles
        if title not in _CSV_COLUMNS
    ]
    problems += [
        f"{file}:{header_line}: column {title} must be there once, got {titles.count(title)}"
        for title in _CSV_COLUMNS
        if titles.count(title) > 1 or (title != "t_c" and title not in titles)
    ]
    if problems:
        raise InputError("\n".join(problems))
    columns: dict[str, list[float]] = {title: [] for title in titles}
    for (line, _), row in zip(numbered[1:], rows[1:], strict=True):
        if len(row) != len(titles):
            problems.append(f"{file}:{line}: row must have {len(titles)} values, got {len(row)}")
            continue
        for title, cell in zip(titles, row, strict=True):
            rule, low, high = _CSV_COLUMNS[title]
            try:
                value = float(cell)
            except ValueError:
                value = np.nan
            if not low <= value <= high:
                problems.append(f"{file}:{line}: {title} must be {rule}, got '{cell.strip()}'")
            columns[title].append(value)
        radii = columns["r_R"]
        if len(radii) > 1 and radii[-1] <= radii[-2]:
            problems.append(
                f"{file}:{line}: r_R must rise from row to row, got {radii[-1]:g} "
                f"after {radii[-2]:g}"
            )
    if not problems and len(rows) < 5:
        problems.append(
            f"{file}:{numbered[-1][0]}: 4 or more stations must be given, got {len(rows) - 1}"
        )
    if problems:
        raise InputError("\n".join(problems))
    return blade_from_table(
        columns["r_R"],
        columns["c_R"],
        np.deg2rad(columns["beta_deg"]),
        diameter_m,
        blade_count,
        thickness_ratio=columns.get("t_c"),
        section=section,
    )


def _positive(who: str, name: str, value: float) -> None:
    if not (np.isfinite(value) and value > 0.0):
        raise InputError(f"{who}: {name} must be > 0, got {value:g}", field=name)


def _between(who: str, name: str, value: float, low: float, high: float) -> None:
    if not low < value <= high:
        raise InputError(f"{who}: {name} must be {low:g} to {high:g}, got {value:g}", field=name)


def _count(who: str, blade_count: int) -> None:
    if not 1 <= blade_count <= 8:
        raise InputError(
            f"{who}: blade_count must be 1 to 8, got {blade_count}", field="blade_count"
        )
