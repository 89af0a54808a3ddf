"""Antennas: the length that a band asks for."""

from __future__ import annotations

from typing import Final

from slipfit.errors import require_range

_LIGHT_SPEED_M_S: Final = 299_792_458.0  # exact, SI
# A wire of ordinary thickness resonates a little short of half a wave. Common practice, no source.
HALF_WAVE_SHORTENING: Final = 0.95


def half_wave(band_Hz: float) -> float:
    """Length of a half-wave antenna, tip to tip. [m]"""
    require_range("half_wave", "band_Hz", band_Hz, 1e6, 1e11, "radio bands")
    return HALF_WAVE_SHORTENING * _LIGHT_SPEED_M_S / band_Hz / 2
