"""Physical constants, each with its unit in the name and its source beside it."""

from typing import Final

G0_M_S2: Final = 9.80665  # standard gravity; ISO 80000-3, exact by convention
R_AIR_J_KG_K: Final = 287.05287  # specific gas constant of dry air; ISO 2533:1975
R_VAPOUR_J_KG_K: Final = 461.5  # specific gas constant of water vapour; 8.314463/0.018015
GAMMA_AIR: Final = 1.4  # ratio of specific heats; ISO 2533:1975
ZERO_CELSIUS_K: Final = 273.15  # definition of the Celsius scale
COPPER_RESISTIVITY_OHM_M: Final = 1e-6 / 58  # at 20 degC; IEC 60028:1925, exact by definition
COPPER_TEMPERATURE_COEFFICIENT_PER_K: Final = 0.00393  # at 20 degC; IEC 60028:1925
