"""Where the energy of a flight goes: one bar for each kind of leg."""

from __future__ import annotations

from slipfit.charts.chart import Chart, Series
from slipfit.flight.flight import flight_of
from slipfit.flight.performance import Performance
from slipfit.units import ENERGY


def flight_energy(p: Performance, samples: Performance | None) -> Chart:
    """The chart of a build; legs of one name are added up, in the order in which they come."""
    flight = flight_of(p)
    by_leg: dict[str, float] = {}
    if flight.able[0]:
        for k, energy in enumerate(flight.energy_J[:, 0]):
            by_leg[flight.label(k)] = by_leg.get(flight.label(k), 0.0) + float(energy)
        by_leg = {leg: energy for leg, energy in by_leg.items() if energy > 0.0}
    total = sum(by_leg.values())
    caption = "This build cannot fly these legs, so they take no energy."
    if total > 0.0:
        most = max(by_leg, key=lambda leg: by_leg[leg])
        caption = (
            f"The flight takes {ENERGY.text(total, 'metric')} from the pack, "
            f"{by_leg[most] / total:.0%} of it for '{most}'."
        )
    return Chart(
        id="flight_energy",
        title="Energy by leg",
        caption=caption,
        shape="bars",
        names=tuple(by_leg) or ("no flight",),
        series=(
            Series(
                id="energy",
                label="energy from the pack",
                display=ENERGY,
                values=tuple(by_leg.values()) or (None,),
            ),
        ),
    )
