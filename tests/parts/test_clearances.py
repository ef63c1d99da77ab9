"""Room around a rack, against the rules of tray builders and against plain trigonometry."""

from dataclasses import replace

import numpy as np
import pytest

from tests.racks import school_like_rack
from turnercalc.parts.clearances import LINK_END, Clearances, clearances
from turnercalc.turners.base import Outline
from turnercalc.turners.tilting_trays import TiltingTrays


def block(half_width: float, bottom: float, top: float) -> Outline:
    return Outline(
        "tray",
        np.array([-half_width, half_width, half_width, -half_width]),
        np.array([bottom, bottom, top, top]),
    )


def room(
    outlines: tuple[Outline, ...], tilt_deg: float, **changes: object
) -> tuple[TiltingTrays, Clearances]:
    turner, drive = school_like_rack(shapes=outlines, pitch=0.13, **changes)
    motion = drive.close(turner.path(), drive.positions(turner.travel))
    end = np.radians(tilt_deg)
    found = clearances(turner, motion, (-end, end), width=0.42, height=0.76)
    return turner, found


# Edge-to-edge rise of a tray 300 mm wide: W sin(tilt). Textbook trigonometry.
@pytest.mark.parametrize(("tilt_deg", "rise_mm"), [(45, 212.13), (40, 192.84), (35, 172.07)])
def test_a_flat_tray_rises_from_edge_to_edge_by_its_width_times_the_sine(
    tilt_deg: float, rise_mm: float
) -> None:
    _, found = room((block(0.15, 0.0, 0.0),), tilt_deg, count=1)
    assert 1e3 * (found.reach.high - found.reach.low) == pytest.approx(rise_mm, abs=0.01)


# Builders' rules of thumb for a tray of half width a loaded to the height h above the pivot:
# sideways sqrt(a2 + h2) at mid-tilt, at the end a sin + h cos above the pivot (common practice,
# no source; both are plain trigonometry).
@pytest.mark.parametrize(("a", "h"), [(0.155, 0.045), (0.10, 0.08), (0.155, 0.0)])
def test_the_reach_sideways_is_largest_on_the_way_and_upwards_at_the_end(
    a: float, h: float
) -> None:
    _, found = room((block(a, 0.0, h),), 45.0, count=1)
    # the corner comes level with the pivot at atan(h/a), which has to be within the swing
    assert found.reach.right == pytest.approx(np.hypot(a, h), abs=2e-6)
    assert found.reach.left == pytest.approx(-np.hypot(a, h), abs=2e-6)
    assert found.reach.high == pytest.approx((a + h) * np.sqrt(0.5), abs=1e-12)
    assert abs(found.widest_at) == pytest.approx(np.arctan2(h, a), abs=np.radians(0.5))


def test_a_swing_that_stops_before_the_corner_is_level_reaches_less() -> None:
    a, h, end = 0.10, 0.08, np.radians(20.0)  # the corner is level at 38.7 degrees
    _, found = room((block(a, 0.0, h),), 20.0, count=1)
    assert found.reach.right == pytest.approx(a * np.cos(end) + h * np.sin(end), abs=1e-12)


# Shelf pitch for a stack of height h and a wanted gap: pitch >= (h + gap)/cos(tilt). Builders'
# rule (common practice, no source); for h + gap = 75 mm at 45 degrees it gives 106 mm.
def test_the_pitch_rule_of_builders_leaves_the_gap_it_promises() -> None:
    pitch = 0.075 / np.cos(np.radians(45.0))
    assert 1e3 * pitch == pytest.approx(106.07, abs=0.01)
    turner, drive = school_like_rack(shapes=(block(0.15, -0.022, 0.045),), pitch=pitch)
    motion = drive.close(turner.path(), drive.positions(turner.travel))
    end = np.radians(45.0)
    found = clearances(turner, motion, (-end, end), width=0.42, height=0.76)
    assert found.neighbours == pytest.approx(0.075 - 0.067, abs=1e-12)
    assert found.neighbours_at is not None
    assert abs(found.neighbours_at) == pytest.approx(end)


def nearest(one: np.ndarray, other: np.ndarray) -> float:
    """Return the least distance between two closed polygons, sampled finely along the edges."""

    def border(polygon: np.ndarray) -> np.ndarray:
        run = np.linspace(0.0, 1.0, 300)[:, None, None]
        return ((1 - run) * polygon + run * np.roll(polygon, -1, axis=0)).reshape(-1, 2)

    a, b = border(one), border(other)
    return float(np.hypot(*(a[:, None] - b[None]).transpose(2, 0, 1)).min())


@pytest.mark.parametrize("tilt_deg", [0.0, 20.0, 45.0])
def test_the_gap_between_neighbours_is_the_distance_of_two_tilted_blocks(tilt_deg: float) -> None:
    # The blocks overlap sideways at every tilt, so the distance is the one square to them.
    half, bottom, top, pitch = 0.155, -0.022, 0.045, 0.13
    tilt = np.radians(tilt_deg)
    turn = np.array([[np.cos(tilt), -np.sin(tilt)], [np.sin(tilt), np.cos(tilt)]])
    corners = np.array([[-half, bottom], [half, bottom], [half, top], [-half, top]])
    lower = corners @ turn.T
    upper = lower + np.array([0.0, pitch])
    _, found = room((block(half, bottom, top),), max(tilt_deg, 1e-9))
    assert found.neighbours == pytest.approx(nearest(lower, upper), abs=2e-5)


def test_walls_floor_and_ceiling_are_measured_from_where_the_rack_stands() -> None:
    outline = (block(0.155, -0.022, 0.045),)
    _, found = room(outline, 45.0, lowest_pivot=0.3)
    half, side = np.hypot(0.155, 0.045), np.sqrt(0.5)
    assert found.centred
    assert found.turner.left == pytest.approx(0.21 - half, abs=2e-6)
    assert found.turner.right == pytest.approx(0.21 - half, abs=2e-6)
    assert found.turner.above == pytest.approx(0.76 - 0.3 - 0.26 - side * 0.2, abs=1e-9)
    assert found.turner.below == pytest.approx(0.3 - side * (0.155 + 0.022), abs=1e-9)
    turner, drive = school_like_rack(shapes=outline, pitch=0.13, lowest_pivot=0.3)
    motion = drive.close(turner.path(), drive.positions(turner.travel))
    moved = clearances(turner, motion, (-0.8, 0.8), width=0.42, height=0.76, origin_across=-0.01)
    assert not moved.centred
    assert moved.turner.left == pytest.approx(0.2 - half, abs=2e-6)
    assert moved.turner.right == pytest.approx(0.22 - half, abs=2e-6)
    assert moved.turner.sides == moved.turner.left


def test_what_nobody_measured_stays_unknown() -> None:
    _, found = room((block(0.155, -0.022, 0.045),), 45.0)
    assert found.turner.above is None
    assert found.turner.below is None
    assert found.drive is not None
    assert found.drive.below is None
    assert found.turner.sides is not None


def test_crank_and_link_need_the_circle_of_the_crank_pin() -> None:
    _, found = room((block(0.155, -0.022, 0.045),), 45.0, lowest_pivot=0.3)
    assert found.drive is not None
    # crank of 50 mm about a shaft 49.5 mm right of and 200 mm below the pivot
    assert found.drive.right == pytest.approx(0.21 - (0.0495 + 0.05) - LINK_END, abs=1e-9)
    assert found.drive.below == pytest.approx(0.3 - 0.25 - LINK_END, abs=1e-9)


def test_a_single_tray_has_no_neighbour() -> None:
    _, found = room((block(0.155, -0.022, 0.045),), 45.0, count=1)
    assert found.neighbours is None


def test_a_rack_and_its_mirror_image_have_the_same_room() -> None:
    tray = block(0.155, -0.022, 0.045)
    aside = replace(tray, across=tray.across + 0.01)
    mirrored = replace(tray, across=tray.across - 0.01)
    _, one = room((aside,), 45.0)
    _, other = room((mirrored,), 45.0)
    assert one.turner.left == pytest.approx(other.turner.right, abs=1e-12)
    assert one.reach.high == pytest.approx(other.reach.high, abs=1e-12)
