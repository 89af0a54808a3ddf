"""Capacitance beside the ESC that keeps its ripple small."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.inputs import esc_of, pack_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.physics.bay import bus_capacitance
from slipfit.physics.esc import chopped_share
from slipfit.units import CAPACITANCE

RIPPLE_V = 0.5  # peak to peak, what electronics beside it bear without noise; memory
VOLTAGE_MARGIN = 1.3  # rated over full pack, for spikes of the leads; common practice, no source
RATED_V = (16.0, 25.0, 35.0, 50.0, 63.0)  # as capacitors are sold; memory


def rated_V(p: Performance) -> float:
    """Smallest rated voltage sold that leaves the margin; the largest where none does."""
    pack = pack_of(p.build)
    needed = VOLTAGE_MARGIN * pack.cell_count * pack.full_cell_V
    return next((rated for rated in RATED_V if rated >= needed), RATED_V[-1])


def _needed(p: Performance) -> Array:
    """At each speed of level flight, (samples, speeds)."""
    drive, esc = p.curve.drive, esc_of(p.build)
    duty = np.clip(drive.duty, 0.0, 1.0)
    current = (
        p.build.rotor_count * drive.motor_current_A * chopped_share(duty, esc.pwm_frequency_Hz)
    )
    needed = bus_capacitance(current, duty, esc.pwm_frequency_Hz, RIPPLE_V)
    return np.where(p.curve.flyable, needed, 0.0)


def _value(p: Performance) -> Array:
    return np.where(p.can_hover, _needed(p).max(axis=1, keepdims=True), np.nan)


def _cause(p: Performance) -> str:
    return f"rated for {rated_V(p):.0f} V or more, made for switching, on short legs at the board"


def _explain(p: Performance) -> tuple[Step, ...]:
    k = int(np.argmax(_needed(p)[0]))
    drive = p.curve.drive
    return (
        Step(
            words="The ESC chops the motors' current; between two pulses the capacitor carries it, "
            "since the leads keep fast changes from the pack. Worst speed of level flight, all "
            "channels in step.",
            formula="C = n i D (1 − D) / (f ΔV)",
            numbers=f"{p.build.rotor_count} × {shown(drive.motor_current_A[0, k])} A, duty "
            f"{shown(drive.duty[0, k])}, {shown(esc_of(p.build).pwm_frequency_Hz / 1e3)} kHz, "
            f"{RIPPLE_V} V",
            source=f"{RIPPLE_V} V: memory",
        ),
    )


KIND = FigureKind(
    id="capacitor",
    label="capacitor beside the ESC, at least",
    display=CAPACITANCE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Charge balance of a chopper, see Heat and the flight",
)
