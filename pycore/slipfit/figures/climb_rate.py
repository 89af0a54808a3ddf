"""Climb straight up at full throttle."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import missing_flat_out
from slipfit.flight.envelope import envelope
from slipfit.flight.flat_out import flat_out
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import CLIMB


def _value(p: Performance) -> Array:
    return envelope(p).climb_rate_m_s


def _cause(p: Performance) -> str:
    spare = shown(flat_out(p).excess_N[0, 0])
    return f"at rest full throttle leaves {spare} N over weight and drag; here nothing is left"


def _explain(p: Performance) -> tuple[Step, ...]:
    states = flat_out(p)
    return (
        Step(
            words="Straight up along the rotor axis the thrust falls and the drag grows with "
            "speed, until they and the weight balance.",
            formula="n T(V) = W + A(V), duty = 1",
            numbers=f"{shown(states.excess_N[0, 0])} N are left at rest; balanced at "
            f"{shown(envelope(p).climb_rate_m_s)} m/s",
        ),
    )


def _missing(p: Performance) -> str:
    return missing_flat_out(p)


KIND = FigureKind(
    id="climb_rate",
    label="climb straight up at full throttle",
    display=CLIMB,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Level-flight force balance, see Level flight",
    missing=_missing,
)
