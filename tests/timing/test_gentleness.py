"""How hard the farthest egg is moved, against harmonic motion and against positions in time."""

from dataclasses import replace

import numpy as np
import pytest

from tests.racks import anchor_rack, school_like_rack
from turnercalc.drives.base import Motion
from turnercalc.timing import gentleness, speed_limits
from turnercalc.timing.limits import travels
from turnercalc.turners.base import Outline

G0 = 9.80665
EGG = (Outline("egg", np.array([0.25]), np.array([0.0])),)


def harmonic(amplitude: float) -> Motion:
    """A tray that swings as the cosine of the shaft angle."""
    theta = np.arange(360) * np.pi / 180.0
    return Motion(
        position=theta,
        coordinate=amplitude * np.cos(theta),
        rate=-amplitude * np.sin(theta),
        second=-amplitude * np.cos(theta),
        closes=np.ones(360, bool),
        round_and_round=True,
    )


# A 90 degree stroke run as a cosine, at 0.25 m from the pivot: 0.049 g in 2 s, 0.002 g in 10 s,
# 0.00005 g in 60 s. Harmonic motion, tangential part; textbook kinematics, recomputed here as
# r A w2 with w = pi/t. (At the ends, where it is hardest, nothing else acts.)
@pytest.mark.parametrize(("move_time", "expected_g0"), [(2.0, 0.0494), (10.0, 0.00198)])
def test_a_cosine_stroke_is_hardest_at_its_ends(move_time: float, expected_g0: float) -> None:
    turner, _ = school_like_rack(shapes=EGG)
    found = gentleness(turner, harmonic(np.radians(45.0)))
    share = found.acceleration(np.pi / move_time) / G0
    assert share == pytest.approx(expected_g0, rel=2e-3)
    assert found.speed(np.pi / move_time) == pytest.approx(np.radians(45.0) * np.pi / move_time)


def test_the_centripetal_part_is_in_it() -> None:
    # Past 57.3 degrees of amplitude a cosine swing pulls hardest at level, with A2 w2 r.
    turner, _ = school_like_rack(shapes=EGG)
    found = gentleness(turner, harmonic(1.4))
    assert found.acceleration_per_speed2 == pytest.approx(0.25 * 1.4**2, rel=1e-4)


def tray_angles(time: np.ndarray, shaft_speed: float) -> np.ndarray:
    """Return the tilt of an arm of 100 mm on a link of 200 mm, by intersecting two circles.

    Crank 70.71 mm, its shaft 70.71 mm right of and 200 mm below the pivot: 45 degrees each side.
    """
    theta = shaft_speed * time
    crank = np.array([0.0707107, -0.2])[:, None] + 0.0707107 * np.array(
        [np.cos(theta), np.sin(theta)]
    )
    distance = np.hypot(*crank)
    opening = np.arccos((0.1**2 + distance**2 - 0.2**2) / (2 * 0.1 * distance))
    return np.asarray(np.arctan2(crank[1], crank[0]) + opening)


# A wiper motor straight on a rack, 45 rpm: 90 degrees in 0.67 s, up to 212 deg/s, 0.44 g at
# 25 cm from the pivot. Figures computed for a cosine swing; recomputed here as w A and r A w2.
def test_a_wiper_motor_straight_on_the_rack_shakes_the_eggs() -> None:
    turner, _ = school_like_rack(shapes=EGG)
    speed = 45.0 * np.pi / 30.0
    found = gentleness(turner, harmonic(np.radians(45.0)))
    assert np.pi / speed == pytest.approx(0.67, abs=0.005)
    assert np.degrees(found.speed(speed)) == pytest.approx(212.0, abs=0.5)
    assert found.acceleration(speed) / G0 == pytest.approx(0.44, abs=0.005)


def test_a_real_linkage_is_as_rough_as_its_positions_in_time_say() -> None:
    # Differences of positions in time know nothing of derivatives by the crank angle. On this
    # short link the swing is a fifth faster than a cosine's at the same shaft speed.
    speed = 45.0 * np.pi / 30.0
    time = np.linspace(0.0, 2.0 * np.pi / speed, 20001)
    angle = tray_angles(time, speed)
    x, y = 0.25 * np.cos(angle), 0.25 * np.sin(angle)
    step = time[1]
    hardest = np.hypot(*(np.diff(c, 2) / step**2 for c in (x, y))).max()
    fastest = np.abs(np.diff(angle)).max() / step
    assert np.degrees(np.ptp(angle)) == pytest.approx(90.0, abs=0.01)

    turner, drive = anchor_rack()
    turner = replace(turner, shapes=EGG)
    motion = drive.close(turner.path(), drive.positions(turner.travel, 3600))
    found = gentleness(turner, motion)
    assert found.speed(speed) == pytest.approx(fastest, rel=1e-5)
    assert found.acceleration(speed) == pytest.approx(hardest, rel=1e-4)


def test_the_farthest_egg_counts_and_the_board_does_not() -> None:
    board = Outline("tray", np.array([0.4]), np.array([0.0]))
    near = Outline("egg", np.array([0.1]), np.array([0.05]))
    turner, _ = school_like_rack(shapes=(board, near, *EGG))
    alone, _ = school_like_rack(shapes=EGG)
    motion = harmonic(0.7)
    assert gentleness(turner, motion) == gentleness(alone, motion)


def test_twice_the_speed_is_four_times_as_hard() -> None:
    turner, drive = school_like_rack(shapes=EGG)
    found = gentleness(turner, drive.close(turner.path(), drive.positions(turner.travel)))
    assert found.acceleration(2.0) == pytest.approx(4.0 * found.acceleration(1.0))
    assert found.acceleration(found.shaft_speed_at(0.3)) == pytest.approx(0.3)


# Two seconds for half a turn is 15 rpm and a minute for it half a rpm; the times stand in the
# limits table (computed; our choice), the conversion is arithmetic.
def test_a_usual_rack_may_turn_at_half_a_rpm_to_fifteen() -> None:
    near = (Outline("egg", np.array([0.1]), np.array([0.1])),)
    turner, drive = school_like_rack(shapes=near)
    motion = drive.close(turner.path(), drive.positions(turner.travel))
    found = speed_limits(turner, motion)
    assert found.fastest * 30.0 / np.pi == pytest.approx(15.0, rel=0.02)
    assert found.slowest * 30.0 / np.pi == pytest.approx(0.5, rel=0.02)


def test_eggs_far_from_the_pivot_want_a_slower_shaft() -> None:
    far = (Outline("egg", np.array([0.6]), np.array([0.0])),)
    turner, drive = school_like_rack(shapes=far)
    motion = drive.close(turner.path(), drive.positions(turner.travel))
    found = speed_limits(turner, motion)
    assert found.gentleness.acceleration(found.fastest) == pytest.approx(0.05 * G0)
    assert "farthest egg" in found.fastest_because


def test_the_two_moves_of_a_crank_share_one_turn() -> None:
    turner, drive = school_like_rack(shapes=EGG)
    short, long = travels(drive.close(turner.path(), drive.positions(turner.travel, 720)))
    assert short <= long
    assert short + long == pytest.approx(2.0 * np.pi)
