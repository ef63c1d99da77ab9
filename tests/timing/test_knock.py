"""The knock after slack: that it is a bound, where it is, and when there is none."""

from dataclasses import replace

import numpy as np
import pytest

from tests.racks import anchor_rack, school_like_rack
from turnercalc.cycle import turn_cycle
from turnercalc.timing.knock import farthest_egg, hardest_knock
from turnercalc.turners.base import Outline
from turnercalc.turners.tilting_trays import TiltingTrays

G0 = 9.80665
EGG = (Outline("egg", np.array([0.175]), np.array([0.035])),)
PLAY = np.radians(0.3)


def landing_speed(turner: TiltingTrays, start: float, play: float, towards: float) -> float:
    """Return the turning speed after falling freely through the play, by small steps in time."""
    cells = turner.cases[0].cells[None].astype(float)
    inertia = float(turner.inertia(cells, np.zeros(1))[0].ravel()[0])
    q, speed, step = start, 0.0, 1e-5
    for _ in range(400000):
        slope = float(np.ravel(turner.load_torque(cells, np.array([q]), np.ones(1)))[0])
        speed += -slope / inertia * step
        q += speed * step
        if (q - start) * towards >= play:
            return abs(speed)
    raise AssertionError("it never came across its play")


def test_a_top_heavy_rack_falls_through_its_play_no_harder_than_told() -> None:
    turner, drive = anchor_rack()
    turner = replace(turner, shapes=EGG)
    cycle = turn_cycle(turner, drive, turner.cases, levels=("none",))
    radius = farthest_egg(turner, cycle.motion)
    assert radius == pytest.approx(np.hypot(0.175, 0.035))
    knock = hardest_knock(turner, cycle, 0, PLAY, radius)
    assert knock is not None
    # a frictionless symmetric top-heavy rack changes sign at level, once on either way
    assert abs(knock.coordinate) < np.radians(1.0)
    assert knock.times >= 2
    told = np.sqrt(2.0 * G0 * knock.fall)
    # the place is known to a position of the cycle, so it may start to fall at most so far off
    step = np.abs(np.diff(cycle.motion.coordinate)).max()
    real = radius * landing_speed(turner, step, PLAY, 1.0)
    assert real <= told
    assert told < 3.0 * real


def test_a_heavy_tie_bar_keeps_the_link_loaded_one_way() -> None:
    # Its weight hangs on the arms all round the cycle and outweighs what the eggs do.
    turner, drive = school_like_rack(tie_bar_mass=5.0, shapes=EGG)
    cycle = turn_cycle(turner, drive, turner.cases)
    assert cycle.bar_force is not None
    assert len(np.unique(np.sign(cycle.bar_force))) == 1
    assert hardest_knock(turner, cycle, 0, PLAY, 0.18) is None


def test_without_play_nothing_knocks() -> None:
    turner, drive = anchor_rack()
    cycle = turn_cycle(turner, drive, turner.cases)
    assert hardest_knock(turner, cycle, 0, 0.0, 0.18) is None


def test_a_faster_drive_runs_harder_into_its_play() -> None:
    turner, drive = anchor_rack()
    cycle = turn_cycle(turner, drive, turner.cases)
    falls = [hardest_knock(turner, cycle, 0, PLAY, 0.18, speed) for speed in (0.1, 2.0, 4.0)]
    heights = [found.fall for found in falls if found is not None]
    assert heights[0] <= heights[1] < heights[2]
    # at such a speed only the drive counts, and its energy goes with the square of the speed
    assert heights[2] == pytest.approx(4.0 * heights[1])


def test_only_planned_loads_knock() -> None:
    turner, drive = anchor_rack()
    unplanned = replace(turner.cases[0], planned=False)
    cycle = turn_cycle(turner, drive, (unplanned,))
    assert hardest_knock(turner, cycle, 0, PLAY, 0.18) is None
