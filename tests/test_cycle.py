"""The turn cycle of a rack: known answers, conservation, symmetry, limits, the exact worst case."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.racks import anchor_rack, case, every_filling, full_case, racks, school_like_rack
from turnercalc.cycle import turn_cycle
from turnercalc.drives.crank_link import CrankLink
from turnercalc.joints import FRICTIONLESS, JointFriction
from turnercalc.loads import better_direction, families, hardest, peaks
from turnercalc.swing import ends
from turnercalc.turners.tilting_trays import PointMass, TiltingTrays
from turnercalc.turners.tray_loads import rack_load_cases

Rack = tuple[TiltingTrays, CrankLink]


def test_anchor_rack_has_the_independently_computed_tilt_and_peaks() -> None:
    # Anchor computed independently of this code: +-45.000 degrees; +1.913 N·m at 32.5 degrees of
    # tilt and -1.425 N·m anticlockwise. Given to three decimals (cut, not rounded).
    turner, drive = anchor_rack()
    swing = ends(turner, drive)
    assert np.degrees([swing.low, swing.high]) == pytest.approx([-45.0, 45.0], abs=1e-3)
    cycle = turn_cycle(turner, drive, turner.load_cases(), count=1440)
    torque = cycle.shaft_torque[0, 1, 0]
    assert torque.max() == pytest.approx(1.913, abs=1e-3)
    assert torque.min() == pytest.approx(-1.425, abs=1e-3)
    tilt = np.degrees(cycle.motion.coordinate[torque.argmax()])
    assert abs(tilt) == pytest.approx(32.5, abs=0.3)


@settings(max_examples=60, deadline=None)
@given(racks())
def test_energy_closes_in_both_directions(rack: Rack) -> None:
    """Mean shaft work over a cycle equals what friction and slipping eggs took."""
    turner, drive = rack
    cycle = turn_cycle(turner, drive, turner.load_cases())
    # Eggs that change sides lose energy where they slip, not in a bearing.
    still = replace(turner, egg_shift=0.0)
    cycle = turn_cycle(still, drive, turner.load_cases())
    scale = np.nanmax(np.abs(cycle.shaft_torque)) + 1e-9
    work, lost = cycle.shaft_torque.mean(axis=-1), cycle.lost.mean(axis=-1)
    free = ~cycle.jams.any(axis=-1)
    np.testing.assert_allclose(work[free], lost[free], atol=1e-7 * scale)
    assert (cycle.lost[~cycle.jams] >= 0.0).all()


@settings(max_examples=40, deadline=None)
@given(racks(friction=False))
def test_eggs_that_slip_take_just_the_energy_they_fall_by(rack: Rack) -> None:
    """Each change of sides drops the eggs by twice the shift times the sine of the slip angle."""
    turner, drive = rack
    cycle = turn_cycle(turner, drive, turner.load_cases(), levels=("none",), count=7200)
    swing = ends(turner, drive)
    slips = turner.egg_shift > 0 and min(-swing.low, swing.high) > turner.slip_angle + 1e-3
    for i, load in enumerate(turner.load_cases()):
        work = cycle.shaft_torque[i, 0].mean(axis=-1) * 2 * np.pi
        mass = turner.egg_mass * load.egg_count
        fall = 2 * 2 * turner.egg_shift * np.sin(turner.slip_angle) if slips else 0.0
        scale = np.abs(cycle.shaft_torque[i, 0]).max() + 1e-9
        np.testing.assert_allclose(work, mass * 9.80665 * fall, atol=4e-3 * scale)


@settings(max_examples=40, deadline=None)
@given(racks())
def test_the_mirrored_rack_feels_the_same_the_other_way_round(rack: Rack) -> None:
    turner, drive = rack
    turner = replace(turner, spring=None)
    mirrored = replace(
        turner,
        row_places=tuple(-x for x in turner.row_places),
        arm_angle=np.pi - np.asarray(turner.arm_angle),
        weights=tuple(PointMass(w.mass, -w.across, w.height) for w in turner.weights),
    )
    other = replace(drive, across=-np.asarray(drive.across)).assemble(mirrored.path())
    theta = drive.positions((0, 0), 72)
    here = turn_cycle(turner, drive, turner.load_cases(), positions=theta)
    there = turn_cycle(mirrored, other, turner.load_cases(), positions=np.pi - theta)
    scale = np.nanmax(np.abs(here.shaft_torque)) + 1e-9
    np.testing.assert_allclose(there.motion.coordinate, -here.motion.coordinate, atol=1e-7)
    # At a rest point rounding decides which way the tray is said to move.
    moving = np.abs(here.motion.rate) > 1e-6
    np.testing.assert_allclose(
        there.shaft_torque[:, :, ::-1, moving],
        here.shaft_torque[..., moving],
        atol=1e-6 * scale,
    )


@settings(max_examples=25, deadline=None)
@given(racks(), st.floats(1.5, 4.0))
def test_twice_the_weight_needs_twice_the_torque(rack: Rack, factor: float) -> None:
    turner, drive = rack
    turner = replace(turner, spring=None)
    heavy = replace(
        turner,
        egg_mass=turner.egg_mass * factor,
        tray_mass=turner.tray_mass * factor,
        tie_bar_mass=turner.tie_bar_mass * factor,
        weights=tuple(replace(w, mass=w.mass * factor) for w in turner.weights),
    )
    heavy_drive = replace(drive, link_mass=drive.link_mass * factor)
    light = turn_cycle(turner, drive, turner.load_cases())
    loaded = turn_cycle(heavy, heavy_drive, turner.load_cases())
    scale = np.nanmax(np.abs(loaded.shaft_torque)) + 1e-9
    np.testing.assert_allclose(loaded.shaft_torque, factor * light.shaft_torque, atol=1e-6 * scale)


def test_a_bigger_rack_of_the_same_shape_scales_with_its_length() -> None:
    """Torque is weight times length: all lengths doubled double every torque, friction included."""
    turner, drive = school_like_rack()
    big = replace(
        turner,
        row_places=tuple(2 * x for x in turner.row_places),
        **{
            name: 2 * getattr(turner, name)
            for name in (
                "egg_height",
                "tray_height",
                "arm_length",
                "pivot_diameter",
                "tie_pin_diameter",
            )
        },
    )
    big_drive = replace(
        drive,
        **{
            name: 2 * getattr(drive, name)
            for name in ("crank", "link", "across", "height", "pin_diameter")
        },
    )
    one = turn_cycle(turner, drive, turner.load_cases())
    two = turn_cycle(big, big_drive, turner.load_cases())
    np.testing.assert_allclose(two.shaft_torque, 2 * one.shaft_torque, rtol=1e-8, atol=1e-10)


def test_a_balanced_rack_without_friction_needs_nothing() -> None:
    turner, drive = school_like_rack(
        FRICTIONLESS, egg_height=0.0, tray_height=0.0, tie_bar_mass=0.0
    )
    drive = replace(drive, link_mass=0.0)
    cycle = turn_cycle(turner, drive, turner.load_cases())
    assert np.abs(cycle.shaft_torque).max() < 1e-12


def test_friction_always_costs_and_more_friction_costs_more() -> None:
    turner, drive = school_like_rack()
    cycle = turn_cycle(turner, drive, turner.load_cases(), levels=("none", "low", "middle", "high"))
    assert (np.diff(cycle.shaft_torque.mean(axis=-1), axis=1) > 0).all()
    assert (cycle.lost[:, 1:] > 0).all()


def test_pivot_friction_feels_the_link_not_only_the_weight() -> None:
    """The trap of friction from the weights alone: a bottom-heavy rack pulls hard on its link."""
    heavy = (PointMass(6.0, 0.0, -0.25),)
    turner, drive = school_like_rack(weights=heavy)
    cycle = turn_cycle(turner, drive, turner.load_cases())
    trays = 3 * (turner.tray_mass + 36 * turner.egg_mass + heavy[0].mass) + turner.tie_bar_mass
    by_weight = turner.pivot_friction.circle(turner.pivot_diameter, ("middle",)).item()
    by_weight *= trays * 9.80665
    friction = np.abs(cycle.load_torque[0, 1, 0] - cycle.load_torque[0, 1, 1]) / 2
    assert friction.max() > 1.2 * by_weight


def test_reversed_friction_would_drive_the_rack() -> None:
    """The trap of a friction sign that follows the crank instead of the tray's own movement."""
    turner, drive = school_like_rack(egg_height=0.0, tray_height=0.0, tie_bar_mass=0.0)
    drive = replace(drive, link_mass=0.0)
    cycle = turn_cycle(turner, drive, turner.load_cases())
    moving = np.abs(cycle.motion.rate) > 1e-6
    assert (cycle.shaft_torque[..., moving] > 0.0).all()


def test_the_two_directions_differ_by_a_third_on_an_ordinary_rack() -> None:
    turner, drive = anchor_rack()
    cycle = turn_cycle(turner, drive, turner.load_cases())
    highest = peaks(cycle)[0, 1]
    assert highest.max() / highest.min() == pytest.approx(1.34, abs=0.02)
    assert better_direction(cycle) == 1


@pytest.mark.parametrize("egg_height", [-0.03, 0.0136, 0.04])
@pytest.mark.parametrize("off_centre", [0.0, 0.012])
def test_the_worst_side_equals_brute_force_over_all_fillings(
    egg_height: float, off_centre: float
) -> None:
    """The trap of two-case worst loads (full and half): all 2^6 fillings, friction included."""
    places = tuple(0.05 * (np.arange(6) - 2.5) + off_centre)
    turner, drive = school_like_rack(egg_height=egg_height, row_places=places)
    ours = rack_load_cases(3, 6, 6, any_order=True)
    brute = peaks(turn_cycle(turner, drive, every_filling(3, 6, 6))).max(axis=0)
    exact = peaks(turn_cycle(turner, drive, ours)).max(axis=0)
    np.testing.assert_allclose(exact, brute, rtol=1e-3)
    # Without friction the two are the same to rounding.
    free, free_drive = school_like_rack(FRICTIONLESS, egg_height=egg_height, row_places=places)
    brute = peaks(turn_cycle(free, free_drive, every_filling(3, 6, 6))).max(axis=0)
    exact = peaks(turn_cycle(free, free_drive, ours)).max(axis=0)
    np.testing.assert_allclose(exact, brute, rtol=1e-9)


@pytest.mark.parametrize("seed", range(4))
def test_the_worst_over_independent_trays_is_every_tray_at_its_worst(seed: int) -> None:
    """Random fillings of each tray on its own never beat the enumerated worst."""
    rng = np.random.default_rng(seed)
    turner, drive = school_like_rack()
    random = [case(str(i), 6 * rng.integers(0, 2, (3, 6))) for i in range(200)]
    partly = [case(f"p{i}", rng.integers(0, 7, (3, 6))) for i in range(200)]
    ours = peaks(turn_cycle(turner, drive, rack_load_cases(3, 6, 6, any_order=True))).max(axis=0)
    theirs = peaks(turn_cycle(turner, drive, random + partly)).max(axis=0)
    assert (theirs <= ours * (1 + 1e-9)).all()


def test_mirror_pairs_are_planned_and_one_sided_fillings_are_not() -> None:
    turner, drive = school_like_rack()
    free = turn_cycle(turner, drive, rack_load_cases(3, 6, 6, any_order=True))
    paired = turn_cycle(turner, drive, rack_load_cases(3, 6, 6, any_order=False))
    assert hardest(paired, 1, 0).torque < 0.5 * hardest(free, 1, 0).torque
    names = {family.name: family.planned for family in families(paired)}
    assert names["mirror pairs"]
    assert not names["right rows only"]


def test_a_link_that_does_not_close_gives_nan_and_a_mask_and_never_numbers() -> None:
    turner, drive = school_like_rack()
    short = replace(drive, link=np.hypot(0.0495, 0.2) + 0.05 - 0.07 - 1e-3)
    cycle = turn_cycle(turner, short, turner.load_cases())
    missing = ~cycle.motion.closes
    assert missing.any()
    assert not missing.all()
    assert np.isnan(cycle.shaft_torque[..., missing]).all()
    assert not short.closing(turner.path()).closes
    assert short.closing(turner.path()).missing == pytest.approx(1e-3, abs=1e-7)
    exact = replace(short, link=short.closing(turner.path()).nearest["link.length"] + 1e-9)
    assert exact.closing(turner.path()).closes
    assert exact.close(turner.path(), exact.positions((0, 0), 1440)).closes.all()


def test_enormous_friction_is_called_a_jam() -> None:
    stuck = JointFriction(0.3, 0.5, 0.6, 0.7)
    turner, drive = school_like_rack(stuck, pivot_diameter=0.2)
    cycle = turn_cycle(turner, drive, turner.load_cases())
    assert cycle.jams.any()
    assert np.isnan(cycle.shaft_torque[cycle.jams]).all()


def test_rest_points_ask_nothing_of_the_motor_but_friction() -> None:
    turner, drive = school_like_rack(FRICTIONLESS)
    drive = replace(drive, link_mass=0.0)
    swing = ends(turner, drive)
    at = np.array(sorted([swing.low_position, swing.high_position]))
    cycle = turn_cycle(turner, drive, turner.load_cases(), positions=at)
    assert np.abs(cycle.shaft_torque).max() < 1e-9


def test_a_crank_to_and_fro_runs_its_arc_both_ways() -> None:
    turner, drive = school_like_rack()
    swing = ends(turner, drive)
    arc = (swing.high_position + 0.2, swing.low_position - 0.2)
    rocking = replace(drive, arc=arc).assemble(turner.path())
    cycle = turn_cycle(turner, rocking, turner.load_cases(), count=181)
    assert cycle.motion.position[[0, -1]] == pytest.approx(arc)
    there = cycle.shaft_torque[0, 1, 0]
    whole = turn_cycle(turner, drive, turner.load_cases(), positions=cycle.motion.position)
    np.testing.assert_allclose(there, whole.shaft_torque[0, 1, 0])
    assert ends(turner, rocking).high < swing.high
    assert not ends(turner, rocking).rests


def test_inertia_is_the_rate_of_the_kinetic_energy() -> None:
    turner, drive = school_like_rack()
    cycle = turn_cycle(turner, drive, turner.load_cases(), count=3600)
    inertia = turner.inertia(np.stack([c.cells for c in turner.load_cases()]), 0.0)[0].item()
    tx, ty = turner.path().tangent(cycle.motion.coordinate)
    energy = 0.5 * (inertia + drive.pin_mass * (tx**2 + ty**2)) * cycle.motion.rate**2
    rate = np.gradient(energy, cycle.motion.position)
    np.testing.assert_allclose(
        cycle.inertia_torque[0, 0, 0][5:-5], rate[5:-5], atol=1e-4 * np.abs(rate).max()
    )


def test_one_full_tray_alone_needs_no_tie_bar() -> None:
    turner, drive = school_like_rack(count=1, tie_bar_mass=0.0, cases=(full_case(1, 6, 6),))
    cycle = turn_cycle(turner, drive, turner.load_cases())
    assert set(cycle.pin_forces) == {"lowest pivot", "crank pin", "link pin"}
    assert not cycle.jams.any()
