"""The shot to scale, seen from the right: frame, field of view, subject and ground. The frame and
its field turn with the tilt, over speeds from hover to top speed."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from slipfit.build import Build
from slipfit.drawings.drawing import Dimension, Drawing, Outline, Stage, Turning
from slipfit.drawings.shapes import rectangle
from slipfit.drawings.side import draw_frame
from slipfit.flight.performance import Performance
from slipfit.shot import ShotState, View, axis_elevation, below_axis, lens_place, shot_of, tilt_at
from slipfit.units import ANGLE, DISTANCE_FINE, PERCENT, SPEED

STAGES = 13  # speeds from hover to top speed; that of the subject comes on top
_UNKNOWN_RANGE_M = 10.0
_CLOSE_UP = 0.16  # radius of the frame drawn larger, as a share of the scene


def draw_shot(p: Performance) -> Drawing:
    """The shot of a performance."""
    shot = shot_of(p)
    title = f"{p.build.frame.name}: the shot from the side"
    if shot is None:
        return Drawing(
            id="shot",
            title=title,
            caption="There is no camera in this build, so there is no shot to draw.",
            left=0.0, top=0.0, right=1.0, bottom=0.4,
        )  # fmt: skip
    known = math.isfinite(shot.range_m)
    ahead, high = (shot.behind_m, shot.above_m) if known else (_UNKNOWN_RANGE_M, 0.0)
    scene = max(ahead, high)
    length, tall = shot.wanted.subject_length_m, shot.wanted.subject_height_m
    left, right = -0.25 * scene, max(ahead + 0.6 * length, ahead + 0.15 * scene, 0.6 * scene)
    top = min(-0.3 * scene, high - tall - 0.1 * scene)
    ground = high if known else 0.35 * scene
    close = _CLOSE_UP * scene
    bottom = ground + 0.14 * scene + 2 * close
    outlines = [Outline(role="ground", points=((left, ground), (right, ground)), closed=False)]
    dimensions: list[Dimension] = []
    if known:
        outlines.append(
            rectangle(
                "subject",
                ahead - length / 2,
                ahead + length / 2,
                ground - max(tall, 0.1 * length),
                ground,
                f"the subject ({shot.wanted.subject})",
            )  # fmt: skip
        )
        outlines.append(Outline(role="sight", points=((0, 0), (ahead, ground)), closed=False))
        dimensions = [
            _distance(0.0, ground + 0.06 * scene, ahead, ground + 0.06 * scene, ahead),
            _distance(-0.08 * scene, 0.0, -0.08 * scene, ground, high),
        ]
    stages, first = _stages(p, shot)
    pieces = tuple(_frame(p.build))
    reach = max(math.hypot(x, y) for piece in pieces for x, y in piece.points)
    far = 4.0 * scene
    larger = close / reach
    return Drawing(
        id="shot",
        title=title,
        caption="To scale: the camera, its axis and the edges of its picture, and the line of "
        "sight to the subject. Below the ground the frame is drawn again, "
        f"{larger:.0f} times larger, as it leans.",
        left=left,
        top=top,
        right=right,
        bottom=bottom,
        outlines=tuple(outlines),
        dimensions=tuple(dimensions),
        turning=(
            Turning(
                x=0.0,
                y=0.0,
                top=top,
                bottom=ground,
                outlines=(*_field(shot.view, p.build.uptilt_rad, far), *pieces),
            ),
            Turning(
                x=left + 1.3 * close,
                y=ground + 0.12 * scene + close,
                top=ground,
                bottom=bottom,
                outlines=tuple(
                    _scaled(piece, larger)
                    for piece in (*_field(shot.view, p.build.uptilt_rad, 1.2 * reach), *pieces)
                ),
            ),
        ),
        stages=stages,
        stage=first,
    )


def _distance(x1: float, y1: float, x2: float, y2: float, length_m: float) -> Dimension:
    metric, imperial = (DISTANCE_FINE.text(length_m, system) for system in ("metric", "imperial"))
    return Dimension(x1=x1, y1=y1, x2=x2, y2=y2, text_metric=metric, text_imperial=imperial)


def _field(view: View, uptilt_rad: float, far: float) -> Iterator[Outline]:
    """The picture's edges and its axis from the lens outwards, the frame standing upright."""
    half = view.half_angle_rad

    def end(elevation: float) -> tuple[float, float]:
        return far * math.cos(elevation), -far * math.sin(elevation)

    arc = [end(uptilt_rad - half + k * half / 8) for k in range(17)]
    yield Outline(role="field", points=((0.0, 0.0), *arc))
    yield Outline(role="axis", points=((0.0, 0.0), end(uptilt_rad)), closed=False)


def _frame(build: Build) -> Iterator[Outline]:
    """The frame from its right, upright, the lens at the origin."""
    camera = build.parts["camera"]
    station, _, front = lens_place(build, camera)  # type: ignore[arg-type]
    for piece in draw_frame(build):
        yield Outline(
            role=piece.role,
            points=tuple((-y - front, x - station) for x, y in piece.points),
            closed=piece.closed,
        )


def _scaled(piece: Outline, by: float) -> Outline:
    points = tuple((by * x, by * y) for x, y in piece.points)
    return Outline(role=piece.role, points=points, closed=piece.closed)


def _stages(p: Performance, shot: ShotState) -> tuple[tuple[Stage, ...], int]:
    """How far the frame leans at each speed and what the camera then sees; which comes first."""
    top = float(p.top_speed_m_s[0, 0])
    speeds = np.linspace(0.0, top, STAGES) if math.isfinite(top) else np.zeros(1)
    chase = float(shot.speed_m_s[0, 0])
    if math.isfinite(chase) and chase <= speeds[-1]:
        speeds = np.union1d(speeds, [chase])
        first = int(np.searchsorted(speeds, chase))
    else:
        first = len(speeds) - 1
    tilt = np.where(speeds == 0.0, 0.0, np.nan)
    if math.isfinite(top):
        tilt = tilt_at(p, speeds[None, :])[0]
    elevation = np.asarray(axis_elevation(p.build.uptilt_rad, tilt))
    rows = np.asarray(shot.view.row(below_axis(elevation, shot.wanted.depression_rad)))
    horizons = np.asarray(shot.view.row(elevation))
    stages = tuple(
        Stage(
            turn_rad=float(lean),
            words_metric=_words(shot, V, lean, theta, row, horizon, "metric"),
            words_imperial=_words(shot, V, lean, theta, row, horizon, "imperial"),
        )
        for V, lean, theta, row, horizon in zip(
            speeds, tilt, elevation, rows, horizons, strict=True
        )
    )
    return stages, first


def _words(
    shot: ShotState, V: float, lean: float, theta: float, row: float, horizon: float, system: str
) -> str:
    way = "below" if theta < 0.0 else "above"
    when = "In hover" if V == 0.0 else f"At {SPEED.text(V, system)}"
    return (
        f"{when} the frame leans {ANGLE.text(lean, system)} and the lens points "
        f"{ANGLE.text(abs(theta), system)} {way} the horizon. The subject ({shot.wanted.subject}) "
        f"{_where(row, system)}, the horizon {_where(horizon, system)}."
    )


def _where(row: float, system: str) -> str:
    if abs(row) > 1.0:
        return f"is {'above' if row < 0.0 else 'below'} the picture"
    return f"is {PERCENT.text((1.0 - row) / 2.0, system)} up the picture"
