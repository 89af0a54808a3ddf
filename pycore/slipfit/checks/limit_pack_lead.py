"""Hottest pack lead of the flight against its solder joints."""

from __future__ import annotations

from slipfit.checks.limit import Asked, LimitKind, first
from slipfit.checks.limit_lead import lead_fix
from slipfit.flight.flight import flight_of
from slipfit.flight.performance import Performance
from slipfit.flight.wiring import WIRE_LIMIT_K, pack_lead_peak, thinnest_pack_lead
from slipfit.units import TEMPERATURE


def _asked(p: Performance) -> Asked | None:
    flight = flight_of(p)
    if not flight.able[0]:
        return None
    hottest = first(pack_lead_peak(p))
    air_K = p.build.day.air_temperature_K
    return Asked(value=hottest, allowed=WIRE_LIMIT_K, base=air_K)


def _fix(p: Performance, asked: Asked) -> str:
    return lead_fix(thinnest_pack_lead(p), "leads of the pack and of the frame")


LIMIT = LimitKind(
    id="pack_lead",
    kind="pack",
    subject="pack lead temperature",
    when="at its hottest in the flight",
    display=TEMPERATURE,
    asked=_asked,
    basis="150 °C at the solder joints of silicone wire: from memory, no source; resistance of "
    "copper by gauge (ASTM B258, IEC 60028). Ratios are those of rises above the day's air",
    fix=_fix,
    flown=True,
)
