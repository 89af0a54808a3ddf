"""Time of a run-up to nearly top speed."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import missing_flat_out, run_up_steps
from slipfit.flight.dash import NEARLY, dash
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import SECONDS


def _value(p: Performance) -> Array:
    d = dash(p)
    return d.at(d.time_s, NEARLY)


def _cause(p: Performance) -> str:
    return "full throttle from rest, tilted so that the height is held"


def _explain(p: Performance) -> tuple[Step, ...]:
    d = dash(p)
    return (
        *run_up_steps(p),
        Step(
            words="Summed over the speeds from rest.",
            formula="t = ∫ dV / a",
            numbers=f"{shown(d.at(d.time_s, NEARLY))} s to {shown(d.at(d.speed_m_s, NEARLY))} m/s",
        ),
    )


def _missing(p: Performance) -> str:
    return missing_flat_out(p)


KIND = FigureKind(
    id="dash_time",
    label="time of a run-up to 95 % of top speed",
    display=SECONDS,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Level run-up at full throttle, see Run-up",
    missing=_missing,
)
