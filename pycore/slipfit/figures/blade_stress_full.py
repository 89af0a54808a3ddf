"""Pull in a blade at top speed."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.inputs import prop_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.physics.material import MATERIALS
from slipfit.structure import blade_tension
from slipfit.units import STRESS


def _value(p: Performance) -> Array:
    return blade_tension(p)


def _cause(p: Performance) -> str:
    prop = prop_of(p.build)
    strength = MATERIALS[prop.material].strength_Pa
    share = 100 * blade_tension(p) / strength
    return f"{shown(share, 2)} % of what {prop.material} takes once; bending and nicks come on top"


def _explain(p: Performance) -> tuple[Step, ...]:
    prop = prop_of(p.build)
    return (
        Step(
            words="Everything outboard of a section pulls at it.",
            formula="σ = ρ ω² ∫ S x dx / S",
            numbers=f"{shown(p.top.trim.omega_rad_s, 4)} rad/s, "
            f"{shown(MATERIALS[prop.material].density_kg_m3, 4)} kg/m³",
        ),
    )


KIND = FigureKind(
    id="blade_stress_full",
    label="pull in a blade by its own weight, flat out",
    display=STRESS,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Rod in its own centrifugal force, see Structure",
)
