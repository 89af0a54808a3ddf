"""Connectors as classes by the diameter of their pins."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from slipfit.errors import InputError, nearest


@dataclass(frozen=True, kw_only=True)
class Connector:
    """A class of connector: what its pins carry, from memory, and what a mated pair adds."""

    name: str
    pin_diameter_m: float
    continuous_A: float
    burst_A: float  # for some seconds
    contact_resistance_ohm: float  # both contacts of a pair, there and back; memory


# Common practice, no source: every number from memory (tests/data/connector_classes.csv).
CONNECTORS: Final = (
    Connector(
        name="2.0 mm bullet pair",
        pin_diameter_m=0.0020,
        continuous_A=15.0,
        burst_A=30.0,
        contact_resistance_ohm=1.0e-3,
    ),
    Connector(
        name="3.5 mm bullet pair",
        pin_diameter_m=0.0035,
        continuous_A=40.0,
        burst_A=60.0,
        contact_resistance_ohm=0.5e-3,
    ),
    Connector(
        name="4.0 mm bullet pair",
        pin_diameter_m=0.0040,
        continuous_A=60.0,
        burst_A=90.0,
        contact_resistance_ohm=0.4e-3,
    ),
    Connector(
        name="5.5 mm bullet pair",
        pin_diameter_m=0.0055,
        continuous_A=100.0,
        burst_A=150.0,
        contact_resistance_ohm=0.25e-3,
    ),
)


def connector_named(name: str) -> Connector:
    r"""Class of connector with a name.

    $$ \text{name} \mapsto \text{class} $$

    Parameters
    ----------
    name : str
        Name as in `CONNECTORS`. [-]

    Returns
    -------
    connector : Connector
        The class. [-]

    Validity
    --------
    Names of `CONNECTORS`; InputError otherwise.

    Source
    ------
    Common practice, no source.

    Examples
    --------
    >>> connector_named("3.5 mm bullet pair").continuous_A
    40.0
    """
    for connector in CONNECTORS:
        if connector.name == name:
            return connector
    known = [connector.name for connector in CONNECTORS]
    raise InputError(f"no connector class '{name}'{nearest(name, known)}", field="connector")


def connector_for(current_A: float) -> Connector | None:
    r"""Smallest class of connector that carries a current continuously.

    $$ \min \{ c : I \le I_c \} $$

    Parameters
    ----------
    current_A : float
        Current $I$. [A]

    Returns
    -------
    connector : Connector or None
        The class; None where no class carries so much. [-]

    Validity
    --------
    One mated pair in still air.

    Source
    ------
    Common practice, no source: currents from memory (tests/data/connector_classes.csv).

    Examples
    --------
    >>> connector_for(55.0).name
    '4.0 mm bullet pair'
    """
    return next((c for c in CONNECTORS if c.continuous_A >= current_A), None)
