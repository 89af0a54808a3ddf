"""Units: the suffixes that names carry, the units that people may type, and how figures are shown.

Everything inside the core is SI. Text with a unit is turned into SI once, by `quantity_from_text`,
which only `parts/reading.py` and `frame/reading.py` call; figures are turned into text once, by
`Display.text`.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from slipfit.errors import InputError, nearest

# Suffix of a name -> the unit its value is in, as written in docstrings.
SUFFIXES: Final[Mapping[str, str]] = {
    "m": "m", "m2": "m2", "m3": "m3", "m_s": "m/s", "m_s2": "m/s2", "kg": "kg", "kg_m3": "kg/m3",
    "kg_m2": "kg m2", "N": "N", "Nm": "N m", "N_m": "N/m", "rad": "rad", "rad_s": "rad/s",
    "rev_s": "rev/s", "s": "s", "Hz": "Hz", "A": "A", "V": "V", "W": "W", "J": "J", "C": "C",
    "F": "F", "ohm": "ohm", "ohm_m": "ohm m", "K": "K", "Pa": "Pa", "Pa_s": "Pa s",
    "rad_s_V": "rad/(s V)", "W_K": "W/K", "J_K": "J/K", "J_kg_K": "J/(kg K)", "m2_s": "m2/s",
    "per_K": "1/K", "per_rad": "1/rad", "Nm_A": "N m/A", "W_m2_K": "W/(m2 K)", "W_m_K": "W/(m K)",
    "ohm_per_m": "ohm/m", "m4": "m4",
}  # fmt: skip

_INCH = 0.0254  # m; exact, international yard and pound agreement of 1959
_POUND = 0.45359237  # kg; exact, same agreement
_RPM = math.tau / 60.0

# dimension -> {symbol people may type: (factor to SI, offset added after the factor)}
UNITS: Final[Mapping[str, Mapping[str, tuple[float, float]]]] = {
    "length": {
        "m": (1.0, 0.0), "mm": (1e-3, 0.0), "cm": (1e-2, 0.0), "um": (1e-6, 0.0),
        "km": (1e3, 0.0), "in": (_INCH, 0.0), "ft": (12 * _INCH, 0.0), "mi": (1609.344, 0.0),
    },
    "area": {
        "m2": (1.0, 0.0), "mm2": (1e-6, 0.0), "cm2": (1e-4, 0.0), "in2": (_INCH**2, 0.0),
    },
    "inertia": {
        "kg m2": (1.0, 0.0), "kg cm2": (1e-4, 0.0), "g cm2": (1e-7, 0.0),
        "lb in2": (_POUND * _INCH**2, 0.0), "oz in2": (_POUND / 16.0 * _INCH**2, 0.0),
    },
    "volume": {"m3": (1.0, 0.0), "mm3": (1e-9, 0.0), "cm3": (1e-6, 0.0)},
    "mass": {
        "kg": (1.0, 0.0), "g": (1e-3, 0.0), "oz": (_POUND / 16, 0.0), "lb": (_POUND, 0.0),
    },
    "time": {"s": (1.0, 0.0), "ms": (1e-3, 0.0), "min": (60.0, 0.0), "h": (3600.0, 0.0)},
    "speed": {
        "m/s": (1.0, 0.0), "km/h": (1 / 3.6, 0.0), "mph": (0.44704, 0.0),
        "kn": (1852 / 3600, 0.0), "ft/s": (12 * _INCH, 0.0),
    },
    "angle": {"rad": (1.0, 0.0), "deg": (math.pi / 180, 0.0)},
    "rotation": {"rad/s": (1.0, 0.0), "rpm": (_RPM, 0.0)},
    "frequency": {"Hz": (1.0, 0.0), "kHz": (1e3, 0.0), "MHz": (1e6, 0.0), "GHz": (1e9, 0.0)},
    "temperature": {
        "K": (1.0, 0.0), "C": (1.0, 273.15), "F": (5 / 9, 273.15 - 32 * 5 / 9),
    },
    "current": {"A": (1.0, 0.0), "mA": (1e-3, 0.0)},
    "voltage": {"V": (1.0, 0.0), "mV": (1e-3, 0.0)},
    "power": {"W": (1.0, 0.0), "mW": (1e-3, 0.0), "kW": (1e3, 0.0)},
    "energy": {
        "J": (1.0, 0.0), "kJ": (1e3, 0.0), "Wh": (3600.0, 0.0),
        "ft lbf": (12 * _INCH * _POUND * 9.80665, 0.0),
    },
    "charge": {"C": (1.0, 0.0), "Ah": (3600.0, 0.0), "mAh": (3.6, 0.0)},
    "capacitance": {"F": (1.0, 0.0), "mF": (1e-3, 0.0), "uF": (1e-6, 0.0)},
    "resistance": {"ohm": (1.0, 0.0), "mohm": (1e-3, 0.0)},
    "kv": {"rpm/V": (_RPM, 0.0), "rad/(s V)": (1.0, 0.0)},
    "pressure": {
        "Pa": (1.0, 0.0), "hPa": (100.0, 0.0), "kPa": (1e3, 0.0), "MPa": (1e6, 0.0),
        "psi": (_POUND * 9.80665 / _INCH**2, 0.0),
    },
    "torque": {
        "N m": (1.0, 0.0), "N cm": (1e-2, 0.0), "lbf in": (_POUND * 9.80665 * _INCH, 0.0),
    },
    "force": {"N": (1.0, 0.0), "gf": (9.80665e-3, 0.0), "kgf": (9.80665, 0.0)},
    "ratio": {"": (1.0, 0.0), "%": (1e-2, 0.0)},
}  # fmt: skip

# What people type for a symbol above: signs, plurals, capitals that carry no meaning.
_SPELLINGS: Final[Mapping[str, str]] = {
    "µm": "um", "μm": "um", '"': "in", "″": "in", "inch": "in", "inches": "in", "°": "deg",
    "degrees": "deg", "°C": "C", "degC": "C", "°F": "F", "degF": "F", "Ω": "ohm", "ohms": "ohm",
    "mΩ": "mohm", "mOhm": "mohm", "kmh": "km/h", "kph": "km/h", "RPM": "rpm", "rpm/v": "rpm/V",
    "RPM/V": "rpm/V", "kv": "rpm/V", "KV": "rpm/V", "Kv": "rpm/V", "grams": "g", "gram": "g",
    "mah": "mAh", "MAH": "mAh", "ah": "Ah", "mm²": "mm2", "cm²": "cm2", "m²": "m2", "Nm": "N m",
    "Ncm": "N cm", "knots": "kn", "kt": "kn", "sec": "s", "hours": "h", "minutes": "min",
}  # fmt: skip

_NUMBER = re.compile(r"\s*([+\-−]?\s*\d+(?:[.,]\d+)?(?:[eE][+\-]?\d+)?)\s*(.*?)\s*$")


def quantity_from_text(who: str, name: str, text: str, dimension: str) -> float:
    """SI value of text such as `"5.1 in"`, `"-8 C"` or `"1600 mAh"`.

    A decimal comma is read as a point. InputError says which units the dimension allows.
    """
    units = UNITS[dimension]
    known = ", ".join(unit or "a plain number" for unit in units)
    match = _NUMBER.match(text) if len(text) <= 40 else None
    if match is None:
        raise InputError(
            f"{who}: {name} must be a number with a unit ({known}), got '{text[:40]}'", field=name
        )
    number = float(match[1].replace(" ", "").replace("−", "-").replace(",", "."))
    symbol = _SPELLINGS.get(match[2], match[2])
    if symbol not in units:
        got = f"'{match[2]}'" if match[2] else "no unit"
        raise InputError(
            f"{who}: {name} must carry a unit of {dimension} ({known}), got {got} in '{text}'",
            field=name,
        )
    factor, offset = units[symbol]
    value = number * factor + offset
    if not math.isfinite(value):
        raise InputError(f"{who}: {name} must be finite, got '{text}'", field=name)
    return value


def in_unit(value_si: float, dimension: str, symbol: str) -> float:
    """An SI value in one of the units of its dimension."""
    if symbol not in UNITS[dimension]:
        raise InputError(
            f"units: no unit '{symbol}' of {dimension}{nearest(symbol, UNITS[dimension])}"
        )
    factor, offset = UNITS[dimension][symbol]
    return (value_si - offset) / factor


_SHOWN_AS: Final[Mapping[str, str]] = {
    "C": "°C", "F": "°F", "deg": "°", "ohm": "Ω", "mohm": "mΩ", "mm2": "mm²", "": "",
    "uF": "µF",
    "N m": "N·m", "N cm": "N·cm", "lbf in": "lbf·in", "ft lbf": "ft·lbf", "m2": "m²", "cm2": "cm²",
    "in2": "in²", "kg m2": "kg·m²", "kg cm2": "kg·cm²", "lb in2": "lb·in²",
    "g cm2": "g·cm²", "oz in2": "oz·in²",
}  # fmt: skip
THIN = "\N{NARROW NO-BREAK SPACE}"


@dataclass(frozen=True, kw_only=True)
class Display:
    """How values of one dimension are shown: the unit for each system and the decimals in it."""

    dimension: str
    metric: str
    imperial: str
    metric_decimals: int = 0
    imperial_decimals: int = 0

    def unit(self, system: str) -> str:
        """The unit's sign in a system, `"metric"` or `"imperial"`."""
        symbol = self.metric if system == "metric" else self.imperial
        return _SHOWN_AS.get(symbol, symbol)

    def number(self, value_si: float, system: str) -> str:
        """The bare number, rounded as this display asks."""
        symbol = self.metric if system == "metric" else self.imperial
        decimals = self.metric_decimals if system == "metric" else self.imperial_decimals
        number = in_unit(value_si, self.dimension, symbol)
        text = f"{number:,.{decimals}f}".replace(",", THIN)
        bare = text.lstrip("-")
        zero = not bare.strip("0." + THIN)
        return bare if zero else text.replace("-", "−")

    def text(self, value_si: float, system: str) -> str:
        """Number and unit, such as `285 km/h`."""
        unit = self.unit(system)
        joint = "" if unit in ("°", "") else THIN
        return f"{self.number(value_si, system)}{joint}{unit}"

    def converted(self, value_si: float, system: str) -> float:
        """The unrounded number in the system's unit, for chart axes and exports."""
        return in_unit(
            value_si, self.dimension, self.metric if system == "metric" else self.imperial
        )


SPEED: Final = Display(dimension="speed", metric="km/h", imperial="mph")
LENGTH_MM: Final = Display(
    dimension="length", metric="mm", imperial="in", metric_decimals=1, imperial_decimals=2
)
DISTANCE: Final = Display(dimension="length", metric="m", imperial="ft")
DISTANCE_FINE: Final = Display(
    dimension="length", metric="m", imperial="ft", metric_decimals=1, imperial_decimals=1
)
RANGE: Final = Display(
    dimension="length", metric="km", imperial="mi", metric_decimals=1, imperial_decimals=1
)
MASS: Final = Display(dimension="mass", metric="g", imperial="oz", imperial_decimals=1)
CURRENT: Final = Display(
    dimension="current", metric="A", imperial="A", metric_decimals=1, imperial_decimals=1
)
VOLTAGE: Final = Display(
    dimension="voltage", metric="V", imperial="V", metric_decimals=2, imperial_decimals=2
)
POWER: Final = Display(dimension="power", metric="W", imperial="W")
ENERGY: Final = Display(
    dimension="energy", metric="Wh", imperial="Wh", metric_decimals=1, imperial_decimals=1
)
KINETIC: Final = Display(dimension="energy", metric="J", imperial="ft lbf")
FORCE: Final = Display(
    dimension="force", metric="N", imperial="N", metric_decimals=2, imperial_decimals=2
)
TORQUE: Final = Display(dimension="torque", metric="N cm", imperial="lbf in", imperial_decimals=1)
ANGLE: Final = Display(dimension="angle", metric="deg", imperial="deg")
TEMPERATURE: Final = Display(dimension="temperature", metric="C", imperial="F")
DURATION: Final = Display(
    dimension="time", metric="min", imperial="min", metric_decimals=1, imperial_decimals=1
)
PERCENT: Final = Display(dimension="ratio", metric="%", imperial="%")
PERCENT_FINE: Final = Display(
    dimension="ratio", metric="%", imperial="%", metric_decimals=1, imperial_decimals=1
)
RATIO: Final = Display(
    dimension="ratio", metric="", imperial="", metric_decimals=2, imperial_decimals=2
)
COUNT: Final = Display(dimension="ratio", metric="", imperial="")
ROTATION: Final = Display(dimension="rotation", metric="rpm", imperial="rpm")
CLIMB: Final = Display(dimension="speed", metric="m/s", imperial="ft/s", metric_decimals=1)
SECONDS: Final = Display(
    dimension="time", metric="s", imperial="s", metric_decimals=1, imperial_decimals=1
)
AREA: Final = Display(dimension="area", metric="cm2", imperial="in2", imperial_decimals=1)
INERTIA: Final = Display(
    dimension="inertia", metric="kg cm2", imperial="lb in2", metric_decimals=1, imperial_decimals=1
)
INERTIA_SMALL: Final = Display(
    dimension="inertia", metric="g cm2", imperial="oz in2", imperial_decimals=2
)
FREQUENCY: Final = Display(dimension="frequency", metric="Hz", imperial="Hz")
STRESS: Final = Display(dimension="pressure", metric="MPa", imperial="psi", metric_decimals=1)
SPEED_FINE: Final = Display(
    dimension="speed", metric="km/h", imperial="mph", metric_decimals=1, imperial_decimals=1
)
TIMES: Final = Display(
    dimension="ratio", metric="", imperial="", metric_decimals=1, imperial_decimals=1
)
KILOHERTZ: Final = Display(
    dimension="frequency", metric="kHz", imperial="kHz", metric_decimals=1, imperial_decimals=1
)
CAPACITANCE: Final = Display(dimension="capacitance", metric="uF", imperial="uF")
WIND: Final = Display(dimension="speed", metric="m/s", imperial="mph")
