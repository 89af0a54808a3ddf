"""Fit of a receiver's antenna: its length, which the band decides, along the body."""

from __future__ import annotations

from slipfit.build import Build
from slipfit.checks.verdict import Verdict
from slipfit.checks.wording import both, fit_verdict, says, size, state_of
from slipfit.fit.antenna import HALF_WAVE_SHORTENING, half_wave
from slipfit.parts.receiver import Receiver

# Ends of an antenna stay clear of pack, carbon and the tail's edge. Common practice, no source.
END_ROOM_M = 20.0e-3


def judge_receiver_antenna(build: Build) -> Verdict | None:
    """The antenna laid straight along the body; None on a frame without one."""
    receiver, outline = build.parts.get("receiver"), build.frame.outline
    if not isinstance(receiver, Receiver) or len(outline.stations_m) < 2:
        return None
    room = outline.stations_m[-1] - outline.stations_m[0]
    length = receiver.antenna_length_m
    gap = 0.0 if abs(room - length) < 1e-9 else room - length
    state = state_of(gap, END_ROOM_M)
    natural = half_wave(receiver.band_Hz)
    return fit_verdict(
        "receiver_antenna", "receiver", "Receiver antenna", state, gap,
        lambda system: (
            f"{says('Receiver antenna', state, gap, 'in length', system)}: "
            f"{size(length, system)} straight along the body"
        ),
        f"The frame file's body, {both(room)} long; {both(END_ROOM_M)} less is clear (common "
        f"practice). Half a wave of its band, shortened by "
        f"{100 * (1 - HALF_WAVE_SHORTENING):.0f} %, is {both(natural)}.",
        "" if state == "clear" else
        "a receiver of a higher band has a shorter antenna; this one must follow the shell or "
        "hang out of the tail",
    )  # fmt: skip
