"""Linear actuator: lengths between its eyes, its stops, its push and pull, and what they cost."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import root

from tests.drives.toys import Weights, rolling, sliding, swinging
from turnercalc.cycle import turn_cycle
from turnercalc.drives.linear_actuator import LinearActuator
from turnercalc.joints import JointFriction
from turnercalc.mechanics import linear_actuator as textbook
from turnercalc.paths import CirclePath, LinePath
from turnercalc.swing import ends, sensitivities

WANTED = (-np.pi / 4, np.pi / 4)


def known(**more: object) -> tuple[Weights, LinearActuator]:
    """Fixed eye 200 mm below the pivot, moving eye 60 mm to its right with the part level."""
    numbers: dict[str, object] = {
        "shortest": 0.15,
        "stroke": 0.10,
        "across": 0.0,
        "height": -0.20,
        "whole_stroke": False,
    }
    turner = swinging(arm=0.06, travel=WANTED)
    drive = LinearActuator(**(numbers | more))  # type: ignore[arg-type]
    return turner, drive.assemble(turner.path(), WANTED)


def test_known_lengths_between_the_eyes() -> None:
    # Triangle of 200 and 60 mm (law of cosines, computed by hand): 163.19 mm at 45 degrees
    # between them, 208.81 at 90, 246.11 at 135; a quarter turn takes 82.93 mm of stroke.
    turner, drive = known()
    lengths = drive.eye_distance(turner.path(), np.array([*WANTED, 0.0]))
    assert 1e3 * lengths == pytest.approx([163.19, 246.11, 208.81], abs=0.01)
    assert drive.stop_in is not None
    assert drive.stop_out is not None
    assert 1e3 * (drive.stop_out - drive.stop_in) == pytest.approx(82.93, abs=0.01)


def test_switches_set_by_the_tilt_give_the_tilt() -> None:
    turner, drive = known()
    swing = ends(turner, drive)
    assert np.degrees([swing.low, swing.high]) == pytest.approx([-45.0, 45.0], abs=1e-9)
    assert not swing.rests
    assert drive.both_ways


def test_an_eye_on_the_other_side_drives_the_other_way() -> None:
    turner = swinging(arm=0.06, angle=np.pi, travel=WANTED)
    _, drive = known()
    other = replace(drive, stop_in=None, stop_out=None).assemble(turner.path(), WANTED)
    assert other.branch == -drive.branch
    motion = other.close(turner.path(), other.positions(WANTED))
    assert (motion.rate < 0).all()
    assert np.degrees(motion.coordinate[[0, -1]]) == pytest.approx([45.0, -45.0], abs=1e-9)


def test_push_over_the_moment_arm_is_the_torque() -> None:
    # Force = torque over the distance of the rod's line from the pivot, here by the triangle.
    turner, drive = known()
    cycle = turn_cycle(turner, drive, turner.load_cases())
    q = cycle.motion.coordinate
    torque = turner.load_torque(np.ones((1, 1)), q, 1.0)[0, 0, 0]
    arm = textbook.actuator_moment_arm(0.20, 0.06, q + np.pi / 2)
    assert cycle.shaft_torque[0, 1, 0] == pytest.approx(torque / arm, rel=1e-9, abs=1e-9)
    # What the motor feels going in is the same force the other way round.
    assert cycle.shaft_torque[0, 1, 1] == pytest.approx(-torque / arm, rel=1e-9, abs=1e-9)
    # A rod that pushes is in compression.
    assert cycle.bar_force is not None
    assert cycle.bar_force[0, 1, 0] == pytest.approx(-torque / arm, rel=1e-9, abs=1e-9)


def test_largest_push_and_pull_differ_with_the_direction() -> None:
    """Friction is added to the way it goes: going out pushes harder, going in pulls harder."""
    turner, drive = known(
        pin_diameter=0.01, friction=JointFriction(0.2, 0.3, 0.4, 0.5), weight_mass=1.2
    )
    turner = replace(turner, rubs=0.004)
    cycle = turn_cycle(turner, drive, turner.load_cases())
    assert cycle.bar_force is not None
    out, inward = -cycle.bar_force[0, 1]
    assert out.max() > inward.max()
    assert inward.min() < out.min()


def test_error_of_each_end_per_millimetre_of_stroke() -> None:
    # dq = dL/h, with the moment arm h of the end (52.00 mm at 45 degrees, 34.48 at 135; law of
    # cosines): a millimetre is 1.102 degrees at one end and 1.662 at the other.
    turner, drive = known()
    found = {s.field: s for s in sensitivities(turner, drive)}
    inner, outer = found["actuator.stop_in"], found["actuator.stop_out"]
    assert np.degrees([inner.low, inner.high]) * 1e-3 == pytest.approx([1.102, 0.0], abs=1e-3)
    assert np.degrees([outer.low, outer.high]) * 1e-3 == pytest.approx([0.0, 1.662], abs=1e-3)
    whole = replace(drive, whole_stroke=True, stroke=0.0829, shortest=0.1632)
    stroke = {s.field: s for s in sensitivities(turner, whole)}["actuator.stroke"]
    assert np.degrees([stroke.low, stroke.high]) * 1e-3 == pytest.approx([0.0, 1.66], abs=5e-3)


@pytest.mark.parametrize(
    ("make", "across", "height"),
    [(swinging, 0.05, -0.25), (sliding, -0.3, 0.02), (rolling, 0.4, 0.2)],
)
def test_rates_are_differences_of_the_coordinate(
    make: Callable[[], Weights], across: float, height: float
) -> None:
    turner = make()
    path = turner.path()
    level = float(np.hypot(*(np.array(path.point(0.0)) - [across, height])))
    drive = LinearActuator(level - 0.03, 0.06, across, height).assemble(path)
    position = np.linspace(0.01, 0.05, 41)
    step = 1e-6
    less, here, more = (drive.close(path, position + k * step) for k in (-1, 0, 1))
    assert here.closes.all()
    rate = (more.coordinate - less.coordinate) / (2 * step)
    second = (more.rate - less.rate) / (2 * step)
    np.testing.assert_allclose(here.rate, rate, rtol=1e-6)
    np.testing.assert_allclose(here.second, second, rtol=1e-5, atol=1e-5)
    # The eyes are as far apart as the actuator is long.
    apart = drive.eye_distance(path, here.coordinate)
    np.testing.assert_allclose(apart, drive.length(position), atol=1e-12)


def test_beyond_its_stroke_it_is_nowhere() -> None:
    turner, drive = known()
    motion = drive.close(turner.path(), np.array([-0.001, 0.0, 0.10, 0.101]))
    assert motion.closes.tolist() == [False, True, True, False]
    assert np.isnan(motion.coordinate[[0, 3]]).all()


def test_too_little_stroke_is_refused_with_what_is_missing() -> None:
    turner, drive = known(stroke=0.09)
    closing = drive.closing(turner.path())
    # 246.11 mm wanted, 150 + 90 there are.
    assert not closing.closes
    assert 1e3 * closing.missing == pytest.approx(6.11, abs=0.01)
    assert 1e3 * closing.nearest["actuator.stroke"] == pytest.approx(96.11, abs=0.01)
    assert 1e3 * closing.nearest["actuator.shortest"] == pytest.approx(156.11, abs=0.01)
    for name, value in closing.nearest.items():
        turner, mended = known(**{"stroke": 0.09} | {name.removeprefix("actuator."): value})
        assert mended.closing(turner.path()).closes, name


def test_a_whole_stroke_that_the_arm_cannot_follow_is_refused() -> None:
    turner, drive = known(whole_stroke=True, shortest=0.20)
    closing = drive.closing(turner.path())
    # The eyes can be 260 mm apart; the rod wants 300.
    assert not closing.closes
    assert 1e3 * closing.missing == pytest.approx(40.0, abs=1e-6)
    assert 1e3 * closing.nearest["actuator.stroke"] == pytest.approx(60.0, abs=1e-6)


def test_rod_and_arm_in_line_within_the_travel_is_refused() -> None:
    # The fixed eye to the right of the pivot at the arm's height: it toggles at level.
    turner = swinging(arm=0.06, travel=WANTED)
    drive = LinearActuator(0.12, 0.10, 0.20, 0.0, whole_stroke=False)
    closing = drive.assemble(turner.path(), WANTED).closing(turner.path())
    assert closing.kind == "toggles"
    assert not closing.closes
    # The arm points at the eye: 200 - 60 = 140 mm apart, which a builder can measure; an angle
    # would need the turner's word for its middle, and a drum has no "level".
    assert "into line within the wanted travel, with the rod 140 mm from eye to eye" in closing.text
    assert "level" not in closing.text


def test_a_rod_square_to_a_slide_is_told_so_and_not_of_an_arm() -> None:
    path = LinePath(0.0, 0.0, 0.0)
    drive = LinearActuator(0.12, 0.20, 0.0, -0.2, whole_stroke=False, wanted=(-0.05, 0.05))
    closing = drive.closing(path)
    assert closing.kind == "toggles"
    assert "square to the travel" in closing.text
    assert "200 mm from eye to eye" in closing.text
    assert "arm" not in closing.text


@st.composite
def driven(draw: st.DrawFn, friction: bool = True) -> tuple[Weights, LinearActuator]:
    """Return a part with an actuator that reaches, its eyes and bearings rubbing."""
    mu = draw(st.floats(0.01, 0.3)) if friction else 0.0
    rubs = draw(st.floats(0.0, 0.003)) if friction else 0.0
    kind = draw(st.sampled_from(["swings", "slides", "rolls"]))
    across, height = draw(st.floats(-0.1, 0.1)), draw(st.floats(-0.3, -0.2))
    if kind == "swings":
        turner = swinging(
            arm=draw(st.floats(0.05, 0.09)), across=0.02, height=0.03, rubs=rubs, extra_inertia=0.01
        )
    elif kind == "slides":
        across, height = draw(st.floats(-0.4, -0.25)), draw(st.floats(-0.05, 0.05))
        turner = sliding(slope=draw(st.floats(-0.2, 0.2)), rubs=10 * rubs, drags=rubs)
    else:
        across, height = draw(st.floats(0.35, 0.5)), draw(st.floats(0.1, 0.3))
        turner = rolling(rubs=rubs, extra_inertia=0.01, travel=(-0.3, 0.3))
    drive = LinearActuator(
        shortest=0.05,
        stroke=0.9,
        across=across,
        height=height,
        whole_stroke=False,
        weight_mass=draw(st.floats(0.0, 1.5)),
        pin_diameter=0.008,
        friction=JointFriction(0.5 * mu, mu, 1.5 * mu, 1.8 * mu),
    ).assemble(turner.path(), turner.travel)
    assume(drive.closing(turner.path()).closes)
    return turner, drive


@settings(max_examples=60, deadline=None)
@given(driven())
def test_out_and_back_the_work_is_what_friction_took(pair: tuple[Weights, LinearActuator]) -> None:
    """Over both strokes potential energy is back where it was: what is left is the loss."""
    turner, drive = pair
    cycle = turn_cycle(turner, drive, turner.load_cases(), count=721)
    free = ~cycle.jams.any(axis=(-1, -2))
    work = np.trapezoid(cycle.shaft_torque, cycle.motion.position, axis=-1).sum(axis=-1)
    lost = np.trapezoid(cycle.lost, cycle.motion.position, axis=-1).sum(axis=-1)
    np.testing.assert_allclose(work[free], lost[free], rtol=1e-9, atol=1e-9)
    assert (cycle.lost[~cycle.jams] >= 0.0).all()


@settings(max_examples=40, deadline=None)
@given(driven(friction=False))
def test_frictionless_work_of_a_stroke_is_the_rise(pair: tuple[Weights, LinearActuator]) -> None:
    turner, drive = pair
    drive = replace(drive, weight_mass=0.0)
    cycle = turn_cycle(turner, drive, turner.load_cases(), levels=("none",), count=2001)
    work = np.trapezoid(cycle.shaft_torque[0, 0, 0], cycle.motion.position)
    first, last = turner.potential(cycle.motion.coordinate[[0, -1]])
    assert work == pytest.approx(last - first, abs=1e-5)


@settings(max_examples=30, deadline=None)
@given(driven())
def test_the_rod_pushes_as_hard_as_the_motor(pair: tuple[Weights, LinearActuator]) -> None:
    """The force along the rod is the motor's: with weightless eyes nothing else acts along it."""
    turner, drive = pair
    drive = replace(drive, weight_mass=0.0, friction=JointFriction(0, 0, 0, 0))
    cycle = turn_cycle(turner, drive, turner.load_cases())
    assert cycle.bar_force is not None
    way = np.array([1.0, -1.0])[:, None]
    free = ~cycle.jams
    scale = np.nanmax(np.abs(cycle.shaft_torque), initial=1e-9)
    np.testing.assert_allclose(
        cycle.shaft_torque[free], (-way * cycle.bar_force)[free], atol=1e-7 * scale
    )


def test_the_mirrored_actuator_pushes_as_hard() -> None:
    turner, drive = known(weight_mass=1.0)
    turner = replace(turner, rubs=0.002)
    mass, path = turner.weights[0]
    assert isinstance(path, CirclePath)
    mirrored = replace(
        turner,
        pin=CirclePath(0.06, np.pi),
        weights=((mass, CirclePath(path.radius, np.pi - path.angle)),),
    )
    other = replace(drive, across=-drive.across, branch=-drive.branch)
    here = turn_cycle(turner, drive, turner.load_cases())
    there = turn_cycle(mirrored, other, turner.load_cases())
    np.testing.assert_allclose(there.motion.coordinate, -here.motion.coordinate, atol=1e-12)
    np.testing.assert_allclose(there.shaft_torque, here.shaft_torque, rtol=1e-9, atol=1e-9)


def test_a_whole_stroke_rod_is_bolted_on_near_level() -> None:
    turner = swinging(arm=0.06, travel=WANTED)
    drive = LinearActuator(0.163, 0.083, 0.0, -0.20).assemble(turner.path())
    assert drive.branch == 1.0
    assert abs(ends(turner, drive).total - np.pi / 2) < 0.01


def balanced_push(
    pin: complex, rod: complex, weight: complex, circle: float, spin: float, against: float
) -> float:
    """Force along the rod that leaves no moment on part and rod, found by a root finder [N].

    `spin` is the rod's rotation, `against` the rod's against the part; only signs count.
    """

    def left_over(force: np.ndarray) -> list[float]:
        on_part = complex(*force)
        on_tip = circle * abs(on_part) * np.sign(against)  # of the rod on the part
        on_foot = -circle * abs(on_part) * np.sign(spin)  # of the frame on the rod
        part = (np.conj(pin) * on_part).imag + on_tip - weight.real
        return [part, -(np.conj(rod) * on_part).imag - on_tip + on_foot]

    found = root(left_over, [0.0, 10.0], tol=1e-13)
    assert found.success
    return float((complex(*found.x) * np.conj(rod)).real / abs(rod))


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_push_with_friction_is_that_of_a_balance_body_by_body(way: float) -> None:
    """Rod and part cut free, friction moments in both eyes, no virtual work.

    The rod is free of weight, so that what its motor pushes is the force along it. On the part
    act its weight, the pin's force and the pin's friction; its own pivot is free of friction.
    """
    mu, radius = 0.30, 0.005
    turner, drive = known(pin_diameter=2 * radius, friction=JointFriction(mu, mu, mu, mu))
    cycle = turn_cycle(turner, drive, turner.load_cases(), levels=("middle",), count=25)
    circle = radius * np.sin(np.arctan(mu))
    motion = cycle.motion
    assert motion.bar_rate is not None
    for at in range(0, 25, 4):
        q = float(motion.coordinate[at])
        pin = 0.06 * np.exp(1j * q)
        rod = pin + 0.20j
        assert abs(rod) == pytest.approx(0.15 + motion.position[at], abs=1e-12)
        weight = 2.0 * 9.80665 * (0.012 + 0.03j) * np.exp(1j * q)
        spin = way * float(motion.bar_rate[at])
        push = balanced_push(pin, rod, weight, circle, spin, spin - way * float(motion.rate[at]))
        ours = way * cycle.shaft_torque[0, 0, 0 if way > 0 else 1, at]
        assert push == pytest.approx(ours, rel=2e-3, abs=1e-6)
