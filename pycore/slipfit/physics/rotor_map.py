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

from functools import cached_property, lru_cache
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike, NDArray

from slipfit.numerics import Array
from slipfit.physics import rotor
from slipfit.physics.blade import Blade
from slipfit.physics.rotor import RotorLoads, annuli_of, rotor_loads, validity

if TYPE_CHECKING:
    from slipfit.physics.air import Air

# Mach numbers of the advancing tip. Below the first the coefficients of the first are used
# (10 m/s at the tip: no loads to speak of); the last is the end of the rotor's range.
_MACH = np.array(
    [
        0.03,
        0.06,
        0.1,
        0.15,
        0.21,
        0.28,
        0.36,
        0.44,
        0.52,
        0.6,
        0.67,
        0.73,
        0.79,
        0.85,
        0.9,
        0.95,
        1.0,
    ]
)
_MACH_COARSE = np.array(
    [0.03, 0.09, 0.15, 0.21, 0.28, 0.36, 0.45, 0.55, 0.65, 0.75, 0.84, 0.92, 1.0]
)
_ETA = np.array([-0.05, 0.0, 0.05, 0.1, 0.15, 0.2, 0.26, 0.33, 0.44, 0.6])
_PARITY = np.array([1.0, 1.0, -1.0, -1.0, -1.0, 1.0, 1.0, 0.0])  # by the sign of in-plane speed
_THETA_LOW, _THETA_HIGH = np.deg2rad(-30.0), np.deg2rad(90.0)
_COLUMNS, _ROW = 7, 8  # coefficients, and their places in a row of memory
_POINTS = 256  # at a time in the contraction, so that what is gathered stays in cache
_SECANTS = 24
_FADE = 0.05  # in-plane share, node 2 of the axis, from which only the oblique table counts
_FOUR = np.arange(4)
_SIXTEEN = np.indices((4, 4)).reshape(2, 16)  # a stencil of four by four
_CHAIN_STEPS = {1: 10, 2: 4}  # Newton steps by index of _ETA; later ones start from extrapolation


class _Axis:
    """Smooth cubic interpolation on one uneven axis: four neighbours and their weights."""

    def __init__(self, nodes: Array) -> None:
        self.nodes = nodes
        n = len(nodes)
        slopes = np.zeros((n, n))  # derivative at each node of the parabola through it and two more
        for k in range(n):
            i = min(max(k - 1, 0), n - 3)
            x = nodes[i : i + 3]
            for j in range(3):
                p, q = (x[m] for m in range(3) if m != j)
                slopes[k, i + j] = (2 * nodes[k] - p - q) / ((x[j] - p) * (x[j] - q))
        h = np.diff(nodes)[:, None]
        value = np.eye(n)
        y0, y1, m0, m1 = value[:-1], value[1:], slopes[:-1] * h, slopes[1:] * h
        full = np.stack([y0, m0, 3 * (y1 - y0) - 2 * m0 - m1, m0 + m1 - 2 * (y1 - y0)], axis=1)
        self.first = np.clip(np.arange(n - 1) - 1, 0, n - 4)
        self._cubic = np.stack([full[k, :, i : i + 4] for k, i in enumerate(self.first)])

    def weights(self, x: Array) -> tuple[NDArray[np.intp], Array]:
        """Index of the first of four neighbours, shape (n,), and their weights, (n, 4)."""
        k = np.searchsorted(self.nodes, x, side="right") - 1
        k = np.minimum(np.maximum(k, 0), len(self.nodes) - 2)
        t = ((x - self.nodes[k]) / (self.nodes[k + 1] - self.nodes[k]))[:, None]
        c = self._cubic[k]
        w = ((c[:, 3] * t + c[:, 2]) * t + c[:, 1]) * t + c[:, 0]
        return self.first[k], w


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
        self._mach = _Axis(_MACH)
        self._mach_coarse = _Axis(_MACH_COARSE)
        self._theta = _Axis(_fine_axis(reach))
        self._theta_coarse = _Axis(_coarse_axis(reach))
        self._eta = _Axis(_ETA)
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
        table = self._interpolate(theta, eta, mach, _COLUMNS)
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

    def omega_for_thrust(
        self,
        thrust_N: ArrayLike,
        axial_speed_m_s: ArrayLike,
        inplane_speed_m_s: ArrayLike,
    ) -> Array:
        """Speed of rotation [rad/s] at which the rotor gives a thrust; nan where none does.

        Looked for between the onset of negative thrust and a tip Mach number of 1.
        """
        inputs = (thrust_N, axial_speed_m_s, inplane_speed_m_s)
        arrays = np.broadcast_arrays(*(np.asarray(x, dtype=float) for x in inputs))
        wanted, axial, inplane = (x.ravel() for x in arrays)
        R, a = self.blade.radius_m, self.air.sound_speed_m_s
        fastest = np.sqrt(np.maximum(a * a - axial * axial, 0.0)) - np.abs(inplane)
        high = np.maximum(fastest, 0.0) / R
        forward = np.maximum(axial, 0.0)
        low = np.minimum(forward / (R * np.tan(self._stop_rad)), high)
        # thrust is about k (omega - zero) omega, zero being the speed at which it vanishes
        k = self._static_coefficient * 0.5 * self.air.density_kg_m3 * self._area_m2 * R * R
        zero = forward / (R * np.tan(self._zero_thrust_rad))
        x = 0.5 * zero + np.sqrt(0.25 * zero * zero + np.maximum(wanted, 0.0) / k)
        x = np.minimum(np.maximum(x, low), high)
        slope = k * np.maximum(2.0 * x - zero, 0.1 * x + 1.0)
        size = k * np.square(fastest / R)
        found = np.full(x.shape, np.nan)
        left = np.arange(len(x))  # cases still without an answer; the arrays below hold only these
        f = self._thrust(x, axial, inplane) - wanted
        for _ in range(_SECANTS):
            above = f > 0.0
            high, low = np.where(above, x, high), np.where(above, low, x)
            step = x - f / slope
            inside = (step > low) & (step < high)
            step = np.where(inside | (f == 0.0), step, 0.5 * (low + high))
            g = self._thrust(step, axial, inplane) - wanted
            run = step - x
            steeper = np.divide(g - f, run, out=slope.copy(), where=np.abs(run) > 1e-12)
            slope = np.where(steeper > 0.0, steeper, slope)
            x, f = step, g
            done = np.abs(f) <= 1e-8 * np.abs(wanted) + 1e-10 * size
            if done.any():
                found[left[done]] = (x - f / slope)[done]
                stay = ~done
                left = left[stay]
                if not len(left):
                    break
                x, f, slope, low, high, size = (a[stay] for a in (x, f, slope, low, high, size))
                wanted, axial, inplane = wanted[stay], axial[stay], inplane[stay]
        return np.asarray(found.reshape(arrays[0].shape))

    @cached_property
    def _static_coefficient(self) -> float:
        mach = np.array([0.44])
        return max(float(self._interpolate(mach * 0.0, mach * 0.0, mach, 1)[0, 0]), 1e-4)

    @cached_property
    def _zero_thrust_rad(self) -> float:
        """Axial angle at which thrust changes sign, in the middle of the Mach range."""
        angle = self._theta.nodes
        level = int(np.searchsorted(_MACH, 0.44))
        every = np.arange(len(angle) - 3)
        self._fill_axial(np.full(every.shape, min(level, len(_MACH) - 4)), every)
        falling = (self._axial[level, :-1, 0] > 0.0) & (self._axial[level, 1:, 0] <= 0.0)
        k = int(np.argmax(falling & (angle[1:] > 0.0)))
        return float(max(angle[k + 1], np.deg2rad(2.0)))

    @cached_property
    def _stop_rad(self) -> float:
        return float(min(self._zero_thrust_rad + np.deg2rad(5.0), np.deg2rad(80.0)))

    def _thrust(self, omega: Array, axial: Array, inplane: Array) -> Array:
        S, theta, eta, mach = self._direction(omega, axial, inplane)
        size = 0.5 * self.air.density_kg_m3 * self._area_m2 * S * S
        thrust = self._interpolate(theta, eta, mach, 1)[0] * size
        outside = self._outside(theta, eta)
        if outside.any():
            direct = rotor_loads(
                self.blade, omega[outside], axial[outside], inplane[outside], self.air
            )
            thrust[outside] = direct.thrust_N
        return np.asarray(thrust)

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

    def _interpolate(self, theta: Array, eta: Array, mach: Array, columns: int) -> Array:
        """The first coefficients, shape (columns, n); held at the ends, see `_outside`."""
        out = np.empty((columns, len(theta)))
        for start in range(0, len(theta), _POINTS):
            part = slice(start, start + _POINTS)
            out[:, part] = self._interpolate_few(theta[part], eta[part], mach[part], columns)
        return out

    def _interpolate_few(self, theta: Array, eta: Array, mach: Array, columns: int) -> Array:
        mach = np.minimum(np.maximum(mach, _MACH[0]), _MACH[-1])
        theta = np.minimum(np.maximum(theta, _THETA_LOW), _THETA_HIGH)
        out = np.zeros((len(theta), columns))
        # the fine table's share: all in axial flow, none from _FADE on
        y = np.maximum(1.0 - eta / _FADE, 0.0)
        fine = y * y * (3.0 - 2.0 * y)
        straight = np.flatnonzero(fine > 0.0)
        if len(straight):
            out[straight] = self._axial_few(theta[straight], mach[straight], columns)
            out[straight] *= fine[straight, None]
        bent = np.flatnonzero(eta > 0.0)
        if len(bent):
            out[bent] += self._oblique_few(theta[bent], eta[bent], mach[bent], fine[bent], columns)
        return out.T

    def _axial_few(self, theta: Array, mach: Array, columns: int) -> Array:
        m, wm = self._mach.weights(mach)
        t, wt = self._theta.weights(theta)
        self._fill_axial(m, t)
        across = len(self._theta.nodes)
        stencil = (_FOUR[:, None] * across + _FOUR).ravel()
        w = (wm[:, :, None] * wt[:, None, :]).reshape(len(m), 16)
        return _contract(self._axial, m * across + t, stencil, w, columns)

    def _oblique_few(
        self, theta: Array, eta: Array, mach: Array, fine: Array, columns: int
    ) -> Array:
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
        return _contract(self._oblique, first, stencil, w.reshape(len(m), 64), columns)

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

    def _fill_axial(self, m: NDArray[np.intp], t: NDArray[np.intp]) -> None:
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

    def _fill_oblique(
        self, m: NDArray[np.intp], t: NDArray[np.intp], last_eta: NDArray[np.intp]
    ) -> None:
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

    def _solve_share(self, i: NDArray[np.intp], j: NDArray[np.intp], k: int) -> None:
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


def _contract(
    table: Array, first: NDArray[np.intp], stencil: NDArray[np.intp], weights: Array, columns: int
) -> Array:
    """Weighted sums of table rows, shape (n, columns); stencils are index shifts from `first`."""
    rows = table.reshape(-1, _ROW)
    index = first[:, None] + stencil
    if columns == 1:
        return np.asarray(np.einsum("nk,nk->n", weights, rows[:, 0].take(index)))[:, None]
    return np.asarray((weights[:, None, :] @ rows.take(index, axis=0))[:, 0, :columns])


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
    return RotorMap(blade, air)
