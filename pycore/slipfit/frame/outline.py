"""The outer contour of a frame's main body, for drawing it and for clearance to it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

import numpy as np

from slipfit.frame.frame import BodyEntry, Outline
from slipfit.physics.body.streamlined import Streamlined

_NOSE_STATIONS: Final = 17  # a cosine spacing, close together at the tip


def outline_of(bodies: Sequence[BodyEntry]) -> Outline:
    """The contour of the largest streamlined body on the axis; empty where there is none."""
    on_axis = [
        body
        for body in bodies
        if isinstance(body.shape, Streamlined) and body.right_m == body.front_m == 0.0
    ]
    if not on_axis:
        return Outline()
    main = max(on_axis, key=lambda body: body.shape.section_m2)
    return _streamlined(main.shape, main.station_m - 0.5 * main.shape.length_m)


def _streamlined(shape: Any, start_m: float) -> Outline:
    """Half an ellipsoid, a prism, a cone to the base, as the drag model takes it."""
    turn = np.linspace(0.0, 0.5 * np.pi, _NOSE_STATIONS)
    tip = shape.flat_nose_diameter_m / shape.diameter_m
    nose = tip + (1.0 - tip) * np.sin(turn)
    stations = [*(shape.nose_length_m * (1.0 - np.cos(turn)))]
    scales = [*nose]
    if shape.boat_tail_length_m > 0.0:
        stations += [shape.length_m - shape.boat_tail_length_m]
        scales += [1.0]
    stations += [shape.length_m]
    scales += [shape.base_ratio]
    half_width, half_height = 0.5 * shape.width_m, 0.5 * shape.height_m
    return Outline(
        stations_m=tuple(float(start_m + s) for s in stations),
        radii_m=tuple(float(k * 0.5 * shape.diameter_m) for k in scales),
        half_widths_m=tuple(float(k * half_width) for k in scales),
        half_heights_m=tuple(float(k * half_height) for k in scales),
    )
