"""An airframe's forces as a smooth table, for the thousands of cases that a trim asks for.

Force over dynamic pressure depends on the direction of the local air, theta = atan2(side, axial),
and weakly on its speed through Reynolds number. Bodies that stand in the same share of the rotors'
wash meet the same air, so each such group has one table, filled by the bodies' own models.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from slipfit.flight.airframe import FULL_SLIPSTREAM, AirframeLoads, body_causes
from slipfit.frame.frame import BodyEntry
from slipfit.numerics import Array, CubicAxis, Real
from slipfit.physics.air import Air


def _crowded(count: int) -> Array:
    """Nodes on [0, 1] that crowd towards both ends."""
    x = np.linspace(0.0, 1.0, count)
    return np.asarray(x**1.6 / (x**1.6 + (1.0 - x) ** 1.4))


# Crowded towards 0, where fast flight lives, towards 90 degrees, where the flow over bodies changes
# sides, and towards 180 degrees, where forces turn quickly too.
_THETA = 0.5 * np.pi * np.concatenate([_crowded(29), 2.0 - _crowded(17)[-2::-1]])
# Closer together above 60 m/s, where the cross-flow over bodies feels compressibility.
_SPEED = np.array(
    [0.5, 1.0, 2.0, 4.0, 8.0, 15.0, 25.0, 40.0, 60.0, 80.0]
    + [100.0, 115.0, 130.0, 145.0, 160.0, 175.0, 187.0, 199.0]
)
_NODES = len(_THETA) * len(_SPEED)
_FOUR = np.arange(4)
_POINTS = 4096  # at a time, so that what is gathered stays in the processor's cache


class AirframeMap:
    """Interpolated loads of bodies in one air; make it with `airframe_map`, which keeps it."""

    def __init__(self, bodies: tuple[BodyEntry, ...], air: Air) -> None:
        self._density_kg_m3 = air.density_kg_m3
        self._theta, self._log_speed = CubicAxis(_THETA), CubicAxis(np.log(_SPEED))
        theta, speed = np.meshgrid(_THETA, _SPEED, indexing="ij")
        axial, side = speed * np.cos(theta), speed * np.sin(theta)
        side[0], side[-1] = 0.0, 0.0
        q = 0.5 * air.density_kg_m3 * speed**2
        shares = sorted({entry.washed for entry in bodies} or {0.0})
        names: list[tuple[int, str]] = []  # group, cause
        areas: list[Array] = []
        normals: list[Array] = []
        for group, washed in enumerate(shares):
            entries = [entry for entry in bodies if entry.washed == washed]
            causes, normal = body_causes(entries, axial, side, air)
            names += [(group, name) for name in causes]
            areas += [force / q for force in causes.values()]
            normals.append(normal / q)
        self._wash = FULL_SLIPSTREAM * np.array(shares)[:, None]
        self._names = tuple(names)
        self._axial_m2 = np.array(areas).reshape(len(names), _NODES)  # force over dynamic pressure
        self._normal_m2 = np.array(normals).reshape(len(shares), _NODES)
        self._total_m2 = np.zeros_like(self._normal_m2)
        for (group, _), table in zip(self._names, self._axial_m2, strict=True):
            self._total_m2[group] += table
        self._polynomials = self._cells()

    def _places(self, axial: Array, side: Array, induced: Array) -> tuple[Array, Array, Array]:
        """Flat table indices of sixteen neighbours and their weights, shape (groups, n, 16), and
        the dynamic pressure, (groups, n)."""
        local = axial.ravel() + self._wash * induced.ravel()
        across = np.broadcast_to(side.ravel(), local.shape)
        speed = np.hypot(local, across)
        known = np.log(np.minimum(np.maximum(speed, _SPEED[0]), _SPEED[-1]))
        i, wi = self._theta.weights(np.arctan2(across, local).ravel())
        k, wk = self._log_speed.weights(known.ravel())
        index = (i[:, None, None] + _FOUR[:, None]) * len(_SPEED) + k[:, None, None] + _FOUR
        weight = wi[:, :, None] * wk[:, None, :]
        shape = (*local.shape, 16)
        pressure = 0.5 * self._density_kg_m3 * speed**2
        return index.reshape(shape), weight.reshape(shape), pressure

    def _cells(self) -> Array:
        """Total axial and normal force over dynamic pressure as a polynomial in each cell of the
        table, shape (groups x cells, 4 powers of speed, 2 x 4 powers of theta)."""
        (at, by_theta), (ak, by_speed) = self._theta.cubics(), self._log_speed.cubics()
        table = np.stack([self._total_m2, self._normal_m2], axis=1)
        table = table.reshape(-1, 2, len(_THETA), len(_SPEED))
        rows = np.einsum("ipm,gfimk->gfipk", by_theta, table[:, :, at[:, None] + _FOUR])
        cells = np.einsum("kqn,gfipkn->gikqfp", by_speed, rows[..., ak[:, None] + _FOUR])
        return np.ascontiguousarray(cells.reshape(-1, 4, 8))

    def forces(
        self, axial_m_s: Array, side_m_s: Array, induced_m_s: Array, drag_factor: Real
    ) -> tuple[Array, Array]:
        """Axial and normal force in all, for the search for a trim; speeds of one shape. [N]"""
        axial, side, induced = axial_m_s.ravel(), side_m_s.ravel(), induced_m_s.ravel()
        areas = np.empty((2, axial.size))
        groups = len(self._wash)
        first = (len(_THETA) - 1) * (len(_SPEED) - 1) * np.arange(groups)[:, None]
        at_once = max(1, _POINTS // groups)
        for start in range(0, axial.size, at_once):
            part = slice(start, start + at_once)
            local = axial[part] + self._wash * induced[part]
            across = side[part]
            square = local * local + across * across
            speed = 0.5 * np.log(np.minimum(np.maximum(square, _SPEED[0] ** 2), _SPEED[-1] ** 2))
            i, t = self._theta.place(np.arctan2(across, local))
            k, s = self._log_speed.place(speed)
            c = self._polynomials.take((first + i * (len(_SPEED) - 1) + k).ravel(), axis=0)
            s, t = s.reshape(-1, 1), t.reshape(-1, 1)
            row = ((c[:, 3] * s + c[:, 2]) * s + c[:, 1]) * s + c[:, 0]
            row = row.reshape(-1, 2, 4)
            area = ((row[..., 3] * t + row[..., 2]) * t + row[..., 1]) * t + row[..., 0]
            areas[:, part] = np.einsum("gn,gnf->fn", square, area.reshape(*square.shape, 2))
        axial_N, normal_N = 0.5 * self._density_kg_m3 * areas.reshape(2, *axial_m_s.shape)
        return axial_N * drag_factor, normal_N * drag_factor

    def loads(
        self, axial_m_s: Array, side_m_s: Array, induced_m_s: Array, drag_factor: Real
    ) -> AirframeLoads:
        """Forces as `airframe_loads` gives them, to 0.3 % of their size; speeds of one shape."""
        shape = axial_m_s.shape
        index, weight, pressure = self._places(axial_m_s, side_m_s, induced_m_s)
        causes: dict[str, Array] = {}
        for (group, name), table in zip(self._names, self._axial_m2, strict=True):
            area = np.einsum("nk,nk->n", table[index[group]], weight[group])
            force = (pressure[group] * area).reshape(shape) * drag_factor
            causes[name] = causes[name] + force if name in causes else force
        total, normal = self.forces(axial_m_s, side_m_s, induced_m_s, drag_factor)
        fastest = 0.5 * self._density_kg_m3 * _SPEED[-1] ** 2
        return AirframeLoads(
            causes=causes,
            axial_N=total,
            normal_N=normal,
            valid=(pressure <= fastest).all(axis=0).reshape(shape),
        )


@lru_cache(maxsize=32)
def airframe_map(bodies: tuple[BodyEntry, ...], air: Air) -> AirframeMap:
    """The map of a frame's bodies in an air, kept for the 32 used last."""
    return AirframeMap(bodies, air)
