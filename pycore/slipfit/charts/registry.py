"""Every chart, by the id that authors write in their notes."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from slipfit.charts.campbell import campbell
from slipfit.charts.chart import Chart
from slipfit.charts.climb import climb_chart
from slipfit.charts.dash import dash_chart
from slipfit.charts.drag_cost import drag_cost
from slipfit.charts.drag_split import drag_split
from slipfit.charts.flight_energy import flight_energy
from slipfit.charts.flight_sheet import flight_sheet
from slipfit.charts.level_flight import level_flight
from slipfit.charts.motor_chart import motor_chart
from slipfit.charts.pressure import pressure
from slipfit.charts.shot import shot_chart
from slipfit.flight.performance import Performance

CHARTS: Mapping[str, Callable[[Performance, Performance | None], Chart]] = {
    "level_flight": level_flight,
    "drag_split": drag_split,
    "flight_sheet": flight_sheet,
    "flight_energy": flight_energy,
    "motor_chart": motor_chart,
    "drag_cost": drag_cost,
    "dash": dash_chart,
    "climb": climb_chart,
    "pressure": pressure,
    "campbell": campbell,
    "shot": shot_chart,
}
