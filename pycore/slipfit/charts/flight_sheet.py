"""The flight sheet: pack, charge and temperatures over a flight, its legs as columns."""

from __future__ import annotations

import numpy as np

from slipfit.charts.chart import Chart, Mark, Series, Stretch, gaps
from slipfit.flight.flight import BOARD_LIMIT_K, ENDS, PACK_LIMIT_K, Flight, flight_of, with_rounds
from slipfit.flight.inputs import motor_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array, Mask, quantiles
from slipfit.units import DURATION, PERCENT, TEMPERATURE, TIMES, VOLTAGE, Display


def flight_sheet(p: Performance, samples: Performance | None) -> Chart:
    """The chart of a build. Its ranges are those of samples that all fly the build's own legs, as
    often as it does, leg by leg beside it: free to choose, each would fly another number of passes
    and at one time be in another leg."""
    flight = flight_of(p)
    shown = flight.flown[:, 0] & (flight.steps.duration_s[:, 0] > 0.0)
    ends = np.cumsum(flight.steps.duration_s[shown, 0])
    day = p.build.day
    able = bool(flight.able[0]) and bool(shown.any())
    bands = _bands(flight, shown, samples) if samples is not None and able else {}

    def series(id: str, label: str, display: Display, start: float, values: Array) -> Series:
        line = (start, *(float(v) for v in values[shown, 0]))
        low, high = ((start, *ends) for ends in bands[id]) if id in bands else ((), ())
        return Series(id=id, label=label, display=display, values=line, low=low, high=high)

    state, air = flight.condition, day.air_temperature_K
    volts = flight.steps.pack_least_V
    rest = float(flight.circuit.open_circuit_V(flight.circuit.start.charge)[0])
    return Chart(
        id="flight_sheet",
        title="Flight sheet",
        caption=_caption(p, flight, bool(bands)),
        shape="curves",
        x_label="time",
        x_display=DURATION,
        x=(0.0, *(float(t) for t in ends)) if able else (0.0, 60.0),
        series=(
            series("voltage", "pack voltage under load", VOLTAGE, rest, volts),
            series("charge", "charge", PERCENT, day.charge, state.charge),
            series("winding", "winding", TEMPERATURE, air, state.winding_K),
            series("board", "ESC board", TEMPERATURE, air, flight.board_K),
            series("pack", "pack", TEMPERATURE, day.pack_temperature_K, state.pack_K),
        )
        if able
        else (Series(id="charge", label="charge", display=PERCENT, values=(None, None)),),
        stretches=_stretches(flight, shown) if able else (),
        marks=_marks(p, flight, shown, ends) if able else (),
    )


Ends = tuple[tuple[float | None, ...], tuple[float | None, ...]]


def _bands(flight: Flight, shown: Mask, samples: Performance) -> dict[str, Ends]:
    """Ends of the ranges at the ends of the steps that are shown; gaps where more than a tenth of
    the samples cannot fly these legs or have a pack that cannot give what it is asked for."""
    drawn = with_rounds(samples, flight_of(samples), flight.rounds_flown)
    if drawn is None:
        return {}
    places, ours = drawn.places(), flight.places()[shown[flight.flown[:, 0]], 0]
    if round(places[-1, 0]) != round(ours[-1]):
        return {}
    state, able = drawn.condition, drawn.able
    empty = ~drawn.steps.deliverable | (state.charge <= 0.0)
    until = np.where(empty, places, np.inf).min(axis=0)
    # what is left of an empty pack is at the low end of any range
    enough = (able[:, None] & (ours < until[:, None])).mean(axis=0) >= 0.9

    def ends(values: Array) -> Ends:
        rows = zip(places.T[able], values.T[able], strict=True)
        drawn = np.array([np.interp(ours, at, row) for at, row in rows])
        low, high = quantiles(drawn, (0.1, 0.9)) if enough.any() else np.zeros((2, len(ours)))
        return gaps(low, enough), gaps(high, enough)

    return {
        "voltage": ends(drawn.steps.pack_least_V),
        "charge": ends(state.charge),
        "winding": ends(state.winding_K),
        "board": ends(drawn.board_K),
        "pack": ends(state.pack_K),
    }


def _stretches(flight: Flight, shown: Mask) -> tuple[Stretch, ...]:
    found: list[Stretch] = []
    time, last, passes = 0.0, -1, 0
    for k in np.flatnonzero(shown):
        dt = float(flight.steps.duration_s[k, 0])
        index = int(flight.stretch_of[k])
        if index == last:
            before = found.pop()
            found.append(
                Stretch(label=before.label, low=before.low, high=time + dt, short=before.short)
            )
        else:
            leg = flight.stretches[index].leg
            label, short = leg.label, ""
            if leg.kind == "pass":
                passes += 1
                short = str(passes)
                label = f"{label}, pass {passes}"
            found.append(Stretch(label=label, low=time, high=time + dt, short=short))
        last, time = index, time + dt
    return tuple(found)


def _marks(p: Performance, flight: Flight, shown: Mask, ends: Array) -> tuple[Mark, ...]:
    limits = (
        ("winding limit", flight.condition.winding_K, motor_of(p.build).max_winding_temperature_K),
        ("ESC board limit", flight.board_K, BOARD_LIMIT_K),
        ("pack limit", flight.condition.pack_K, PACK_LIMIT_K),
    )
    marks = []
    for label, values, limit in limits:
        over = np.flatnonzero(values[shown, 0] > limit)
        if len(over):
            marks.append(Mark(label=label, x=float(ends[over[0]])))
    return tuple(marks)


def _caption(p: Performance, flight: Flight, ranged: bool) -> str:
    if not p.can_hover[0, 0]:
        return "This build cannot hold its weight, so there is no flight to draw."
    if not flight.able[0]:
        return f"There is no flight to draw: {flight.why_not()}."
    minutes = DURATION.text(float(flight.ends_s[0]), "metric")
    landing = PERCENT.text(float(flight.condition.charge[-1, 0]), "metric")
    said = f"After {minutes} {ENDS[flight.ended_by[0]]}, with {landing} of the charge left."
    if flight.plan.round and np.isfinite(flight.passes[0]):
        said += f" The pack would give {TIMES.text(float(flight.passes[0]), 'metric')} passes."
    said += " Columns are legs, and the numbers above them passes." if flight.plan.round else ""
    if ranged:
        said += (
            " Around the lines lie their 10–90 % ranges, at the same place of the same legs: every "
            "sample flies as many passes, even where its pack would end them sooner or later."
        )
    hottest = float(flight.peak(flight.condition.winding_K)[0])
    return f"{said} The windings get no hotter than {TEMPERATURE.text(hottest, 'metric')}."
