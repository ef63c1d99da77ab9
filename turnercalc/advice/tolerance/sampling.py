"""Builds by the thousand, drawn from everything that can come out otherwise than meant.

Lengths and play are drawn for every build, and its ends found exactly. Masses, friction and
other half-known things are drawn for every block of builds, in strata so that the blocks cover
each range evenly; the friction a block adds to the peak is computed with its nominal lengths and
added to the peak without friction of every build. The tests compare this with builds computed
one by one.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turnercalc.advice.many import ManyEnds, takes_arrays
from turnercalc.advice.tolerance.builds import (
    bare_peaks,
    ends_with_play,
    peaks_of_builds,
    with_own_eggs,
)
from turnercalc.advice.tolerance.errors import EGGS, Source, sources
from turnercalc.advice.tolerance.judged import Judged, Spread
from turnercalc.advice.tolerance.tally import Regression, Tally
from turnercalc.building import Built, build
from turnercalc.checks.tilt import least_tilt
from turnercalc.design import Design
from turnercalc.errors import TurnercalcError
from turnercalc.loads import peaks
from turnercalc.motors import MotorFile
from turnercalc.sizing import Sizing, size
from turnercalc.swing import lengths as deciding_lengths
from turnercalc.tables import Range3, limit
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
    ValueError
        `marking` is below 0.
    TurnercalcError
        The design does not go through as meant, or a half-known number has no such field.
    """
    if marking is not None and not marking >= 0.0:
        raise ValueError(f"an error of marking is 0 or more, not {marking:g} m")
    known = half_known or {}
    middles = {path: 0.5 * (low + high) for path, (low, high) in known.items()}
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
    count = count or (USUAL if quick else SLOW)
    run = _Run(design, sizing, built, drawn, count, seed, quick=quick)
    if not run.names["length"]:
        raise TurnercalcError(
            "Nothing that is marked out decides where it stops: it turns as far as its switches "
            "let it, so there are no builds to tell apart."
        )
    for number in range(run.blocks):
        run.add(number)
        if progress is not None:
            progress(min((number + 1) * run.size, count), count)
    return run.result()


def tilt_limits(sizing: Sizing) -> tuple[float, float] | None:
    """Return least and most tilt to each side that are fine [rad]; None without such limits."""
    if "tilt" not in sizing.kind.checks or sizing.turner.coordinate_unit != "rad":
        return None
    turning = sizing.ingredients.sections["turning"]
    species = sizing.ingredients.lot.species
    low, high = least_tilt(species, turning.turns_per_day).fine, limit("tilt_each_side_most").fine
    wanted = math.degrees(turning.tilt)
    # Somebody who wants more or less than usual is judged by that.
    low, high = min(low or 0.0, wanted - 5.0), max(high or 90.0, wanted + 5.0)
    return math.radians(low), math.radians(high)


def hard_loads(sizing: Sizing, way: Sequence[int]) -> list[LoadCase]:
    """Return the few planned loads that can be the hardest one when things come out otherwise."""
    assert sizing.cycle is not None
    middle = sizing.cycle.levels.index("middle")
    peak = peaks(sizing.cycle)[:, middle][:, list(way)].max(axis=1)
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
        self.limits = tilt_limits(sizing)
        self.leans = design["box"].leans or 0.0 if self.limits else 0.0
        self.tally = {name: Tally() for name in ("low", "high", "peak")}
        self.regression = {name: Regression(len(drawn)) for name in self.tally}
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

    def add(self, number: int) -> None:
        """Draw and count one block of builds."""
        builds = min(self.size, self.count - number * self.size)
        rng = np.random.default_rng([self.seed, 1, number])
        other = {
            source.field: float(source.draw(unit))
            for source, unit in zip(self.names["other"], self.strata[number], strict=True)
        }
        built = self.block(other)
        lengths = {s.field: s.draw(rng.random(builds)) for s in self.names["length"]}
        taken = {
            s.field: (s.draw(rng.random(builds)), s.draw(rng.random(builds)))
            for s in self.names["play"]
        }
        ends = ends_with_play(built, lengths, list(taken.values()), builds)
        errors = np.stack(
            [self.standardised(s, lengths, taken, other, builds) for s in self.sources], axis=1
        )
        closes = ends.closes & np.isfinite(ends.high)
        self.through += int(closes.sum())
        for name, values in (("low", ends.low), ("high", ends.high)):
            self.tally[name].add(values[closes])
            use = errors if name == "low" else self.at_high(errors, taken)
            self.regression[name].add(use[closes], values[closes])
        inside = closes & self.within_limits(ends)
        self.inside += int(inside.sum())
        loads = self.block_loads(rng)
        peak = self.block_peaks(built, lengths, loads, builds)
        self.mark_eggs(errors, built, loads)
        fit = closes & np.isfinite(peak)
        self.tally["peak"].add(peak[fit])
        self.regression["peak"].add(errors[fit], peak[fit])
        enough = self.times_enough(built, peak)
        strong = closes & (enough >= 1.0)
        wanted = closes & (enough >= float(self.design["motor"].safety_factor))
        good = inside & (strong if self.sizing.chosen else closes)
        self.strong.append((builds, int(strong.sum()), int(wanted.sum()), int(good.sum())))

    def block(self, other: Mapping[str, float]) -> Built:
        """Return what is built with the block's own masses, places and friction."""
        changes: dict[str, Any] = {}
        for path, value in other.items():
            if path == EGGS:
                continue
            if isinstance(self.design.values().get(path), Range3):
                changes[path] = f"{value:.12g} to {value:.12g}"
            else:
                changes[path] = value
        if not changes:
            return self.built
        try:
            return build(self.design.replace(changes, si=True))
        except TurnercalcError:
            return self.built

    def standardised(
        self,
        source: Source,
        lengths: Mapping[str, Array],
        taken: Mapping[str, tuple[Array, Array]],
        other: Mapping[str, float],
        builds: int,
    ) -> Array:
        """Return the error of one source in every build, in standard deviations."""
        if source.kind == "length":
            value: Array = lengths[source.field]
        elif source.kind == "play":
            value = taken[source.field][0]
        else:
            value = np.full(builds, other[source.field])
        return scaled(value - source.middle, source.deviation)

    def at_high(self, errors: Array, taken: Mapping[str, tuple[Array, Array]]) -> Array:
        """Return the errors as they count at the high end, where the play lies anew."""
        found = errors.copy()
        for at, source in enumerate(self.sources):
            if source.kind == "play":
                found[:, at] = scaled(taken[source.field][1], source.deviation)
        return found

    def within_limits(self, ends: ManyEnds) -> NDArray[np.bool_]:
        """Say which builds tip far enough and not too far to both sides."""
        if self.limits is None:
            return np.ones(ends.low.shape, bool)
        least, most = self.limits
        left, right = ends.high + self.leans, -ends.low - self.leans
        with np.errstate(invalid="ignore"):
            return np.asarray(
                (np.minimum(left, right) >= least) & (np.maximum(left, right) <= most)
            )

    def block_loads(self, rng: np.random.Generator) -> list[LoadCase]:
        """Return the loads with the block's own eggs in them."""
        own = next((s for s in self.names["other"] if s.field == EGGS), None)
        if own is None:
            return self.loads
        return [with_own_eggs(case, own.deviation, rng) for case in self.loads]

    def mark_eggs(self, errors: Array, built: Built, loads: Sequence[LoadCase]) -> None:
        """Put what the block's eggs alone do to the peak in their place among the errors."""
        at = next((i for i, s in enumerate(self.sources) if s.field == EGGS), None)
        if at is not None:
            way = list(self.way)
            with_them, without = (
                bare_peaks(built.turner, built.drive, some)[:, way].max()
                for some in (loads, self.loads)
            )
            errors[:, at] = with_them - without

    def block_peaks(
        self, built: Built, lengths: Mapping[str, Array], loads: Sequence[LoadCase], builds: int
    ) -> Array:
        """Return the hardest planned shaft torque of every build of a block."""
        own = {path: values for path, values in lengths.items() if path in self.deciding}
        found = peaks_of_builds(built, own, loads, builds)
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
        return Judged(
            design=self.design,
            sizing=self.sizing,
            count=self.count,
            seed=self.seed,
            sources=self.sources,
            low=self.spread("low", self.sizing.ends.low),
            high=self.spread("high", self.sizing.ends.high),
            peak=self.spread("peak", float(nominal)),
            goes_through=self.through / builds,
            inside=inside if self.limits else None,
            inside_error=binomial(inside, builds) if self.limits else None,
            limits=self.limits or (math.nan, math.nan),
            strong=strong if has_motor else None,
            strong_error=max(float(error[0]), binomial(strong, builds)) if has_motor else None,
            wanted=wanted if has_motor else None,
            good=good,
            good_error=max(float(error[2]), binomial(good, builds)),
            accuracy=self.accuracy_for(WANTED_SHARE) if self.limits else None,
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

    def accuracy_for(self, wanted: float) -> float:
        """Return the marking error with which a share of the builds is inside the limits [m].

        Halved and halved again with the same draws; half-known lengths shrink alike. Play stays.
        """
        count = min(self.count, 2000 if self.quick else 100)
        rng = np.random.default_rng([self.seed, 2])
        drawn = {s.field: rng.random(count) for s in self.names["length"]}
        taken = [(s.draw(rng.random(count)), s.draw(rng.random(count))) for s in self.names["play"]]
        marks = [s.spread for s in self.names["length"] if s.shape == "bell"]
        unit = max(marks, default=max((s.spread for s in self.names["length"]), default=0.0))

        def share(scale: float) -> float:
            lengths = {s.field: s.scaled(scale).draw(drawn[s.field]) for s in self.names["length"]}
            return float(
                self.within_limits(ends_with_play(self.built, lengths, taken, count)).mean()
            )

        if not unit or share(1e-6) < wanted:
            return 0.0
        low, high = 1e-6, 1.0
        while share(high) >= wanted and high < 64.0:
            low, high = high, 2.0 * high
        for _ in range(12):
            middle = 0.5 * (low + high)
            low, high = (middle, high) if share(middle) >= wanted else (low, middle)
        return low * unit


KINDS = ("length", "play", "other")


def scaled(error: Array, deviation: float) -> Array:
    """Return errors in standard deviations; nothing where there is no error."""
    return np.asarray(error / deviation if deviation > 0.0 else np.zeros_like(error))


def binomial(share: float, count: float) -> float:
    """Return the standard error of a share of so many."""
    return math.sqrt(max(share * (1.0 - share), 0.0) / count)
