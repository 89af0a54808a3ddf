"""What the fields of one part must satisfy together; one function per kind of part.

Each returns (key, sentence) for everything that no real part could be.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any, Final

Faults = list[tuple[str, str]]


def _motor(part: Any) -> Faults:
    found: Faults = []
    if part.can_diameter_m <= part.stator_diameter_m:
        found.append(("can_diameter", _more(part, "can_diameter_m", "stator_diameter_m")))
    if part.can_length_m <= part.stator_height_m:
        found.append(("can_length", _more(part, "can_length_m", "stator_height_m")))
    if part.pole_count % 2:
        found.append(("pole_count", f"pole_count must be even, got {part.pole_count}"))
    return found


def _more(part: Any, field: str, than: str) -> str:
    name, other = field.removesuffix("_m"), than.removesuffix("_m")
    bound, value = getattr(part, than) * 1e3, getattr(part, field) * 1e3
    return f"{name} must be more than the {other} of {bound:g} mm, got {value:g} mm"


def _prop(part: Any) -> Faults:
    columns = {"r_R": part.r_R, "c_R": part.c_R, "beta_deg": part.beta_rad}
    given = {name: column for name, column in columns.items() if column}
    if not given:
        return [("t_c", "t_c must come with r_R, c_R and beta_deg")] if part.t_c else []
    found: Faults = [
        (name, f"{name} must be given with the rest of the blade table")
        for name in columns
        if name not in given
    ]
    rows = len(part.r_R)
    for name, column in (*given.items(), *((("t_c", part.t_c),) if part.t_c else ())):
        if len(column) != rows:
            found.append(
                (name, f"{name} must have as many rows as r_R ({rows}), got {len(column)}")
            )
    if rows and rows < 4:
        found.append(("r_R", f"r_R must have at least 4 rows, got {rows}"))
    rising = all(low < high for low, high in zip(part.r_R, part.r_R[1:], strict=False))
    if rows and not (rising and part.r_R[0] > 0.0 and part.r_R[-1] <= 1.0):
        found.append(("r_R", "r_R must rise from above 0 to at most 1"))
    if any(not 0.0 < chord < 1.0 for chord in part.c_R):
        found.append(("c_R", "c_R must lie between 0 and 1"))
    if any(not -0.6 < angle < 1.57 for angle in part.beta_rad):
        found.append(("beta_deg", "beta_deg must lie between -34 and 90"))
    if any(not 0.01 <= ratio <= 0.5 for ratio in part.t_c):
        found.append(("t_c", "t_c must lie between 0.01 and 0.5"))
    return found


def _pack(part: Any) -> Faults:
    # A cell of any chemistry holds below 300 Wh/kg (common practice, no source), so a pack that
    # claims more has a slip in its mass or its capacity.
    per_kg = part.cell_count * 3.7 * part.capacity_C / 3600 / part.mass_kg
    if per_kg > 300.0:
        return [
            (
                "mass",
                f"mass must be that of the whole pack: {part.mass_kg * 1e3:g} g for "
                f"{part.cell_count} cells of {part.capacity_C / 3.6:g} mAh would be "
                f"{per_kg:.0f} Wh/kg (no cell holds 300)",
            )
        ]
    return []


def _esc(part: Any) -> Faults:
    found: Faults = []
    if part.min_cells > part.max_cells:
        found.append(
            (
                "min_cells",
                f"min_cells must be at most max_cells ({part.max_cells}), got {part.min_cells}",
            )
        )
    if part.burst_A < part.continuous_A:
        found.append(
            (
                "burst",
                f"burst must be at least the continuous {part.continuous_A:g} A, "
                f"got {part.burst_A:g} A",
            )
        )
    return found


def _camera(part: Any) -> Faults:
    lens = part.lens_model
    degrees, widest = math.degrees(part.horizontal_fov_rad), math.degrees(lens.widest_rad)
    if degrees > widest:
        return [
            (
                "horizontal_fov",
                f"horizontal_fov must be at most {widest:.0f} deg for the lens '{lens.id}', got "
                f"{degrees:.0f} deg from what is given",
            )
        ]
    return []


CONSISTENCY: Final[Mapping[str, Callable[[Any], Faults]]] = {
    "motor": _motor,
    "prop": _prop,
    "pack": _pack,
    "esc": _esc,
    "camera": _camera,
}
