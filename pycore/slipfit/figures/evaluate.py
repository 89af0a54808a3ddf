"""Figures of a build from its performance, with ranges and the inputs that move them most."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import numpy as np

from slipfit.figures.figure import Driver, Figure, FigureKind
from slipfit.figures.registry import FIGURES
from slipfit.flight.inputs import SIGMAS_PER_HALF_WIDTH, VARIABLES
from slipfit.flight.performance import Performance
from slipfit.numerics import Array, quantiles
from slipfit.ondemand import OnDemand

RANGE = (0.1, 0.9)
SHOWN_DRIVERS = 3
# A range is shown only where at least this share of the samples has an answer.
ENOUGH_SAMPLES = 0.75


Samples = tuple[Performance, Array]  # and the normal scores behind them


def figures(p: Performance, samples: Callable[[], Samples] | None = None) -> Mapping[str, Figure]:
    """Every figure by id, computed when asked for; with samples, with ranges."""

    def made(kind: FigureKind) -> Callable[[], Figure]:
        return lambda: _figure(kind, p, *(samples() if samples else (None, None)))

    return OnDemand({kind.id: made(kind) for kind in FIGURES})


def _figure(
    kind: FigureKind, p: Performance, samples: Performance | None, scores: Array | None
) -> Figure:
    value = float(np.ravel(kind.value(p))[0])
    if not np.isfinite(value):
        return Figure(
            id=kind.id,
            label=kind.label,
            display=kind.display,
            value=None,
            missing=(kind.missing(p) if kind.missing else "") or why_missing(p),
            source=kind.source,
        )
    low = high = None
    exact = False
    drivers: tuple[Driver, ...] = ()
    if samples is not None and scores is not None:
        drawn = np.broadcast_to(np.ravel(kind.value(samples)), (len(scores),))
        there = np.isfinite(drawn)
        enough = there.mean() >= ENOUGH_SAMPLES
        moves = enough and np.ptp(drawn[there]) > 0.0
        if moves:
            low, high = (float(q) for q in quantiles(drawn[there], RANGE))
            # What whole passes leave over jumps, and the value may lie at the edge of its samples.
            low, high = min(low, value), max(high, value)
            drivers = _drivers(drawn[there], scores[there])
        if kind.spread is not None:
            low, high = value * (1.0 - kind.spread(p)), value * (1.0 + kind.spread(p))
        exact = bool(enough and not moves and low is None)
    return Figure(
        id=kind.id,
        label=kind.label,
        display=kind.display,
        value=value,
        low=low,
        high=high,
        exact=exact,
        cause=kind.cause(p),
        steps=kind.explain(p),
        drivers=drivers,
        source=kind.source,
    )


def why_missing(p: Performance) -> str:
    """Why a build has no answer for figures about flight."""
    if not p.hover.trim.valid[0, 0]:
        return "hover lies outside the rotor model's range"
    hover = p.hover.drive
    if hover.pack_headroom[0, 0] < 0.0 and hover.duty[0, 0] <= 1.0:
        return "the pack cannot give the power that hover asks for"
    if not hover.feasible[0, 0]:
        return "full throttle does not hold the weight in hover"
    if not p.standing.valid[0, 0]:
        return "at full throttle the blade tips pass the speed of sound, where the model ends"
    return "no answer for this build"


def _drivers(values: Array, scores: Array) -> tuple[Driver, ...]:
    """Least-squares slopes of a figure over the inputs' scores, the largest swings first."""
    if np.ptp(values) == 0.0:
        return ()
    design = np.column_stack([np.ones(len(values)), scores])
    slopes = np.linalg.lstsq(design, values, rcond=None)[0][1:]
    swings = 2.0 * SIGMAS_PER_HALF_WIDTH * slopes
    order = np.argsort(-np.abs(swings))[:SHOWN_DRIVERS]
    return tuple(
        Driver(label=VARIABLES[k].label, swing_si=float(swings[k]))
        for k in order
        if abs(swings[k]) > 1e-3 * float(np.max(np.abs(swings)))
    )
