"""The turn cycle of a sliding grid: known answers, conservation, symmetry, limits, worst case."""

from dataclasses import replace
from itertools import product

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.grid_design import design
from tests.grids import EXACTLY_NONE, NYLON, crank_for, exactly, grids, six_cells
from tests.racks import case
from turnercalc.building import build
from turnercalc.cycle import TurnCycle, turn_cycle
from turnercalc.drives.linear_actuator import LinearActuator
from turnercalc.joints import FRICTIONLESS, JointFriction
from turnercalc.swing import as_built, ends
from turnercalc.turners.grid_loads import grid_load_cases
from turnercalc.turners.grid_parts import GridBars, MeshFloor
from turnercalc.turners.heavy_sides import PHASES
from turnercalc.turners.sliding_grid import SlidingGrid

GRAVITY = 9.80665  # [m/s2], standard gravity (CGPM 1901)


def pushed_straight(grid: SlidingGrid, count: int = 2000, **more: object) -> TurnCycle:
    """Return the cycle of an actuator without friction of its own, along the slide."""
    half = 0.5 * grid.stroke
    back = 0.3
    drive = LinearActuator(
        shortest=back - half,
        stroke=2.0 * half,
        across=-back * np.cos(grid.lean),
        height=-back * np.sin(grid.lean),
    )
    return turn_cycle(grid, drive, grid.cases, count=count, **more)  # type: ignore[arg-type]


# --- known answers ------------------------------------------------------------------------------


def test_half_a_turn_of_an_egg_43_5_mm_broad() -> None:
    # Known answer: 68.33 mm of floor; the grid slides the play of the cell besides.
    tight = six_cells(room=0.0435)
    assert 1e3 * tight.stroke == pytest.approx(68.33, abs=5e-3)
    assert six_cells(room=0.048).stroke == pytest.approx(tight.stroke + 0.0045)


def test_a_stroke_of_90_mm_turns_an_egg_of_22_5_mm_by_229_degrees() -> None:
    grid = six_cells(egg_radius=0.0225, room=0.045)
    assert np.degrees(grid.turns_of(0.090)[1]) == pytest.approx(229.2, abs=0.1)


def test_smaller_eggs_have_more_play_and_still_turn_farther() -> None:
    small, typical, large = six_cells().turns_of(six_cells().stroke)
    assert typical == pytest.approx(np.pi)
    assert small > typical > large
    # by hand: (72.83 - 7.0)/20.5 and (72.83 - 2.5)/22.75
    assert (small, large) == pytest.approx((3.2112, 3.0914), abs=1e-3)


def test_a_stroke_within_the_play_turns_nothing() -> None:
    assert six_cells().turns_of(0.004) == (0.0, 0.0, pytest.approx(0.0015 / 0.02275))


def test_push_of_thirty_eggs_and_their_grid_by_hand() -> None:
    grid = six_cells(off_centre=EXACTLY_NONE)
    cycle = pushed_straight(grid)
    weight, arm, mu, r = 0.0583 * GRAVITY, 0.001, 0.27, 0.02175
    push = weight * arm / (r * (1 - mu) - mu * arm)
    guides = 0.30 * (0.65 * GRAVITY - 30 * mu * push)
    assert cycle.shaft_torque[0, 1].max() == pytest.approx(30 * push + guides, rel=1e-9)
    # the empty grid has its own friction only, and so has the full one until the play is crossed
    empty = next(i for i, c in enumerate(cycle.loads) if c.id == "all_cells_empty")
    alone = 0.30 * 0.65 * GRAVITY
    assert cycle.shaft_torque[empty, 1] == pytest.approx(np.full((2, 2000), alone))
    out = cycle.shaft_torque[0, 1, 0]
    gone = cycle.motion.coordinate - cycle.motion.coordinate[0]
    assert out[gone < grid.play - 1e-9] == pytest.approx(alone)
    assert out[gone > grid.play + 1e-9] == pytest.approx(30 * push + guides)


def test_the_eggs_lift_the_grid_by_what_it_presses_them_with() -> None:
    grid = six_cells(off_centre=EXACTLY_NONE)
    cycle = pushed_straight(grid)
    on_guides = cycle.pin_forces["guides"][0, 1, 0]
    push = 0.0583 * GRAVITY * 0.001 / (0.02175 * 0.73 - 0.27 * 0.001)
    assert on_guides.max() == pytest.approx(0.65 * GRAVITY)
    assert on_guides.min() == pytest.approx(0.65 * GRAVITY - 30 * 0.27 * push)


def test_wires_of_a_mesh_have_to_be_climbed_one_after_another() -> None:
    # Half-inch mesh of 1 mm wire under an egg of 21.75 mm: sin A = 6.35/22.25, A = 16.58 degrees.
    grid = six_cells(
        mesh=MeshFloor(0.0127, 0.001),
        rolling_arm=EXACTLY_NONE,
        bar_friction=EXACTLY_NONE,
        off_centre=EXACTLY_NONE,
        guide_friction=FRICTIONLESS,
    )
    force = pushed_straight(grid).shaft_torque[0, 1, 0]
    assert force.max() == pytest.approx(30 * 0.0583 * GRAVITY * np.tan(np.radians(16.58)), rel=2e-3)
    # half of the way the eggs run ahead of the bars, so that nothing pushes
    assert np.mean(force == 0.0) == pytest.approx(0.5, abs=0.08)
    # every wire takes the weight times the drop of 0.925 mm, and none of it comes back
    drop = 22.25e-3 * (1 - np.cos(np.radians(16.58)))
    assert 1e3 * drop == pytest.approx(0.925, abs=2e-3)
    way = np.ptp(pushed_straight(grid).motion.coordinate) - grid.play
    work = force.mean() * grid.stroke
    assert work / (30 * 0.0583 * GRAVITY * drop) == pytest.approx(way / 0.0127, abs=1.0)


def test_a_mesh_turns_a_little_less_than_a_board() -> None:
    # From nest to nest by 2 asin(6.35/22.25) = 33.17 degrees for 12.7 mm; a board gives 33.46.
    grid = six_cells(mesh=MeshFloor(0.0127, 0.001))
    per_mesh = 0.0127 / grid.travel_per_turn(0.02175)
    assert np.degrees(per_mesh) == pytest.approx(33.17, abs=0.02)
    assert np.degrees(0.0127 / 0.02175) == pytest.approx(33.46, abs=0.02)


# --- conservation, symmetry, scaling ------------------------------------------------------------


@settings(max_examples=30, deadline=None)
@given(grids())
def test_mean_shaft_work_is_what_friction_takes(grid: SlidingGrid) -> None:
    # On a smooth floor; wires let eggs drop, which is told as lost too.
    grid = replace(grid, mesh=None)
    drive = crank_for(grid, link=3.0 * grid.stroke)
    cycle = turn_cycle(grid, drive, grid.cases, count=1440)
    assume(not cycle.jams.any())
    work, lost = cycle.shaft_torque.mean(axis=-1), cycle.lost.mean(axis=-1)
    # The play is crossed between two positions, so weights jump by one step of the sum.
    step = np.abs(cycle.load_torque).max() * grid.stroke / 300
    assert np.abs(work - lost).max() <= step + 1e-9
    assert (cycle.lost >= 0.0).all()


@settings(max_examples=30, deadline=None)
@given(grids())
def test_the_mirror_image_has_the_mirrored_forces(grid: SlidingGrid) -> None:
    left_right = [1, 0, 3, 2]
    mirrored = replace(
        grid,
        lean=-grid.lean,
        cases=tuple(replace(c, cells=c.cells[::-1, left_right]) for c in grid.cases),
    )
    drive = crank_for(grid, link=3.0 * grid.stroke)
    other = replace(drive, across=-drive.across, branch=-drive.branch)
    theta = np.linspace(0.1, 2 * np.pi + 0.1, 60, endpoint=False)
    one = turn_cycle(grid, drive, grid.cases, positions=theta)
    two = turn_cycle(mirrored, other, mirrored.cases, positions=np.pi - theta)
    assert two.motion.coordinate == pytest.approx(-one.motion.coordinate, abs=1e-12)
    ours, theirs = one.shaft_torque, two.shaft_torque[:, :, ::-1]
    assert np.nan_to_num(theirs) == pytest.approx(np.nan_to_num(ours), abs=1e-9, rel=1e-6)


@settings(max_examples=25, deadline=None)
@given(grids(), st.floats(0.3, 4.0))
def test_twice_the_weight_takes_twice_the_force(grid: SlidingGrid, times: float) -> None:
    heavier = replace(grid, egg_mass=times * grid.egg_mass, grid_mass=times * grid.grid_mass)
    one, two = pushed_straight(grid, 60), pushed_straight(heavier, 60)
    assert two.shaft_torque == pytest.approx(times * one.shaft_torque, rel=1e-9, nan_ok=True)


@settings(max_examples=25, deadline=None)
@given(grids(friction=False))
def test_without_friction_a_level_grid_lifts_heavy_sides_and_nothing_else(
    grid: SlidingGrid,
) -> None:
    grid = replace(grid, lean=0.0, mesh=None, off_centre=EXACTLY_NONE)
    assert np.abs(pushed_straight(grid, 60).shaft_torque).max() < 1e-12


@settings(max_examples=25, deadline=None)
@given(grids(), st.floats(0.02, 0.98))
def test_load_force_is_the_slope_of_the_potential(grid: SlidingGrid, share: float) -> None:
    # Weight along the slope, and heavy sides that rise and fall as the egg turns.
    grid = replace(grid, mesh=None, room=2.0 * grid.egg_radius)
    cells = np.stack([c.cells for c in grid.cases]).astype(float)
    eggs = cells.sum(axis=1)
    phases = np.array([-0.5 * np.pi, 0.5 * np.pi])

    def potential(q: float) -> np.ndarray:
        mass = grid.grid_mass + grid.egg_mass * eggs.sum(axis=-1)
        rise = mass * GRAVITY * q * np.sin(grid.lean)
        heavy = (
            -grid.egg_mass * GRAVITY * grid.off_centre.middle * np.cos(phases - q / grid.egg_radius)
        )
        return rise + (eggs[:, :2] * heavy).sum(axis=-1)

    low, high = grid.travel
    q, h = low + share * (high - low), 1e-6
    some = eggs[:, 2:].sum(axis=-1) == 0
    track = np.array([low, q, high])
    ours = grid.load_torque(cells, track, 1.0)[:, 0, 0, 1]
    slope = (potential(q + h) - potential(q - h)) / (2 * h)
    assert ours[some] == pytest.approx(slope[some], abs=1e-6)


# --- limits --------------------------------------------------------------------------------------


def test_a_smooth_bar_and_hardly_any_load_make_a_rolling_pair() -> None:
    # With smooth bars the push is weight x arm/radius, as of a wheel.
    grid = six_cells(
        bar_friction=EXACTLY_NONE, off_centre=EXACTLY_NONE, guide_friction=FRICTIONLESS
    )
    force = pushed_straight(grid).shaft_torque[0, 1].max()
    assert force == pytest.approx(30 * 0.0583 * GRAVITY * 0.001 / 0.02175)


def test_guides_alone_start_as_much_harder_as_their_stiction() -> None:
    grid = six_cells(rolling_arm=EXACTLY_NONE, bar_friction=EXACTLY_NONE, off_centre=EXACTLY_NONE)
    running = pushed_straight(grid, levels=("high",)).shaft_torque.max()
    starting = pushed_straight(grid, levels=("starting",)).shaft_torque.max()
    assert starting / running == pytest.approx(0.55 / 0.45)


@pytest.mark.parametrize("mu", [0.95, 1.0, 1.4])
def test_bars_so_rough_that_eggs_jam_drag_them_along(mu: float) -> None:
    grid = six_cells(bar_friction=exactly(mu), off_centre=EXACTLY_NONE, guide_friction=FRICTIONLESS)
    force = pushed_straight(grid).shaft_torque[0, 1].max()
    held = 0.30 - 0.001 / 0.02175
    assert force == pytest.approx(30 * 0.0583 * GRAVITY * 0.30 / (1 - held))
    rough = replace(grid, floor_friction=exactly(np.inf))
    jams = pushed_straight(rough).jams[:, 1].any()
    assert jams == (mu * (1 + 0.001 / 0.02175) >= 1.0)
    empty = next(c for c in rough.cases if c.egg_count == 0)
    assert not pushed_straight(replace(rough, cases=(empty,))).jams.any()


def test_a_leaning_floor_lets_the_eggs_run_and_takes_their_play() -> None:
    steep, gentle = six_cells(lean=0.10), six_cells(lean=0.02)
    assert steep.runs_by_itself
    assert not gentle.runs_by_itself
    stroke = steep.progress(np.linspace(-0.03, 0.03, 50), np.ones(50))
    assert stroke.moves.all()


# --- the worst case ---------------------------------------------------------------------------


@pytest.mark.parametrize("lean", [0.0, 0.03])
@pytest.mark.parametrize("bars", [GridBars(), GridBars(True, 0.018, 0.030, 0.012)])
def test_the_planned_cases_hold_the_hardest_of_all_fillings(lean: float, bars: GridBars) -> None:
    grid = six_cells(cells=3, eggs_per_cell=2, lean=lean, bars=bars, cases=grid_load_cases(3, 2))
    every = []
    for counts in product(range(3), repeat=3):
        for phase in (0, 1):
            cells = np.zeros((3, len(PHASES)), int)
            cells[:, phase] = counts
            every.append(case(f"{counts} {phase}", cells))
    drive = crank_for(grid)
    brute = turn_cycle(grid, drive, every, count=120).shaft_torque
    planned = [c for c in grid.cases if c.planned]
    ours = turn_cycle(grid, drive, planned, count=120).shaft_torque
    assert ours.max(axis=(0, 3)) == pytest.approx(brute.max(axis=(0, 3)), rel=1e-12)


def test_the_load_cases_are_told_in_cells() -> None:
    cases = grid_load_cases(4, 5, planned="scattered", given=[("first dozen", [5, 5, 2, 0])])
    names = {c.family for c in cases if c.planned}
    assert names == {
        "all cells full, heavy sides scattered",
        "all cells empty",
        "first dozen, heavy sides scattered",
        "some cells full, heavy sides scattered",
    }
    assert len({c.id for c in cases}) == len(cases)
    assert {c.egg_count for c in cases if c.family.startswith("first dozen")} == {12}
    assert {c.egg_count for c in cases if c.family.startswith("some cells")} == {5, 10, 15}


def test_scattered_heavy_sides_count_as_the_root_of_their_number() -> None:
    grid = six_cells()
    in_line, scattered = np.zeros((1, 6, 4)), np.zeros((1, 6, 4))
    in_line[0, :, 0] = 1.5  # 9 eggs
    scattered[0, :, 2] = 1.5
    track = np.linspace(*grid.travel, 9)
    one, other = (grid.load_torque(c, track, 1.0)[0, 0, 0] for c in (in_line, scattered))
    assert other == pytest.approx(one / 3.0)


# --- direction, play and marking errors ---------------------------------------------------------


def test_an_offset_crank_has_a_quick_and_a_slow_stroke() -> None:
    grid = six_cells(guide_friction=NYLON)
    drive = crank_for(grid, height=-0.05)
    cycle = turn_cycle(grid, drive, grid.cases)
    swing = ends(grid, drive)
    there = (swing.high_position - swing.low_position) % (2 * np.pi)
    assert abs(there - np.pi) > 0.05
    peaks = cycle.shaft_torque[0, 1].max(axis=-1)
    assert abs(peaks[0] / peaks[1] - 1.0) > 0.05
    # the stroke of an offset slider-crank: sqrt((l + r)2 - e2) - sqrt((l - r)2 - e2)
    r, link, e = drive.crank, drive.link, 0.05
    assert swing.total == pytest.approx(
        np.sqrt((link + r) ** 2 - e**2) - np.sqrt((link - r) ** 2 - e**2), abs=1e-9
    )


def test_the_stroke_as_built_loses_the_play_and_twice_the_error_of_the_crank() -> None:
    grid = six_cells()
    built = as_built(grid, crank_for(grid, play=0.0004), 0.0004)
    # In line only the crank's radius moves the stroke: 1 mm makes 2; play takes itself away.
    assert built.total_most - grid.stroke == pytest.approx(0.002, rel=1e-3)
    assert grid.stroke - built.total_least == pytest.approx(0.002 + 0.0004, rel=1e-3)


# --- what is seen of it ---------------------------------------------------------------------------


def test_a_point_of_an_egg_rolls_and_a_point_of_the_grid_slides() -> None:
    grid = six_cells(largest_radius=0.02175)
    place, radius = grid.egg_places()[2], 0.02175
    top = grid.path_of(np.array([place]), np.array([2 * radius - grid.pin_height]))
    x, y = top.point(np.array([0.0, 0.5 * np.pi * radius]))
    # After a quarter turn the top of a rolling egg is in front of its middle.
    assert x - place == pytest.approx([0.0, 0.5 * np.pi * radius + radius])
    assert y + grid.pin_height == pytest.approx([2 * radius, radius])
    tx, ty = top.tangent(0.0)
    assert (float(tx[0]), float(ty[0])) == pytest.approx((2.0, 0.0))
    frame = grid.path_of(np.array([0.165]), np.array([0.0]))
    x, y = frame.point(np.array([0.0, 0.02]))
    assert x == pytest.approx([0.165, 0.185])
    assert y == pytest.approx([0.0, 0.0])


@settings(max_examples=20, deadline=None)
@given(st.floats(-0.03, 0.03), st.floats(-0.15, 0.15), st.floats(-0.02, 0.04))
def test_the_path_of_any_point_has_its_own_derivatives(q: float, x: float, y: float) -> None:
    path, h = six_cells(lean=0.05).path_of(np.array([x]), np.array([y])), 1e-6
    for first, second in ((path.point, path.tangent), (path.tangent, path.second)):
        for ahead, behind, slope in zip(first(q + h), first(q - h), second(q), strict=True):
            assert (ahead - behind) / (2 * h) == pytest.approx(slope, abs=1e-5)


def test_bars_touch_slats_in_the_middle_and_rods_where_they_meet() -> None:
    slat, rod = GridBars(False, 0.004, 0.034, 0.006), GridBars(True, 0.016, 0.028, 0.012)
    assert slat.contact(0.02) == pytest.approx(0.0)
    assert np.degrees(GridBars(False, 0.0, 0.010).contact(0.02)) == pytest.approx(-30.0)
    assert np.degrees(GridBars(False, 0.030, 0.05).contact(0.02)) == pytest.approx(30.0)
    # middle of the rod at 22 mm: asin(2/26) above the middle of an egg of 20 mm
    assert np.degrees(rod.contact(0.02)) == pytest.approx(np.degrees(np.arcsin(2 / 26)))
    assert np.isnan(GridBars(False, 0.06, 0.08).contact(0.02))


def test_a_grid_that_starts_needs_at_least_what_a_running_one_does() -> None:
    grid = six_cells()
    running, starting = (
        pushed_straight(grid, levels=levels).shaft_torque for levels in (("high",), ("starting",))
    )
    assert (starting >= running - 1e-12).all()


def test_friction_levels_are_in_order() -> None:
    low, middle, high = np.moveaxis(pushed_straight(six_cells()).shaft_torque.max(axis=-1), 1, 0)
    assert (low < middle).all()
    assert (middle < high).all()
    assert isinstance(NYLON, JointFriction)


def test_what_is_seen_slides_and_rolls() -> None:
    grid = six_cells(largest_radius=0.02175)
    track = np.linspace(*grid.travel, 5)
    seen = grid.sights(track)
    bars = [sight for sight in seen if sight.name == "bar"]
    assert len(bars) == 7
    for sight in bars:
        assert np.diff(sight.x, axis=1) == pytest.approx(np.tile(np.diff(track), (4, 1)))
    (floor,) = (sight for sight in seen if sight.name == "floor")
    assert floor.stands_still
    assert floor.y == pytest.approx(np.full((2, 1), -grid.pin_height))
    marks = [sight for sight in seen if sight.name == "mark"]
    assert len(marks) == 6
    turned = np.unwrap(np.arctan2(np.diff(marks[0].y, axis=0)[0], np.diff(marks[0].x, axis=0)[0]))
    # clockwise as the grid goes right, by stroke over radius
    assert turned[0] - turned[-1] == pytest.approx(grid.stroke / 0.02175)


def test_what_is_made_fits_together() -> None:
    built = build(design())
    made = built.turner.made(built.ingredients)  # type: ignore[attr-defined]
    pieces = {piece.id: piece for piece in made.pieces}
    assert pieces["bar"].count == 7
    # five eggs of 61 mm end to end, each with 3 mm
    assert pieces["bar"].size == pytest.approx((0.320, 0.030, 0.006))
    holes = [hole.x for hole in pieces["rail"].holes]
    assert np.diff(holes) == pytest.approx(np.full(6, 0.054))
    assert holes[0] == pytest.approx(-holes[-1])
    assert pieces["floor"].size[0] > 0.324 + 0.0728 - 0.001


@settings(max_examples=20, deadline=None)
@given(grids(), st.floats(0.001, 5.0))
def test_only_the_sign_of_the_motion_counts(grid: SlidingGrid, pace: float) -> None:
    cells = np.stack([c.cells for c in grid.cases]).astype(float)
    track = np.linspace(*grid.travel, 25)
    for way in (1.0, -1.0):
        one = grid.load_torque(cells, track, way * np.ones(25))
        other = grid.load_torque(cells, track, way * pace * np.ones(25))
        assert other == pytest.approx(one)
        losses = [
            grid.resistance(cells, track, size * way * np.ones(25), ("middle",))(1.0, 2.0)
            for size in (1.0, pace)
        ]
        assert losses[0] == pytest.approx(losses[1], nan_ok=True)


def test_heavy_sides_are_hardest_half_way_of_the_eggs_not_of_the_grid() -> None:
    grid = six_cells()
    cells = np.zeros((1, 6, 4))
    cells[0, :, 0] = 5  # heavy sides to the left: they hinder a slide to the right
    track = np.linspace(*grid.travel, 20_001)
    lift = 30 * 0.0583 * GRAVITY * 0.001 / 0.02175
    for way, at in ((1.0, 0.5 * grid.play), (-1.0, -0.5 * grid.play)):
        force = grid.load_torque(cells, track, way * np.ones(track.size))[0, 0, 0]
        assert force.max() == pytest.approx(lift, rel=1e-6)
        assert track[force.argmax()] == pytest.approx(at, abs=1e-4)


def test_more_lopsided_eggs_than_usual_count_at_high_friction() -> None:
    smooth = six_cells(
        bar_friction=EXACTLY_NONE, rolling_arm=EXACTLY_NONE, guide_friction=FRICTIONLESS
    )
    peaks = pushed_straight(smooth).shaft_torque[0].max(axis=(1, 2))
    # middle of mass 1 mm off the axis usually, 1.5 mm at the worst
    per_mm = 30 * 0.0583 * GRAVITY / 21.75
    assert peaks == pytest.approx([per_mm, per_mm, 1.5 * per_mm], rel=1e-5)


def test_what_a_drive_puts_on_the_pin_square_to_the_floor_is_felt_in_the_guides() -> None:
    empty = next(c for c in grid_load_cases(6, 5) if c.egg_count == 0)
    grid = six_cells(lean=0.1, cases=(empty,))
    cells = grid.cases[0].cells[None].astype(float)
    felt = grid.resistance(cells, np.linspace(*grid.travel, 3), np.ones(3), ("middle",))
    guides = [
        float(felt.bearing_forces(x, y)["guides"].flat[0])
        for x, y in ((0.0, 0.0), (1.0, 0.0), (0.0, 1.0))
    ]
    weight = 0.65 * GRAVITY
    assert guides[0] == pytest.approx(weight * np.cos(0.1))
    # a level push to the right presses a floor that rises to the right, a lift relieves it
    assert guides[1] - guides[0] == pytest.approx(np.sin(0.1))
    assert guides[2] - guides[0] == pytest.approx(-np.cos(0.1))
