"""Loads of a rotor by blade elements and momentum, in axial and oblique flow, for arrays of cases.

One unknown per annulus: the induced angle between the blade's geometric velocity and the true one.
A vortex sheet induces velocity square to the local flow, so that with the geometric velocity W0 at
the angle phi0 the true one is W0 cos(delta) at phi0 + delta, and what is induced is W0 sin(delta):
axially v = W0 sin(delta) cos(phi), in the sense of rotation u = W0 sin(delta) sin(phi). Momentum
along the lift then reads

    4 F (U / W0) sin(delta) = sigma (W / W0)^2 cl(beta - phi),   sigma = B c / (2 pi r),

with F for tip and hub by Prandtl, at the tip as Goldstein has it for the screw-shaped wake, and
Glauert's U, the resultant speed through the annulus (less a little of what is induced: see
`_HOVER_DEFICIT`). There is no 0/0 at rest, in hover, at zero rpm or at zero lift. Profile drag
stays out of the momentum: its wake is thin and induces nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike, NDArray

from slipfit.errors import InputError
from slipfit.numerics import Array, pchip
from slipfit.physics.blade import Blade
from slipfit.physics.polar import Polar, Station, polar_at
from slipfit.physics.tip_loss import STEEPEST_SINE, goldstein_over_prandtl

if TYPE_CHECKING:
    from slipfit.physics.air import Air

ANNULI = 12
AZIMUTHS = 8
_STEPS = 12  # Newton steps from the small-angle estimate
_SETTLED = 1e-8  # change of the induced angle in radians at which a batch stops early
_CHUNK = 6144  # elements at a time, so that temporaries stay in the processor's cache
_GRADIENT = 15.0 * np.pi / 32.0  # first harmonic of inflow; Pitt and Peters (1981)
# Share of the induced speed that carries no air through a ring. Momentum of separate rings counts
# all of it; but the wake of a hovering rotor contracts, and each tip vortex passes close under the
# next blade, so that a blade induces more for its thrust. One value for all rotors, by the mean
# thrust of TN 626 from 6 to 10 degrees and of the small propellers at rest (0.07 would be right on
# the mean; rounded to a twentieth). TM-81232 had no part in it. It matters less and less as the
# oncoming speed grows.
_HOVER_DEFICIT = 0.05
_RING_LOW, _RING_HIGH = 0.3, 2.0  # descent in units of hover's induced speed; NACA TN 2474
_MAX_TIP_MACH = 1.0


@dataclass(frozen=True)
class RotorLoads:
    """What a rotor does at each case; all arrays have the broadcast shape of the inputs.

    `inplane_force_N` points along the in-plane flow. `side_moment_Nm` is the moment about the
    in-plane flow, positive as the lift of the advancing side makes it; it changes sign with the
    sense of rotation. `pitch_moment_Nm` raises the upstream edge and does not. `stall_fraction`
    is the share of the blade area, weighted by dynamic pressure, past its greatest lift. `valid`
    is false in the vortex ring, with tips past Mach 1, or where no number came out.
    """

    thrust_N: Array
    torque_Nm: Array
    inplane_force_N: Array
    side_moment_Nm: Array
    pitch_moment_Nm: Array
    induced_speed_m_s: Array
    tip_mach: Array
    stall_fraction: Array
    valid: NDArray[np.bool_]


@dataclass(frozen=True, kw_only=True, eq=False)
class Annuli:
    """A blade at the nodes of a Gauss rule from the root cut-out to the tip; shape (annuli, 1)."""

    blade_count: int
    radius_m: float
    hub_m: float
    r_m: Array
    weight_m: Array
    chord_m: Array
    pitch_angle_rad: Array
    solidity: Array
    sheets: Array  # see `goldstein_over_prandtl`; shape (powers, annuli, 1)
    index: NDArray[np.intp]
    polar: Polar


@lru_cache(maxsize=64)
def annuli_of(blade: Blade, count: int = ANNULI, with_stall_delay: bool = True) -> Annuli:
    """Blade at its annuli, kept for the 64 blades used last.

    Parameters
    ----------
    blade : Blade
        The blade. [1]
    count : int
        Number of annuli, nodes of a Gauss rule. [1]
    with_stall_delay : bool
        Whether rotation delays the stall near the hub. [1]

    Returns
    -------
    annuli : Annuli
        Geometry and polars at the nodes. [1]

    Validity
    --------
    As `rotor_loads`.

    Source
    ------
    Gauss and Legendre's rule; between stations, shape-preserving cubics.
    """
    node, weight = np.polynomial.legendre.leggauss(count)
    span = 1.0 - blade.hub_r_R
    x = blade.hub_r_R + 0.5 * span * (node + 1.0)
    chord_m = pchip(blade.r_R, blade.chord_m, x)
    pitch_angle_rad = pchip(blade.r_R, blade.pitch_angle_rad, x)
    thickness_ratio = pchip(blade.r_R, blade.thickness_ratio, x)
    r_m = x * blade.radius_m
    polar = polar_at(
        blade.section,
        thickness_ratio,
        chord_m / r_m,
        pitch_angle_rad,
        with_stall_delay,
        blade.aspect_ratio,
    )
    return Annuli(
        blade_count=blade.blade_count,
        radius_m=blade.radius_m,
        hub_m=blade.hub_r_R * blade.radius_m,
        r_m=r_m[:, None],
        weight_m=(0.5 * span * blade.radius_m * weight)[:, None],
        chord_m=chord_m[:, None],
        pitch_angle_rad=pitch_angle_rad[:, None],
        solidity=(blade.blade_count * chord_m / (2 * np.pi * r_m))[:, None],
        sheets=goldstein_over_prandtl(blade.blade_count, x).T[:, :, None],
        index=np.arange(count, dtype=np.intp)[:, None],
        polar=polar,
    )


def rotor_loads(
    blade: Blade,
    omega_rad_s: ArrayLike,
    axial_speed_m_s: ArrayLike,
    inplane_speed_m_s: ArrayLike,
    air: Air,
    *,
    annuli: int = ANNULI,
    azimuths: int = AZIMUTHS,
    with_stall_delay: bool = True,
) -> RotorLoads:
    r"""Thrust, torque and in-plane loads of a rotor of rigid blades.

    $$ 4 F\, \frac{U}{W_0} \sin\delta = \sigma \,\overline{\left(\frac{W}{W_0}\right)^2
       c_l(\beta - \phi) \cos(\phi - \phi_0 - \delta)}, \quad
       U = \sqrt{(V_z + 0.95\, v)^2 + V_x^2} $$

    The bar is the mean over azimuth; in axial flow nothing depends on it and the equation is that
    of blade-element momentum theory, but for the factor 0.95: our own, for what the contracting
    wake and the passing tip vortices of hover cost (`_HOVER_DEFICIT`). Across the disk the induced
    velocity varies as $v (1 + k_x \tfrac{r}{R} \cos\psi)$ with $k_x$ of
    `inflow_gradient_pitt_peters`.

    Parameters
    ----------
    blade : Blade
        The rotor's blades. [1]
    omega_rad_s : float or array, shape (...)
        Speed of rotation, zero or more. [rad/s]
    axial_speed_m_s : float or array, shape (...)
        Air coming down on the disk along the axis, positive in climb, $V_z$. [m/s]
    inplane_speed_m_s : float or array, shape (...)
        Air along the disk, $V_x$. [m/s]
    air : Air
        The day. [1]
    annuli : int
        Number of annuli. [1]
    azimuths : int
        Number of blade positions in oblique flow. [1]
    with_stall_delay : bool
        Whether rotation delays the stall near the hub. [1]

    Returns
    -------
    loads : RotorLoads
        Loads, broadcast shape, with the mask of where they are valid. [1]

    Validity
    --------
    See `RotorLoads.valid`. Reynolds and Mach number of a section are those of its geometric
    speed; Reynolds numbers below 1e4 and above 1e6 use the ends of the section table. Hover, zero
    rotation and windmilling are ordinary. In the vortex ring (descent at 0.3 to 2 times the speed
    induced in hover) momentum theory fails; numbers come out but are marked.

    Source
    ------
    H. Glauert, Airplane propellers, in W. F. Durand, *Aerodynamic Theory*, vol. IV, 1935, for
    blade elements, Prandtl's factor and the oblique disk; `goldstein_over_prandtl` for the tip;
    D. M. Pitt and D. A. Peters, Vertica 5 (1981), pp. 21-34, for the gradient; M. L. Buhl,
    NREL/TP-500-36834 (2005), for heavy windmilling. The unknown and its equation are derived at the
    head of this module.

    Examples
    --------
    At rest nothing happens, and there is no 0/0:

    >>> from slipfit.physics.air import air_of_day
    >>> from slipfit.physics.blade import blade_from_style
    >>> blade = blade_from_style(0.127, 0.109, 3, "wide")
    >>> float(rotor_loads(blade, 0.0, 0.0, 0.0, air_of_day()).thrust_N)
    0.0
    """
    inputs = (omega_rad_s, axial_speed_m_s, inplane_speed_m_s)
    omega, axial, inplane = np.broadcast_arrays(*(np.asarray(x, dtype=float) for x in inputs))
    shape = omega.shape
    for name, value in (
        ("omega_rad_s", omega), ("axial_speed_m_s", axial), ("inplane_speed_m_s", inplane)
    ):  # fmt: skip
        if not np.isfinite(value).all():
            raise InputError(f"rotor_loads: {name} must be finite, got nan or inf", field=name)
    if (omega < 0.0).any():
        raise InputError(
            f"rotor_loads: omega_rad_s must be >= 0 (turn the blade over to reverse it), "
            f"got {omega.min():g}",
            field="omega_rad_s",
        )
    station = annuli_of(blade, annuli, with_stall_delay)
    flat = [np.ravel(x) for x in (omega, axial, inplane)]
    size = flat[0].size
    out = np.zeros((8, size))
    oblique = bool((flat[2] != 0.0).any())
    step = max(1, _CHUNK // (annuli * (azimuths if oblique else 1)))
    for start in range(0, size, step):
        part = slice(start, start + step)
        w, vz, vx = (x[part] for x in flat)
        if oblique:
            out[:, part] = _oblique(station, w, vz, vx, air, azimuths)[0]
        else:
            out[:, part] = _axial(station, w, vz, air)
    thrust, torque, h, side, pitch, induced, stall, finite = (x.reshape(shape) for x in out)
    tip_mach, valid = validity(blade, air, omega, axial, inplane, thrust)
    return RotorLoads(
        thrust, torque, h, side, pitch, induced, tip_mach, stall, valid & (finite > 0.0)
    )


def validity(
    blade: Blade, air: Air, omega: Array, axial: Array, inplane: Array, thrust: Array
) -> tuple[Array, NDArray[np.bool_]]:
    """Helical Mach number of the advancing tip, and where it and the descent are in range.

    Parameters
    ----------
    blade : Blade
        The rotor's blades. [1]
    air : Air
        The day. [1]
    omega : array, shape (...)
        Speed of rotation in rad/s. [1]
    axial : array, shape (...)
        Axial speed in m/s. [1]
    inplane : array, shape (...)
        In-plane speed in m/s. [1]
    thrust : array, shape (...)
        Thrust in N. [1]

    Returns
    -------
    tip_mach : array, shape (...)
        Mach number of the advancing tip. [1]
    valid : array, shape (...)
        False past Mach 1 and in the vortex ring. [1]

    Validity
    --------
    The ring is taken as descent at 0.3 to 2 times the speed induced in hover, with less in-plane
    speed than that.

    Source
    ------
    NACA TN 2474 (1951), table I: what is induced leaves momentum theory in this range.
    """
    tip_mach = np.hypot(omega * blade.radius_m + np.abs(inplane), axial) / air.sound_speed_m_s
    hover = np.sqrt(np.abs(thrust) / (2 * air.density_kg_m3 * np.pi * blade.radius_m**2))
    ring = (
        (thrust > 0.0)
        & (-axial > _RING_LOW * hover)
        & (-axial < _RING_HIGH * hover)
        & (np.abs(inplane) < hover)
    )
    return tip_mach, (tip_mach <= _MAX_TIP_MACH) & ~ring


def inflow_gradient_pitt_peters(wake_skew_rad: ArrayLike) -> Array:
    r"""First harmonic of the velocity induced by a rotor in oblique flow, over its mean.

    $$ k_x = \frac{15 \pi}{32} \tan\frac{\chi}{2} $$

    Parameters
    ----------
    wake_skew_rad : float or array, shape (...)
        Angle $\chi$ between the wake and the rotor axis: 0 in axial flow. [rad]

    Returns
    -------
    gradient : array, same shape
        $k_x$: what is induced grows downstream by this share from the centre to the rim. [1]

    Validity
    --------
    0 <= wake_skew_rad <= pi/2; derived for the steady loads of an actuator disk.

    Source
    ------
    D. M. Pitt and D. A. Peters, Theoretical prediction of dynamic-inflow derivatives, Vertica 5
    (1981), pp. 21-34: ratio of $L_{31}$ to $L_{11}$.

    Examples
    --------
    >>> float(inflow_gradient_pitt_peters(np.pi / 2).round(6))
    1.472622
    """
    return np.asarray(_GRADIENT * np.tan(0.5 * np.asarray(wake_skew_rad, dtype=float)))


def _axial(a: Annuli, omega: Array, vz: Array, air: Air) -> Array:
    rotation = omega * a.r_m
    W0 = np.sqrt(rotation * rotation + vz * vz)
    phi0 = np.arctan2(np.broadcast_to(vz, W0.shape), rotation)
    section = Station(
        a.polar,
        a.index,
        W0 * (a.chord_m * (air.density_kg_m3 / air.viscosity_Pa_s)),
        W0 * (1.0 / air.sound_speed_m_s),
    )
    low, high, delta = _bracket(a, section, phi0)
    flow = _direction(rotation, vz, W0)
    sigma = a.solidity
    for _ in range(_STEPS):
        sin_delta, cos_delta = np.sin(delta), np.cos(delta)
        sin_phi, cos_phi = _turned(flow, sin_delta, cos_delta)
        F, dF = _loss(a, sin_phi, cos_phi)
        through, slope = _through(flow, sin_delta, cos_delta, sin_phi, cos_phi)
        cl, cl_slope = section.lift(a.pitch_angle_rad - phi0 - delta)
        square = cos_delta * cos_delta
        Fs = F * sin_delta
        g = 4.0 * Fs * through - sigma * square * cl
        dg = 4.0 * (Fs * slope + (F * cos_delta + dF * sin_delta) * through) + sigma * (
            square * cl_slope + 2.0 * cos_delta * sin_delta * cl
        )
        before = delta
        low, high, delta = _newton(low, high, delta, g, dg)
        if np.abs(delta - before).max() < _SETTLED:
            break
    sin_delta, cos_delta = np.sin(delta), np.cos(delta)
    sin_phi, cos_phi = _turned(flow, sin_delta, cos_delta)
    alpha = a.pitch_angle_rad - phi0 - delta
    cl, _ = section.lift(alpha)
    cd = section.drag(alpha, cl)
    W2 = np.square(W0 * cos_delta)
    q = (0.5 * air.density_kg_m3 * a.blade_count) * a.chord_m * a.weight_m * W2
    thrust = (q * (cl * cos_phi - cd * sin_phi)).sum(axis=0)
    torque = (q * (cl * sin_phi + cd * cos_phi) * a.r_m).sum(axis=0)
    induced = W0 * sin_delta * cos_phi
    ring = a.r_m * a.weight_m
    mean_induced = (induced * ring).sum(axis=0) / ring.sum()
    stalled = np.clip((alpha - section.stall_rad) / np.deg2rad(2.0) + 0.5, 0.0, 1.0)
    stall = (stalled * q).sum(axis=0) / np.maximum(q.sum(axis=0), 1e-30)
    zero = np.zeros_like(thrust)
    finite = np.isfinite(thrust) & np.isfinite(torque)
    return np.array([thrust, torque, zero, zero, zero, mean_induced, stall, finite])


def _direction(rotation: Array, vz: Array, W0: Array) -> tuple[Array, Array]:
    """Sine and cosine of the geometric inflow angle; at rest it is 0."""
    still = W0 == 0.0
    scale = 1.0 / np.where(still, 1.0, W0)
    return vz * scale, np.where(still, 1.0, rotation * scale)


def _turned(flow: tuple[Array, Array], sin_delta: Array, cos_delta: Array) -> tuple[Array, Array]:
    """Sine and cosine of the inflow angle with the induced angle added."""
    s, c = flow
    return s * cos_delta + c * sin_delta, c * cos_delta - s * sin_delta


def _bracket(a: Annuli, section: Station, phi0: Array) -> tuple[Array, Array, Array]:
    """Where the induced angle must lie, by the sign of lift without induction, and an estimate."""
    alpha = a.pitch_angle_rad - phi0
    cl, _ = section.lift(alpha)
    section.compress(cl)
    beyond = alpha - section.zero_lift_rad
    up = cl > 0.0
    far = np.where(up == (beyond > 0.0), beyond, np.where(up, alpha + np.pi, alpha - np.pi))
    low = np.where(up, -0.05, np.minimum(far, 0.0) - 0.05)
    high = np.where(up, np.maximum(far, 0.0) + 0.05, 0.05)
    # linear lift of slope 5.7 per radian: 4 (s + d) d + sigma k d = sigma k x, on the side of x
    s = np.abs(np.sin(phi0))
    k = a.solidity * 5.7
    x = np.minimum(np.abs(np.sin(beyond)), 0.25)
    b = 4.0 * s + k
    guess = (np.sqrt(b * b + 16.0 * k * x) - b) / 8.0
    guess = np.where(up, guess, -np.minimum(guess, 0.5 * s))
    return low, high, np.minimum(np.maximum(guess, low), high)


def _newton(low: Array, high: Array, x: Array, g: Array, dg: Array) -> tuple[Array, Array, Array]:
    """One step inside a bracket: Newton's where it stays inside, else the middle."""
    positive = g > 0.0
    high = np.where(positive, x, high)
    low = np.where(positive, low, x)
    step = x - g / np.where(dg == 0.0, 1.0, dg)
    inside = (step >= low - 1e-6) & (step <= high + 1e-6)  # slack for rounding
    return low, high, np.where(inside, step, 0.5 * (low + high))


def _loss(a: Annuli, sin_phi: Array, cos_phi: Array) -> tuple[Array, Array]:
    """The factor for tip and hub, and its derivative by the inflow angle: Prandtl's for both,
    times Goldstein's share of it at the tip."""
    s = np.maximum(np.abs(sin_phi), 1e-6)
    half = 0.5 * a.blade_count
    F, dF = np.ones_like(s), np.zeros_like(s)
    for edge in (half * (a.radius_m - a.r_m) / a.r_m, half * (a.r_m - a.hub_m) / a.hub_m):
        f = edge / s
        E = np.exp(-np.minimum(f, 50.0))
        one = (2.0 / np.pi) * np.arccos(E)
        d_one = (-2.0 / np.pi) * E * f / np.sqrt(1.0 - E * E)
        dF = dF * one + d_one * F
        F = F * one
    # dF is by the logarithm of s so far; the polynomial and its slope by Horner's rule
    t = np.minimum(s, STEEPEST_SINE)
    share, slope = a.sheets[-1], np.zeros(1)
    for power in a.sheets[-2::-1]:
        slope = slope * t + share
        share = share * t + power
    dF = dF * share + F * np.where(s < STEEPEST_SINE, slope * s, 0.0)
    return F * share, dF * (cos_phi * np.sign(sin_phi) / s)


def _through(
    flow: tuple[Array, Array],
    sin_delta: Array,
    cos_delta: Array,
    sin_phi: Array,
    cos_phi: Array,
) -> tuple[Array, Array]:
    """Axial speed through the annulus for the momentum balance, over W0, and its derivative.

    Momentum theory's |V + v| without the share of v that `_HOVER_DEFICIT` names; where the rotor
    takes more than 0.4 of an oncoming speed out of the air its wake turns turbulent, and Buhl's
    empirical thrust (NREL/TP-500-36834, 2005: joins momentum theory at a = 0.4 and reaches CT = 2
    at a = 1) gives the speed, where it is greater: CT = 8/9 - 4/9 a + 14/9 a^2 without tip loss,
    which the balance applies to both.
    """
    kept = 1.0 - _HOVER_DEFICIT
    along = flow[0] + kept * sin_delta * cos_phi
    through = np.abs(along)
    slope = kept * np.sign(along) * (cos_phi * cos_delta - sin_phi * sin_delta)
    oncoming = flow[0]
    opposed = -sin_delta * cos_phi
    # past twice the oncoming speed, momentum theory gives more again
    size, taken = np.abs(oncoming), np.abs(opposed)
    turbulent = (opposed * oncoming > 0.0) & (taken > 0.4 * size) & (taken < 2.0 * size)
    if turbulent.any():
        safe = np.where(turbulent, oncoming, 1.0)
        x = np.where(turbulent, opposed, 1.0) / safe
        c0, c1, c2 = 2.0 / 9.0, -1.0 / 9.0, 7.0 / 18.0
        buhl = np.abs(safe) * (c0 / x + c1 + c2 * x)
        take = turbulent & (buhl > through)
        through = np.where(take, buhl, through)
        rate = -(cos_phi * cos_delta - sin_phi * sin_delta) / safe
        slope = np.where(take, np.abs(safe) * (c2 - c0 / (x * x)) * rate, slope)
    return through, slope


def _oblique(
    a: Annuli,
    omega: Array,
    vz: Array,
    vx: Array,
    air: Air,
    azimuths: int,
    delta: Array | None = None,
    steps: int = _STEPS,
) -> tuple[Array, Array]:
    """Rows of loads, and the induced angles; `delta` is an estimate of these where there is one."""
    psi = 2 * np.pi * (np.arange(azimuths) + 0.5) / azimuths  # 0 downstream, 90 deg advancing
    sin_psi, cos_psi = np.sin(psi)[:, None], np.cos(psi)[:, None]
    speed = np.abs(vx)
    rotation = omega * a.r_m
    W0 = np.sqrt(rotation * rotation + vz * vz)
    phi0 = np.arctan2(np.broadcast_to(vz, W0.shape), rotation)
    advancing = rotation[:, None, :] + speed * sin_psi
    W_first = np.sqrt(advancing * advancing + vz * vz)
    section = Station(
        a.polar,
        a.index[:, :, None],
        W_first * (a.chord_m[:, :, None] * (air.density_kg_m3 / air.viscosity_Pa_s)),
        W_first * (1.0 / air.sound_speed_m_s),
    )
    beta = a.pitch_angle_rad[:, :, None]
    first_cl, _ = section.lift(beta - np.arctan2(np.broadcast_to(vz, advancing.shape), advancing))
    section.compress(first_cl)
    sigma = a.solidity
    x = (a.r_m / a.radius_m)[:, :, None] * cos_psi
    if delta is None:
        delta = _oblique_estimate(a, section, phi0, speed, W0)
    low, high = np.full_like(W0, -np.inf), np.full_like(W0, np.inf)  # open
    before: tuple[Array, Array] | None = None
    flow = _direction(rotation, vz, W0)
    for _ in range(steps):
        sin_delta, cos_delta = np.sin(delta), np.cos(delta)
        sin_phi, cos_phi = _turned(flow, sin_delta, cos_delta)
        F, dF = _loss(a, sin_phi, cos_phi)
        through, slope = _through(flow, sin_delta, cos_delta, sin_phi, cos_phi)
        induced = W0 * sin_delta
        Uz = W0 * through
        U = np.sqrt(Uz * Uz + speed * speed)
        dU = W0 * slope * np.divide(Uz, U, out=np.zeros_like(U), where=U > 0.0)
        UT, UP = _local(induced, sin_phi, cos_phi, Uz, speed, advancing, vz, x)
        W = np.sqrt(UT * UT + UP * UP)
        cl, cl_slope = section.lift(beta - np.arctan2(UP, UT))
        # Lift turns with azimuth while what is induced does not, so one unknown cannot hold both
        # momenta: the axial one is held where blades cut across the flow, that along the mean
        # lift where they point into it. In axial flow these are the same.
        turn = np.minimum(np.maximum((np.abs(phi0 + delta) - 0.8) * 2.0, 0.0), 1.0)
        turn = turn * turn * (3.0 - 2.0 * turn) * sin_phi
        along = UT * cos_phi[:, None, :] + UP * turn[:, None, :]
        held = 4.0 * F * (cos_phi * cos_phi + turn * sin_phi)
        g = held * U * induced - sigma * (W * cl * along).mean(axis=1)
        dg = (
            held * (dU * induced + U * W0 * cos_delta)
            + held / F * dF * U * induced
            + sigma * W0 * (along * cl_slope).mean(axis=1)
        )
        if before is not None:  # the slope above is not exact; a secant is, once steps are small
            run, rise = delta - before[0], g - before[1]
            secant = np.divide(rise, run, out=np.zeros_like(g), where=np.abs(run) > 1e-9)
            dg = np.where((secant > 0.2 * dg) & (secant < 5.0 * dg), secant, dg)
        before = (delta, g)
        positive = g > 0.0
        high, low = np.where(positive, delta, high), np.where(positive, low, delta)
        # where the step leaves the bracket: its middle, or a short way while one end is open
        closed = np.isfinite(low) & np.isfinite(high)
        other = np.where(closed, 0.5 * (low + high), delta - 0.1 * np.sign(g))
        step = np.divide(g, dg, out=np.zeros_like(g), where=dg > 0.0)
        step = delta - np.minimum(np.maximum(step, -0.25), 0.25)
        inside = (step >= low - 1e-6) & (step <= high + 1e-6) & (dg > 0.0)  # slack for rounding
        delta = np.where(inside, step, other)
        if np.abs(delta - before[0]).max() < _SETTLED:
            break
    sin_delta, cos_delta = np.sin(delta), np.cos(delta)
    sin_phi, cos_phi = _turned(flow, sin_delta, cos_delta)
    induced = W0 * sin_delta
    Uz = W0 * _through(flow, sin_delta, cos_delta, sin_phi, cos_phi)[0]
    UT, UP = _local(induced, sin_phi, cos_phi, Uz, speed, advancing, vz, x)
    W = np.sqrt(UT * UT + UP * UP)
    alpha = beta - np.arctan2(UP, UT)
    cl, _ = section.lift(alpha)
    cd = section.drag(alpha, cl)
    q = (0.5 * air.density_kg_m3 * a.blade_count / azimuths) * (a.chord_m * a.weight_m)
    q = q[:, :, None] * W  # times one more speed below
    lift, drag = q * cl, q * cd
    thrust = lift * UT - drag * UP
    tangential = lift * UP + drag * UT
    radial = drag * speed * cos_psi  # skin friction along the blade follows the air
    r = a.r_m[:, :, None]
    both = (0, 1)
    ring = a.r_m * a.weight_m
    mean_induced = (induced * cos_phi * ring).sum(axis=0) / ring.sum()
    stalled = np.clip((alpha - section.stall_rad) / np.deg2rad(2.0) + 0.5, 0.0, 1.0)
    pressure = q * W
    total = thrust.sum(axis=both)
    torque = (tangential * r).sum(axis=both)
    rows = np.array(
        [
            total,
            torque,
            np.sign(vx) * (tangential * sin_psi + radial * cos_psi).sum(axis=both),
            np.sign(vx) * (thrust * r * sin_psi).sum(axis=both),
            np.sign(vx) * -(thrust * r * cos_psi).sum(axis=both),
            mean_induced,
            (stalled * pressure).sum(axis=both) / np.maximum(pressure.sum(axis=both), 1e-30),
            np.isfinite(total) & np.isfinite(torque),
        ]
    )
    return rows, delta


def _local(
    induced: Array,
    sin_phi: Array,
    cos_phi: Array,
    Uz: Array,
    speed: Array,
    advancing: Array,
    vz: Array,
    x: Array,
) -> tuple[Array, Array]:
    """Tangential and axial speed of the air at each azimuth, induced velocity included."""
    v, u = induced * cos_phi, induced * sin_phi
    # tan(chi / 2) by its half-angle formula; the tiny number only stands for rest
    half = speed / (np.sqrt(Uz * Uz + speed * speed) + Uz + 1e-12)
    gradient = (v * _GRADIENT * half)[:, None, :] * x
    return advancing - u[:, None, :], (vz + v)[:, None, :] + gradient


def _oblique_estimate(a: Annuli, section: Station, phi0: Array, speed: Array, W0: Array) -> Array:
    zero = section.zero_lift_rad.mean(axis=1)
    beyond = a.pitch_angle_rad - phi0 - zero
    ratio = speed / np.maximum(W0, 1e-9)
    s = np.sqrt(np.square(np.sin(phi0)) + np.square(ratio))
    k = a.solidity * 5.7
    x = np.clip(np.sin(beyond), -0.25, 0.25)
    b = 4.0 * s + k
    return np.asarray(np.sign(x) * (np.sqrt(b * b + 16.0 * k * np.abs(x)) - b) / 8.0)
