"""Units against their definitions, and the errors of text that carries none."""

import math

import pytest

from slipfit.errors import InputError
from slipfit.units import (
    DISTANCE,
    LENGTH_MM,
    MASS,
    SPEED,
    TEMPERATURE,
    UNITS,
    in_unit,
    quantity_from_text,
)

# Definitions: international yard and pound agreement (1959), nautical mile (1929), SI brochure.
DEFINITIONS = [
    ("1 in", "length", 0.0254),
    ("1 ft", "length", 0.3048),
    ("1 mi", "length", 1609.344),
    ("1 lb", "mass", 0.45359237),
    ("16 oz", "mass", 0.45359237),
    ("180 deg", "angle", math.pi),
    ("60 rpm", "rotation", math.tau),
    ("3.6 km/h", "speed", 1.0),
    ("1 mph", "speed", 0.44704),
    ("3600 kn", "speed", 1852.0),
    ("0 C", "temperature", 273.15),
    ("32 F", "temperature", 273.15),
    ("212 F", "temperature", 373.15),
    ("1000 mAh", "charge", 3600.0),
    ("1 Wh", "energy", 3600.0),
    ("60 rpm/V", "kv", math.tau),
    ("1 kgf", "force", 9.80665),
    ("62 mohm", "resistance", 0.062),
    ("5.8 GHz", "frequency", 5.8e9),
    ("40 %", "ratio", 0.4),
]


@pytest.mark.parametrize(("text", "dimension", "si"), DEFINITIONS)
def test_text_becomes_si_by_definition(text, dimension, si):
    assert quantity_from_text("test", "x", text, dimension) == pytest.approx(si, rel=1e-14)


@pytest.mark.parametrize("dimension", UNITS)
def test_every_unit_goes_there_and_back(dimension):
    for symbol in UNITS[dimension]:
        si = quantity_from_text("test", "x", f"7.25 {symbol}", dimension)
        assert in_unit(si, dimension, symbol) == pytest.approx(7.25, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "dimension", "si"),
    [
        ('5,1 "', "length", 0.12954),
        ("−8 °C", "temperature", 265.15),
        ("62 mΩ", "resistance", 0.062),
        ("  1950KV ", "kv", 1950 * math.tau / 60),
    ],
)
def test_the_ways_people_type_are_read(text, dimension, si):
    assert quantity_from_text("test", "x", text, dimension) == pytest.approx(si)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("28", r"Motor 'demo': stator_diameter must carry a unit of length \(m, mm, .*got no unit"),
        ("28 kg", r"must carry a unit of length .*got 'kg' in '28 kg'"),
        ("wide", r"must be a number with a unit .*got 'wide'"),
        ("1e999 m", r"must be finite, got '1e999 m'"),
        ("9" * 500, r"must be a number with a unit"),
    ],
)
def test_text_that_is_no_quantity_says_what_is_missing(text, message):
    with pytest.raises(InputError, match=message) as refused:
        quantity_from_text("Motor 'demo'", "stator_diameter", text, "length")
    assert refused.value.field == "stator_diameter"


def test_an_unknown_unit_names_the_nearest():
    with pytest.raises(InputError, match=r"no unit 'kmh' of speed; did you mean 'km/h'\?"):
        in_unit(1.0, "speed", "kmh")


def test_figures_are_shown_in_both_systems():
    assert SPEED.text(79.0, "metric").split() == ["284", "km/h"]
    assert SPEED.text(79.0, "imperial").split() == ["177", "mph"]
    assert LENGTH_MM.number(-0.0024, "metric") == "−2.4"
    assert LENGTH_MM.number(-0.00001, "metric") == "0.0"
    assert MASS.number(0.948, "metric") == "948"
    assert DISTANCE.number(12345.0, "metric").replace("\u202f", " ") == "12 345"
    assert TEMPERATURE.text(265.15, "metric").split() == ["−8", "°C"]
