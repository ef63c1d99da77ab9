"""The finders against trying sets one after the other: never beaten by more than 5 % in peak.

The yardstick is `brute`, which shares none of the finders' code; peaks are those of whole turn
cycles with middle friction, and what beats a finder has to stand up to a full sizing as well.
"""

import math
from collections.abc import Iterable

import numpy as np
import pytest

from tests.advice import brute
from tests.advice.more_boxes import KINDS, drum
from turnercalc.advice.lengths import Lengths, find_lengths
from turnercalc.advice.lengths.drum import DECIDED, balancing
from turnercalc.building import build
from turnercalc.design import Design
from turnercalc.findings import Answer, Finding
from turnercalc.loads import hardest
from turnercalc.sizing import size

BEATEN = 1.05
#: Sets tried all over the box, and how many of the best are sized in full until one works.
LOOKED, TRIED, SIZED = 600, 60, 6
#: Kinds with seeds of boxes in which something works.
SEEDS = {
    "rack": (1, 4, 6),
    "rack_on_slot": (1, 4, 6),
    "rack_on_rod": (4, 6),
    "cradle": (0, 2, 4),
    "cradle_on_rod": (1, 11),
    "grid": (1, 2),
    "grid_on_rod": (2, 5),
}


def space_of(design: Design) -> brute.Space:
    """Return a grid of 2 cm over the whole box, with arms the finder may take too."""
    turner, box = build(design).turner, design["box"]
    field = list(turner.dimensions.values())
    arms: tuple[float, ...] = (0.0,)
    if len(field) == 1 and design.drive != "slotted_lever":
        shares = np.linspace(0.6, 1.5, 7)
        arms = tuple((design.value(field[0]) * shares).round(3).tolist())
    left = box.width / 2 if turner.origin_from_left is None else turner.origin_from_left
    floor = 0.3 if turner.origin_height is None else turner.origin_height
    return brute.Space(
        arms,
        tuple(np.arange(-left, box.width - left, 0.02).round(3).tolist()),
        tuple(np.arange(-floor, box.height - floor, 0.02).round(3).tolist()),
    )


def best_by_force(design: Design, seed: int) -> float:
    """Return the least peak of sets all over the box that stands up to a full sizing."""
    every = brute.some_sets(design, space_of(design), 1e-3, seed, LOOKED)[:TRIED]
    found = [(brute.peak_of(design, values), at) for at, values in enumerate(every)]
    order = sorted((peak, at) for peak, at in found if math.isfinite(peak))
    best = next((every[at] for _, at in order[:SIZED] if brute.works(design, every[at])), None)
    return math.inf if best is None else brute.peak_of(design, best, 360)


def best_nearby(design: Design, answer: Lengths) -> float:
    """Return the least peak of the best suggestion and of those a few millimetres around it."""
    one = min(answer.suggestions, key=lambda one: one.promise.peak)
    across = next(path for path in one.settings if path.endswith("across"))
    height = next(path for path in one.settings if path.endswith("height"))
    x, y = one.design.value(across), one.design.value(height)
    field = list(build(design).turner.dimensions.values())
    arm = 0.0
    if len(field) == 1 and design.drive != "slotted_lever":
        arm = one.design.value(field[0])
    steps = (-0.003, 0.0, 0.003)
    space = brute.Space((arm,), tuple(x + d for d in steps), tuple(y + d for d in steps))
    angle = one.promise.link_to_arm
    flattest = 40.0 if angle is None else min(40.0, math.degrees(angle) - 0.1)
    found = brute.peaks(one.design, space, flattest=flattest)
    return min((peak for peak, _ in found), default=math.inf)


@pytest.mark.parametrize(("kind", "seed"), [(k, s) for k, seeds in SEEDS.items() for s in seeds])
def test_a_place_for_shaft_or_eye(kind: str, seed: int) -> None:
    design = KINDS[kind](np.random.default_rng([7, seed]))
    answer = find_lengths(design)
    assert answer.suggestions, answer.why_none
    ours = min(one.promise.peak for one in answer.suggestions)
    assert ours <= BEATEN * best_by_force(design, seed)
    nearby = best_nearby(design, answer)
    assert math.isfinite(nearby), "the finder's own set is among those"
    assert ours <= BEATEN * nearby


def doubts(findings: Iterable[Finding]) -> int:
    """Return how many of the questions that a drum's sizes decide are answered marginal."""
    return sum(f.answer is Answer.MARGINAL for f in findings if f.id in DECIDED)


def drum_peak(design: Design, settings: dict[str, object], most: int) -> float:
    """Return the peak of a drum; infinite with a no, or more doubts than so many."""
    sizing = size(design.replace(settings, si=True), count=36)
    if sizing.cycle is None:
        return math.inf
    if any(f.answer is Answer.NO for f in sizing.findings if f.id in DECIDED):
        return math.inf
    if doubts(sizing.findings) > most:
        return math.inf
    middle = sizing.cycle.levels.index("middle")
    return hardest(sizing.cycle, middle, sizing.told_direction).torque


@pytest.mark.parametrize("seed", [1, 4])
def test_radius_and_counterweight_of_a_drum(seed: int) -> None:
    """Radii of 4 mm steps, and weights from none to half as much again as balances, all round."""
    settings = {"drum.empty_balance": "500 g at 90 mm toward shelf 2"}
    design = drum(np.random.default_rng([7, seed])).replace(settings)
    answer = find_lengths(design)
    assert answer.suggestions, answer.why_none
    ours = min(one.promise.peak for one in answer.suggestions)
    most = doubts(answer.suggestions[0].sizing.findings)
    section = design["drum"]
    beyond = section.outside / 2 - section.shelf_radius
    best = math.inf
    for radius in np.arange(0.03, design["box"].width / 2 - beyond, 0.004).round(3).tolist():
        sizes: dict[str, object] = {
            "drum.shelf_radius": radius,
            "drum.outside": 2 * (radius + beyond),
        }
        best = min(best, drum_peak(design, sizes, most))
        whole = balancing(design, radius)
        assert whole is not None
        for share in (0.6, 1.0, 1.4):
            weight = type(whole)(share * whole.mass, radius, whole.shelf)
            best = min(best, drum_peak(design, {**sizes, "drum.counterweight": weight}, most))
    assert ours <= BEATEN * best


@pytest.mark.parametrize("seed", [0, 2])
def test_diameter_and_pitch_of_bars(seed: int) -> None:
    from turnercalc.advice.lengths.bars import DECIDED as OF_BARS

    design = KINDS["bars"](np.random.default_rng([7, seed]))
    answer = find_lengths(design)
    if not answer.suggestions:
        pytest.skip("no bars go into this box")
    ours = answer.suggestions[0]
    doubts = sum(f.answer is Answer.MARGINAL for f in ours.sizing.findings if f.id in OF_BARS)
    pitch = ours.design["bars"].pitch
    for diameter in np.arange(0.010, 0.0341, 0.004).tolist():
        for wider in (-0.002, 0.0, 0.003):
            sizes = {"bars.diameter": diameter, "bars.pitch": pitch + wider}
            sizing = size(design.replace(sizes, si=True), count=36)
            if sizing.cycle is None:
                continue
            answers = [f.answer for f in sizing.findings if f.id in OF_BARS]
            if Answer.NO in answers or answers.count(Answer.MARGINAL) > doubts:
                continue
            middle = sizing.cycle.levels.index("middle")
            peak = hardest(sizing.cycle, middle, sizing.told_direction).torque
            assert min(one.promise.peak for one in answer.suggestions) <= BEATEN * peak
