"""What is cut for a cradle: its runners, its tray, and straps that fit at every tilt."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from tests.cradles import plain_cradle
from turnercalc.design import read_design
from turnercalc.parts.workshop import made_for
from turnercalc.sizing import size
from turnercalc.turners.cradle_shop import STRAP_HOLD, strap_parts

EXAMPLES = Path(__file__).parents[2] / "examples"


def along(x: np.ndarray, y: np.ndarray) -> float:
    """Length of a line of many short pieces."""
    return float(np.sum(np.hypot(np.diff(x), np.diff(y))))


@pytest.mark.parametrize("tilt", np.radians([-40.0, -17.0, 0.0, 25.0, 40.0]))
@pytest.mark.parametrize("half", np.radians([50.0, 75.0]))
def test_a_strap_is_as_long_as_the_way_from_its_end_of_the_arc_to_its_screw(half, tilt):
    """Brute force: the runner rolled without slip, the strap laid along it and the floor."""
    cradle = replace(plain_cradle()[0], runner_half_angle=half)
    radius = cradle.runner_radius
    on_arc, on_floor = strap_parts(cradle)
    # the left end of the arc down to where it touches, in the runner's own frame, then turned
    turn = np.linspace(-half, tilt, 20_001)
    x, y = radius * np.sin(turn), -radius * np.cos(turn)
    x, y = (
        radius * tilt + x * np.cos(tilt) + y * np.sin(tilt),
        radius - x * np.sin(tilt) + y * np.cos(tilt),
    )
    assert (x[-1], y[-1]) == pytest.approx((radius * tilt, 0.0), abs=1e-9)
    assert on_floor >= radius * tilt  # the screw stands beyond every contact
    laid = along(x, y) + (on_floor - x[-1])
    assert laid == pytest.approx(on_arc + on_floor, rel=1e-6)


def test_a_wide_swing_puts_the_screws_as_far_out_as_the_contact_rolls():
    cradle = replace(plain_cradle()[0], wanted_tilt=np.radians(65.0), runner_half_angle=1.2)
    assert strap_parts(cradle)[1] == pytest.approx(0.30 * np.radians(65.0))


@pytest.mark.parametrize(("name", "straps"), [("beach-cooler", 4), ("apple-crate", 0)])
def test_tray_and_straps_are_on_the_list_of_what_is_cut(name, straps):
    found = size(read_design(EXAMPLES / f"{name}-cradle.toml"))
    made = made_for(found.turner, found.drive, found.ingredients)
    pieces = {piece.name: piece for piece in made.pieces}
    assert pieces["tray"].size[0] == found.design["cradle"].width
    assert pieces["tray"].count == 1
    screws = sum(one.count for one in made.fasteners if "strap" in one.where)
    assert screws == 2 * straps
    assert ("strap" in pieces) is (straps > 0)
    if straps:
        on_arc, on_floor = strap_parts(found.turner)
        assert pieces["strap"].count == straps
        assert pieces["strap"].size[0] == pytest.approx(on_arc + on_floor + 2.0 * STRAP_HOLD)
