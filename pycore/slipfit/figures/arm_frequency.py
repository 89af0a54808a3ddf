"""Lowest bending frequency of an arm."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.structure import ROOT_SPREAD, lowest_mode
from slipfit.units import FREQUENCY


def _value(p: Performance) -> Array:
    mode = lowest_mode(p.build)
    return np.full(p.can_hover.shape, mode.frequency_Hz if mode else np.nan)


def _cause(p: Performance) -> str:
    mode = lowest_mode(p.build)
    assert mode is not None
    rpm = shown(mode.frequency_Hz * 60, 4)
    return f"{mode.name}: one turn meets it at {rpm} rpm; tap it and listen"


def _explain(p: Performance) -> tuple[Step, ...]:
    mode = lowest_mode(p.build)
    assert mode is not None
    return (
        Step(
            words="A beam held at its root, with motor, propeller and what else stands at its end.",
            formula="f = λ / 2π √(E I / m L³)",
            numbers=f"E {shown(mode.modulus_Pa / 1e9)} GPa, "
            f"I {shown(mode.second_moment_m4 * 1e12, 4)} mm⁴, L {shown(mode.length_m * 1e3)} mm, "
            f"arm {shown(mode.arm_mass_kg * 1e3)} g, end "
            f"{shown(mode.end_mass_kg * 1e3)} g: {shown(mode.rigid_Hz)} Hz",
        ),
        Step(
            words="A root that is bolted or glued gives a little.",
            formula="f × (1 − give)",
            numbers=f"{shown(mode.rigid_Hz)} Hz × {1 - mode.root_give:g}",
            source="10 to 30 %: common practice, no source",
        ),
    )


def _missing(p: Performance) -> str:
    return "" if lowest_mode(p.build) else "the frame file describes no arm as a beam"


KIND = FigureKind(
    id="arm_frequency",
    label="lowest bending of an arm",
    display=FREQUENCY,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Cantilever with an end mass, see Structure",
    missing=_missing,
    spread=lambda p: ROOT_SPREAD,
)
