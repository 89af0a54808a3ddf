"""What is missing on a part, estimated from what is there; one function per field.

Each takes the values read so far (fields in SI) and returns the missing one. The words that a
reader sees stand in the field's key (`estimate`), with the spread.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any, Final

from slipfit.parts.camera import BY_ANGLE, FISHEYE_FROM_RAD, USUAL_FOV_RAD
from slipfit.physics import esc, motor, pack
from slipfit.physics.lens import LENSES

Values = Mapping[str, Any]

_RIM_HEAT_W_M2 = 0.14e6  # heat of the winding per area of the stator's rim, for seconds; memory
_THREAD_DEPTH = 1.3  # of a motor's base, in screw diameters; memory
_PROP_HUB_KG = 0.5e-3  # memory
_PROP_BLADE_KG_M2 = 0.084  # per blade and diameter squared; memory, weighed 5 to 10 inch blades
_SPEED_OF_LIGHT_M_S = 299_792_458.0  # SI definition
_ANTENNA_SHORTENING = 0.95  # a thin wire resonates 5 % below half a wavelength; memory


def _motor_mass(v: Values) -> float:
    return float(motor.estimated_mass(v["stator_diameter_m"], v["stator_height_m"]))


def _resistance(v: Values) -> float:
    return float(
        motor.estimated_resistance(v["stator_diameter_m"], v["stator_height_m"], v["kv_rad_s_V"])
    )


def _no_load_current(v: Values) -> float:
    return float(
        motor.estimated_no_load_current(
            v["stator_diameter_m"],
            v["stator_height_m"],
            v["kv_rad_s_V"],
            v.get("no_load_voltage_V", 10.0),
        )
    )


def _can_diameter(v: Values) -> float:
    return float(motor.estimated_can_diameter(v["stator_diameter_m"]))


def _can_length(v: Values) -> float:
    return float(motor.estimated_can_length(v["stator_diameter_m"], v["stator_height_m"]))


def _max_current(v: Values) -> float:
    rim_m2 = math.pi * v["stator_diameter_m"] * v["stator_height_m"]
    return math.sqrt(_RIM_HEAT_W_M2 * rim_m2 / v["resistance_ohm"])


def _mount_depth(v: Values) -> float:
    return _THREAD_DEPTH * float(str(v.get("mount_screw", "M3")).removeprefix("M")) * 1e-3


def _prop_mass(v: Values) -> float:
    return float(_PROP_HUB_KG + _PROP_BLADE_KG_M2 * v["blade_count"] * v["diameter_m"] ** 2)


def _pack_mass(v: Values) -> float:
    return float(pack.estimated_pack_mass(v["capacity_C"], v["cell_count"]))


def _cell_resistance(v: Values) -> float:
    return float(pack.estimated_cell_resistance(v["capacity_C"]))


def _fet_resistance(v: Values) -> float:
    return float(esc.estimated_fet_resistance(v["continuous_A"]))


def _burst(v: Values) -> float:
    return 1.15 * float(v["continuous_A"])


def _antenna_length(v: Values) -> float:
    return float(_ANTENNA_SHORTENING * _SPEED_OF_LIGHT_M_S / (2 * v["band_Hz"]))


def _horizontal_fov(v: Values) -> float:
    width, focal = v.get("sensor_width_m", 0.0), v.get("focal_length_m", 0.0)
    if width <= 0.0 or focal <= 0.0:
        return USUAL_FOV_RAD
    if v.get("lens", BY_ANGLE) != BY_ANGLE:
        return float(LENSES[v["lens"]].field_of_view(width, focal))
    narrow = float(LENSES["pinhole"].field_of_view(width, focal))
    if narrow < FISHEYE_FROM_RAD:
        return narrow
    return float(LENSES["fisheye"].field_of_view(width, focal))


ESTIMATES: Final[Mapping[str, Mapping[str, Callable[[Values], float]]]] = {
    "motor": {
        "mass_kg": _motor_mass,
        "resistance_ohm": _resistance,
        "no_load_current_A": _no_load_current,
        "can_diameter_m": _can_diameter,
        "can_length_m": _can_length,
        "max_current_A": _max_current,
        "mount_depth_m": _mount_depth,
    },
    "prop": {"mass_kg": _prop_mass},
    "pack": {"mass_kg": _pack_mass, "cell_resistance_ohm": _cell_resistance},
    "esc": {"burst_A": _burst, "fet_resistance_ohm": _fet_resistance},
    "camera": {"horizontal_fov_rad": _horizontal_fov},
    "receiver": {"antenna_length_m": _antenna_length},
}
