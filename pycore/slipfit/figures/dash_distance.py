"""Distance of a run-up to nearly top speed."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import missing_flat_out, run_up_steps
from slipfit.flight.dash import NEARLY, dash
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import DISTANCE


def _value(p: Performance) -> Array:
    d = dash(p)
    return d.at(d.distance_m, NEARLY)


def _cause(p: Performance) -> str:
    d = dash(p)
    return f"how long a straight it needs; to 99 % it takes {shown(d.at(d.distance_m, 0.99))} m"


def _explain(p: Performance) -> tuple[Step, ...]:
    d = dash(p)
    return (
        *run_up_steps(p),
        Step(
            words="Summed over the speeds from rest.",
            formula="s = ∫ V dV / a",
            numbers=f"{shown(d.at(d.distance_m, NEARLY))} m to "
            f"{shown(d.at(d.speed_m_s, NEARLY))} m/s",
        ),
    )


def _missing(p: Performance) -> str:
    return missing_flat_out(p)


KIND = FigureKind(
    id="dash_distance",
    label="run-up to 95 % of top speed",
    display=DISTANCE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Level run-up at full throttle, see Run-up",
    missing=_missing,
)
