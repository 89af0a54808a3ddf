"""The motor at the pack's voltage: torque, current and efficiency over its speed, and what level
flight asks of it."""

from __future__ import annotations

import numpy as np

from slipfit.charts.chart import Chart, Mark, Series, gaps
from slipfit.flight.performance import Performance
from slipfit.numerics import Array, Mask
from slipfit.physics.esc import HOT_JUNCTION_K, fet_resistance
from slipfit.physics.motor import best_efficiency_current, no_load_current
from slipfit.units import CURRENT, PERCENT, ROTATION, TORQUE

POINTS = 41
_MOST = 1.5  # of the current at full throttle standing still: no propeller asks for more


def motor_chart(p: Performance, samples: Performance | None) -> Chart:
    """The chart of a build: the motor warm, on the voltage that the pack has flat out."""
    drive, electric = p.top.drive, p.electric

    def number(value: object) -> float:
        return float(np.ravel(np.asarray(value, dtype=float))[0])

    kv, R = number(electric.kv_rad_s_V), number(electric.resistance_ohm)
    volts, flying = number(drive.pack_voltage_V), bool(p.can_hover[0, 0])
    if not np.isfinite(volts) or not flying:
        volts = number(electric.open_circuit_V)
    omega = np.linspace(0.25, 1.0, POINTS) * kv * volts
    free = np.asarray(
        no_load_current(
            np.minimum(omega, 8_000.0),
            number(electric.no_load_current_A),
            number(electric.no_load_omega_rad_s),
        )
    )
    switches = 2.0 * number(fet_resistance(electric.fet_resistance_ohm, HOT_JUNCTION_K))
    current = (volts - omega / kv) / (R + switches)
    torque = (current - free) / kv
    most = _MOST * np.nanmax([number(p.standing.drive.motor_current_A), 1.0])
    there = (current <= most) & (torque >= 0.0)
    taken = (volts - current * switches) * current
    efficiency = np.where(there, omega * torque / np.maximum(taken, 1e-9), 0.0)
    asked, known = _asked(p, omega)
    best = number(best_efficiency_current(volts, R, free[-1]))
    return Chart(
        id="motor_chart",
        title="The motor at the pack's voltage",
        caption=_caption(p, volts, best, kv * (volts - best * R)),
        shape="curves",
        x_label="turning speed",
        x_display=ROTATION,
        x=tuple(float(w) for w in omega),
        series=(
            Series(
                id="torque", label="torque at full throttle", display=TORQUE,
                values=gaps(torque, there),
            ),
            Series(
                id="asked", label="torque that level flight asks for", display=TORQUE,
                values=gaps(asked, known),
            ),
            Series(
                id="current", label="current at full throttle", display=CURRENT,
                values=gaps(current, there),
            ),
            Series(
                id="efficiency", label="efficiency at full throttle", display=PERCENT,
                values=gaps(efficiency, there),
            ),
        ),
        marks=_marks(p),
    )  # fmt: skip


def _asked(p: Performance, omega: Array) -> tuple[Array, Mask]:
    """Torque of level flight over rotor speed, from the slowest turning on, and where it is."""
    flyable = np.flatnonzero(p.curve.flyable[0])
    turning = p.curve.trim.omega_rad_s[0, flyable]
    if len(turning) < 2:
        return np.zeros_like(omega), np.zeros(omega.shape, dtype=bool)
    first = int(np.argmin(turning))
    rising, torque = turning[first:], p.curve.trim.rotor.torque_Nm[0, flyable][first:]
    there = (omega >= rising[0]) & (omega <= rising[-1]) if len(rising) > 1 else omega < 0.0
    return np.interp(omega, rising, torque), there


def _marks(p: Performance) -> tuple[Mark, ...]:
    if not p.can_hover[0, 0]:
        return ()
    return (
        Mark(label="hover", x=float(p.hover.trim.omega_rad_s[0, 0])),
        Mark(label="best range", x=float(p.cruise.trim.omega_rad_s[0, 0])),
        Mark(label="flat out", x=float(p.top.trim.omega_rad_s[0, 0])),
    )


def _caption(p: Performance, volts: float, best_A: float, best_omega: float) -> str:
    best = f"{CURRENT.text(best_A, 'metric')}, near {ROTATION.text(best_omega, 'metric')}"
    if not p.can_hover[0, 0]:
        return (
            f"This build cannot hold its weight. On {volts:.1f} V its motor is most efficient at "
            f"{best}."
        )
    state = p.top
    shaft = float(state.trim.rotor.torque_Nm[0, 0] * state.trim.omega_rad_s[0, 0])
    drawn = float(state.drive.motor_voltage_V[0, 0] * state.drive.motor_current_A[0, 0])
    return (
        f"Flat out the motor turns {shaft / drawn:.0%} of its power into shaft power on "
        f"{volts:.1f} V; it would be most efficient at {best}. Hover and best range lie below the "
        "curve of full throttle, since the ESC gives the motor part of the voltage."
    )
