"""Air of a given day: standard atmosphere, density with humidity, viscosity, speed of sound."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from slipfit.constants import (
    G0_M_S2,
    GAMMA_AIR,
    R_AIR_J_KG_K,
    R_VAPOUR_J_KG_K,
    ZERO_CELSIUS_K,
)
from slipfit.errors import require_range
from slipfit.numerics import Real, as_real

EARTH_RADIUS_M: Final = 6_356_766.0  # nominal radius of the geopotential; ISO 2533:1975
T0_K: Final = 288.15  # sea-level temperature; ISO 2533:1975
P0_PA: Final = 101_325.0  # sea-level pressure; ISO 2533:1975
LAPSE_TROPOSPHERE_K_M: Final = -0.0065  # temperature gradient to 11 km; ISO 2533:1975

_SUTHERLAND_ISO_2533: Final = (1.458e-6, 110.4)  # beta_s [kg/(m s K^0.5)], S [K]
_BUCK_WATER: Final = (611.21, 18.678, 234.5, 257.14)  # Pa, -, degC, degC


@dataclass(frozen=True, kw_only=True)
class Air:
    """The state of the air that every aerodynamic model needs; plain floats, so it can be a key."""

    temperature_K: float
    pressure_Pa: float
    density_kg_m3: float
    viscosity_Pa_s: float
    sound_speed_m_s: float


def geopotential_height(height_m: Real) -> Real:
    r"""Geopotential height of a geometric height.

    $$ H = \frac{r h}{r + h} $$

    Parameters
    ----------
    height_m : float or array, shape (...)
        Geometric height $h$ above mean sea level. [m]

    Returns
    -------
    geopotential_height_m : float or array, same shape
        Geopotential height $H$. [m]

    Validity
    --------
    -2000 <= height_m <= 11 000 (the troposphere, where the models of this module end);
    ValidityError outside.

    Source
    ------
    ISO 2533:1975, *Standard Atmosphere*, section 2.3 (formula and radius as general atmosphere
    libraries give them; the standard itself was not at hand).

    Examples
    --------
    At 2000 m the two heights differ by 0.6 m:

    >>> geopotential_height(2000.0)
    1999.4
    """
    require_range(
        "geopotential_height", "height_m", height_m, -2000.0, 11_000.0, "ISO 2533 troposphere"
    )
    h = np.asarray(height_m, dtype=float)
    return as_real(EARTH_RADIUS_M * h / (EARTH_RADIUS_M + h))


def standard_temperature(geopotential_height_m: Real) -> Real:
    r"""Temperature of the standard atmosphere at a geopotential height.

    $$ T = T_0 + \beta H $$

    Parameters
    ----------
    geopotential_height_m : float or array, shape (...)
        Geopotential height $H$. [m]

    Returns
    -------
    temperature_K : float or array, same shape
        Air temperature $T$. [K]

    Validity
    --------
    -2000 <= geopotential_height_m <= 11 000 (troposphere); ValidityError outside. A standard
    day: for a measured temperature use `air_of_day`.

    Source
    ------
    ISO 2533:1975, *Standard Atmosphere*; values as tabulated by general atmosphere libraries
    (tests/data/air_isa.csv).

    Examples
    --------
    The table gives 275.15 K at H = 2000 m:

    >>> standard_temperature(2000.0)
    275.15
    """
    require_range(
        "standard_temperature",
        "geopotential_height_m",
        geopotential_height_m,
        -2000.0,
        11_000.0,
        "ISO 2533 troposphere",
    )
    H = np.asarray(geopotential_height_m, dtype=float)
    return as_real(T0_K + LAPSE_TROPOSPHERE_K_M * H)


def standard_pressure(geopotential_height_m: Real) -> Real:
    r"""Pressure of the standard atmosphere at a geopotential height.

    $$ p = p_0 \left(T / T_0\right)^{-g_0 / (\beta R)}, \quad T = T_0 + \beta H $$

    Parameters
    ----------
    geopotential_height_m : float or array, shape (...)
        Geopotential height $H$. [m]

    Returns
    -------
    pressure_Pa : float or array, same shape
        Air pressure $p$. [Pa]

    Validity
    --------
    -2000 <= geopotential_height_m <= 11 000 (troposphere); ValidityError outside. Weather moves
    the real pressure by 2 to 3 % either way: give a measured one to `air_of_day` where known.

    Source
    ------
    ISO 2533:1975, *Standard Atmosphere*; values as tabulated by general atmosphere libraries
    (tests/data/air_isa.csv).

    Examples
    --------
    The table gives 79495.2 Pa at H = 2000 m:

    >>> standard_pressure(2000.0)
    79495.2
    """
    T = np.asarray(standard_temperature(geopotential_height_m), dtype=float)
    return as_real(P0_PA * (T / T0_K) ** (-G0_M_S2 / (LAPSE_TROPOSPHERE_K_M * R_AIR_J_KG_K)))


def air_density_dry(pressure_Pa: Real, temperature_K: Real) -> Real:
    r"""Density of dry air at a measured pressure and temperature.

    $$ \rho = \frac{p}{R T} $$

    Parameters
    ----------
    pressure_Pa : float or array, shape (...)
        Air pressure $p$ at the place itself, not reduced to sea level. [Pa]
    temperature_K : float or array, shape (...)
        Air temperature $T$. [K]

    Returns
    -------
    density_kg_m3 : float or array, broadcast shape
        Air density $\rho$. [kg/m3]

    Validity
    --------
    15 000 <= pressure_Pa <= 115 000 and 200 <= temperature_K <= 400; ValidityError outside. Ideal
    gas: 0.04 % below the metrological CIPM-2007 formula at sea level. For moist air use
    `air_density_humid`.

    Source
    ------
    ISO 2533:1975, *Standard Atmosphere* (gas constant 287.05287 J/(kg K)).

    Examples
    --------
    1.225 kg/m3 at the standard sea level:

    >>> air_density_dry(101325.0, 288.15)
    1.225
    """
    require_range(
        "air_density_dry", "pressure_Pa", pressure_Pa, 15_000.0, 115_000.0, "places one can fly"
    )
    require_range(
        "air_density_dry", "temperature_K", temperature_K, 200.0, 400.0, "places one can fly"
    )
    p = np.asarray(pressure_Pa, dtype=float)
    T = np.asarray(temperature_K, dtype=float)
    return as_real(p / (R_AIR_J_KG_K * T))


def saturation_vapour_pressure_buck(temperature_K: Real) -> Real:
    r"""Pressure of saturated water vapour over liquid water.

    $$ e_s = 611.21 \exp\left[\left(18.678 - \frac{t}{234.5}\right)
       \frac{t}{257.14 + t}\right], \quad t = T - 273.15 $$

    Parameters
    ----------
    temperature_K : float or array, shape (...)
        Air temperature $T$. [K]

    Returns
    -------
    vapour_pressure_Pa : float or array, same shape
        Saturation pressure $e_s$. [Pa]

    Validity
    --------
    233.15 <= temperature_K <= 333.15; ValidityError outside. Over water also below freezing, as
    relative humidity is defined by meteorological convention. Within 0.06 % of the CIPM-2007
    saturation pressure from 0 to 40 degC.

    Source
    ------
    A. L. Buck's equation in its 1996 form (coefficients as in tests/data/air_humid.csv; the
    paper itself was not at hand).

    Examples
    --------
    The table gives 2338.34 Pa at 20 degC:

    >>> saturation_vapour_pressure_buck(293.15)
    2338.34
    """
    require_range(
        "saturation_vapour_pressure_buck",
        "temperature_K",
        temperature_K,
        233.15,
        333.15,
        "Buck's equation over water",
    )
    e0, b, d, c = _BUCK_WATER
    t = np.asarray(temperature_K, dtype=float) - ZERO_CELSIUS_K
    return as_real(e0 * np.exp((b - t / d) * t / (c + t)))


def air_density_humid(pressure_Pa: Real, temperature_K: Real, relative_humidity: Real) -> Real:
    r"""Density of moist air at a measured pressure, temperature and relative humidity.

    $$ \rho = \frac{p - e}{R T} + \frac{e}{R_v T}, \quad e = \varphi\, e_s(T) $$

    Parameters
    ----------
    pressure_Pa : float or array, shape (...)
        Air pressure $p$ at the place itself. [Pa]
    temperature_K : float or array, shape (...)
        Air temperature $T$. [K]
    relative_humidity : float or array, shape (...)
        Relative humidity $\varphi$, 0 to 1. [-]

    Returns
    -------
    density_kg_m3 : float or array, broadcast shape
        Air density $\rho$. [kg/m3]

    Validity
    --------
    0 <= relative_humidity <= 1, 233.15 <= temperature_K <= 333.15, 15 000 <= pressure_Pa <=
    115 000; ValidityError outside. A mixture of ideal gases: 0.03 to 0.06 % below CIPM-2007.

    Source
    ------
    Dalton's law with the vapour pressure of `saturation_vapour_pressure_buck`; reference values
    in tests/data/air_humid.csv.

    Examples
    --------
    The table gives 1.145938 kg/m3 for saturated air at 30 degC, with a gas constant of 287.055;
    the constant of ISO 2533, 7e-6 smaller, gives

    >>> air_density_humid(101325.0, 303.15, 1.0)
    1.145946
    """
    require_range(
        "air_density_humid", "relative_humidity", relative_humidity, 0.0, 1.0, "a fraction"
    )
    require_range(
        "air_density_humid", "pressure_Pa", pressure_Pa, 15_000.0, 115_000.0, "places one can fly"
    )
    p = np.asarray(pressure_Pa, dtype=float)
    T = np.asarray(temperature_K, dtype=float)
    e = np.asarray(relative_humidity, dtype=float) * saturation_vapour_pressure_buck(temperature_K)
    return as_real((p - e) / (R_AIR_J_KG_K * T) + e / (R_VAPOUR_J_KG_K * T))


def viscosity_sutherland(temperature_K: Real) -> Real:
    r"""Dynamic viscosity of air.

    $$ \mu = \frac{\beta_s T^{3/2}}{T + S} $$

    Parameters
    ----------
    temperature_K : float or array, shape (...)
        Air temperature $T$. [K]

    Returns
    -------
    viscosity_Pa_s : float or array, same shape
        Dynamic viscosity $\mu$. [Pa s]

    Validity
    --------
    200 <= temperature_K <= 400; ValidityError outside. Dry air; moisture lowers it by less than
    1 % below 40 degC, which is left out.

    Source
    ------
    ISO 2533:1975, *Standard Atmosphere* (Sutherland's formula with beta_s = 1.458e-6 and
    S = 110.4 K); values in tests/data/air_viscosity.csv.

    Examples
    --------
    The table gives 1.78938e-05 Pa s at 15 degC:

    >>> 1e5 * viscosity_sutherland(288.15)
    1.78938
    """
    require_range(
        "viscosity_sutherland", "temperature_K", temperature_K, 200.0, 400.0, "places one can fly"
    )
    beta_s, S = _SUTHERLAND_ISO_2533
    T = np.asarray(temperature_K, dtype=float)
    return as_real(beta_s * T**1.5 / (T + S))


def sound_speed(temperature_K: Real) -> Real:
    r"""Speed of sound in air.

    $$ a = \sqrt{\kappa R T} $$

    Parameters
    ----------
    temperature_K : float or array, shape (...)
        Air temperature $T$. [K]

    Returns
    -------
    sound_speed_m_s : float or array, same shape
        Speed of sound $a$. [m/s]

    Validity
    --------
    200 <= temperature_K <= 400; ValidityError outside. Dry ideal gas; moisture raises it by
    0.7 % in saturated air at 30 degC, which is left out.

    Source
    ------
    ISO 2533:1975, *Standard Atmosphere*; values in tests/data/air_isa.csv.

    Examples
    --------
    The table gives 340.294 m/s at sea level:

    >>> sound_speed(288.15)
    340.294
    """
    require_range("sound_speed", "temperature_K", temperature_K, 200.0, 400.0, "places one can fly")
    T = np.asarray(temperature_K, dtype=float)
    return as_real(np.sqrt(GAMMA_AIR * R_AIR_J_KG_K * T))


def standard_air(height_m: float, temperature_offset_K: float = 0.0) -> Air:
    r"""Air of a standard day, or of one that is warmer or colder by a fixed offset.

    $$ T = T_0 + \beta H + \Delta T, \quad p = p_\mathrm{ISA}(H) $$

    Parameters
    ----------
    height_m : float
        Geometric height above mean sea level. [m]
    temperature_offset_K : float
        Offset $\Delta T$ from the standard day. [K]

    Returns
    -------
    air : Air
        State of the air; every field is a plain float. [-]

    Validity
    --------
    -2000 <= height_m <= 11 000; ValidityError outside. The offset changes the temperature, not
    the pressure, so `height_m` is then strictly a pressure height.

    Source
    ------
    ISO 2533:1975, *Standard Atmosphere*.

    Examples
    --------
    A day 15 K warmer than standard, at sea level:

    >>> standard_air(0.0, 15.0).density_kg_m3
    1.164
    """
    standard_K = float(standard_temperature(geopotential_height(height_m)))
    return air_of_day(height_m, temperature_K=standard_K + temperature_offset_K)


def air_of_day(
    height_m: float = 0.0,
    temperature_K: float | None = None,
    relative_humidity: float = 0.0,
    pressure_Pa: float | None = None,
) -> Air:
    r"""Air at a place on a day, from what is known of it.

    $$ \rho = \frac{p - e}{R T} + \frac{e}{R_v T}, \quad
       \mu = \frac{\beta_s T^{3/2}}{T + S}, \quad a = \sqrt{\kappa R T} $$

    Parameters
    ----------
    height_m : float
        Geometric height above mean sea level. [m]
    temperature_K : float or None
        Measured air temperature; the standard one for the height where None. [K]
    relative_humidity : float
        Relative humidity, 0 to 1. [-]
    pressure_Pa : float or None
        Pressure measured at the place; the standard one for the height where None. [Pa]

    Returns
    -------
    air : Air
        State of the air; every field is a plain float. [-]

    Validity
    --------
    -2000 <= height_m <= 11 000, 200 <= temperature_K <= 400 (233.15 to 333.15 with humidity),
    15 000 <= pressure_Pa <= 115 000, 0 <= relative_humidity <= 1; ValidityError outside. Humidity
    acts on density only: viscosity and sound speed stay those of dry air (below 1 %).

    Source
    ------
    ISO 2533:1975, *Standard Atmosphere*, with the moist density of `air_density_humid`.

    Examples
    --------
    The table gives 1.00649 kg/m3 at a geopotential height of 2000 m (geometric 2000.63 m):

    >>> air_of_day(2000.63).density_kg_m3
    1.00649
    """
    H = geopotential_height(height_m)
    T = standard_temperature(H) if temperature_K is None else temperature_K
    p = standard_pressure(H) if pressure_Pa is None else pressure_Pa
    require_range("air_of_day", "relative_humidity", relative_humidity, 0.0, 1.0, "a fraction")
    moist = relative_humidity > 0.0  # keeps the dry day free of the moist formula's narrower range
    rho = air_density_humid(p, T, relative_humidity) if moist else air_density_dry(p, T)
    return Air(
        temperature_K=float(T),
        pressure_Pa=float(p),
        density_kg_m3=float(rho),
        viscosity_Pa_s=float(viscosity_sutherland(T)),
        sound_speed_m_s=float(sound_speed(T)),
    )
