"""Wires and the connector over a flight: how warm leads get, what the connector really carries."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from slipfit.constants import ZERO_CELSIUS_K
from slipfit.flight.flight import Flight, flight_of
from slipfit.flight.inputs import pack_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array, Real
from slipfit.physics.wire import SOLD_GAUGES, silicone_wire_diameter, wire_temperature_after

STILL_WIRE_W_M2_K = 15.0  # leads inside a body; memory: 10 to 20
# Silicone insulation bears 200 degC; the soft solder at the ends of a lead melts at 183 degC and
# loses its strength before that. Memory.
WIRE_LIMIT_K = ZERO_CELSIUS_K + 150.0
# A mated pair warms up in about a minute and bears its burst current for some ten seconds; memory.
CONNECTOR_TIME_S, BURST_TIME_S = 60.0, 10.0


def pack_lead_gauge(p: Performance) -> int:
    """The thinner of the pack's own leads and the frame's. AWG number."""
    return max(p.build.frame.wire.pack_gauge, pack_of(p.build).lead_gauge)


@lru_cache(maxsize=8)
def pack_lead_peak(p: Performance) -> Array:
    """Hottest that the thinner pack leads get over the flight, (samples,). [K]"""
    flight = flight_of(p)
    return _lead_peak(p, flight, float(pack_lead_gauge(p)), flight.steps.pack_current_A)


@lru_cache(maxsize=8)
def motor_lead_peak(p: Performance) -> Array:
    """Hottest that the motor leads get over the flight, (samples,). [K]

    Each of the three carries the motor current for two thirds of the time.
    """
    flight = flight_of(p)
    effective = np.sqrt(2.0 / 3.0) * flight.steps.motor_current_A
    return _lead_peak(p, flight, float(p.build.frame.wire.motor_gauge), effective)


@lru_cache(maxsize=8)
def thinnest_pack_lead(p: Performance) -> Array:
    """Thinnest pack lead sold that stays below the limit over the flight, (samples,); NaN where
    none does. AWG number."""
    return _thinnest(p, flight_of(p).steps.pack_current_A)


@lru_cache(maxsize=8)
def thinnest_motor_lead(p: Performance) -> Array:
    """Thinnest motor lead sold that stays below the limit over the flight. AWG number."""
    return _thinnest(p, np.sqrt(2.0 / 3.0) * flight_of(p).steps.motor_current_A)


def _thinnest(p: Performance, current: Array) -> Array:
    flight = flight_of(p)
    gauges = np.array(SOLD_GAUGES, dtype=float)
    peaks = _lead_peak(p, flight, gauges, current)  # (samples, gauges)
    fine = np.where(peaks <= WIRE_LIMIT_K, gauges, -np.inf).max(axis=-1)
    return np.where(np.isfinite(fine), fine, np.nan)


def _lead_peak(p: Performance, flight: Flight, gauge: Real, current: Array) -> Array:
    """Peaks (samples,), or (samples, gauges) for several gauges."""
    air_K = p.build.day.air_temperature_K
    dt, flown = flight.steps.duration_s, flight.flown
    if np.ndim(gauge):
        dt, current, flown = dt[..., None], current[..., None], flown[..., None]
    # wire thicker than the table of insulated wire is judged as the thickest there
    wire = np.maximum(gauge, SOLD_GAUGES[0])
    around = silicone_wire_diameter(wire)
    first, second = (
        np.asarray(
            wire_temperature_after(
                dt, air_K + more, np.minimum(current, _MOST_A), wire, around, STILL_WIRE_W_M2_K,
                air_K,
            )
        )
        for more in (0.0, 1.0)
    )  # fmt: skip
    slope, value = second - first, np.full(first.shape[1:], air_K)
    peak = value
    for k in range(len(first)):
        step = np.minimum(first[k] + slope[k] * (value - air_K), _HOTTEST_K)
        value = np.where(flown[k], step, value)
        peak = np.maximum(peak, value)
    return np.asarray(peak)


# What keeps numbers finite for wires that would have melted long before.
_MOST_A, _HOTTEST_K = 400.0, 1500.0


def lasting_current(flight: Flight, time_s: float) -> Array:
    """Effective pack current as something feels it that warms up in a time, at the ends of steps:
    (steps, samples). [A]"""
    decay = np.exp(-flight.steps.duration_s / time_s)
    square = flight.steps.pack_current_A**2
    first = (1.0 - decay) * square
    return np.sqrt(flight.scan(first, first + decay, 0.0))
