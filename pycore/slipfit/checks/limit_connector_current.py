"""Current through the pack's connector against its class."""

from __future__ import annotations

from slipfit.checks.limit import Asked, LimitKind, first
from slipfit.flight.flight import flight_of
from slipfit.flight.inputs import pack_of
from slipfit.flight.performance import Performance
from slipfit.flight.wiring import BURST_TIME_S, CONNECTOR_TIME_S, lasting_current
from slipfit.physics.connector import CONNECTORS, connector_named
from slipfit.units import CURRENT


def _asked(p: Performance) -> Asked | None:
    flight = flight_of(p)
    if not flight.able[0]:
        return None
    connector = connector_named(pack_of(p.build).connector)
    lasting, burst = _felt(p)
    if lasting / connector.continuous_A >= burst / connector.burst_A:
        return Asked(value=lasting, allowed=connector.continuous_A)
    return Asked(value=burst, allowed=connector.burst_A)


def _felt(p: Performance) -> tuple[float, float]:
    """Effective current over about a minute, and over about ten seconds."""
    flight = flight_of(p)
    lasting, burst = (
        first(flight.peak(lasting_current(flight, time)))
        for time in (CONNECTOR_TIME_S, BURST_TIME_S)
    )
    return lasting, burst


def _fix(p: Performance, asked: Asked) -> str:
    lasting, burst = _felt(p)
    enough = (c for c in CONNECTORS if lasting <= c.continuous_A and burst <= c.burst_A)
    found = next(enough, None)
    if found is None:
        return "no class in the table carries this: less pitch, fewer cells or shorter passes"
    return f"a {found.name} on pack and frame, or shorter passes"


LIMIT = LimitKind(
    id="connector_current",
    kind="pack",
    subject="connector current",
    when="as it feels the flight",
    display=CURRENT,
    asked=_asked,
    basis="continuous and burst current of the connector's class, from memory; effective current "
    "over a minute and over ten seconds, whichever is worse",
    fix=_fix,
    flown=True,
)
