"""The swept outline and what is seen, against points moved one by one."""

import numpy as np
import pytest
from matplotlib.path import Path

from turnercalc.parts.clearances import clearances
from turnercalc.parts.poses import poses
from turnercalc.parts.swept import MESH, swept
from turnercalc.sight import AREA
from turnercalc.swing import ends
from turnercalc.turners.base import Outline

from ..racks import school_like_rack

BOARD = Outline("tray", np.array([-0.15, 0.15, 0.15, -0.15]), np.array([-0.02, -0.02, 0.0, 0.0]))
_TURN = np.linspace(0.0, 2 * np.pi, 40, endpoint=False)


def egg(across: float, side: int = 0) -> Outline:
    return Outline("egg", across + 0.022 * np.cos(_TURN), 0.03 + 0.03 * np.sin(_TURN), side)


def rack() -> tuple:
    return school_like_rack(shapes=(BOARD, egg(-0.12), egg(0.12)), pitch=0.14, lowest_pivot=0.3)


def test_whatever_is_on_the_tray_stays_inside_the_swept_outline() -> None:
    turner, drive = rack()
    found = ends(turner, drive)
    rings = swept(turner, (found.low, found.high))
    outline = np.stack(rings[0], axis=1)
    for shape in turner.outlines():
        for q in np.linspace(found.low, found.high, 101):
            x, y = turner.path_of(shape.across, shape.height).point(q)
            assert inside(outline, np.stack([x, y], axis=1), 0.7 * MESH).all()


def inside(ring: np.ndarray, points: np.ndarray, within: float) -> np.ndarray:
    """Return which points are inside a ring, or outside by no more than so much."""
    start, edge = ring[:-1], np.diff(ring, axis=0)
    to = points[:, None] - start
    along = np.clip((to * edge).sum(axis=2) / (edge**2).sum(axis=1), 0.0, 1.0)
    away = np.hypot(*np.moveaxis(to - along[..., None] * edge, 2, 0)).min(axis=1)
    return Path(ring).contains_points(points) | (away <= within)


def test_points_outside_the_outline_are_never_passed() -> None:
    """Brute force: points sampled a little outside keep clear of every polygon at every tilt."""
    turner, drive = rack()
    found = ends(turner, drive)
    outline = np.stack(swept(turner, (found.low, found.high))[0], axis=1)
    rng = np.random.default_rng(5)
    points = rng.uniform(-0.2, 0.2, (4000, 2))
    far = points[~inside(outline, points, 2 * MESH)]
    assert len(far) > 500
    for shape in turner.outlines():
        for q in np.linspace(found.low, found.high, 41):
            x, y = turner.path_of(shape.across, shape.height).point(q)
            assert not Path(np.stack([x, y], axis=1)).contains_points(far).any()


def test_the_outline_comes_as_far_as_the_reach_of_the_clearances() -> None:
    turner, drive = rack()
    found = ends(turner, drive)
    motion = drive.close(turner.path(), drive.positions(turner.travel, 90))
    room = clearances(turner, motion, (found.low, found.high), width=0.5, height=0.9)
    x, y = swept(turner, (found.low, found.high))[0]
    top = turner.stack[-1][1]
    for edge, reach in (
        (x.min(), room.reach.left),
        (x.max(), room.reach.right),
        (y.max() + top, room.reach.high),
        (y.min(), room.reach.low),
    ):
        assert edge == pytest.approx(reach, abs=0.5 * MESH)


def test_bars_keep_their_lengths_and_pins_their_holes_all_the_way_round() -> None:
    turner, drive = rack()
    motion = drive.close(turner.path(), drive.positions(turner.travel, 72))
    seen = poses(turner, drive, motion)
    by_name = {sight.name: sight for sight in seen}
    for name, length in (("link", 0.2), ("crank", 0.05), ("arm", 0.07), ("tie bar", 0.28)):
        x, y = by_name[name].x, by_name[name].y
        assert np.hypot(x[1] - x[0], y[1] - y[0]) == pytest.approx(length)
    assert len([s for s in seen if s.name == "tray"]) == 3
    # the link ends on the arm's pin, the arm on its pivot
    assert by_name["link"].x[1] == pytest.approx(by_name["tie bar"].x[0])
    assert by_name["pivot"].stands_still


def test_a_loose_egg_is_seen_on_the_low_side() -> None:
    left, right = egg(-0.005, side=-1), egg(0.005, side=1)
    turner, drive = school_like_rack(shapes=(BOARD, left, right), pitch=0.14)
    found = ends(turner, drive)
    both = drive.close(turner.path(), np.array([found.low_position, found.high_position]))
    eggs = [s for s in poses(turner, drive, both) if s.name == "egg" and s.shape == AREA]
    assert len(eggs) == 3  # one for each tray, not one for each side
    for at, shape in ((0, right), (1, left)):
        q = float(both.coordinate[at])
        x, _ = turner.path_of(shape.across, shape.height).point(q)
        assert eggs[0].at(at)[0] == pytest.approx(x)
