"""Hottest that the ESC board gets over the flight."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.flight import flight_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import TEMPERATURE


def _value(p: Performance) -> Array:
    flight = flight_of(p)
    return flight.answer(flight.peak(flight.board_K))


def _cause(p: Performance) -> str:
    flight = flight_of(p)
    hottest = int(flight.when_greatest(flight.board_K))
    return f"in the leg '{flight.label(hottest)}', all channels on one board"


def _explain(p: Performance) -> tuple[Step, ...]:
    flight = flight_of(p)
    k = int(flight.when_greatest(flight.board_K))
    return (
        Step(
            words="Losses of all channels, stored in the board and carried off by the air in the "
            "bay; here the step at the peak.",
            formula="C dT/dt = n P ESC − h A (T − T air)",
            numbers=f"{flight.circuit.motors} × {shown(flight.steps.esc_W[k])} W, air at "
            f"{shown(flight.circuit.cooling.bay_speed(flight.speed_m_s[k]))} m/s past the board",
        ),
    )


def _missing(p: Performance) -> str:
    return flight_of(p).why_not()


KIND = FigureKind(
    id="esc_board_peak",
    label="hottest ESC board of the flight",
    display=TEMPERATURE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Flight over time, see Heat and the flight",
    missing=_missing,
)
