"""A whole flight, leg by leg: charge, sag, and how warm motors, ESC, pack and wires get.

    flight_of(p)     the flight of a build's legs, for one build or its samples

Time steps follow one another; every step is taken for all samples at once. The round (the last
pass with its turn) is flown until no sample has charge left for another; each sample then goes home
after the last round that it could afford, so that all samples share one list of steps and differ in
which of them they flew (`flown`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from slipfit.constants import G0_M_S2
from slipfit.flight.circuit import Circuit, Condition, Step
from slipfit.flight.cooling import Cooling
from slipfit.flight.full_throttle import FullThrottle, Thrusting
from slipfit.flight.inputs import motor_of
from slipfit.flight.legs import Plan, Steady, Stretch, legs_of, plan_of
from slipfit.flight.performance import Performance
from slipfit.frame.leg import Leg
from slipfit.numerics import Array, Mask, over_argument

LEAST_CELL_V = 3.0  # under load; below it cells are harmed (convention, weak source)
PACK_LIMIT_K = 273.15 + 60.0  # greatest cell temperature; common practice, no source
BOARD_LIMIT_K = 273.15 + 105.0  # capacitors and laminate of such boards; memory
MOST_ROUNDS = 40
EASY_M_S2 = 10.0  # of a run-up to a given speed, as pilots film: about 1 g; our choice
Index = NDArray[np.intp]

# Time steps: seconds of the longest at a steady state, and metres of the first of a run-up, which
# grow by a factor. tests/unit/test_flight.py shows what shorter ones would change.
_LONGEST_S, _MOST_STEPS = 6.0, 60
_FIRST_M, _GROWTH = 12.0, 1.6


@dataclass(frozen=True, kw_only=True)
class FirstPass:
    """How long a pass takes and what it draws, (samples,)."""

    seconds: Array
    energy_J: Array


@dataclass(frozen=True, kw_only=True)
class ChargeUse:
    """Shares of the capacity: before the rounds, in one of them on average, and after."""

    opening: float
    round: float
    closing: float


@dataclass(frozen=True, kw_only=True, eq=False)
class Flight:
    """A flight. Arrays over steps and samples have shape (steps, samples); over samples alone
    (samples,). Temperatures, charge and sag are those at the ends of steps."""

    plan: Plan
    stretches: tuple[Stretch, ...]  # as flown, one entry for each time
    stretch_of: Index  # (steps,) index of the stretch
    parts: Index  # (steps,) -1 before the rounds, k in round k, MOST_ROUNDS after them
    able: Mask  # (samples,) the build flies every leg that it can be asked to
    steps: Step  # arrays (steps, samples)
    speed_m_s: Array
    condition: Condition  # arrays (steps, samples)
    board_K: Array
    flown: Mask
    circuit: Circuit
    passes: Array  # (samples,), with a fraction; NaN where the flight has none
    passes_by: str  # what ends the passes of the first sample, see `ENDS`
    ends_s: Array  # (samples,)
    ended_by: tuple[str, ...]  # one word for each sample, see `ENDS`

    @cached_property
    def times_s(self) -> Array:
        """Time at the end of each step, of what was flown."""
        return np.asarray(np.cumsum(self.steps.duration_s * self.flown, axis=0))

    def peak(self, values: Array) -> Array:
        """Largest value over what was flown and lasted any time, (samples,)."""
        there = self.flown & (self.steps.duration_s > 0.0)
        return np.asarray(np.where(there, values, -np.inf).max(axis=0))

    def least(self, values: Array) -> Array:
        """Least value over what was flown and lasted any time, (samples,)."""
        there = self.flown & (self.steps.duration_s > 0.0)
        return np.asarray(np.where(there, values, np.inf).min(axis=0))

    def answer(self, values: Array) -> Array:
        """Values (samples,) as a figure's: (samples, 1), NaN where there is no flight."""
        return np.asarray(np.where(self.able, values, np.nan))[:, None]

    @cached_property
    def energy_J(self) -> Array:
        """Energy that the pack gave in each step."""
        power = self.steps.pack_current_A * self.steps.pack_voltage_V
        return np.asarray(power * self.steps.duration_s * self.flown)

    def scan(self, first: Array, second: Array, start: float, flown: Mask | None = None) -> Array:
        """A quantity that follows a linear law within each step, at the ends of steps: `first` and
        `second` are where starts of `start` and of one more lead."""
        there = self.flown if flown is None else flown
        slope, value = second - first, np.full(first.shape[1:], start)
        found = np.empty_like(first)
        for k in range(len(first)):
            value = np.where(there[k], first[k] + slope[k] * (value - start), value)
            found[k] = value
        return found

    def when_greatest(self, values: Array) -> int:
        """Step at which a value is greatest for the first sample, of those that are flown."""
        there = self.flown[:, 0] & (self.steps.duration_s[:, 0] > 0.0)
        return int(np.argmax(np.where(there, values[:, 0], -np.inf)))

    def first_pass(self) -> FirstPass:
        """The first pass of the round; it is known even where no whole round is flown."""
        at = [
            k
            for k, stretch in enumerate(self.stretches)
            if self.plan.round and stretch is self.plan.round[0]
        ]
        inside = self.stretch_of == (at[0] if at else -1)
        seconds = self.steps.duration_s[inside]
        power = (self.steps.pack_current_A * self.steps.pack_voltage_V)[inside]
        if not at:
            missing = np.full(len(self.able), np.nan)
            return FirstPass(seconds=missing, energy_J=missing)
        return FirstPass(seconds=seconds.sum(axis=0), energy_J=(power * seconds).sum(axis=0))

    def first_run(self) -> int:
        """Index of the first pass of the flight, of whatever kind; -1 where there is none."""
        runs = (k for k, stretch in enumerate(self.stretches) if stretch.length_m is not None)
        return next(runs, -1)

    def at_end(self, stretch: int, values: Array) -> Array:
        """Values at the end of a stretch, (samples,); NaN where there is no such stretch."""
        at = np.flatnonzero(self.stretch_of == stretch)
        return values[at[-1]] if len(at) else np.full(len(self.able), np.nan)

    @property
    def rounds_flown(self) -> int:
        """Whole rounds that the first sample flies."""
        inside = (self.parts >= 0) & (self.parts < MOST_ROUNDS) & self.flown[:, 0]
        return len(np.unique(self.parts[inside]))

    def places(self) -> Array:
        """Where each step of what the first sample flies ends, as legs done and the share by time
        of the one that is being flown: (steps, samples), so that flights of one list of legs can be
        compared leg by leg."""
        there = self.flown[:, 0]
        times, legs = self.steps.duration_s[there], self.stretch_of[there]
        first = np.flatnonzero(np.diff(legs, prepend=-1))
        rank = np.searchsorted(first, np.arange(len(legs)), side="right") - 1
        ends = np.cumsum(times, axis=0)
        whole = np.add.reduceat(times, first, axis=0)
        begun = np.cumsum(whole, axis=0) - whole
        share = (ends - begun[rank]) / np.maximum(whole[rank], 1e-9)
        return np.asarray(rank[:, None] + np.minimum(share, 1.0))

    def charge_by_part(self) -> ChargeUse:
        """Shares of the capacity that the parts of the first sample's flight take."""
        drawn = (self.steps.pack_current_A * self.steps.duration_s / self.circuit.capacity)[:, 0]
        parts = self.parts
        whole = max(int((np.unique(parts[(parts >= 0) & (parts < MOST_ROUNDS)])).size), 1)
        return ChargeUse(
            opening=float(drawn[parts == -1].sum()),
            round=float(drawn[(parts >= 0) & (parts < MOST_ROUNDS)].sum()) / whole,
            closing=float(drawn[parts == MOST_ROUNDS].sum()),
        )

    def label(self, step: int) -> str:
        """Name of the leg that a step belongs to."""
        return self.stretches[int(self.stretch_of[step])].leg.label

    def why_not(self) -> str:
        """Which leg the (first) build cannot fly; empty where it can fly them all."""
        for stretch in self.stretches:
            held = stretch.length_m is None and stretch.steady is not None
            if held and stretch.steady is not None and not stretch.steady.valid[0]:
                return f"this build cannot fly the leg '{stretch.leg.label}'"
        return ""


ENDS = {
    "plan": "every leg is flown",
    "reserve": "the pack is down to its reserve",
    "voltage": f"cells sag to {LEAST_CELL_V:g} V under load",
    "power": "full throttle is not enough any more",
    "winding": "the windings reach their limit",
    "board": "the ESC board reaches its limit",
    "pack": "the pack reaches its limit of temperature",
    "rounds": f"more than {MOST_ROUNDS} passes were not followed",
}


@lru_cache(maxsize=8)
def flight_of(p: Performance) -> Flight:
    """The flight of a performance, kept for the few used last."""
    return fly(p, legs_of(p.build))


def fly(p: Performance, legs: Sequence[Leg], finer: int = 1) -> Flight:
    """The flight of legs; `finer` divides the time steps, to show that they are short enough."""
    return _Flyer(p, plan_of(p, legs), finer).flight()


def with_rounds(p: Performance, flight: Flight, rounds: int) -> Flight | None:
    """The flight of samples with as many rounds for every one, whatever that leaves in its pack;
    None where none of them got so far. What ends a flight is not asked."""
    kept = flight.parts < rounds
    if not kept.any() or (rounds and not (flight.parts == rounds - 1).any()):
        return None
    flyer = _Flyer(p, flight.plan, 1)
    last = np.flatnonzero(kept)[-1]
    flyer.condition = Condition(**{k: v[last] for k, v in vars(flight.condition).items()})
    for stretch in flight.plan.closing:
        flyer._fly(stretch, MOST_ROUNDS)
    log = flyer.log

    def joined(before: Any, after: Any) -> Any:
        return np.concatenate([before[kept], after]) if len(after) else before[kept]

    def records(cls: type, before: Any, after: Any) -> Any:
        pairs = ((k, joined(v, [getattr(r, k) for r in after])) for k, v in vars(before).items())
        return cls(**dict(pairs))

    whole = replace(
        flight,
        stretches=(*flight.stretches, *log.stretches),
        stretch_of=joined(
            flight.stretch_of, len(flight.stretches) + np.array(log.stretch_of, dtype=np.intp)
        ),
        parts=joined(flight.parts, log.rounds),
        steps=records(Step, flight.steps, log.steps),
        condition=records(Condition, flight.condition, log.conditions),
        speed_m_s=joined(flight.speed_m_s, log.speeds),
    )
    flown = np.ones(whole.speed_m_s.shape, dtype=bool)
    return replace(whole, flown=flown, board_K=flyer._board(whole, flown))


@dataclass(kw_only=True)
class _Log:
    """What has been flown so far, step by step."""

    steps: list[Step]
    speeds: list[Array]
    conditions: list[Condition]
    stretch_of: list[int]
    stretches: list[Stretch]
    rounds: list[int]  # -1 opening, k of round k, MOST_ROUNDS closing


class _Flyer:
    def __init__(self, p: Performance, plan: Plan, finer: int) -> None:
        self.p, self.plan, self.finer = p, plan, finer
        self.samples = len(p.top_speed_m_s)
        self.cooling = Cooling(p.build, p.inputs, self.samples)
        self.circuit = Circuit(p.build, p.inputs, self.cooling, self.samples)
        self.log = _Log(steps=[], speeds=[], conditions=[], stretch_of=[], stretches=[], rounds=[])
        self.speed: Array = np.zeros(self.samples)
        self.condition = self.circuit.start
        self.able: Mask = p.can_hover[:, 0].copy()
        mass, thrust = np.ravel(p.inputs.mass_kg), p.standing.rotor.thrust_N[:, 0]
        lift = np.nan_to_num(p.build.rotor_count * thrust / mass)
        self.at_rest = np.sqrt(np.maximum(lift**2 - G0_M_S2**2, 1.0))
        self.pull = self.at_rest  # the acceleration in the middle of the last piece of a run-up

    @cached_property
    def full_throttle(self) -> FullThrottle:
        """The table is made only for flights that have a pass."""
        return FullThrottle(self.p)

    def flight(self) -> Flight:
        plan, log = self.plan, self.log
        for stretch in plan.opening:
            self._fly(stretch, -1)
        needed = plan.reserve + self._charge_for(plan.closing)
        before = [(self.condition, self.speed)]
        ended = ~self.able
        for k in range(MOST_ROUNDS if plan.round else 0):
            first = len(log.steps)
            for stretch in plan.round:
                self._fly(stretch, k)
            before.append((self.condition, self.speed))
            for step in log.steps[first:]:
                ended = ended | ~step.deliverable | (self._cell_V(step) < LEAST_CELL_V)
            ended = ended | (self.condition.charge < needed)
            if ended.all():
                break
        stop = self._rounds(needed)  # (samples,) whole rounds that are flown
        homeward, speed = before[0]
        for k, (condition, fast) in enumerate(before):
            homeward = condition.where(stop == k, homeward)
            speed = np.where(stop == k, fast, speed)
        self.condition, self.speed = homeward, speed
        for stretch in plan.closing:
            self._fly(stretch, MOST_ROUNDS)
        return self._told(stop, needed)

    def _cell_V(self, step: Step) -> Array:
        """At the worst moment of a step."""
        return np.asarray(step.pack_least_V / self.circuit.cells)

    def _fly(self, stretch: Stretch, round: int) -> None:
        log = self.log
        log.stretches.append(stretch)
        if stretch.steady is not None:
            self.able = self.able & (stretch.steady.valid | (stretch.length_m is not None))
        if stretch.length_m is not None:
            self._run(stretch, stretch.length_m, round)
            return
        assert stretch.steady is not None and stretch.duration_s is not None
        self._hold(stretch.steady, stretch.duration_s, round)
        self.speed = stretch.steady.speed_m_s

    def _hold(self, state: Steady, duration_s: Array, round: int) -> None:
        longest = float(duration_s.max(initial=0.0))
        count = self.finer * int(np.clip(np.ceil(longest / _LONGEST_S), 1, _MOST_STEPS))
        for _ in range(count):
            self._step(
                duration_s / count, state.omega_rad_s, state.torque_Nm, state.no_load_current_A,
                state.through_m_s, state.speed_m_s, round,
            )  # fmt: skip

    def _run(self, stretch: Stretch, length_m: float, round: int) -> None:
        """A pass: a run-up, and what is left of the length at the pass's speed. At full throttle it
        is all run-up; to a speed the throttle opens as far as `EASY_M_S2` asks for."""
        state = stretch.steady
        most = np.inf if state is None else EASY_M_S2
        target = np.full(self.samples, np.inf) if state is None else state.speed_m_s
        # a speed that the build cannot hold is flown as fast as it goes
        target = target if state is None else np.where(state.valid, target, np.inf)
        left = np.full(self.samples, length_m)
        self.pull = self.at_rest
        first = _FIRST_M
        if state is not None:  # an even run-up: half of it at a time
            even = np.max(target[np.isfinite(target)] ** 2, initial=0.0) - np.min(self.speed) ** 2
            first = max(first, 0.5 * float(even) / (2.0 * EASY_M_S2))
        for piece in _pieces(length_m, first, self.finer):
            running = (self.speed < target - 1e-6) & (left > 1e-6)
            if not running.any():
                break
            ds = np.minimum(piece, left)
            mean, after, length, start = self._run_up(ds, target, most)
            length = np.where(running, length, 0.0)
            mean = np.where(running, mean, 1.0)
            cells = self.circuit.cells_ohm(self.condition.charge, self.condition.pack_K)
            charge, slow_V = self.circuit.middle(self.condition, length / mean, start[2], cells)
            between = replace(self.condition, charge=charge, polarisation_V=slow_V)
            found = self._thrusting(np.array([mean, after]), between, most)
            self._step(
                length / mean, found.omega_rad_s[0], found.torque_Nm[0],
                found.no_load_current_A[0], found.through_m_s[0], mean, round,
                ends=np.stack([start, _draws(found, 1)], axis=1),
            )  # fmt: skip
            self.speed = np.where(running, after, self.speed)
            left = left - length
        if state is not None and (left > 1e-6).any():
            # slower than the pass's speed only where the length ended before it was reached
            holding = np.where(self.speed >= target - 1e-6, left / target, 0.0)
            self._hold(state, holding, round)
            self.speed = np.where(holding > 0.0, target, self.speed)

    def _thrusting(self, speed: Array, condition: Condition, most: float) -> Thrusting:
        return self.full_throttle.at(speed, self.circuit.supply(condition), most)

    def _run_up(self, ds: Array, target: Array, most: float) -> tuple[Array, Array, Array, Array]:
        """Mean speed, speed at the end, length of a piece of run-up, not past a target, and what
        the motors draw at its start.

        V^2 follows d(V^2)/ds = 2 a, with a taken as linear in V^2 across the piece: through its
        start and about its middle, as far as the last acceleration would carry in half of it.
        """
        V = self.speed
        ahead = np.maximum(4.0 + 0.05 * V**2, np.minimum(self.pull, most) * ds)
        nudged = np.sqrt(V**2 + ahead)
        both = self._thrusting(np.array([V, nudged]), self.condition, most)
        a, faster = both.acceleration_m_s2
        self.pull = np.maximum(faster, 0.0)
        slope = faster - a
        slope = slope / ahead
        square = np.maximum(V**2 + 2.0 * a * ds * _growth(2.0 * slope * ds), 1.0)
        reached = square >= target**2
        finite = np.where(np.isfinite(target), target, 0.0)
        # where the target is reached, the length that this takes by the same law
        gain = np.where(reached, (finite**2 - V**2) / np.maximum(a, 1e-9), 2.0 * ds)
        shrinking = over_argument(np.log1p, np.maximum(gain * slope, -0.99))
        length = np.where(reached, 0.5 * gain * shrinking, ds)
        length = np.clip(length, 0.0, ds)
        after = np.where(reached, finite, np.sqrt(square))
        # the time of each half of the length, in which the pull changes less
        half = np.sqrt(np.maximum(V**2 + a * length * _growth(slope * length), 1.0))
        before, beyond = np.maximum(V + half, 1.0), np.maximum(half + after, 1.0)
        return before * beyond / (before + beyond), after, length, _draws(both, 0)

    def _step(
        self, duration_s: Array, omega: Array, torque: Array, no_load: Array, through: Array,
        speed: Array, round: int, ends: Array | None = None,
    ) -> None:  # fmt: skip
        step, self.condition = self.circuit.step(
            self.condition, duration_s, omega, torque, no_load, through, ends
        )
        log = self.log
        log.steps.append(step)
        log.speeds.append(speed)
        log.conditions.append(self.condition)
        log.stretch_of.append(len(log.stretches) - 1)
        log.rounds.append(round)

    def _charge_for(self, closing: Sequence[Stretch]) -> Array:
        """Share of the capacity that the legs after the last round take, near the reserve."""
        circuit, c = self.circuit, self.condition
        low = np.full(self.samples, min(self.plan.reserve + 0.03, 1.0))
        E = circuit.open_circuit_V(low) - c.polarisation_V
        R = circuit.cells_ohm(low, c.pack_K) + circuit.leads
        taken = np.zeros(self.samples)
        for stretch in closing:
            s = stretch.steady
            if s is None or stretch.duration_s is None:
                continue
            current, voltage, _, _ = circuit.load(
                c, s.omega_rad_s, s.torque_Nm, s.no_load_current_A, c.winding_K
            )
            drawn = circuit.power(current, voltage, E, R)[0]
            taken = taken + drawn * stretch.duration_s / circuit.capacity
        return taken

    def _rounds(self, needed: Array) -> Array:
        """Whole rounds that each sample flies: what charge, voltage and throttle allow, at most as
        many as the plan asks for."""
        progress = self._progress(self._spent(needed))
        wanted = self.plan.rounds_wanted
        whole = np.floor(progress + 1e-9)
        return whole if wanted is None else np.minimum(whole, wanted)

    def _spent(self, needed: Array) -> Array:
        """For every step, how far past its end it is: (steps, samples), 0 to 1 within the step that
        takes the pack to what it needs to get home, 1 or more beyond, 0 before."""
        log = self.log
        if not log.steps:
            return np.zeros((0, self.samples))
        charge = np.array([self.circuit.start.charge, *(c.charge for c in log.conditions)])
        volts = np.array([step.pack_least_V for step in log.steps]) / self.circuit.cells
        weak = ~np.array([step.deliverable for step in log.steps])
        lasts = np.array([step.duration_s for step in log.steps]) > 0.0
        in_rounds = np.array(log.rounds)[:, None] >= 0
        limit = np.where(in_rounds, needed, self.plan.reserve)
        used = np.maximum(charge[:-1] - charge[1:], 1e-12)
        spent = np.clip((limit - charge[1:]) / used, 0.0, 1.0)
        return np.where((weak | (volts < LEAST_CELL_V)) & lasts, 1.0, spent)

    def _progress(self, spent: Array) -> Array:
        """Rounds done, with a fraction by time, until the first step that is spent."""
        done = np.zeros(self.samples)
        going = np.ones(self.samples, dtype=bool)
        log = self.log
        times = np.array([step.duration_s for step in log.steps]).reshape(-1, self.samples)
        rounds = np.array(log.rounds)
        for k in range(int(rounds.max(initial=-1)) + 1 if len(rounds) else 0):
            inside = rounds == k
            if k >= MOST_ROUNDS or not inside.any():
                break
            whole = times[inside].sum(axis=0)
            for dt, over in zip(times[inside], spent[inside], strict=True):
                done = done + np.where(going, (1.0 - over) * dt / np.maximum(whole, 1e-9), 0.0)
                going = going & ~(over > 0.0)
        opening = rounds == -1
        dead = (spent[opening] > 0.0).any(axis=0) if opening.any() else ~going & False
        return np.where(dead | ~self.able, 0.0, done)

    def _told(self, stop: Array, needed: Array) -> Flight:
        log, plan = self.log, self.plan
        steps = _stacked(Step, log.steps)
        condition = _stacked(Condition, log.conditions)
        rounds = np.array(log.rounds)[:, None]
        flown = (rounds == -1) | (rounds == MOST_ROUNDS) | (rounds < stop)
        speeds = np.array(log.speeds)
        flight = Flight(
            plan=plan,
            stretches=tuple(log.stretches),
            stretch_of=np.array(log.stretch_of),
            parts=np.array(log.rounds),
            able=self.able,
            steps=steps,
            speed_m_s=speeds,
            condition=condition,
            board_K=np.zeros_like(speeds),
            flown=flown,
            circuit=self.circuit,
            passes=np.full(self.samples, np.nan),
            passes_by="",
            ends_s=np.zeros(self.samples),
            ended_by=(),
        )
        # once as flown, and once with every round that was looked at, for how many there could be
        every = np.broadcast_to(rounds < MOST_ROUNDS, flown.shape)
        board_K, board_on_K = self._board(flight, flown), self._board(flight, every)
        hot = {
            "winding": _past(condition.winding_K, motor_of(self.p.build).max_winding_temperature_K),
            "pack": _past(condition.pack_K, PACK_LIMIT_K),
        }
        passes, by = self._passes(needed, {**hot, "board": _past(board_on_K, BOARD_LIMIT_K)}, steps)
        masks = {**hot, "board": _past(board_K, BOARD_LIMIT_K)}
        ends_s, ended_by = self._end(flight, {w: over > 0.0 for w, over in masks.items()}, stop)
        return replace(
            flight, board_K=board_K, passes=passes, passes_by=by, ends_s=ends_s, ended_by=ended_by
        )

    def _board(self, flight: Flight, flown: Mask) -> Array:
        air = self.p.build.day.air_temperature_K
        loss = self.circuit.motors * flight.steps.esc_W
        dt = flight.steps.duration_s
        first, second = (
            self.cooling.board_after(dt, air + more, loss, flight.speed_m_s) for more in (0.0, 1.0)
        )
        return flight.scan(first, second, air, flown)

    def _passes(self, needed: Array, hot: dict[str, Array], steps: Step) -> tuple[Array, str]:
        """Passes that the pack and the limits of temperature allow, and what ends the first's."""
        if not self.plan.round:
            return np.full(self.samples, np.nan), ""
        hottest = np.maximum.reduce(list(hot.values())) * (steps.duration_s > 0.0)
        spent = np.maximum(hottest, self._spent(needed))
        progress = self._progress(spent)
        passes = np.where(self.able, self.plan.passes_before + progress, np.nan)
        inside = np.array(self.log.rounds) < MOST_ROUNDS
        at = np.flatnonzero(inside & (spent[:, 0] > 0.0))
        if not len(at):
            return passes, "rounds"
        first = at[0]
        reasons = {
            "power": ~steps.deliverable,
            "voltage": self._cell_V(steps) < LEAST_CELL_V,
            **{word: over > 0.0 for word, over in hot.items()},
        }
        found = (word for word, mask in reasons.items() if mask[first, 0])
        return passes, next(found, "reserve")

    def _end(
        self, flight: Flight, hot: dict[str, Mask], stop: Array
    ) -> tuple[Array, tuple[str, ...]]:
        """Time of the end, and what ends each sample's flight."""
        plan, steps = self.plan, flight.steps
        low = self._cell_V(steps) < LEAST_CELL_V
        weak = ~steps.deliverable
        # within what is flown, charge ends a flight only below the reserve itself
        empty = flight.condition.charge < plan.reserve - 0.02
        reasons = {"power": weak, "voltage": low, "reserve": empty, **hot}
        bad = np.logical_or.reduce(list(reasons.values()))
        bad = bad & flight.flown & (steps.duration_s > 0.0)
        times = flight.times_s
        words, ends = [], np.zeros(self.samples)
        all_rounds = plan.rounds_wanted
        for s in range(self.samples):
            if bad[:, s].any():
                k = int(np.argmax(bad[:, s]))
                ends[s] = times[k, s]
                words.append(next(word for word, mask in reasons.items() if mask[k, s]))
                continue
            ends[s] = times[-1, s] if len(times) else 0.0
            if not plan.round or (all_rounds is not None and stop[s] >= all_rounds):
                words.append("plan")
            else:
                words.append(self._why_no_more(int(stop[s]), s, reasons))
        return ends, tuple(words)

    def _why_no_more(self, round: int, sample: int, reasons: dict[str, Mask]) -> str:
        """What forbids the round after the last one that is flown."""
        inside = np.array(self.log.rounds) == round
        for word in ("power", "voltage"):
            if reasons[word][inside, sample].any():
                return word
        return "reserve"


def _past(values: Array, limit: float) -> Array:
    """Share of each step that a quantity, known at the ends of steps, is past a limit, were it to
    change evenly within the step."""
    gain = np.maximum(np.diff(values, axis=0, prepend=values[:1]), 1e-9)
    return np.clip((values - limit) / gain, 0.0, 1.0)


def _pieces(length_m: float, first_m: float, finer: int) -> list[float]:
    """Pieces of a run-up, short where the speed changes fast."""
    pieces, piece, left = [], first_m, length_m
    while left > 1e-9:
        part = left if left < 1.5 * piece else piece
        pieces += [part / finer] * finer
        left -= part
        piece *= _GROWTH
    return pieces


def _growth(z: Array) -> Array:
    """(exp(z) - 1) / z, held where a run-up would take off."""
    return over_argument(np.expm1, np.minimum(z, 2.0))


def _draws(state: Thrusting, row: int) -> Array:
    """Torque, no-load current and pack current (3, samples) of one of several speeds."""
    return np.array([state.torque_Nm[row], state.no_load_current_A[row], state.pack_current_A[row]])


def _stacked(cls: Any, records: Sequence[Any]) -> Any:
    """Records of arrays as one record, with an axis more in front."""
    names = vars(records[0])
    return cls(**{name: np.array([getattr(r, name) for r in records]) for name in names})
