"""Rolling bars: known answers, by hand, conservation, symmetry, limits, the exact worst case."""

from dataclasses import replace
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.racks import case
from turnercalc.cycle import TurnCycle, turn_cycle
from turnercalc.drives.shaft import TurningShaft
from turnercalc.joints import JointFriction
from turnercalc.mechanics.gearing import chained_shafts_torque
from turnercalc.tables import Range3
from turnercalc.turners.base import LoadCase
from turnercalc.turners.heavy_sides import PHASES
from turnercalc.turners.joining import HALF_ROUND, PRESSED, Belt, Joining
from turnercalc.turners.lane_loads import hardest_filling, lane_load_cases
from turnercalc.turners.rolling_bars import RollingBars

GRAVITY = 9.80665  # [m/s2], standard gravity (CGPM 1901)
NYLON = JointFriction(0.15, 0.30, 0.45, 0.55)


def exactly(value: float) -> Range3:
    """Return a figure that is known."""
    return Range3(value, value, value)


def plain_bars(count: int = 2, eggs: int = 1, **changes: object) -> RollingBars:
    """Return bars of 16 mm, 36 mm from middle to middle, under round eggs of 44 mm and 60 g."""
    numbers: dict[str, object] = {
        "count": count,
        "pitch": 0.036,
        "bar_radius": 0.008,
        "egg_radius": 0.022,
        "egg_mass": 0.060,
        "egg_turn": np.pi,
    }
    bars = RollingBars(**(numbers | changes))  # type: ignore[arg-type]
    return replace(bars, cases=lane_load_cases(bars, eggs))


def turned(bars: RollingBars, loads: tuple[LoadCase, ...] | None = None) -> TurnCycle:
    """Return one move by the shaft, at an odd number of positions so that half way is one."""
    return turn_cycle(bars, TurningShaft(), loads or bars.cases, count=181)


def filling(lanes: int, **phases: object) -> LoadCase:
    """Return a load: eggs in every lane for each phase, such as ``left=[4, 0]``."""
    cells = np.zeros((lanes, len(PHASES)), int)
    for phase, eggs in phases.items():
        cells[:, PHASES.index(phase.replace("_", " "))] = eggs
    return case(str(cells.tolist()), cells)


@st.composite
def rows_of_bars(draw: st.DrawFn, leans: bool = True) -> RollingBars:
    """Return bars of any size, joined in any way, with any friction, in three fillings."""
    count = draw(st.integers(2, 7))
    egg, bar = draw(st.floats(0.012, 0.040)), draw(st.floats(0.004, 0.020))
    pitch = 2.0 * (egg + bar) * draw(st.floats(0.35, 0.97))
    eta = draw(st.floats(0.6, 1.0))
    joining = Joining(
        bar_to_bar=draw(st.booleans()),
        efficiency=Range3(eta - 0.05, eta, 0.5 + 0.5 * eta),
        end_pull=draw(st.floats(0.0, 30.0)),
    )
    mu, arm, off = draw(st.floats(0.0, 0.5)), draw(st.floats(0.0, 0.002)), draw(st.floats(0, 0.002))
    bars = RollingBars(
        count=count,
        pitch=pitch,
        bar_radius=bar,
        egg_radius=egg,
        egg_mass=draw(st.floats(0.01, 0.2)),
        egg_inertia=1e-5,
        egg_turn=draw(st.floats(1.0, 6.0)),
        bar_mass=draw(st.floats(0.02, 0.5)),
        bar_inertia=1e-5,
        journal_diameter=draw(st.floats(0.003, 0.012)),
        journal_friction=JointFriction(0.5 * mu, mu, 1.5 * mu, 1.8 * mu),
        rolling_arm=Range3(0.5 * arm, arm, 2.0 * arm),
        off_centre=Range3(0.5 * off, off, 1.5 * off),
        joining=joining,
        driven_bar=draw(st.integers(0, count - 1)),
        lean=draw(st.floats(-0.05, 0.05)) if leans else 0.0,
    )
    eggs = st.lists(st.integers(0, 6), min_size=4 * (count - 1), max_size=4 * (count - 1))
    cells = [np.array(draw(eggs)).reshape(count - 1, 4) for _ in range(3)]
    return replace(bars, cases=tuple(case(f"{i}", c) for i, c in enumerate(cells)))


# -- known answers ---------------------------------------------------------------------------------


def test_round_egg_between_two_bars() -> None:
    # Known answer (a 3-4-5 triangle): R 22, bars r 8, gap 20 mm: half angle 36.87 deg, 0.625 of
    # the weight on each bar; the egg makes 8/22 of a turn per turn of the bars.
    bars = plain_bars()
    assert bars.gap == pytest.approx(0.020)
    assert np.degrees(bars.nest) == pytest.approx(36.87, abs=5e-3)
    full = filling(1, left=[1]).cells[None].astype(float)
    left, right = bars.contact_forces(full)
    assert left.item() == pytest.approx(0.625 * 0.060 * GRAVITY, rel=1e-12)
    assert right.item() == pytest.approx(left.item(), rel=1e-12)
    assert bars.ratio == pytest.approx(8 / 22)
    # A half turn of the egg is 22/16 turns of the bars.
    assert np.ptp(bars.travel) == pytest.approx(2 * np.pi * 22 / 16)


def test_rolling_loss_by_hand() -> None:
    # Two contacts of 0.625 W, each losing N f (1 + r/R): f = 1 mm, 4 eggs of 60 g.
    bars = plain_bars(eggs=4, rolling_arm=exactly(1e-3))
    by_hand = 2 * 0.625 * 4 * 0.060 * GRAVITY * 1e-3 * (1 + 8 / 22)
    cycle = turned(bars, (filling(1, left=[4]),))
    np.testing.assert_allclose(cycle.shaft_torque, by_hand, rtol=1e-12)


def test_journals_bear_weight_and_belts_as_vectors() -> None:
    # Three bars, both lanes full, sin A = 0.6, cos A = 0.8. The middle bar's sideways pushes
    # cancel; an end bar is pushed outward by 0.6 N and pulled inward by two strands of 10 N.
    bars = plain_bars(3, 2, bar_mass=0.1, joining=Joining(bar_to_bar=True, end_pull=20.0))
    weight, own = 2 * 0.060 * GRAVITY, 0.1 * GRAVITY
    push = 0.625 * weight
    end = np.hypot(20.0 - 0.6 * push, 0.8 * push + own)
    middle = 2 * 0.8 * push + own
    full = filling(2, left=[2, 2]).cells[None].astype(float)
    np.testing.assert_allclose(bars.bar_loads(full).reshape(3), [end, middle, end], rtol=1e-12)
    # Each bar has two journals; on friction circles of 4 mm sin(atan 0.3) that is the whole loss.
    rough = replace(bars, journal_diameter=0.008, journal_friction=NYLON)
    cycle = turned(rough, (filling(2, left=[2, 2]),))
    by_hand = 0.004 * np.sin(np.arctan(0.3)) * (2 * end + middle)
    np.testing.assert_allclose(cycle.shaft_torque[0, 1], by_hand, rtol=1e-12)
    np.testing.assert_allclose(cycle.pin_forces["end bar journal"], end / 2, rtol=1e-12)
    np.testing.assert_allclose(cycle.pin_forces["inner bar journal"], middle / 2, rtol=1e-12)


def test_a_belt_over_all_bars_presses_those_between_the_ends() -> None:
    # A wrap of 60 degrees presses with 2 P sin 30 = P.
    joining = Joining(end_pull=20.0, inner_pull=10.0)
    x, y = joining.pulls(4)
    assert x.tolist() == [20.0, 0.0, 0.0, -20.0]
    assert y.tolist() == [0.0, -10.0, -10.0, 0.0]
    assert pytest.approx(2 * 10.0 * np.sin(PRESSED / 2)) == 10.0


# -- bars that drive one another -------------------------------------------------------------------


@pytest.mark.parametrize("driven", range(5))
def test_every_bar_driving_the_next_compounds(driven: int) -> None:
    # sum T_j / eta^j, j belts from the driven bar; written out bar by bar.
    torques = np.array([0.010, 0.012, 0.014, 0.011, 0.020])[:, None, None, None, None]
    joining = Joining(bar_to_bar=True, efficiency=exactly(0.9))
    asked = joining.together(torques, driven, np.full((1, 1, 1), 0.9))
    by_hand = sum(t / 0.9 ** abs(j - driven) for j, t in enumerate(torques.ravel()))
    assert asked.item() == pytest.approx(by_hand, rel=1e-12)


def test_from_the_end_bar_it_is_a_row_of_shafts() -> None:
    torques = np.array([0.010, 0.012, 0.014])
    joining = Joining(bar_to_bar=True)
    asked = joining.together(torques[:, None, None, None], 0, np.full((1, 1, 1), 0.85))
    assert asked.item() == pytest.approx(float(chained_shafts_torque(torques, 0.85)))


def test_the_middle_bar_is_kindest() -> None:
    bars = plain_bars(
        7,
        4,
        rolling_arm=exactly(1e-3),
        joining=Joining(bar_to_bar=True, efficiency=exactly(0.9)),
    )
    asked = [
        turned(replace(bars, driven_bar=bar), (filling(6, left=[4] * 6),)).shaft_torque.max()
        for bar in range(7)
    ]
    assert int(np.argmin(asked)) == 3
    assert asked == pytest.approx(asked[::-1], rel=1e-12)  # and both ends are as bad
    assert asked[0] > 1.15 * asked[3]


def test_one_belt_round_all_loses_its_share_once_and_a_motor_each_turns_the_hardest_bar() -> None:
    torques = np.array([1.0, 2.0, 4.0])[:, None, None, None]
    eta = np.full((1, 1, 1), 0.8)
    assert Joining().together(torques, 0, eta).item() == pytest.approx(7.0 / 0.8)
    assert Joining(one_each=True).together(torques, 0, eta).item() == 4.0


def test_bars_that_push_give_back_what_belts_do_not_eat() -> None:
    # Load-proportional loss: of a torque that drives, eta_back = 2 - 1/eta arrives.
    torques = np.array([0.0, -1.0])[:, None, None, None]
    joining = Joining(bar_to_bar=True)
    asked = joining.together(torques, 0, np.full((1, 1, 1), 0.8))
    assert asked.item() == pytest.approx(-(2 - 1 / 0.8))


def test_a_belt_grips_by_the_capstan_formula() -> None:
    # e^(0.3 pi) = 2.566: of 2 x 12 N, 24 (2.566 - 1)/(2.566 + 1) = 10.54 N get across, 12.5 mm.
    belt = Belt(12.0, 0.0125, Range3(0.3, 0.45, 0.6))
    assert belt.grip(HALF_ROUND) == pytest.approx(10.54 * 0.0125, rel=1e-3)
    torques = np.array([0.03, 0.01, 0.02, 0.04])[:, None, None, None]
    eta = np.full((1, 1, 1), 0.9)
    joining = Joining(bar_to_bar=True, belt=belt)
    # Driving bar 2 (index 1), the belt to bar 3 has bars 3 and 4 behind it: the hardest.
    hardest = (0.02 + 0.04 / 0.9) / 0.9
    assert joining.grips(torques, 1, eta) == pytest.approx(belt.grip(HALF_ROUND) / hardest)
    assert Joining(bar_to_bar=True).grips(torques, 1, eta) is None


# -- lopsided eggs ---------------------------------------------------------------------------------


def test_heavy_sides_in_line_and_scattered() -> None:
    # By hand: m g e r/R at the bars with the heavy side level with the egg's axis, half way
    # through the move; all eggs of a lane add up in line, and as the root of their number else.
    bars = plain_bars(3, 8, off_centre=exactly(1e-3))
    one = 0.060 * GRAVITY * 1e-3 * 8 / 22
    loads = (filling(2, left=[8, 8]), filling(2, scattered_left=[8, 8]), filling(2, right=[8, 8]))
    torque = turned(bars, loads).shaft_torque[:, 1]
    assert torque[0, 0].max() == pytest.approx(16 * one, rel=1e-12)
    assert torque[0, 0].argmax() == 90  # half way
    assert torque[1, 0].max() == pytest.approx(4 * one, rel=1e-12)  # sqrt(16)
    # Heavy sides to the right push bars that turn anticlockwise along.
    np.testing.assert_allclose(torque[2, 0], -torque[0, 0], rtol=1e-12)
    # Turned through a half turn from straight down to straight up: nothing at either end.
    assert torque[0, 0, 0] == pytest.approx(0.0, abs=1e-12 * one)


def test_scattered_heavy_sides_are_a_random_walk() -> None:
    # Against dice: 24 eggs at random angles, the root of the mean square of the sum of arrows.
    dice = np.random.default_rng(3).uniform(0.0, 2 * np.pi, (200_000, 24))
    walk = np.sqrt(np.mean(np.cos(dice).sum(axis=1) ** 2 + np.sin(dice).sum(axis=1) ** 2))
    bars = plain_bars(5, 6)
    cells = filling(4, scattered_left=[6] * 4).cells[None].astype(float)
    assert bars.lopsided(cells).sum() == pytest.approx(walk, rel=5e-3)


@settings(max_examples=40, deadline=None)
@given(rows_of_bars(), st.floats(-3.0, 3.0))
def test_load_torque_is_the_slope_of_the_potential(bars: RollingBars, q: float) -> None:
    # The potential egg by egg: the height of each heavy side as the egg turns against the bars.
    def potential(at: float) -> np.ndarray:
        lift = bars.egg_mass * GRAVITY * bars.off_centre.middle
        heights = []
        for load in bars.cases:
            left, right, some_left, some_right = load.cells.sum(axis=0)
            thinned = np.sqrt(max(some_left + some_right, 1))
            # From straight down: a heavy side on the left is a quarter turn clockwise of it.
            turned = -at * bars.ratio
            low = -np.cos(-np.pi / 2 + turned), -np.cos(np.pi / 2 + turned)
            heights.append(
                left * low[0]
                + right * low[1]
                + some_left / thinned * low[0]
                + some_right / thinned * low[1]
            )
        return lift * np.array(heights)

    step = 1e-5
    slope = (potential(q + step) - potential(q - step)) / (2 * step)
    cells = np.stack([load.cells for load in bars.cases]).astype(float)
    np.testing.assert_allclose(bars.load_torque(cells, q, 1.0).reshape(-1), slope, atol=1e-8)


# -- conservation, symmetry, scaling ---------------------------------------------------------------


@settings(max_examples=40, deadline=None)
@given(rows_of_bars())
def test_there_and_back_the_shaft_works_what_friction_eats(bars: RollingBars) -> None:
    cycle = turned(bars)
    there, back = cycle.shaft_torque[:, :, 0], cycle.shaft_torque[:, :, 1]
    work = (there + back).mean(axis=-1)
    lost = cycle.lost.sum(axis=2).mean(axis=-1)
    np.testing.assert_allclose(work, lost, atol=1e-12 + 1e-9 * np.abs(there).max())
    assert (cycle.lost >= -1e-15).all()
    assert not cycle.jams.any()


@settings(max_examples=40, deadline=None)
@given(rows_of_bars())
def test_seen_from_the_other_end_it_turns_the_other_way(bars: RollingBars) -> None:
    swap = [1, 0, 3, 2]  # left is right from there
    mirrored = replace(
        bars,
        driven_bar=bars.count - 1 - bars.driven_bar,
        lean=-bars.lean,
        cases=tuple(replace(c, cells=c.cells[::-1][:, swap]) for c in bars.cases),
    )
    here, there = turned(bars).shaft_torque, turned(mirrored).shaft_torque
    np.testing.assert_allclose(there[:, :, ::-1, ::-1], here, atol=1e-12)


@settings(max_examples=25, deadline=None)
@given(rows_of_bars(), st.floats(1.5, 4.0))
def test_torque_scales_with_weight_and_with_length(bars: RollingBars, factor: float) -> None:
    pull = replace(bars.joining, end_pull=factor * bars.joining.end_pull)
    heavy = replace(
        bars,
        egg_mass=factor * bars.egg_mass,
        bar_mass=factor * bars.bar_mass,
        joining=pull,
    )

    def times(figure: Range3) -> Range3:
        return Range3(factor * figure.low, factor * figure.middle, factor * figure.high)

    big = replace(
        bars,
        pitch=factor * bars.pitch,
        bar_radius=factor * bars.bar_radius,
        egg_radius=factor * bars.egg_radius,
        journal_diameter=factor * bars.journal_diameter,
        rolling_arm=times(bars.rolling_arm),
        off_centre=times(bars.off_centre),
    )
    expected = factor * turned(bars).shaft_torque
    np.testing.assert_allclose(turned(heavy).shaft_torque, expected, rtol=1e-9, atol=1e-12)
    np.testing.assert_allclose(turned(big).shaft_torque, expected, rtol=1e-9, atol=1e-12)


# -- limits ----------------------------------------------------------------------------------------


def test_twice_the_friction_needs_twice_the_torque() -> None:
    # Every coefficient doubled. A friction circle bends: r sin(atan mu) is not quite straight in
    # mu, so bearings of 0.002 show it to 1e-5 and nylon by its own circle.
    joining = Joining(bar_to_bar=True, efficiency=exactly(0.9), end_pull=20.0)
    numbers: dict[str, object] = {
        "bar_mass": 0.1,
        "journal_diameter": 0.008,
        "joining": joining,
        "rolling_arm": exactly(0.8e-3),
    }
    light = JointFriction(0.001, 0.002, 0.003, 0.003)
    twice = JointFriction(0.002, 0.004, 0.006, 0.006)
    full = (filling(3, left=[4] * 3),)
    once = turned(plain_bars(4, 4, **numbers, journal_friction=light), full).shaft_torque
    numbers["rolling_arm"] = exactly(1.6e-3)
    double = turned(plain_bars(4, 4, **numbers, journal_friction=twice), full).shaft_torque
    np.testing.assert_allclose(double, 2 * once, rtol=1e-5)


def test_the_start_over_the_run_is_static_over_kinetic() -> None:
    # Empty bars: journals alone. By the friction circles of both coefficients.
    bars = plain_bars(4, 4, bar_mass=0.1, journal_diameter=0.008, journal_friction=NYLON)
    empty = (filling(3),)
    run, start = (
        turn_cycle(bars, TurningShaft(), empty, levels=(level,)).shaft_torque.max()
        for level in ("high", "starting")
    )
    assert start / run == pytest.approx(np.sin(np.arctan(0.55)) / np.sin(np.arctan(0.45)))
    # With little friction that is mu_static over mu_kinetic itself.
    small = replace(bars, journal_friction=JointFriction(0.001, 0.002, 0.005, 0.010))
    run, start = (
        turn_cycle(small, TurningShaft(), empty, levels=(level,)).shaft_torque.max()
        for level in ("high", "starting")
    )
    assert start / run == pytest.approx(2.0, rel=1e-4)


def test_round_eggs_without_friction_need_nothing() -> None:
    cycle = turn_cycle(plain_bars(4, 4), TurningShaft(), plain_bars(4, 4).cases, levels=("none",))
    assert np.abs(cycle.shaft_torque).max() == 0.0


def test_inertia_of_bars_and_eggs_at_the_bars() -> None:
    # 3 bars and 4 eggs: 3 I + 4 (J + m e2) (r/R)2, by hand.
    bars = plain_bars(3, 2, bar_inertia=2e-5, egg_inertia=1.1e-5, off_centre=exactly(1e-3))
    inertia, slope = bars.inertia(filling(2, left=[2, 2]).cells[None].astype(float), 0.0)
    by_hand = 3 * 2e-5 + 4 * (1.1e-5 + 0.060 * 1e-6) * (8 / 22) ** 2
    assert inertia.item() == pytest.approx(by_hand, rel=1e-12)
    assert slope.item() == 0.0


# -- the exact worst case --------------------------------------------------------------------------


def every_filling(lanes: int, eggs: int) -> tuple[LoadCase, ...]:
    """Return each lane empty, half full or full, its heavy sides either way."""
    states = [(0, 0), (eggs, 0), (0, eggs), (eggs // 2, 0), (0, eggs // 2)]
    return tuple(
        filling(lanes, left=[left for left, _ in f], right=[right for _, right in f])
        for f in product(states, repeat=lanes)
    )


@pytest.mark.parametrize("joined", ["bar to bar", "one belt", "one each"])
@pytest.mark.parametrize("steep", [False, True])
def test_no_filling_is_harder_than_those_told(joined: str, steep: bool) -> None:
    """Against all 5^4 fillings, with nests so deep that an egg alone presses a bar harder."""
    joining = Joining(
        bar_to_bar=joined == "bar to bar",
        one_each=joined == "one each",
        efficiency=exactly(0.85),
        end_pull=3.0,
    )
    bars = plain_bars(
        5,
        4,
        pitch=0.0585 if steep else 0.036,
        bar_mass=0.01,
        journal_diameter=0.012,
        journal_friction=NYLON,
        off_centre=exactly(0.2e-3),
        rolling_arm=exactly(0.05e-3),
        joining=joining,
        driven_bar=1,
    )
    told = turned(bars).shaft_torque.max(axis=(0, 3))
    brute = turned(bars, every_filling(4, 4)).shaft_torque.max(axis=(0, 3))
    np.testing.assert_allclose(told[1], brute[1], rtol=1e-12)
    if steep and joined != "one each":
        assert not all(hardest_filling(bars, 4, "middle"))


@settings(max_examples=30, deadline=None)
@given(rows_of_bars(leans=False), st.sampled_from(("middle", "starting")))
def test_the_walk_from_lane_to_lane_finds_the_hardest_order(bars: RollingBars, level: str) -> None:
    fillings = list(product((False, True), repeat=bars.lanes))
    loads = [filling(bars.lanes, left=5 * np.array(f)) for f in fillings]
    cells = np.stack([load.cells for load in loads]).astype(float)
    torques = bars.bar_torques(cells, 0.0, 1.0, (level,))
    asked = bars.joining.together(torques, bars.driven_bar, bars.share_let_through((level,)))
    found = fillings.index(hardest_filling(bars, 5, level))
    assert asked.reshape(-1)[found] == pytest.approx(asked.max(), rel=1e-12)


# -- traction --------------------------------------------------------------------------------------


def test_grip_of_the_bars_by_hand() -> None:
    # A = 36.87 deg, mu 0.2: grip mu W R/((1 + mu2) cos A) = 5.288 W mm; rolling takes
    # W f/cos A + W e = (1/0.8 + 1) W mm = 2.25 W mm.
    bars = plain_bars(
        egg_friction=Range3(0.2, 0.3, 0.4), rolling_arm=exactly(1e-3), off_centre=exactly(1e-3)
    )
    assert bars.traction() == pytest.approx(0.2 * 22 / 1.04 / 0.8 / 2.25, rel=1e-12)
    assert plain_bars(egg_friction=exactly(0.2)).traction() == np.inf
