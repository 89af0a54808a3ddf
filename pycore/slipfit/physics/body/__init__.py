"""Bodies in the air: one shape per module, its drag by cause and its normal force."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from slipfit.numerics import Array
from slipfit.physics.body.box import Box, box_loads
from slipfit.physics.body.cylinder import Cylinder, cylinder_loads
from slipfit.physics.body.disk import Disk, disk_loads
from slipfit.physics.body.fins import Fin, fin_loads, fin_moment
from slipfit.physics.body.inlet import Inlet, inlet_loads
from slipfit.physics.body.loads import BodyLoads, combined, no_moment
from slipfit.physics.body.plate import Plate, plate_loads
from slipfit.physics.body.protrusion import Protrusion, protrusion_loads
from slipfit.physics.body.streamlined import Streamlined, streamlined_loads, streamlined_moment
from slipfit.physics.body.strut import Strut, strut_loads, strut_moment
from slipfit.physics.body.window import Window, window_loads

__all__ = ["MODELS", "BodyLoads", "BodyModel", "combined"]


@dataclass(frozen=True, kw_only=True)
class BodyModel:
    """A kind of body: its shape class, its loads function, what it is, how far it may be off.

    `spread` is the half-width of the 10-90 % range of its drag relative to the value. `moment`
    gives the moment of its normal force about its middle, positive where it acts aft.
    """

    name: str
    shape: type
    loads: Callable[..., BodyLoads]
    description: str
    spread: float
    moment: Callable[..., Array] = no_moment


# Spreads are our judgement: of the scatter between sources where there are several, else wide.
_LIST: Final = (
    BodyModel(
        name="streamlined",
        shape=Streamlined,
        loads=streamlined_loads,
        description="body of revolution or near one: rounded nose, boat-tail, blunt or open base",
        spread=0.20,
        moment=streamlined_moment,
    ),
    BodyModel(
        name="strut",
        shape=Strut,
        loads=strut_loads,
        description="faired arm or strut with a streamlined section",
        spread=0.30,
        moment=strut_moment,
    ),
    BodyModel(
        name="fin",
        shape=Fin,
        loads=fin_loads,
        description="thin fin along the axis",
        spread=0.20,
        moment=fin_moment,
    ),
    BodyModel(
        name="cylinder",
        shape=Cylinder,
        loads=cylinder_loads,
        description="bare round cylinder along or across the axis: motor, mast, antenna",
        spread=0.12,
    ),
    BodyModel(
        name="box",
        shape=Box,
        loads=box_loads,
        description="bare box: pack, camera or stack in the open",
        spread=0.15,
    ),
    BodyModel(
        name="plate",
        shape=Plate,
        loads=plate_loads,
        description="thin plate in the disk plane: deck or bare arm of a flat frame",
        spread=0.10,
    ),
    BodyModel(
        name="disk",
        shape=Disk,
        loads=disk_loads,
        description="thin disk square to the axis",
        spread=0.08,
    ),
    BodyModel(
        name="window",
        shape=Window,
        loads=window_loads,
        description="flat camera window or open lens port in a streamlined nose",
        spread=0.45,
    ),
    BodyModel(
        name="inlet",
        shape=Inlet,
        loads=inlet_loads,
        description="cooling inlet: momentum of the air it takes in",
        spread=0.40,
    ),
    BodyModel(
        name="protrusion",
        shape=Protrusion,
        loads=protrusion_loads,
        description="screw head, seam or step on a smooth skin",
        spread=0.50,
    ),
)
MODELS: Final[Mapping[str, BodyModel]] = {model.name: model for model in _LIST}
