"""Crank and slotted lever: where the part is, how far it goes, its forces and what they cost."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.drives.toys import Weights, rolling, sliding, swinging
from turnercalc.cycle import turn_cycle
from turnercalc.drives.slot_loop import run_in_slot
from turnercalc.drives.slotted_lever import FOLLOWERS, SlottedLever
from turnercalc.errors import CombinationError
from turnercalc.joints import JointFriction
from turnercalc.paths import CirclePath, LinePath
from turnercalc.swing import ends

TURN = np.arange(720) * 2 * np.pi / 720
NYLON = JointFriction(0.10, 0.20, 0.30, 0.40)
ROD = {"pin_diameter": 0.008, "roller_diameter": 0.019}


def below(crank: float, distance: float, **more: object) -> SlottedLever:
    """A crank straight below the pivot; its slot points down the arm of a part like that."""
    return SlottedLever(crank, 0.0, -distance, **more)  # type: ignore[arg-type]


HANGING = CirclePath(0.08, -0.5 * np.pi)


def test_known_answer_of_a_crank_of_120_and_centres_of_240() -> None:
    # Khurmi, Theory of Machines, Ex. 5.2 (r = 120, d = 240): the lever swings 60 degrees in all
    # and takes twice as long one way as the other; a lever of 450 mm has a stroke of 450 mm.
    drive = below(0.120, 0.240)
    assert np.degrees(drive.swing) == pytest.approx(60.0, abs=1e-9)
    assert drive.time_ratio == pytest.approx(2.0, rel=1e-12)
    swing = ends(swinging(angle=-0.5 * np.pi), drive)
    assert np.degrees([swing.low, swing.high]) == pytest.approx([-30.0, 30.0], abs=1e-9)
    assert swing.rests
    assert 2 * 0.450 * np.sin(swing.high) == pytest.approx(0.450, abs=1e-12)
    between = abs(swing.high_position - swing.low_position)
    assert (2 * np.pi - between) / between == pytest.approx(2.0, rel=1e-9)


def test_known_answer_of_a_crank_of_120_and_centres_of_300() -> None:
    # Khurmi Ex. 5.1, also an open course on planar mechanisms, lesson 2: half swing 23.578
    # degrees, time ratio 1.71.
    drive = below(0.120, 0.300)
    swing = ends(swinging(angle=-0.5 * np.pi), drive)
    assert np.degrees(swing.high) == pytest.approx(23.578, abs=5e-4)
    assert drive.time_ratio == pytest.approx(1.71, abs=5e-3)


@pytest.mark.parametrize("angle", [-0.3, 0.0, 0.25])
@pytest.mark.parametrize("off_line", [-0.012, 0.0, 0.02])
def test_the_crank_pin_is_on_the_slot(angle: float, off_line: float) -> None:
    """On a pivot: the pin turned back by the tilt lies on the slot of the level part."""
    drive = SlottedLever(0.05, 0.03, -0.18, angle=angle, off_line=off_line)
    q = drive.close(HANGING, TURN).coordinate
    pin = 0.03 - 0.18j + 0.05 * np.exp(1j * TURN)
    level = pin * np.exp(-1j * (q - 0.5 * np.pi + angle))
    assert level.imag == pytest.approx(off_line, abs=1e-14)
    assert (level.real > 0).all()


@pytest.mark.parametrize("angle", [-0.3, 0.0, 0.25])
def test_the_crank_pin_is_on_the_yoke(angle: float) -> None:
    """On a slope: what the pin is off the slot, square to it, is nothing at any crank angle."""
    path = LinePath(0.01, 0.02, 0.1)
    drive = SlottedLever(0.05, 0.03, -0.18, angle=angle, off_line=0.004)
    q = drive.close(path, TURN).coordinate
    pin = 0.03 - 0.18j + 0.05 * np.exp(1j * TURN)
    slot = 0.01 + 0.02j + q * np.exp(0.1j)
    assert ((pin - slot) * np.exp(-1j * (0.1 + angle))).real == pytest.approx(0.004, abs=1e-14)


@pytest.mark.parametrize("path", [HANGING, LinePath(0.01, 0.02, 0.1)])
def test_rates_are_differences_of_the_coordinate(path: CirclePath | LinePath) -> None:
    drive = SlottedLever(0.05, 0.03, -0.18, angle=0.2, off_line=0.01)
    step = 1e-5
    around = [drive.close(path, TURN + k * step) for k in (-1, 0, 1)]
    (less, _, _), (here, rate, second), (more, _, _) = (
        (m.coordinate, m.rate, m.second) for m in around
    )
    np.testing.assert_allclose(rate, (more - less) / (2 * step), atol=1e-8)
    rates = around[2].rate - around[0].rate
    np.testing.assert_allclose(second, rates / (2 * step), atol=1e-7)
    assert np.ptp(here) > 0.05


def test_a_yoke_goes_as_the_cosine_and_needs_twice_the_crank() -> None:
    # Scotch yoke, by its definition: a stroke of 2 r, and no other motion than the cosine.
    drive = SlottedLever(0.035, 0.0, -0.1)
    q = drive.close(LinePath(0.0, 0.0), TURN).coordinate
    assert q == pytest.approx(0.035 * np.cos(TURN), abs=1e-15)


@pytest.mark.parametrize("off_line", [0.0, 0.015])
def test_mounting_the_slot_askew_turns_the_whole_swing(off_line: float) -> None:
    turner = swinging(angle=-0.5 * np.pi)
    straight = ends(turner, below(0.05, 0.2, off_line=off_line))
    askew = ends(turner, below(0.05, 0.2, off_line=off_line, angle=np.radians(7.0)))
    assert np.degrees(askew.low - straight.low) == pytest.approx(-7.0, abs=1e-9)
    assert np.degrees(askew.high - straight.high) == pytest.approx(-7.0, abs=1e-9)


@pytest.mark.parametrize("crank", [0.2, 0.21, 0.4])
def test_a_crank_round_the_pivot_is_refused_because_it_goes_right_round(crank: float) -> None:
    drive = below(crank, 0.2)
    assert np.isnan(drive.close(HANGING, TURN).coordinate).all()
    closing = drive.closing(HANGING)
    assert not closing.closes
    assert closing.kind == "goes_right_round"
    assert "right round instead of to and fro" in closing.text
    assert closing.missing == pytest.approx(crank - 0.2, abs=1e-15)
    shorter = replace(drive, crank=closing.nearest["crank.radius"] - 1e-6)
    assert shorter.closing(HANGING).closes
    assert not np.isnan(shorter.close(HANGING, TURN).coordinate).any()


def test_a_slot_off_the_pivot_needs_a_shorter_crank() -> None:
    assert below(0.19, 0.2).closing(HANGING).closes
    assert not below(0.19, 0.2, off_line=-0.012).closing(HANGING).closes


def test_an_arc_may_come_near_the_pivot_but_not_over_it() -> None:
    # A crank as long as the centres, to and fro over the far half only.
    drive = below(0.2, 0.2, arc=(np.pi, 2 * np.pi))
    assert drive.both_ways
    assert drive.closing(HANGING).closes
    assert np.degrees(ends(swinging(angle=-0.5 * np.pi), drive).total) == pytest.approx(90.0)
    over = replace(drive, arc=(0.0, 2 * np.pi)).closing(HANGING)
    assert not over.closes


def test_a_rolling_part_is_refused_with_a_drive_that_would_do() -> None:
    with pytest.raises(CombinationError, match='take "crank and link"'):
        turn_cycle(rolling(), below(0.05, 0.2), rolling().load_cases())


def test_slot_is_as_long_as_the_pin_travels() -> None:
    assert below(0.05, 0.2).slot_span(HANGING) == pytest.approx((0.15, 0.25), abs=1e-12)
    near, far = SlottedLever(0.05, 0.0, -0.2).slot_span(LinePath(0.0, 0.0))
    assert far - near == pytest.approx(0.1, abs=1e-12)


def some_drive(draw: st.DrawFn, friction: bool) -> SlottedLever:
    distance = draw(st.floats(0.12, 0.3))
    mu = draw(st.floats(0.01, 0.3)) if friction else 0.0
    bearing = draw(st.floats(-np.pi, np.pi))
    return SlottedLever(
        crank=distance * draw(st.floats(0.15, 0.6)),
        across=distance * np.cos(bearing),
        height=distance * np.sin(bearing),
        angle=draw(st.floats(-0.3, 0.3)),
        off_line=draw(st.floats(-0.01, 0.01)),
        follower=draw(st.sampled_from(FOLLOWERS)),
        friction=JointFriction(0.5 * mu, mu, 1.5 * mu, 1.8 * mu),
        **ROD,
    )


@st.composite
def driven(draw: st.DrawFn, friction: bool = True) -> tuple[Weights, SlottedLever]:
    """Return a swinging or sliding part, with bearings that rub, and a slotted lever for it."""
    drive = some_drive(draw, friction)
    rubs = draw(st.floats(0.0, 0.003)) if friction else 0.0
    if draw(st.booleans()):
        turner = swinging(
            angle=float(np.arctan2(drive.height, drive.across)),
            across=draw(st.floats(-0.03, 0.03)),
            height=draw(st.floats(-0.05, 0.05)),
            rubs=rubs,
            extra_inertia=0.01,
        )
        return turner, drive
    return sliding(slope=draw(st.floats(-0.3, 0.3)), rubs=10.0 * rubs, drags=0.1 * rubs), drive


@settings(max_examples=60, deadline=None)
@given(driven())
def test_energy_closes_in_both_directions(pair: tuple[Weights, SlottedLever]) -> None:
    """Mean shaft work over a turn is what bearings, slot and pin took."""
    turner, drive = pair
    cycle = turn_cycle(turner, drive, turner.load_cases())
    free = ~cycle.jams.any(axis=-1)
    scale = np.nanmax(np.abs(cycle.shaft_torque), initial=1e-9)
    work, lost = cycle.shaft_torque.mean(axis=-1), cycle.lost.mean(axis=-1)
    # Where the face changes friction jumps; a sum of 360 steps sees the jump to one step.
    np.testing.assert_allclose(work[free], lost[free], atol=1e-6 * scale)
    assert (cycle.lost[~cycle.jams] >= 0.0).all()


@settings(max_examples=40, deadline=None)
@given(driven())
def test_the_forces_on_the_part_do_the_work_of_the_load(pair: tuple[Weights, SlottedLever]) -> None:
    """Force and couple at the crank pin, by virtual work: they give the load torque exactly."""
    turner, drive = pair
    path = turner.path()
    motion = drive.close(path, TURN)
    load = turner.load_torque(np.ones((1, 1)), motion.coordinate, 1.0)
    way = np.array([1.0, -1.0])[:, None]
    found = drive.react(motion, path, load, way, ("low", "middle", "high"))
    assert found.at is not None
    assert found.couple is not None
    px, py = found.at
    if path.turning:
        given_load = px * found.y - py * found.x + found.couple
    else:
        tx, ty = path.tangent(motion.coordinate)
        given_load = tx * found.x + ty * found.y
    fits = np.isfinite(found.x)
    assert fits[..., 0, :, :].all()
    wanted = np.broadcast_to(load, given_load.shape)
    np.testing.assert_allclose(given_load[fits], wanted[fits], atol=1e-9)


@settings(max_examples=40, deadline=None)
@given(driven())
def test_the_forces_on_the_crank_ask_for_the_shaft_torque(
    pair: tuple[Weights, SlottedLever],
) -> None:
    """Moment of the pin's force and couple about the crank's shaft: an independent balance."""
    turner, drive = pair
    drive = replace(drive, follower="plain pin")
    path = turner.path()
    motion = drive.close(path, TURN)
    load = turner.load_torque(np.ones((1, 1)), motion.coordinate, 1.0)
    way = np.array([1.0, -1.0])[:, None]
    found = drive.react(motion, path, load, way, ("low", "middle", "high"))
    assert found.at is not None
    assert found.couple is not None
    from_shaft_x, from_shaft_y = found.at[0] - drive.across, found.at[1] - drive.height
    on_shaft = from_shaft_x * found.y - from_shaft_y * found.x + found.couple
    shaft = way * load * motion.rate + found.loss
    fits = np.isfinite(found.x)
    np.testing.assert_allclose((way * on_shaft)[fits], shaft[fits], atol=1e-9)


@settings(max_examples=40, deadline=None)
@given(driven())
def test_the_mirrored_drive_feels_the_same_the_other_way_round(
    pair: tuple[Weights, SlottedLever],
) -> None:
    turner, drive = pair
    assume(isinstance(turner.pin, CirclePath))
    mass, path = turner.weights[0]
    assert isinstance(turner.pin, CirclePath)
    assert isinstance(path, CirclePath)
    mirrored = replace(
        turner,
        pin=CirclePath(turner.pin.radius, np.pi - turner.pin.angle),
        weights=((mass, CirclePath(path.radius, np.pi - path.angle)),),
    )
    other = replace(drive, across=-drive.across, angle=-drive.angle, off_line=-drive.off_line)
    here = turn_cycle(turner, drive, turner.load_cases(), positions=TURN)
    there = turn_cycle(mirrored, other, turner.load_cases(), positions=np.pi - TURN)
    np.testing.assert_allclose(there.motion.coordinate, -here.motion.coordinate, atol=1e-9)
    scale = np.nanmax(np.abs(here.shaft_torque), initial=1e-9)
    # Where the lever rests, or the pin neither goes in nor out nor turns in the slot, rounding
    # decides which way it is said to rub.
    slip = run_in_slot(turner.pin, drive.geometry, TURN).slip
    rates = np.stack([here.motion.rate, 1.0 - here.motion.rate, slip / drive.crank])
    moving = (np.abs(rates) > 1e-6).all(axis=0)
    np.testing.assert_allclose(
        there.shaft_torque[..., ::-1, moving], here.shaft_torque[..., moving], atol=1e-7 * scale
    )


def shaft(follower: str, **more: object) -> np.ndarray:
    turner = swinging(angle=-0.5 * np.pi, rubs=0.001)
    drive = below(0.06, 0.2, follower=follower, friction=NYLON, **(ROD | more))
    return turn_cycle(turner, drive, turner.load_cases()).shaft_torque


def test_a_roller_costs_less_than_a_pin_that_slides() -> None:
    costs = {name: float(shaft(name)[:, 1].mean()) for name in FOLLOWERS}
    assert costs["roller"] < 0.6 * costs["plain pin"]
    assert costs["plain pin"] < 1.2 * costs["sliding block"]


def test_a_roller_on_a_needle_runs_almost_free() -> None:
    thin = shaft("roller", pin_diameter=1e-9)[:, 1].mean()
    turner = swinging(angle=-0.5 * np.pi, rubs=0.001)
    none = turn_cycle(turner, below(0.06, 0.2), turner.load_cases()).shaft_torque[:, 1].mean()
    assert thin == pytest.approx(none, rel=1e-6)


def test_a_coarse_slot_mounted_askew_jams_the_yoke() -> None:
    # A yoke whose slot leans by a: the pin slips along it and drags the part back with mu N, so
    # that nothing is left where mu tan a = 1 (balance along the travel, derived here).
    lean = np.radians(60.0)
    turner = sliding(slope=0.0, drags=2.0)
    stuck = {}
    for mu in (0.5, 0.65):
        friction = JointFriction(mu, mu, mu, mu)
        drive = SlottedLever(0.03, 0.0, -0.1, angle=lean, friction=friction, **ROD)
        stuck[mu] = turn_cycle(turner, drive, turner.load_cases(), levels=("middle",)).jams.any()
    assert stuck == {0.5: False, 0.65: True}


def test_peak_torque_of_a_part_that_only_rubs() -> None:
    # A lever against a constant drag M: the shaft needs M times the speed ratio, which on the
    # quick return is r/(d - r) (Khurmi, Theory of Machines, chapter 5, from memory).
    turner = replace(swinging(angle=-0.5 * np.pi, across=0.0, height=0.0), drags=1.5)
    cycle = turn_cycle(turner, below(0.12, 0.24), turner.load_cases(), count=7200)
    assert cycle.shaft_torque[0, 1].max() == pytest.approx(1.5 * 0.12 / 0.12, rel=1e-6)


def test_reaction_names_its_pins() -> None:
    turner = swinging(angle=-0.5 * np.pi)
    cycle = turn_cycle(turner, below(0.06, 0.2), turner.load_cases())
    pins: Mapping[str, np.ndarray] = cycle.pin_forces
    assert set(pins) == {"bearing", "crank pin"}
    # Without friction the pin presses square to the slot: N times its distance is the moment.
    along = np.hypot(0.06 * np.cos(TURN[::2]), -0.2 + 0.06 * np.sin(TURN[::2]))
    moment = 2.0 * 9.80665 * turner.weights[0][1].tangent(cycle.motion.coordinate)[1]
    np.testing.assert_allclose(pins["crank pin"][0, 0, 0], np.abs(moment) / along, rtol=1e-9)
