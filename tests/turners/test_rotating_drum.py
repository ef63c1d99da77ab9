"""The turn cycle of a drum: known answers, conservation, symmetry, limits, the exact worst case."""

from dataclasses import replace
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.racks import case
from turnercalc.cycle import TurnCycle, turn_cycle
from turnercalc.drives.crank_link import CrankLink
from turnercalc.drives.shaft import TurningShaft
from turnercalc.joints import FRICTIONLESS, JointFriction
from turnercalc.turners.base import LoadCase
from turnercalc.turners.drum_loads import drum_load_cases, runs
from turnercalc.turners.rotating_drum import RimWeight, RotatingDrum, shelf_angles

GRAVITY = 9.80665  # [m/s2], standard gravity (CGPM 1901)
BRONZE = JointFriction(0.08, 0.13, 0.20, 0.25)
OZ, INCH = 0.028349523125, 0.0254  # international ounce and inch


def plain_drum(shelves: int = 8, eggs: int = 12, **changes: object) -> RotatingDrum:
    """Return a drum of 180 mm with eggs of 58.333 g, without friction."""
    numbers: dict[str, object] = {
        "shelves": shelves,
        "eggs_per_shelf": eggs,
        "shelf_radius": 0.180,
        "egg_mass": 0.058333,
        "cases": drum_load_cases(shelves, eggs),
        "endless": True,
    }
    return RotatingDrum(**(numbers | changes))  # type: ignore[arg-type]


def turned(drum: RotatingDrum, loads: tuple[LoadCase, ...] | None = None) -> TurnCycle:
    """Return a whole turn by the shaft, in steps of half a degree."""
    return turn_cycle(drum, TurningShaft(endless=True), loads or drum.cases, count=720)


@st.composite
def drums(draw: st.DrawFn, friction: bool = True) -> RotatingDrum:
    """Return drums of any size, balance, friction and filling."""
    shelves, eggs = draw(st.integers(3, 9)), draw(st.integers(1, 12))
    filling = st.lists(st.integers(0, eggs), min_size=shelves, max_size=shelves)
    weights = st.builds(
        RimWeight, st.floats(0.01, 0.5), st.floats(0.01, 0.2), st.floats(1, shelves)
    )
    mu = draw(st.floats(0.0, 0.4)) if friction else 0.0
    return plain_drum(
        shelves,
        eggs,
        shelf_radius=draw(st.floats(0.05, 0.3)),
        drum_mass=draw(st.floats(0.2, 5.0)),
        drum_inertia=0.02,
        heavy_side=draw(st.none() | weights),
        counterweight=draw(st.none() | weights),
        axle_diameter=draw(st.floats(0.004, 0.03)),
        friction=JointFriction(0.5 * mu, mu, 1.5 * mu, 1.8 * mu),
        lean=draw(st.floats(-0.1, 0.1)),
        cases=tuple(case(f"{i}", draw(filling)) for i in range(3)),
    )


def test_four_neighbours_of_eight_shelves() -> None:
    # Known answer, given to three figures: 3.23 N·m. By hand: m g R sin(4 x 22.5 deg)/sin(22.5).
    drum = plain_drum()
    four = next(c for c in drum.cases if c.family == "4 neighbours")
    by_hand = 12 * 0.058333 * GRAVITY * 0.180 / np.sin(np.pi / 8)
    assert by_hand == pytest.approx(3.23, abs=5e-3)
    assert drum.imbalance(four.cells[None]) == pytest.approx([by_hand])
    peak = turned(drum, (four,)).shaft_torque[0, 1, 0].max()
    assert peak == pytest.approx(by_hand, rel=1e-5)  # between two positions at the worst


def test_sixty_quail_eggs_are_hardest_half_full() -> None:
    # 6 shelves of 10 eggs, 20 eggs = 9 oz, 3-1/4 in from the axle. Three unit arrows 60 degrees
    # apart add up to 1/2 + 1 + 1/2 = 2 along the middle one: a known answer of 0.207 N·m.
    egg = 9 * OZ / 20
    drum = plain_drum(6, 10, shelf_radius=3.25 * INCH, egg_mass=egg)
    by_hand = 2 * 10 * egg * GRAVITY * 3.25 * INCH
    assert by_hand == pytest.approx(0.207, abs=5e-4)
    peaks = turned(drum).shaft_torque[:, 1].max(axis=(1, 2))
    assert peaks.max() == pytest.approx(by_hand, rel=1e-9)
    hardest = {c.family for c, p in zip(drum.cases, peaks, strict=True) if p > 0.999 * by_hand}
    assert hardest == {"3 neighbours"}


@pytest.mark.parametrize(
    ("neighbours", "arrow"),
    [(1, 1.000), (2, 1.932), (3, 2.732), (4, 3.346), (5, 3.732), (6, 3.864)],
)
def test_runs_of_twelve_shelves(neighbours: int, arrow: float) -> None:
    # sin(n pi/12)/sin(pi/12): 3.864 for half a drum, from a table of sines.
    drum = plain_drum(12, 1, shelf_radius=1.0, egg_mass=1.0 / GRAVITY)
    cells = np.array([cells for count, _, cells in runs(12) if count == neighbours])
    assert drum.imbalance(cells) == pytest.approx(np.full(12, arrow), abs=5e-4)


def test_a_full_or_paired_drum_without_friction_needs_nothing() -> None:
    drum = plain_drum()
    balanced = tuple(c for c in drum.cases if c.family in ("full", "empty", "opposite pairs"))
    assert len(balanced) == 5
    assert np.abs(turned(drum, balanced).shaft_torque).max() < 1e-12


def test_where_the_shelves_stand() -> None:
    # Shelf 1 straight up in the middle of the swing, shelf 2 anticlockwise of it, which is left.
    x, y = np.cos(shelf_angles(4)), np.sin(shelf_angles(4))
    assert x == pytest.approx([0, -1, 0, 1], abs=1e-15)
    assert y == pytest.approx([1, 0, -1, 0], abs=1e-15)
    # A weight on the left falls anticlockwise by itself: it pulls q up, the motor holds it back.
    drum = plain_drum(4, 1)
    cells = np.array([[0.0, 1.0, 0.0, 0.0]])
    assert drum.load_torque(cells, 0.0, 1.0).item() == pytest.approx(-0.058333 * GRAVITY * 0.18)


@settings(max_examples=40, deadline=None)
@given(drums())
def test_energy_closes_in_both_directions(drum: RotatingDrum) -> None:
    """Mean shaft work over a whole turn equals what the bearings took."""
    cycle = turned(drum)
    scale = np.abs(cycle.shaft_torque).max() + 1e-9
    work, lost = cycle.shaft_torque.mean(axis=-1), cycle.lost.mean(axis=-1)
    np.testing.assert_allclose(work, lost, atol=1e-9 * scale)
    assert (cycle.lost >= 0.0).all()
    assert not cycle.jams.any()


@settings(max_examples=40, deadline=None)
@given(drums(), st.floats(-3.0, 3.0))
def test_load_torque_is_the_slope_of_the_potential(drum: RotatingDrum, q: float) -> None:
    # The potential egg by egg, from where each one is: nothing of the mass moment is used.
    cells = np.stack([c.cells for c in drum.cases]).astype(float)

    def potential(at: float) -> np.ndarray:
        angles = shelf_angles(drum.shelves) + at + drum.lean
        energy = cells @ (drum.egg_mass * GRAVITY * np.asarray(drum.shelf_radius) * np.sin(angles))
        for weight in (drum.heavy_side, drum.counterweight):
            if weight is not None:
                place = np.pi / 2 + 2 * np.pi * (weight.shelf - 1) / drum.shelves + at + drum.lean
                energy = energy + weight.mass * GRAVITY * weight.radius * np.sin(place)
        return energy

    step = 1e-5
    slope = (potential(q + step) - potential(q - step)) / (2 * step)
    torque = drum.load_torque(cells, q, 1.0).reshape(-1)
    np.testing.assert_allclose(torque, slope, atol=1e-7)


@settings(max_examples=40, deadline=None)
@given(drums())
def test_the_mirrored_drum_feels_the_same_the_other_way_round(drum: RotatingDrum) -> None:
    """Seen from the other end of the axle, shelves run the other way and so does the turn."""

    def across(weight: RimWeight | None) -> RimWeight | None:
        return weight and replace(weight, shelf=2.0 - weight.shelf)

    mirrored = replace(
        drum,
        heavy_side=across(drum.heavy_side),
        counterweight=across(drum.counterweight),
        lean=-drum.lean,
        cases=tuple(replace(c, cells=np.roll(c.cells[::-1], 1)) for c in drum.cases),
    )
    shaft, q = TurningShaft(endless=True), np.linspace(-np.pi, np.pi, 73)
    here = turn_cycle(drum, shaft, drum.cases, positions=q).shaft_torque
    there = turn_cycle(mirrored, shaft, mirrored.cases, positions=-q).shaft_torque
    np.testing.assert_allclose(there[:, :, ::-1], here, atol=1e-9)


@settings(max_examples=25, deadline=None)
@given(drums(), st.floats(1.5, 4.0))
def test_torque_scales_with_weight_and_with_length(drum: RotatingDrum, factor: float) -> None:
    def times(weight: RimWeight | None, mass: float, length: float) -> RimWeight | None:
        return weight and replace(weight, mass=mass * weight.mass, radius=length * weight.radius)

    heavy = replace(
        drum,
        egg_mass=factor * drum.egg_mass,
        drum_mass=factor * drum.drum_mass,
        heavy_side=times(drum.heavy_side, factor, 1.0),
        counterweight=times(drum.counterweight, factor, 1.0),
    )
    big = replace(
        drum,
        shelf_radius=factor * np.asarray(drum.shelf_radius),
        axle_diameter=factor * drum.axle_diameter,
        heavy_side=times(drum.heavy_side, 1.0, factor),
        counterweight=times(drum.counterweight, 1.0, factor),
    )
    expected = factor * turned(drum).shaft_torque
    np.testing.assert_allclose(turned(heavy).shaft_torque, expected, atol=1e-9)
    np.testing.assert_allclose(turned(big).shaft_torque, expected, atol=1e-9)


@pytest.mark.parametrize("shelves", [3, 4, 5, 8])
def test_neighbours_are_the_worst_of_all_fillings(shelves: int) -> None:
    """At every position, in either direction, with friction: against all 2^shelves by force."""
    drum = plain_drum(
        shelves,
        6,
        drum_mass=1.0,
        axle_diameter=0.02,
        friction=BRONZE,
        heavy_side=RimWeight(0.2, 0.1, 1.7),
    )
    fillings = product((0, 6), repeat=shelves)
    every = tuple(case(f"{filling}", filling) for filling in fillings)
    worst = turned(drum, every).shaft_torque.max(axis=0)
    ours = turned(drum).shaft_torque.max(axis=0)
    np.testing.assert_allclose(ours, worst, atol=1e-12)


def test_axle_friction_is_the_friction_circle_times_the_weight() -> None:
    # Beer and Johnston, Vector Mechanics, section 8.6 (from memory): a journal resists with
    # r sin(atan mu) times its load. By hand for a drum of 2 kg and 96 eggs, mu 0.13, 8 mm.
    drum = plain_drum(drum_mass=2.0, axle_diameter=0.008, friction=BRONZE)
    cycle = turned(drum, (drum.cases[0],))
    by_hand = 0.004 * np.sin(np.arctan(0.13)) * (2.0 + 96 * 0.058333) * GRAVITY
    np.testing.assert_allclose(cycle.shaft_torque[0, 1], by_hand, rtol=1e-12)
    # Two bearings carry half each.
    half = 0.5 * (2.0 + 96 * 0.058333) * GRAVITY
    np.testing.assert_allclose(cycle.pin_forces["axle bearings"][0, 1], half, rtol=1e-12)


def test_twice_the_journal_friction_needs_twice_the_torque() -> None:
    drum = plain_drum(drum_mass=2.0, axle_diameter=0.008, friction=BRONZE)
    thick = replace(drum, axle_diameter=0.016)
    full = (drum.cases[0],)
    np.testing.assert_allclose(
        turned(thick, full).shaft_torque, 2 * turned(drum, full).shaft_torque
    )


def test_a_counterweight_opposite_the_heavy_side_balances_it() -> None:
    drum = plain_drum(heavy_side=RimWeight(0.3, 0.1, 2), counterweight=RimWeight(0.2, 0.15, 6))
    empty = next(c for c in drum.cases if c.family == "empty")
    assert drum.imbalance(empty.cells[None]) == pytest.approx([0.0], abs=1e-15)
    alone = replace(drum, counterweight=None)
    assert alone.imbalance(empty.cells[None]) == pytest.approx([0.3 * GRAVITY * 0.1])


def test_a_driven_pin_presses_the_axle_into_its_bearings() -> None:
    """A long arm needs little force, a short one much: only that changes the bearing friction."""
    drum = plain_drum(
        drum_mass=1.0,
        axle_diameter=0.01,
        friction=BRONZE,
        arm_angle=-np.pi / 2,
        wanted=(-0.8, 0.8),
        endless=False,
    )
    four = next(c for c in drum.cases if c.name == "4 neighbours, from shelf 3")
    lost = []
    for scale in (0.15, 0.05):
        arm = replace(drum, arm_length=scale)
        drive = CrankLink(0.6 * scale, 2.0 * scale, 2.0 * scale, -0.8 * scale)
        drive = drive.assemble(arm.path())
        cycle = turn_cycle(arm, drive, (four,))
        assert not cycle.jams.any()
        lost.append(cycle.lost[0, 1].mean(axis=-1))
        work = cycle.shaft_torque[0].mean(axis=-1)
        np.testing.assert_allclose(work, cycle.lost[0].mean(axis=-1), atol=1e-7)
    assert (lost[1] > 1.2 * lost[0]).all()
    free = turn_cycle(replace(arm, friction=FRICTIONLESS), drive, (four,))
    np.testing.assert_allclose(free.shaft_torque.mean(axis=-1), 0.0, atol=1e-9)
