"""Tolerance of what a shaft turns: bars and a drum, against closed forms drawn afresh.

Eggs on bars: bar and egg pass the same length of surface, R turn = r bar turn. A drum: the moment
of everything on it about the axle, and the friction circle of the axle. Nothing of the package is
used in them but the figures of the design and which shelves are full.
"""

import math
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from turnercalc.advice.tolerance import Judged, judge_build
from turnercalc.advice.tolerance.errors import SPREAD
from turnercalc.advice.tolerance.sampling import hard_loads
from turnercalc.building import build
from turnercalc.design import Design, read_design
from turnercalc.handover.display import Style
from turnercalc.handover.tolerance_page import as_json, page
from turnercalc.motors import read_motors
from turnercalc.sizing import size
from turnercalc.swing import egg_turn_of

EXAMPLES = Path(__file__).parents[2] / "examples"
GRAVITY = 9.80665  # m/s2, standard (CGPM 1901)
MM = 1e-3


@cache
def bars(**settings: str) -> Design:
    named = {path.replace("__", "."): text for path, text in settings.items()}
    return read_design(EXAMPLES / "toy-chest-bars.toml", named)


@cache
def drum(**settings: str) -> Design:
    named = {path.replace("__", "."): text for path, text in settings.items()}
    return read_design(EXAMPLES / "tool-chest-drum.toml", named)


@cache
def judged_bars() -> Judged:
    return judge_build(bars(), read_motors(EXAMPLES / "motors.csv"), count=500)


def bell(rng: np.random.Generator, middle: float, spread: float, count: int) -> np.ndarray:
    return middle + spread / SPREAD * rng.standard_normal(count)


def egg_turns(count: int, wanted_deg: float = 180.0, seed: int = 9) -> np.ndarray:
    """Return turns of one egg a build [rad]: dowels of 22 mm, eggs of 41..47..50 mm (file)."""
    rng = np.random.default_rng(seed)
    diameter = bell(rng, 22 * MM, 0.5 * MM, count)
    breadth = bell(rng, 47 * MM, 0.5 * (50 - 44) * MM, count)
    bar_turn = math.radians(wanted_deg) * 47 / 22  # the switches are set for the design as meant
    return bar_turn * diameter / breadth


def test_turns_of_eggs_on_bars_are_those_of_the_closed_form() -> None:
    found, own = judged_bars().turn, egg_turns(200_000)
    assert found is not None
    assert found.nominal == pytest.approx(math.pi, rel=1e-9)
    error = own.std() / math.sqrt(500)
    assert found.mean == pytest.approx(own.mean(), abs=4 * error)
    assert found.deviation == pytest.approx(own.std(), rel=4 / math.sqrt(2 * 500))
    for figure, share in ((found.low, 0.025), (found.high, 0.975)):
        assert figure == pytest.approx(np.quantile(own, share), abs=6 * error)


def test_small_errors_of_dowel_and_egg_share_the_spread_as_linear_theory_says() -> None:
    """turn ~ d / b: (deviation of turn / turn)2 = (deviation of d / d)2 + (deviation of b / b)2."""
    alike = bars(
        eggs__largest="66.5 x 47.3 mm", eggs__smallest="65.5 x 46.7 mm", bars__weight="142 g"
    )
    found = judge_build(alike, count=400).turn
    assert found is not None
    of_dowel = (0.5 / SPREAD / 22.0) ** 2
    of_egg = (0.3 / SPREAD / 47.0) ** 2
    expected = math.pi * math.sqrt(of_dowel + of_egg)
    assert found.deviation == pytest.approx(expected, rel=4 / math.sqrt(2 * 400))
    shares = found.shares
    assert shares["bars.diameter"] == pytest.approx(of_dowel / (of_dowel + of_egg), abs=0.03)
    assert shares["egg size"] == pytest.approx(of_egg / (of_dowel + of_egg), abs=0.03)
    assert "bars.pitch" not in shares


def test_share_of_eggs_turned_enough_is_that_of_the_closed_form() -> None:
    """A wanted turn of 92 degrees, where 90 is the least that is fine."""
    found = judge_build(bars(turning__egg_turn="92 deg"), count=500)
    share = float((egg_turns(200_000, 92.0) >= math.radians(90)).mean())
    assert 0.3 < share < 0.9, "a share worth comparing"
    assert found.inside == pytest.approx(share, abs=4 * math.sqrt(share * (1 - share) / 500))
    assert found.inside_error == pytest.approx(math.sqrt(share * (1 - share) / 500), rel=0.1)
    assert found.accuracy == 0.0, "eggs of several sizes are not made alike by careful marking"


def test_builds_that_drop_their_eggs_do_not_count_as_going_through() -> None:
    """A gap as wide as a typical egg, 22 + 47 = 69 mm of pitch, of 66 to 71.8 mm."""
    found = judge_build(bars(bars__pitch="68.9 mm +/- 2.9 mm"), count=200)
    assert found.goes_through == pytest.approx(3.0 / 5.8, abs=4 * 0.5 / math.sqrt(200))
    assert found.good <= found.goes_through


def test_half_known_turn_of_the_bars_moves_their_switches() -> None:
    found = judge_build(bars(turning__egg_turn="180 deg +/- 30 deg"), count=200)
    assert found.turn is not None
    assert found.turn.shares["turning.egg_turn"] > 0.6
    assert found.high.deviation == pytest.approx(
        0.5 * math.radians(30) / math.sqrt(3) * 47 / 22, rel=4 / math.sqrt(2 * 200)
    )


def drum_peaks(design: Design, count: int, seed: int = 4) -> np.ndarray:
    """Return the hardest shaft torque of builds of the drum in the tool chest [N·m].

    The file: 8 shelves at 150 mm, axle of 10 mm in nylon, 2.9 kg empty with 70 g at 120 mm towards
    shelf 3 too much, eggs of 735/12 g, to and fro through a quarter turn each side.
    """
    sizing = size(design)
    loads = hard_loads(sizing, (sizing.told_direction,))
    lot = sizing.ingredients.lot
    half_range = 0.5 * (lot.largest.mass - lot.smallest.mass) / lot.typical.mass
    friction = design["drum"].friction
    way = 1.0 if sizing.told_direction == 0 else -1.0
    turn = np.linspace(-0.5 * math.pi, 0.5 * math.pi, 361)
    rng = np.random.default_rng(seed)
    found = np.zeros(count)
    for at in range(count):
        radius, weight = (
            bell(rng, middle, spread, 1)[0] for middle, spread in ((0.150, MM), (2.9, 0.02 * 2.9))
        )
        mass = bell(rng, 0.070, 0.02 * 0.070, 1)[0]
        out, off = bell(rng, 0.120, MM, 1)[0], bell(rng, 0.0, MM / 0.120, 1)[0]
        mu = rng.uniform(friction.low, friction.high)
        for load in loads:
            cells = np.asarray(load.cells, float)
            noise = half_range / SPREAD * np.sqrt(cells) * rng.standard_normal(cells.shape)
            eggs = lot.typical.mass * (cells + noise)
            place = 0.5 * math.pi + 2 * math.pi * np.arange(8) / 8
            heavy = 0.5 * math.pi + 2 * math.pi * 2 / 8 + off
            x = (eggs * radius * np.cos(place)).sum() + mass * out * math.cos(heavy)
            y = (eggs * radius * np.sin(place)).sum() + mass * out * math.sin(heavy)
            # height of the middle of mass when turned by q: x sin q + y cos q
            lift = GRAVITY * (x * np.cos(turn) - y * np.sin(turn))
            rubbed = 0.005 * math.sin(math.atan(mu)) * GRAVITY * (weight + eggs.sum())
            found[at] = max(found[at], float((way * lift).max() + rubbed))
    return found


def test_torque_of_a_drum_is_spread_as_the_moments_about_its_axle_say() -> None:
    found, own = judge_build(drum(), count=500).peak, drum_peaks(drum(), 4000)
    error = own.std() * math.sqrt(1 / 500 + 1 / 4000)
    assert found.mean == pytest.approx(own.mean(), abs=4 * error)
    assert found.deviation == pytest.approx(own.std(), rel=4 / math.sqrt(2 * 500))


def test_a_drums_counterweight_is_drawn_in_weight_distance_and_direction() -> None:
    balanced = drum(drum__counterweight="300 g at 150 mm toward shelf 7")
    found = judge_build(balanced, count=150)
    drawn = {source.field: source for source in found.sources}
    weight, distance, direction = (
        drawn[f"drum.counterweight {word}"] for word in ("weight", "distance", "direction")
    )
    assert (weight.middle, weight.spread) == pytest.approx((0.300, 0.006))
    assert (distance.middle, distance.spread) == pytest.approx((0.150, 0.001))
    # a millimetre along the circle, in shelves of an eighth of a turn
    assert direction.spread == pytest.approx(0.001 / 0.150 / (2 * math.pi / 8))


def test_a_drum_on_its_shaft_turns_its_eggs_as_far_as_its_switches_let_it() -> None:
    found = judge_build(drum(turning__swing="90 deg +/- 60 deg each side"), count=200)
    # 180 +- 120: at least 80 and, whole turns taken off, 280 at most: 60..300 drawn evenly
    assert found.inside == pytest.approx(200 / 240, abs=4 * math.sqrt(1 / 6 * 5 / 6 / 200))
    assert judge_build(drum(), count=100).inside == 1.0


def test_eggs_in_a_grid_turn_by_its_stroke_less_the_play_of_their_cells() -> None:
    """On a plain floor an egg rolls without slipping: R turn = stroke - (room - 2 R)."""
    design = read_design(EXAMPLES / "seed-tray-grid.toml")
    grid = replace(build(design).turner, mesh=None)  # type: ignore[type-var]
    room = grid.room  # type: ignore[attr-defined]
    for breadth in (22 * MM, 25 * MM):
        expected = (44 * MM - (room - breadth)) / (0.5 * breadth)
        assert egg_turn_of(grid, 44 * MM, breadth) == pytest.approx(expected, rel=1e-9)
    found = judge_build(design, count=60)
    assert found.goal is not None
    assert found.goal.what == "turn"
    assert found.turn is not None
    assert found.turn.shares["crank.radius"] > 0.5


@pytest.mark.parametrize("design", [bars, drum])
def test_same_seed_same_answer(design: object) -> None:
    one, other, third = (
        judge_build(design(), count=100, seed=seed)  # type: ignore[operator]
        for seed in (1, 1, 2)
    )
    assert one.peak == other.peak
    assert one.turn == other.turn
    assert one.peak != third.peak


def test_the_page_speaks_of_turns_and_names_what_is_not_drawn() -> None:
    text = page(judged_bars(), Style("metric"))
    assert "Eggs turned enough" in text
    assert "turn of an egg" in text
    assert "size of an egg" in text
    assert "Not drawn" in text
    assert "Ends right" not in text
    assert "of half way" not in text, "ends that are the same in every build say nothing"
    assert max(len(line) for line in text.splitlines()) <= 80
    assert '"judged_by": "turn"' in as_json(judged_bars())
