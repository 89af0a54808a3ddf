"""A rotor's loads as a smooth map, for the thousands of cases that a trim or a study asks for.

Loads depend on the direction of the speed at the tip (rotation, axial, in-plane), and weakly on
its size through Reynolds and Mach number. So the map holds coefficients on 1/2 rho A S^2, S the
resultant of the three speeds, over three axes that stay finite in hover and at zero rpm: the axial
angle theta = atan2(axial, tip speed), the in-plane share eta = in-plane / S, and the helical Mach
number of the advancing tip. Axial flow has a fine table, oblique flow a coarser one (in-plane speed
smooths what the stall does), and from one to the other the map fades. The direct solve fills in
the nodes that are asked for.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from slipfit.numerics import Array, CubicAxis
from slipfit.physics import rotor
from slipfit.physics.blade import Blade
from slipfit.physics.rotor import RotorLoads, annuli_of, rotor_loads, validity

if TYPE_CHECKING:
    from slipfit.physics.air import Air

# Mach numbers of the advancing tip. Below the first the coefficients of the first are used
# (10 m/s at the tip: no loads to speak of); the last is the end of the rotor's range.
_MACH = np.array(
    [0.03, 0.06, 0.1, 0.15, 0.21, 0.28, 0.36, 0.44, 0.52, 0.6]
    + [0.67, 0.73, 0.79, 0.85, 0.9, 0.95, 1.0]
)
_MACH_COARSE = np.array(
    [0.03, 0.09, 0.15, 0.21, 0.28, 0.36, 0.45, 0.55, 0.65, 0.75, 0.84, 0.92, 1.0]
)
_ETA = np.array([-0.05, 0.0, 0.05, 0.09, 0.13, 0.19, 0.26, 0.33, 0.44, 0.6])
_PARITY = np.array([1.0, 1.0, -1.0, -1.0, -1.0, 1.0, 1.0, 0.0])  # by the sign of in-plane speed
_THETA_LOW, _THETA_HIGH = np.deg2rad(-30.0), np.deg2rad(90.0)
_COLUMNS, _ROW = 7, 8  # coefficients, and their places in a row of memory
_POINTS = 1024  # at a time in the contraction, so that what is gathered stays in cache
_FADE = 0.05  # in-plane share, node 2 of the axis, from which only the oblique table counts
_FOUR = np.arange(4)
_SIXTEEN = np.indices((4, 4)).reshape(2, 16)  # a stencil of four by four
_CHAIN_STEPS = {1: 10, 2: 4}  # Newton steps by index of _ETA; later ones start from extrapolation


Index = NDArray[np.intp]
Plain = tuple[str, tuple[int, ...], bytes]  # dtype, shape, content of an array


@dataclass(frozen=True, kw_only=True)
class Saved:
    """The solved nodes of a map: their places, and what stands there."""

    axial_at: Plain
    axial: Plain
    oblique_at: Plain
    oblique: Plain
    solved: Plain
    induced: Plain


def _plain(array: NDArray[Any]) -> Plain:
    return array.dtype.str, array.shape, array.tobytes()


def _array(plain: Plain) -> NDArray[Any]:
    dtype, shape, content = plain
    return np.frombuffer(content, dtype=dtype).reshape(shape)


def _fine_axis(reach: float) -> Array:
    """Axial angles by a degree where blades work, up to past zero lift, and coarser elsewhere."""
    inner = np.deg2rad(np.arange(-4.0, np.ceil(np.rad2deg(reach)) + 0.5, 1.0))
    below = np.linspace(_THETA_LOW, inner[0], 9)[:-1]
    above = np.linspace(inner[-1], _THETA_HIGH, 41)[1:]
    return np.concatenate([below, inner, above])


def _coarse_axis(reach: float) -> Array:
    low = np.deg2rad(-6.0)
    return np.linspace(low, reach, int(np.ceil((reach - low) / np.deg2rad(1.1))) + 1)


class RotorMap:
    """Interpolated loads of one blade in one air; make it with `rotor_map`, which keeps it."""

    def __init__(self, blade: Blade, air: Air) -> None:
        self.blade = blade
        self.air = air
        self._area_m2 = np.pi * blade.radius_m**2
        pitch = float(np.interp(0.75, blade.r_R, blade.pitch_angle_rad))
        reach = float(np.clip(pitch + np.deg2rad(7.0), 0.2, 1.2))
        self._mach = CubicAxis(_MACH)
        self._mach_coarse = CubicAxis(_MACH_COARSE)
        self._theta = CubicAxis(_fine_axis(reach))
        self._theta_coarse = CubicAxis(_coarse_axis(reach))
        self._eta = CubicAxis(_ETA)
        self._axial = np.zeros((len(_MACH), len(self._theta.nodes), _ROW))
        nodes = (len(_MACH_COARSE), len(self._theta_coarse.nodes))
        self._oblique = np.zeros((*nodes, len(_ETA), _ROW))
        self._has_axial = np.zeros(self._axial.shape[:2], dtype=bool)
        self._solved = np.zeros(nodes, dtype=np.intp)  # last index of _ETA solved
        self._induced = np.zeros((2, rotor.ANNULI, *nodes))  # angles at the last two eta

    def loads(
        self,
        omega_rad_s: ArrayLike,
        axial_speed_m_s: ArrayLike,
        inplane_speed_m_s: ArrayLike,
    ) -> RotorLoads:
        """Loads as `rotor_loads` gives them, to about 0.5 % of their size.

        Outside the map (descent steeper than 30 degrees at the tip; with in-plane speed, also
        beyond the axial angles where the blades work, or past 0.6 of the resultant speed) cases
        are solved directly.
        """
        inputs = (omega_rad_s, axial_speed_m_s, inplane_speed_m_s)
        arrays = np.broadcast_arrays(*(np.asarray(x, dtype=float) for x in inputs))
        shape = arrays[0].shape
        omega, axial, inplane = (x.ravel() for x in arrays)
        S, theta, eta, mach = self._direction(omega, axial, inplane)
        table = self._interpolate(theta, eta, mach)
        size = 0.5 * self.air.density_kg_m3 * self._area_m2 * S * S
        R = self.blade.radius_m
        sign = np.sign(inplane)
        scale = np.array(
            [size, size * R, size * sign, size * R * sign, size * R * sign, S, S * 0 + 1]
        )
        out = table * scale
        outside = self._outside(theta, eta)
        if outside.any():
            direct = rotor_loads(
                self.blade, omega[outside], axial[outside], inplane[outside], self.air
            )
            for row, values in zip(out, _rows(direct), strict=True):
                row[outside] = values
        out[6] = np.minimum(np.maximum(out[6], 0.0), 1.0)  # a share; cubics overshoot a little
        tip_mach, valid = validity(self.blade, self.air, omega, axial, inplane, out[0])
        thrust, torque, h, side, pitch, induced, stall = (x.reshape(shape) for x in out)
        return RotorLoads(
            thrust, torque, h, side, pitch, induced, tip_mach.reshape(shape), stall,
            valid.reshape(shape),
        )  # fmt: skip

    @property
    def key(self) -> str:
        """Name of the blade in its air, the same wherever the map is made."""
        return _key(self.blade, self.air)

    def saved(self) -> Saved:
        """The nodes that have been solved so far, for `use_saved` elsewhere."""
        straight, bent = np.nonzero(self._has_axial), np.nonzero(self._solved)
        return Saved(
            axial_at=_plain(np.array(straight)),
            axial=_plain(self._axial[straight]),
            oblique_at=_plain(np.array(bent)),
            oblique=_plain(self._oblique[bent]),
            solved=_plain(self._solved[bent]),
            induced=_plain(self._induced[:, :, bent[0], bent[1]]),
        )

    def _restore(self, saved: Saved) -> None:
        straight, bent = (tuple(_array(at)) for at in (saved.axial_at, saved.oblique_at))
        self._axial[straight] = _array(saved.axial)
        self._has_axial[straight] = True
        self._oblique[bent] = _array(saved.oblique)
        self._solved[bent] = _array(saved.solved)
        self._induced[:, :, bent[0], bent[1]] = _array(saved.induced)

    def _direction(
        self, omega: Array, axial: Array, inplane: Array
    ) -> tuple[Array, Array, Array, Array]:
        tip = omega * self.blade.radius_m
        flow = np.abs(inplane)
        plane = tip * tip + axial * axial
        S = np.sqrt(plane + flow * flow)
        eta = np.divide(flow, S, out=np.zeros_like(S), where=S > 0.0)
        mach = np.sqrt(plane + flow * (2 * tip + flow)) / self.air.sound_speed_m_s
        return S, np.arctan2(axial, tip), eta, mach

    def _outside(self, theta: Array, eta: Array) -> NDArray[np.bool_]:
        nodes = self._theta_coarse.nodes
        bent = (eta > 0.0) & ((eta > _ETA[-1]) | (theta < nodes[0]) | (theta > nodes[-1]))
        return np.asarray((theta < _THETA_LOW) | (theta > _THETA_HIGH) | bent)

    def _interpolate(self, theta: Array, eta: Array, mach: Array) -> Array:
        """The coefficients, shape (columns, n); held at the ends, see `_outside`."""
        out = np.empty((_COLUMNS, len(theta)))
        for start in range(0, len(theta), _POINTS):
            part = slice(start, start + _POINTS)
            out[:, part] = self._interpolate_few(theta[part], eta[part], mach[part])
        return out

    def _interpolate_few(self, theta: Array, eta: Array, mach: Array) -> Array:
        mach = np.minimum(np.maximum(mach, _MACH[0]), _MACH[-1])
        theta = np.minimum(np.maximum(theta, _THETA_LOW), _THETA_HIGH)
        out = np.zeros((len(theta), _COLUMNS))
        # the fine table's share: all in axial flow, none from _FADE on
        y = np.maximum(1.0 - eta / _FADE, 0.0)
        fine = y * y * (3.0 - 2.0 * y)
        straight = np.flatnonzero(fine > 0.0)
        if len(straight):
            out[straight] = self._axial_few(theta[straight], mach[straight])
            out[straight] *= fine[straight, None]
        bent = np.flatnonzero(eta > 0.0)
        if len(bent):
            out[bent] += self._oblique_few(theta[bent], eta[bent], mach[bent], fine[bent])
        return out.T

    def _axial_few(self, theta: Array, mach: Array) -> Array:
        m, wm = self._mach.weights(mach)
        t, wt = self._theta.weights(theta)
        self._fill_axial(m, t)
        across = len(self._theta.nodes)
        stencil = (_FOUR[:, None] * across + _FOUR).ravel()
        w = (wm[:, :, None] * wt[:, None, :]).reshape(len(m), 16)
        return _contract(self._axial, m * across + t, stencil, w)

    def _oblique_few(self, theta: Array, eta: Array, mach: Array, fine: Array) -> Array:
        """The coarse table, without the share of its own axial flow that the fine one gives."""
        nodes = self._theta_coarse.nodes
        m, wm = self._mach_coarse.weights(mach)
        t, wt = self._theta_coarse.weights(np.minimum(np.maximum(theta, nodes[0]), nodes[-1]))
        e, we = self._eta.weights(np.minimum(eta, _ETA[-1]))
        self._fill_oblique(m, t, e + 3)
        shared = np.flatnonzero(fine > 0.0)
        we[shared, 1 - e[shared]] -= fine[shared]  # node 1 of the axis is axial flow
        across = len(_ETA)
        deep = len(nodes) * across
        stencil = (_FOUR[:, None, None] * deep + _FOUR[:, None] * across + _FOUR).ravel()
        w = (wm[:, :, None] * wt[:, None, :]).reshape(len(m), 16, 1) * we[:, None, :]
        first = m * deep + t * across + e
        return _contract(self._oblique, first, stencil, w.reshape(len(m), 64))

    def _speeds(self, mach: Array, theta: Array, eta: float) -> tuple[Array, Array, Array, Array]:
        """S, omega, axial and in-plane speed of map nodes."""
        share = np.sqrt(1.0 - eta * eta)
        rotation, through = share * np.cos(theta), share * np.sin(theta)
        S = mach * self.air.sound_speed_m_s / np.hypot(rotation + eta, through)
        return S, np.maximum(S * rotation, 0.0) / self.blade.radius_m, S * through, S * eta

    def _coefficients(self, S: Array, rows: Array) -> Array:
        """Rows of the tables, shape (n, places), from loads in SI, shape (columns or more, n)."""
        size = 0.5 * self.air.density_kg_m3 * self._area_m2 * S * S
        R = self.blade.radius_m
        scale = [size, size * R, size, size * R, size * R, S, np.ones_like(S)]
        out = np.zeros((len(S), _ROW))
        out[:, :_COLUMNS] = (rows[:_COLUMNS] / scale).T
        return out

    def _fill_axial(self, m: Index, t: Index) -> None:
        """Solve what the stencils of four by four nodes that begin at (m, t) still lack."""
        if self._has_axial[m[:, None] + _SIXTEEN[0], t[:, None] + _SIXTEEN[1]].all():
            return
        wanted = np.zeros(self._has_axial.shape, dtype=bool)
        wanted[m[:, None] + _SIXTEEN[0], t[:, None] + _SIXTEEN[1]] = True
        at = np.nonzero(wanted & ~self._has_axial)
        S, omega, axial, _ = self._speeds(_MACH[at[0]], self._theta.nodes[at[1]], 0.0)
        direct = rotor_loads(self.blade, omega, axial, 0.0, self.air)
        self._axial[at] = self._coefficients(S, np.array(_rows(direct)))
        self._has_axial[at] = True

    def _fill_oblique(self, m: Index, t: Index, last_eta: Index) -> None:
        """Solve what the stencils lack, up to an index of `_ETA` for each.

        Each in-plane share starts from the induced angles extrapolated from the two before.
        """
        m, t = m[:, None] + _SIXTEEN[0], t[:, None] + _SIXTEEN[1]
        if (self._solved[m, t] >= last_eta[:, None]).all():
            return
        wanted = np.zeros(self._solved.shape, dtype=np.intp)
        np.maximum.at(wanted, (m, t), last_eta[:, None])
        for k in range(1, int(wanted.max()) + 1):
            at = np.nonzero((wanted >= k) & (self._solved < k))
            if len(at[0]):
                self._solve_share(at[0], at[1], k)

    def _solve_share(self, i: Index, j: Index, k: int) -> None:
        mach, theta = _MACH_COARSE[i], self._theta_coarse.nodes[j]
        S, omega, axial, inplane = self._speeds(mach, theta, float(_ETA[k]))
        a = annuli_of(self.blade, rotor.ANNULI, True)  # as `rotor_loads` asks, so kept once
        near, far = self._induced[0][:, i, j], self._induced[1][:, i, j]
        start = None if k == 1 else near if k == 2 else 2.0 * near - far
        parts = [
            rotor._oblique(
                a, omega[c], axial[c], inplane[c], self.air, 1 if k == 1 else rotor.AZIMUTHS,
                None if start is None else start[:, c], _CHAIN_STEPS.get(k, 2),
            )
            for c in (slice(b, b + 64) for b in range(0, len(S), 64))
        ]  # fmt: skip
        rows = self._coefficients(S, np.concatenate([rows for rows, _ in parts], axis=1))
        self._induced[1][:, i, j] = near
        self._induced[0][:, i, j] = np.concatenate([delta for _, delta in parts], axis=1)
        self._oblique[i, j, k] = rows
        if k == 2:
            self._oblique[i, j, 0] = rows * _PARITY
        self._solved[i, j] = k


def _contract(table: Array, first: Index, stencil: Index, weights: Array) -> Array:
    """Weighted sums of table rows, shape (n, columns); stencils are index shifts from `first`."""
    rows = table.reshape(-1, _ROW).take(first[:, None] + stencil, axis=0)
    return np.asarray((weights[:, None, :] @ rows)[:, 0, :_COLUMNS])


def _rows(loads: RotorLoads) -> tuple[Array, ...]:
    return (
        loads.thrust_N,
        loads.torque_Nm,
        loads.inplane_force_N,
        loads.side_moment_Nm,
        loads.pitch_moment_Nm,
        loads.induced_speed_m_s,
        loads.stall_fraction,
    )


_saved: dict[str, Saved] = {}


def use_saved(maps: Mapping[str, Saved]) -> None:
    """Have maps that are made from now on begin with nodes that were solved before, by the same
    version, each by its map's `key`."""
    _saved.update(maps)


def _key(blade: Blade, air: Air) -> str:
    """A blade in an air by ten digits of each number: another machine may round the rest
    otherwise."""
    stations = (blade.r_R, blade.chord_m, blade.pitch_angle_rad, blade.thickness_ratio)
    numbers = np.concatenate([[blade.radius_m, blade.hub_r_R], *stations, list(vars(air).values())])
    return " ".join([blade.section, str(blade.blade_count), *(f"{x:.10g}" for x in numbers)])


@lru_cache(maxsize=32)
def rotor_map(blade: Blade, air: Air) -> RotorMap:
    """Map of a blade in an air, kept for the 32 pairs used last; filled when used.

    Parameters
    ----------
    blade : Blade
        The rotor's blades. [1]
    air : Air
        The day. [1]

    Returns
    -------
    map : RotorMap
        The map. [1]

    Validity
    --------
    As `rotor_loads`; differs from it by up to about 0.5 % (tests/unit/test_rotor_map.py).

    Source
    ------
    The direct solve of `rotor_loads`.
    """
    made = RotorMap(blade, air)
    saved = _saved.get(made.key) if _saved else None
    if saved is not None:
        made._restore(saved)
    return made
