"""Builds by the thousand, drawn from everything that can come out otherwise than meant.

Lengths and play are drawn for every build, and its ends found exactly. Masses, friction and
other half-known things are drawn for every block of builds, in strata so that the blocks cover
each range evenly; the friction a block adds to the peak is computed with its nominal lengths,
corrected for those of every build as a few builds computed in full say. The tests compare this
with builds computed one by one.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from turnercalc.advice.asked import need_design, need_motors, not_below_zero, spans, whole
from turnercalc.advice.many import takes_arrays
from turnercalc.advice.tolerance.accuracy import accuracy_for
from turnercalc.advice.tolerance.blocks import drawn_block
from turnercalc.advice.tolerance.builds import (
    ends_with_play,
    peaks_at_once,
    peaks_one_by_one,
    with_own_eggs,
)
from turnercalc.advice.tolerance.errors import EGG_SIZE, EGGS, Source, half_known_of, sources
from turnercalc.advice.tolerance.friction import (
    FITTED,
    LOOKED_AT,
    FrictionFit,
    bare_peaks,
    fit_friction,
)
from turnercalc.advice.tolerance.goal import goal_of
from turnercalc.advice.tolerance.judged import Judged, Spread
from turnercalc.advice.tolerance.tally import Regression, Tally
from turnercalc.building import Built, build
from turnercalc.design import Design
from turnercalc.errors import TurnercalcError
from turnercalc.loads import peaks
from turnercalc.motors import MotorFile
from turnercalc.sizing import Sizing, size
from turnercalc.swing import egg_turn_of
from turnercalc.swing import lengths as deciding_lengths
from turnercalc.turners.base import LoadCase

Array = NDArray[np.float64]
Progress = Callable[[int, int], None]

#: Builds where nobody says how many, all at once and one by one.
USUAL, SLOW = 20_000, 600
BLOCKS = 400
FEWEST_IN_BLOCK = 50
#: So that masses and friction can be told apart by what they do.
FEWEST_BLOCKS = 100
#: Loads whose peak comes within this of the hardest are looked at in every build.
NEAR_HARDEST = 0.9
MOST_LOADS = 3
WANTED_SHARE = 0.95
#: Where friction cannot be fitted better than this, every build is computed in full.
WORST_FIT = 0.02
QUANTITIES = ("low", "high", "turn", "peak")


def judge_build(
    design: Design,
    motor_file: MotorFile | None = None,
    *,
    count: int | None = None,
    seed: int = 1,
    half_known: Mapping[str, tuple[float, float]] | None = None,
    marking: float | None = None,
    progress: Progress | None = None,
) -> Judged:
    """Return how a design comes out over very many builds.

    Parameters
    ----------
    design : Design
        As meant. It has to go through.
    motor_file : MotorFile, optional
        For the motor it names, or the best.
    count : int, optional
        Builds; as many as take some seconds by default: `USUAL`, or `SLOW` where turner and drive
        have to be looked at build by build.
    seed : int
        The same seed gives the same answer.
    half_known : mapping, optional
        Field path -> lowest and highest value it may have [SI].
    marking : float, optional
        Error of every marked length, 95 of 100 within it [m].
    progress : callable, optional
        Called with builds done and builds in all.

    Raises
    ------
    AskedError
        `marking` is below 0, there are no builds to draw, or a half-known span is none.
    TurnercalcError
        The design does not go through as meant, friction jams it, or a half-known number has
        no such field.
    """
    need_design(design)
    if motor_file is not None:
        need_motors(motor_file)
    count = None if count is None else whole(count, "builds")
    seed = whole(seed, "seed", 0)
    marking = None if marking is None else not_below_zero(marking, "error of marking")
    spans(design, half_known or {}, "half-known values")
    known = half_known_of(design, half_known or {})
    middles = {path: 0.5 * (low + high) for path, (low, high) in (half_known or {}).items()}
    if middles:
        design = design.replace(middles, si=True)
    sizing = size(design, motor_file)
    if sizing.cycle is None:
        raise TurnercalcError(
            "The design does not go through as meant, so its builds cannot be judged. "
            "turnercalc size says what is missing, turnercalc lengths finds lengths that do."
        )
    built = build(design)
    drawn = sources(design, built, known, marking)
    quick = takes_arrays(built.turner, built.drive, deciding_lengths(built.turner, built.drive))
    asked, count = count, count or (USUAL if quick else SLOW)
    run = _Run(design, sizing, built, drawn, count, seed, quick=quick)
    if asked is None and run.fit is not None and not run.fit.error <= WORST_FIT:
        count = SLOW
        run = _Run(design, sizing, built, drawn, count, seed, quick=False)
    for number in range(run.blocks):
        run.add(number)
        if progress is not None:
            progress(min((number + 1) * run.size, count), count)
    return run.result()


def hard_loads(sizing: Sizing, way: Sequence[int]) -> list[LoadCase]:
    """Return the few planned loads that can be the hardest one when things come out otherwise."""
    assert sizing.cycle is not None
    middle = sizing.cycle.levels.index("middle")
    peak = peaks(sizing.cycle)[:, middle][:, list(way)].max(axis=1)
    planned = [case.planned for case in sizing.cycle.loads]
    if np.isnan(peak[planned]).any():
        raise TurnercalcError(
            "Friction jams the design as meant, so its builds cannot be judged. turnercalc size "
            "says where and with which load."
        )
    order = [int(i) for i in np.argsort(-peak) if sizing.cycle.loads[int(i)].planned]
    kept = [i for i in order if peak[i] >= NEAR_HARDEST * peak[order[0]]][:MOST_LOADS]
    return [sizing.cycle.loads[i] for i in kept]


class _Run:
    """The running sums of one judgement: builds are drawn, counted and forgotten."""

    def __init__(
        self,
        design: Design,
        sizing: Sizing,
        built: Built,
        drawn: tuple[Source, ...],
        count: int,
        seed: int,
        *,
        quick: bool,
    ) -> None:
        assert sizing.cycle is not None
        self.design, self.sizing, self.built, self.sources = design, sizing, built, drawn
        self.count, self.seed, self.quick = count, seed, quick
        # Looked at one by one, every build has masses and friction of its own.
        self.blocks = min(max(count // FEWEST_IN_BLOCK, FEWEST_BLOCKS), BLOCKS) if quick else count
        self.blocks = min(self.blocks, count)
        self.size = math.ceil(count / self.blocks)
        self.blocks = math.ceil(count / self.size)
        self.deciding = frozenset(deciding_lengths(built.turner, built.drive))
        self.names = {kind: [s for s in drawn if s.kind == kind] for kind in KINDS}
        chosen = sizing.chosen
        self.way = chosen.directions if chosen else (sizing.told_direction,)
        self.loads = hard_loads(sizing, self.way)
        self.goal = goal_of(sizing)
        self.tally = {name: Tally() for name in QUANTITIES}
        self.regression = {name: Regression(len(drawn)) for name in QUANTITIES}
        self.fit = self.friction_fit() if quick else None
        self.through = self.inside = 0
        self.strong: list[tuple[int, int, int, int]] = []  # a block: builds, strong, wanted, good
        every = np.random.default_rng([seed, 0])
        # One stratum a block for everything that is drawn by the block.
        self.strata = (
            np.stack([every.permutation(self.blocks) for _ in self.names["other"]], axis=1)
            + every.random((self.blocks, len(self.names["other"])))
            if self.names["other"]
            else np.zeros((self.blocks, 0))
        ) / self.blocks

    def friction_fit(self) -> FrictionFit | None:
        """Return how friction changes with the lengths that vary; None where none does."""
        varied = [s for s in self.names["length"] if s.deviation > 0.0]
        if not varied:
            return None
        rng = np.random.default_rng([self.seed, 3])
        return fit_friction(
            self.built,
            {s.field: s.draw(rng.random(FITTED + LOOKED_AT)) for s in varied},
            {s.field: s.middle for s in varied},
            {s.field: s.deviation for s in varied},
            self.loads,
            self.way,
        )

    def add(self, number: int) -> None:
        """Draw and count one block of builds."""
        builds = min(self.size, self.count - number * self.size)
        rng = np.random.default_rng([self.seed, 1, number])
        other = {
            source.field: float(source.draw(unit))
            for source, unit in zip(self.names["other"], self.strata[number], strict=True)
        }
        lengths = {s.field: s.draw(rng.random(builds)) for s in self.names["length"]}
        taken = {
            s.field: (s.draw(rng.random(builds)), s.draw(rng.random(builds)))
            for s in self.names["play"]
        }
        breadth = {s.field: s.draw(rng.random(builds)) for s in self.names["egg"]}
        loads = self.block_loads(rng)
        built = drawn_block(self.design, self.built, self.names["other"], other)
        if built is None:  # such a thing cannot be put together, or lets its eggs fall
            self.strong.append((builds, 0, 0, 0))
            return
        plays = list(taken.values())
        ends = ends_with_play(built, lengths, plays, builds, at_once=self.quick or None)
        closes = ends.closes & np.isfinite(ends.high)
        size = breadth.get(EGG_SIZE, np.full(builds, built.ingredients.lot.typical.breadth))
        turn = egg_turn_of(built.turner, ends.high - ends.low, size)
        alone = {**lengths, **breadth, **{s: np.full(builds, v) for s, v in other.items()}}
        errors = np.stack([self.standardised(s, alone, taken, at=0) for s in self.sources], axis=1)
        at_high = np.stack([self.standardised(s, alone, taken, at=1) for s in self.sources], axis=1)
        self.through += int(closes.sum())
        self.take("low", ends.low, errors, closes)
        self.take("high", ends.high, at_high, closes)
        if turn is not None:
            loose = np.array([source.kind == "play" for source in self.sources])
            # One end takes up the play this way and the other that way, each by itself.
            of_both = np.where(loose, (at_high - errors) / math.sqrt(2.0), errors)
            self.take("turn", turn, of_both, closes & np.isfinite(turn))
        inside = closes.copy()
        if self.goal is not None:
            leans = built.ingredients.sections["box"].leans or 0.0
            inside &= self.goal.met(ends, turn, leans)
        self.inside += int(inside.sum())
        peak = self.block_peaks(built, lengths, loads, builds)
        self.mark_eggs(errors, built, lengths, loads, builds)
        self.take("peak", peak, errors, closes & np.isfinite(peak))
        enough = self.times_enough(built, peak)
        strong = closes & (enough >= 1.0)
        wanted = closes & (enough >= float(self.design["motor"].safety_factor))
        good = inside & (strong if self.sizing.chosen else closes)
        self.strong.append((builds, int(strong.sum()), int(wanted.sum()), int(good.sum())))

    def take(self, name: str, values: Array, errors: Array, which: NDArray[np.bool_]) -> None:
        """Count the figures of one quantity, with the errors they come from."""
        self.tally[name].add(values[which])
        self.regression[name].add(errors[which], values[which])

    def standardised(
        self,
        source: Source,
        alone: Mapping[str, Array],
        taken: Mapping[str, tuple[Array, Array]],
        at: int,
    ) -> Array:
        """Return the error of one source in every build, in standard deviations.

        The play lies anew at either end: ``at`` 0 is the low one.
        """
        value = taken[source.field][at] if source.kind == "play" else alone[source.field]
        return scaled(value - source.middle, source.deviation)

    def block_loads(self, rng: np.random.Generator) -> list[LoadCase]:
        """Return the loads with the block's own eggs in them."""
        own = next((s for s in self.names["other"] if s.field == EGGS), None)
        if own is None:
            return self.loads
        return [with_own_eggs(case, own.deviation, rng) for case in self.loads]

    def mark_eggs(
        self,
        errors: Array,
        built: Built,
        lengths: Mapping[str, Array],
        loads: Sequence[LoadCase],
        builds: int,
    ) -> None:
        """Put what the block's eggs alone do to the peak in their place among the errors."""
        at = next((i for i, s in enumerate(self.sources) if s.field == EGGS), None)
        if at is None:
            return
        way = list(self.way)
        if self.quick:
            with_them, without = (
                bare_peaks(built.turner, built.drive, some)[:, way].max()
                for some in (loads, self.loads)
            )
            errors[:, at] = with_them - without
            return
        with_them, without = (
            self.block_peaks(built, lengths, some, builds) for some in (loads, self.loads)
        )
        found = with_them - without
        errors[:, at] = np.where(np.isfinite(found), found, 0.0)

    def block_peaks(
        self, built: Built, lengths: Mapping[str, Array], loads: Sequence[LoadCase], builds: int
    ) -> Array:
        """Return the hardest planned shaft torque of every build of a block."""
        own = {path: values for path, values in lengths.items() if path in self.deciding}
        if self.quick:
            found = peaks_at_once(built, own, loads, self.fit)
        else:
            found = peaks_one_by_one(built, own, loads, builds)
        return np.asarray(found[:, :, list(self.way)].max(axis=(1, 2)))

    def times_enough(self, built: Built, peak: Array) -> Array:
        """Return how many times enough the motor is in every build."""
        chosen = self.sizing.chosen
        if chosen is None or not chosen.dependable:
            return np.zeros(peak.shape)
        motor = built.stages.motor_torque(peak[None, None, :], ("middle",))[0, 0]
        with np.errstate(divide="ignore"):
            return np.asarray(np.where(motor > 0.0, chosen.dependable / motor, np.inf))

    def result(self) -> Judged:
        """Return the figures."""
        assert self.sizing.cycle is not None
        blocks = np.array(self.strong, float)
        shares = blocks[:, 1:] / blocks[:, :1]
        builds = float(self.count)
        strong, wanted, good = (float(blocks[:, i].sum() / builds) for i in (1, 2, 3))
        error = (
            shares.std(axis=0, ddof=1) / math.sqrt(len(blocks)) if len(blocks) > 1 else [0.0] * 3
        )
        inside = self.inside / builds
        has_motor = self.sizing.chosen is not None
        middle = self.sizing.cycle.levels.index("middle")
        planned = [i for i, case in enumerate(self.sizing.cycle.loads) if case.planned]
        nominal = peaks(self.sizing.cycle)[planned][:, middle][:, list(self.way)].max()
        ends, typical = self.sizing.ends, self.sizing.ingredients.lot.typical.breadth
        turn = egg_turn_of(self.sizing.turner, ends.total, typical)
        return Judged(
            design=self.design,
            sizing=self.sizing,
            count=self.count,
            seed=self.seed,
            sources=self.sources,
            low=self.spread("low", ends.low),
            high=self.spread("high", ends.high),
            turn=None if turn is None else self.spread("turn", float(turn)),
            peak=self.spread("peak", float(nominal)),
            peak_error=self.fit.error if self.fit else None,
            goes_through=self.through / builds,
            goal=self.goal,
            inside=inside if self.goal else None,
            inside_error=standard_error(inside, builds) if self.goal else None,
            strong=strong if has_motor else None,
            strong_error=max(float(error[0]), standard_error(strong, builds))
            if has_motor
            else None,
            wanted=wanted if has_motor else None,
            good=good,
            good_error=max(float(error[2]), standard_error(good, builds)),
            accuracy=accuracy_for(
                WANTED_SHARE,
                self.goal,
                self.design,
                self.built,
                self.sources,
                count=min(self.count, 2000 if self.quick else 100),
                seed=self.seed,
            )
            if self.goal
            else None,
        )

    def spread(self, name: str, nominal: float) -> Spread:
        """Return the figures of one quantity."""
        tally = self.tally[name]
        shares = self.regression[name].shares()
        named = sorted(
            zip((s.field for s in self.sources), shares.tolist(), strict=True),
            key=lambda pair: -pair[1],
        )
        return Spread(
            nominal=nominal,
            mean=tally.mean,
            deviation=tally.deviation,
            least=tally.least,
            most=tally.most,
            low=tally.quantile(0.5 * (1.0 - WANTED_SHARE)),
            high=tally.quantile(0.5 * (1.0 + WANTED_SHARE)),
            shares={field: share for field, share in named if share > 0.0005},
        )


KINDS = ("length", "play", "egg", "other")


def scaled(error: Array, deviation: float) -> Array:
    """Return errors in standard deviations; nothing where there is no error."""
    return np.asarray(error / deviation if deviation > 0.0 else np.zeros_like(error))


def standard_error(share: float, count: float) -> float:
    """Return the standard error of a share of so many.

    Where all or none do, as if one more did and one more did not: nobody knows a share exactly
    from a sample.
    """
    if share in (0.0, 1.0):
        share, count = (share * count + 1.0) / (count + 2.0), count + 2.0
    return math.sqrt(share * (1.0 - share) / count)
