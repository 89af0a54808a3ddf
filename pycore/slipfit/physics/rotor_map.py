"""A rotor's loads as a smooth map, for the thousands of cases that a trim or a study asks for.

Loads depend on the direction of the speed at the tip (rotation, axial, in-plane), and weakly on
its size through Reynolds and Mach number. So the map holds coefficients on 1/2 rho A S^2, S the
resultant of the three speeds, over three axes that stay finite in hover and at zero rpm: the axial
angle theta = atan2(axial, tip speed), the in-plane share eta = in-plane / S, and the helical Mach
number of the advancing tip. Axial flow has a fine table; what in-plane speed adds has a coarser
one. Both are filled by the direct solve, one Mach number at a time, when first asked for.
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
_ETA = np.array([-0.05, 0.0, 0.05, 0.1, 0.16, 0.23, 0.32, 0.44, 0.6])
_PARITY = np.array([1.0, 1.0, -1.0, -1.0, -1.0, 1.0, 1.0])  # by the sign of in-plane speed
_THETA_LOW, _THETA_HIGH = np.deg2rad(-30.0), np.deg2rad(90.0)
_COLUMNS = 7


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
    above = np.linspace(inner[-1], _THETA_HIGH, 15)[1:]
    return np.concatenate([below, inner, above])


def _coarse_axis(reach: float) -> Array:
    inner = np.linspace(np.deg2rad(-4.0), reach, 14)
    below = np.linspace(_THETA_LOW, inner[0], 4)[:-1]
    above = np.linspace(inner[-1], _THETA_HIGH, 6)[1:]
    return np.concatenate([below, inner, above])


class RotorMap:
    """Interpolated loads of one blade in one air; make it with `rotor_map`, which keeps it."""

    def __init__(self, blade: Blade, air: Air) -> None:
        self.blade = blade
        self.air = air
        self._area_m2 = np.pi * blade.radius_m**2
        at = np.searchsorted(blade.r_R, 0.7)
        reach = float(np.clip(blade.pitch_angle_rad[at] + np.deg2rad(10.0), 0.2, 1.2))
        self._mach = _Axis(_MACH)
        self._theta = _Axis(_fine_axis(reach))
        self._theta_coarse = _Axis(_coarse_axis(reach))
        self._eta = _Axis(_ETA)
        self._axial = np.zeros((len(_MACH), len(self._theta.nodes), _COLUMNS))
        self._added = np.zeros((len(_MACH), len(self._theta_coarse.nodes), len(_ETA), _COLUMNS))
        self._has_axial = np.zeros(len(_MACH), dtype=bool)
        self._has_added = np.zeros(len(_MACH), dtype=bool)

    def loads(
        self,
        omega_rad_s: ArrayLike,
        axial_speed_m_s: ArrayLike,
        inplane_speed_m_s: ArrayLike,
    ) -> RotorLoads:
        """Loads as `rotor_loads` gives them, to about 0.5 % of their size.

        Descent steeper than 30 degrees at the tip and in-plane speed past 0.75 of the tip's lie
        outside the map and are solved directly.
        """
        inputs = (omega_rad_s, axial_speed_m_s, inplane_speed_m_s)
        arrays = np.broadcast_arrays(*(np.asarray(x, dtype=float) for x in inputs))
        shape = arrays[0].shape
        omega, axial, inplane = (x.ravel() for x in arrays)
        S, theta, eta, mach = self._direction(omega, axial, inplane)
        table = self._interpolate(theta, eta, mach, None)
        size = 0.5 * self.air.density_kg_m3 * self._area_m2 * S * S
        R = self.blade.radius_m
        sign = np.sign(inplane)
        scale = np.array(
            [size, size * R, size * sign, size * R * sign, size * R * sign, S, S * 0 + 1]
        )
        out = table.T * scale
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
        high = np.sqrt(np.maximum(a * a - axial * axial, 0.0)) - np.abs(inplane)
        high = np.maximum(high, 0.0) / R
        low = np.minimum(np.maximum(axial, 0.0) / (R * np.tan(self._stop_rad)), high)
        f_low = self._thrust(low, axial, inplane) - wanted
        f_high = self._thrust(high, axial, inplane) - wanted
        found = (f_low <= 0.0) & (f_high >= 0.0) & np.isfinite(wanted)
        # thrust grows with (omega - omega_0) omega, omega_0 that of zero thrust: a first estimate
        k = self._static_coefficient * 0.5 * self.air.density_kg_m3 * self._area_m2 * R * R
        zero = np.maximum(axial, 0.0) / (R * np.tan(self._zero_thrust_rad))
        x = 0.5 * zero + np.sqrt(0.25 * zero * zero + np.maximum(wanted, 0.0) / k)
        x = np.where(found, np.minimum(np.maximum(x, low), high), low)
        x_old, f_old = high, f_high
        for _ in range(9):
            f = self._thrust(x, axial, inplane) - wanted
            above = f > 0.0
            high, low = np.where(above, x, high), np.where(above, low, x)
            run, rise = x - x_old, f - f_old
            step = x - f * np.divide(run, rise, out=np.zeros_like(f), where=rise != 0.0)
            inside = (step >= low) & (step <= high) & (rise != 0.0)
            x_old, f_old = x, f
            x = np.where(f == 0.0, x, np.where(inside, step, 0.5 * (low + high)))
            if np.all(np.abs(x - x_old) <= 1e-9 * (1.0 + x)):
                break
        return np.asarray(np.where(found, x, np.nan).reshape(arrays[0].shape))

    @cached_property
    def _static_coefficient(self) -> float:
        mach = np.array([0.44])
        return max(float(self._interpolate(mach * 0.0, mach * 0.0, mach, 0)[0, 0]), 1e-4)

    @cached_property
    def _zero_thrust_rad(self) -> float:
        """Axial angle at which thrust changes sign, in the middle of the Mach range."""
        angle = self._theta.nodes
        level = int(np.searchsorted(_MACH, 0.44))
        self._fill_axial(np.array([level]))
        falling = (self._axial[level, :-1, 0] > 0.0) & (self._axial[level, 1:, 0] <= 0.0)
        k = int(np.argmax(falling & (angle[1:] > 0.0)))
        return float(max(angle[k + 1], np.deg2rad(2.0)))

    @cached_property
    def _stop_rad(self) -> float:
        return min(self._zero_thrust_rad + np.deg2rad(5.0), np.deg2rad(80.0))

    def _thrust(self, omega: Array, axial: Array, inplane: Array) -> Array:
        S, theta, eta, mach = self._direction(omega, axial, inplane)
        size = 0.5 * self.air.density_kg_m3 * self._area_m2 * S * S
        thrust = self._interpolate(theta, eta, mach, 0)[:, 0] * size
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
        return (theta < _THETA_LOW) | (theta > _THETA_HIGH) | (eta > _ETA[-1])

    def _interpolate(self, theta: Array, eta: Array, mach: Array, column: int | None) -> Array:
        """Coefficients, shape (n, columns); held at the ends of the axes, see `_outside`."""
        pick = slice(None) if column is None else slice(column, column + 1)
        held = np.minimum(np.maximum(mach, _MACH[0]), _MACH[-1])
        theta = np.minimum(np.maximum(theta, _THETA_LOW), _THETA_HIGH)
        m, wm = self._mach.weights(held)
        four = np.arange(4)
        levels = np.unique(m[:, None] + four)
        self._fill_axial(levels)
        t, wt = self._theta.weights(theta)
        flat = self._axial[..., pick].reshape(-1, _COLUMNS if column is None else 1)
        index = ((m * len(self._theta.nodes) + t)[:, None, None]
                 + four[:, None] * len(self._theta.nodes) + four)  # fmt: skip
        w = wm[:, :, None] * wt[:, None, :]
        out = np.einsum("nij,nijc->nc", w, flat[index])
        if not (eta > 0.0).any():
            return np.asarray(out)
        self._fill_added(levels)
        t, wt = self._theta_coarse.weights(theta)
        e, we = self._eta.weights(np.minimum(eta, _ETA[-1]))
        flat = self._added[..., pick].reshape(-1, _COLUMNS if column is None else 1)
        across, deep = len(_ETA), len(self._theta_coarse.nodes) * len(_ETA)
        index = (
            (m * deep + t * across + e)[:, None, None, None]
            + four[:, None, None] * deep
            + four[:, None] * across
            + four
        )
        w = (wm[:, :, None] * wt[:, None, :])[..., None] * we[:, None, None, :]
        n = len(theta)
        cube = flat[index].reshape(n, 64, -1)
        return np.asarray(out + np.einsum("nk,nkc->nc", w.reshape(n, 64), cube))

    def _speeds(self, level: Array, theta: Array, eta: Array) -> tuple[Array, Array, Array, Array]:
        """S, omega, axial and in-plane speed of map nodes."""
        share = np.sqrt(1.0 - eta * eta)
        rotation, through = share * np.cos(theta), share * np.sin(theta)
        mach = np.hypot(rotation + np.abs(eta), through)
        S = _MACH[level] * self.air.sound_speed_m_s / mach
        return S, np.maximum(S * rotation, 0.0) / self.blade.radius_m, S * through, S * eta

    def _coefficients(self, S: Array, rows: Array) -> Array:
        size = 0.5 * self.air.density_kg_m3 * self._area_m2 * S * S
        R = self.blade.radius_m
        scale = np.array([size, size * R, size, size * R, size * R, S, np.ones_like(S)])
        return np.asarray((rows / scale).T)

    def _fill_axial(self, levels: NDArray[np.intp]) -> None:
        missing = levels[~self._has_axial[levels]]
        if not len(missing):
            return
        theta = self._theta.nodes
        level, angle = (x.ravel() for x in np.meshgrid(missing, theta, indexing="ij"))
        S, omega, axial, _ = self._speeds(level, angle, np.zeros_like(angle))
        direct = rotor_loads(self.blade, omega, axial, 0.0, self.air)
        rows = self._coefficients(S, np.array(_rows(direct)))
        self._axial[missing] = rows.reshape(len(missing), len(theta), _COLUMNS)
        self._has_axial[missing] = True

    def _fill_added(self, levels: NDArray[np.intp]) -> None:
        """Solve along rising in-plane share, each step starting from the one before."""
        missing = levels[~self._has_added[levels]]
        if not len(missing):
            return
        theta = self._theta_coarse.nodes
        level, angle = (x.ravel() for x in np.meshgrid(missing, theta, indexing="ij"))
        a = annuli_of(self.blade)
        chunk = 64
        shape = (len(missing), len(theta), _COLUMNS)
        found = []
        delta: Array | None = None
        before: Array | None = None
        for k, eta in enumerate(_ETA[1:]):
            S, omega, axial, inplane = self._speeds(level, angle, np.full_like(angle, eta))
            start = None if delta is None else delta if before is None else 2 * delta - before
            parts = [
                rotor._oblique(
                    a, omega[c], axial[c], inplane[c], self.air, rotor.AZIMUTHS,
                    None if start is None else start[:, c], 10 if k == 0 else 4,
                )
                for c in (slice(i, i + chunk) for i in range(0, len(level), chunk))
            ]  # fmt: skip
            rows = np.concatenate([rows for rows, _ in parts], axis=1)[:_COLUMNS]
            before, delta = delta, np.concatenate([d for _, d in parts], axis=1)
            found.append(self._coefficients(S, rows).reshape(shape))
        base, *others = found
        added = [(others[0] - base) * _PARITY, np.zeros(shape), *(x - base for x in others)]
        self._added[missing] = np.stack(added, axis=2)
        self._has_added[missing] = True


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


_PENDING: dict[tuple[object, ...], Blade] = {}


@lru_cache(maxsize=32)
def _map(key: tuple[object, ...], air: Air) -> RotorMap:
    return RotorMap(_PENDING[key], air)


def rotor_map(blade: Blade, air: Air) -> RotorMap:
    """The map of a blade in an air, kept for the 32 pairs used last; filled when used."""
    _PENDING[blade.key] = blade
    try:
        return _map(blade.key, air)
    finally:
        _PENDING.pop(blade.key, None)
