"""What is judged about a sliding grid: answers at the edges of the limits, one sentence each."""

from __future__ import annotations

import math

import numpy as np
import pytest

from tests.grid_design import DRIVES, ROD, YOKE, finding, sized
from turnercalc.findings import Answer
from turnercalc.sizing import Sizing
from turnercalc.tables import limit

# --- the designs that are fine ---


@pytest.mark.parametrize("drive", DRIVES)
def test_the_starter_is_fine_with_every_drive(drive: str) -> None:
    found = sized(DRIVES[drive])
    assert found.verdict is Answer.FINE, found.reason.text
    assert not [f.id for f in found.findings if f.answer in (Answer.NO, Answer.MARGINAL)]
    assert found.exit_code == 0
    assert found.ends.total == pytest.approx(0.073, abs=6e-4)


def test_every_check_of_the_grid_speaks() -> None:
    found = sized(with_motors=True)
    told = {f.id for f in found.findings}
    assert {
        "grid_turn",
        "grid_stroke",
        "grid_as_built",
        "grid_drag",
        "grid_bar_height",
        "grid_lift",
        "grid_knock",
        "fit",
        "room",
        "link_to_arm",
        "gentleness",
        "turns_per_day",
        "last_day",
        "holding",
    } <= told
    assert all(f.text.endswith(".") for f in found.findings)


# --- the egg's turn ---


def at_turn(degrees: float) -> Sizing:
    """The crank that turns a typical egg so far, asked for as such."""
    radius = 0.5 * (math.radians(degrees) * 21.75 + 4.5)
    return sized(
        {
            "turning.egg_turn": f"{degrees} deg",
            "crank.radius": f"{radius:.6f} mm",
            "link.length": "300 mm",
            "crank.across": "300 mm right of the pin",
            "box.width": "2000 mm",
        }
    )


@pytest.mark.parametrize(
    ("degrees", "answer"),
    [
        (180.0, Answer.FINE),
        (91.0, Answer.FINE),
        (89.0, Answer.MARGINAL),
        (61.0, Answer.MARGINAL),
        (59.0, Answer.NO),
        (360.0, Answer.NO),
        (720.0, Answer.NO),
        (302.0, Answer.NO),
        (540.0, Answer.FINE),
    ],
)
def test_only_what_is_left_of_whole_turns_counts(degrees: float, answer: Answer) -> None:
    assert finding(at_turn(degrees), "grid_turn").answer is answer


def test_a_grid_with_a_whole_egg_turn_is_told_in_a_sentence_and_says_no() -> None:
    found = at_turn(360.0)
    text = finding(found, "grid_turn").text
    assert text.startswith("A typical egg rolls 360° and then lies 0° from where it lay: that")
    assert found.verdict is Answer.NO
    assert found.exit_code == 1
    assert finding(found, "turns_per_day").answer is Answer.NO
    assert found.timing is not None
    assert not found.timing.counts.changes_sides


def test_a_size_that_turns_by_a_whole_number_makes_it_marginal() -> None:
    # 340 degrees for a typical egg is 20 degrees short of a whole turn; 270 for the typical one
    # of a lot with very small eggs reaches 330 for these.
    found = sized(
        {
            "turning.egg_turn": "265 deg",
            "crank.radius": "52.55 mm",
            "eggs.smallest": "40 x 31 mm",
            "eggs.largest": "57 x 43.5 mm",
            "link.length": "200 mm",
            "crank.across": "200 mm right of the pin",
            "box.width": "1000 mm",
        }
    )
    turn = finding(found, "grid_turn")
    assert turn.answer is Answer.MARGINAL
    assert "whole turns count for nothing" in turn.text


def test_the_stroke_is_told_beside_the_wanted_one_with_its_play() -> None:
    assert finding(sized(), "grid_stroke").text == (
        "73.0 mm, of which 4.5 mm are the play of an egg in its cell."
    )
    short = finding(sized({"crank.radius": "30 mm"}), "grid_stroke")
    assert short.answer is Answer.MARGINAL
    # by hand: (60 - 4.5)/21.75 = 2.552 rad = 146 degrees; pi x 21.75 + 4.5 = 72.8 mm
    assert short.text.startswith("60.0 mm turn a typical egg 146°; for 180° it takes 72.8 mm")
    assert short.value == pytest.approx(180.0 - 146.2, abs=0.1)


def test_as_built_is_the_turn_with_marking_errors_and_play() -> None:
    # crank 1 mm off: 2 mm of 73 are 5.3 degrees; the play of two pins takes 0.4 mm besides
    text = finding(sized(), "grid_as_built").text
    assert text.startswith("A typical egg turns 174° to 186° with 1 mm marking errors")


# --- rolling, dragging, jamming ---


def test_a_floor_that_drags_the_eggs_is_told_in_a_sentence_and_says_no() -> None:
    found = sized({"floor.friction": "0.03 to 0.06"})
    drag = finding(found, "grid_drag")
    assert drag.answer is Answer.NO
    assert drag.text.startswith("The floor drags the eggs: rolling takes a friction of 0.1")
    assert found.reason.id == "grid_drag"
    assert found.exit_code == 1


def test_the_grip_that_rolling_takes_is_that_of_the_balance_of_forces() -> None:
    # By hand: one egg of 583 mN at f = 1 mm, mu = 0.27, heavy side 1 mm off: moments about the
    # floor contact give P (R - mu R - mu f) = W f + W e, and the floor holds P of W + mu P.
    weight, r, mu = 0.7 / 12 * 9.80665, 21.75, 0.27
    push = 2.0 * weight / (r * (1 - mu) - mu)
    grip = push / (weight + mu * push)
    value = finding(sized(), "grid_drag").value
    assert value == pytest.approx(0.6 / grip, rel=1e-6)


@pytest.mark.parametrize(
    ("friction", "answer"),
    [("0.8", Answer.FINE), ("0.11 / 0.4 / 0.8", Answer.MARGINAL), ("0.15", Answer.MARGINAL)],
)
def test_a_slippery_floor_is_marginal_before_it_drags(friction: str, answer: Answer) -> None:
    assert finding(sized({"floor.friction": friction}), "grid_drag").answer is answer


@pytest.mark.parametrize(
    ("friction", "answer", "words"),
    [
        ("0.2 to 0.5", Answer.FINE, "grips"),
        ("0.3 / 0.4 / 1.1", Answer.MARGINAL, "jam between bar and floor"),
        ("1.0 to 1.3", Answer.NO, "With a friction of 1.1 on the bars the eggs jam"),
    ],
)
def test_rough_bars_jam_the_eggs(friction: str, answer: Answer, words: str) -> None:
    found = finding(sized({"grid.bar_friction": friction}), "grid_drag")
    assert found.answer is answer
    assert words in found.text


# --- bars -----------------------------------------------------------------------------------------


def test_bars_lower_than_half_an_egg_are_told_in_a_sentence() -> None:
    found = sized({"grid.bar_top": "12 mm"})
    bars = finding(found, "grid_bar_height")
    assert bars.answer is Answer.NO
    assert bars.text.startswith("The bars are too low: they end 12.0 mm up and the middle of the")
    # by hand: asin((12 - 22.75)/22.75)
    assert bars.value == pytest.approx(28.20, abs=0.02)
    assert found.exit_code == 1


def test_bars_higher_than_half_an_egg_are_told_in_a_sentence() -> None:
    found = sized({"grid.bar_bottom": "30 mm"})
    bars = finding(found, "grid_bar_height")
    assert bars.answer is Answer.NO
    assert bars.text.startswith("The bars are too high: they begin only 30.0 mm up")
    assert bars.value == pytest.approx(math.degrees(math.asin(9.5 / 20.5)), abs=0.02)
    assert found.exit_code == 1


def test_bars_above_the_eggs_pass_over_them() -> None:
    bars = finding(sized({"grid.bar_bottom": "50 mm", "grid.bar_top": "60 mm"}), "grid_bar_height")
    assert bars.answer is Answer.NO
    assert "pass over the smallest egg" in bars.text


def test_round_rods_are_judged_by_their_middle() -> None:
    rods = {"grid.bars": "round rods", "grid.bar_thickness": "10 mm"}
    level = sized({**rods, "grid.bar_bottom": "17 mm", "grid.bar_top": "27 mm"})
    assert finding(level, "grid_bar_height").answer is Answer.FINE
    high = sized({**rods, "grid.bar_bottom": "29 mm", "grid.bar_top": "39 mm"})
    # middle at 34 mm: asin((34 - 20.5)/25.5) = 32 degrees above that of the smallest egg
    assert finding(high, "grid_bar_height").answer is Answer.NO
    assert "32° above its middle" in finding(high, "grid_bar_height").text


# --- lift, mesh, knock ---


def test_eggs_lift_a_light_grid_unless_it_is_held_down() -> None:
    light = {"grid.weight": "150 g", "guides.hold_down": "no"}
    lifted = finding(sized(light), "grid_lift")
    assert lifted.answer is Answer.NO
    assert "it weighs 1.5 N" in lifted.text
    assert finding(sized({**light, "guides.hold_down": "yes"}), "grid_lift").answer is Answer.FINE
    assert finding(sized({**light, "grid.weight": "1 kg"}), "grid_lift").answer is Answer.FINE


@pytest.mark.parametrize(
    ("pitch", "answer"),
    [("6 mm", Answer.FINE), ("12.7 mm", Answer.MARGINAL), ("19 mm", Answer.NO)],
)
def test_a_mesh_bumps_the_eggs_by_its_pitch(pitch: str, answer: Answer) -> None:
    found = finding(sized({"floor.mesh_pitch": pitch}), "grid_mesh")
    assert found.answer is answer
    a, big = 0.5 * float(pitch.split()[0]), 20.5 + 0.5
    assert found.value == pytest.approx(big - math.sqrt(big**2 - a**2), abs=1e-6)
    assert "All eggs at once" in found.text


def test_wires_along_the_slide_bump_nothing() -> None:
    along = {"floor.mesh_pitch": "12.7 mm", "floor.mesh": "wires along the slide on top"}
    assert "grid_mesh" not in {f.id for f in sized(along).findings}


def test_the_knock_is_told_as_a_fall_and_grows_with_the_motor() -> None:
    slow = finding(sized(with_motors=True), "grid_knock")
    fast = finding(sized({"motor.have": "wiper"}, with_motors=True), "grid_knock")
    assert slow.answer is Answer.FINE
    assert slow.value is not None
    assert fast.value is not None
    assert fast.value > 20 * slow.value
    assert finding(sized(), "grid_knock").answer is Answer.NOTE
    # v2/2g from the speed told
    speed = float(slow.text.split(" at ")[1].split(" mm/s")[0]) / 1e3
    assert slow.value == pytest.approx(1e3 * speed**2 / 2 / 9.80665, rel=0.1)


# --- drives in their own words ---


def test_an_offset_crank_is_told_which_way_to_turn() -> None:
    offset = sized(
        {"crank.height": "40 mm below the pin", "link.length": "130 mm", "box.width": "700 mm"}
    )
    cycle = offset.cycle
    assert cycle is not None
    peaks = cycle.shaft_torque[:, 1].max(axis=(0, 2))
    assert int(np.argmin(peaks)) == offset.better_direction
    assert abs(peaks[0] / peaks[1] - 1.0) > 0.02


def test_the_yoke_and_the_rod_say_what_they_are() -> None:
    assert "yoke" in finding(sized(YOKE), "closes").text
    rod = sized(ROD)
    assert "rod" in finding(rod, "closes").text
    assert rod.demand is not None
    assert rod.demand.linear
    assert rod.shopping is not None
    assert "linear actuator" in rod.shopping.text.lower()


def test_a_link_that_stands_flat_to_the_slide_presses_the_guides() -> None:
    # shaft 100 mm under the pin's height: the link leans over 50 degrees and more
    steep = sized(
        {
            "crank.height": "100 mm below the pin",
            "crank.across": "55 mm right of the pin",
            "link.length": "140 mm",
            "box.height": "600 mm",
            "floor.height": "300 mm above the box floor",
        }
    )
    found = finding(steep, "link_to_arm")
    assert found.answer is Answer.NO
    assert found.title == "Link to upright"
    assert "presses the grid onto its guides" in found.text


def test_limits_of_the_grid_have_both_sides_where_there_is_a_no() -> None:
    for name in ("grid_grip", "grid_bar_contact", "grid_lift", "mesh_drop"):
        assert limit(name).fine is not None
        assert limit(name).no is not None


# --- what stops it ---


@pytest.mark.parametrize(
    ("motor", "answer"),
    [("spur 6", Answer.NO), ("syn 60", Answer.FINE), (None, Answer.MARGINAL)],
)
def test_a_bare_timer_lets_the_grid_wander_off_its_ends(motor: str | None, answer: Answer) -> None:
    settings = {"motor.stopped_by": "timer"} | ({"motor.have": motor} if motor else {})
    found = finding(sized(settings, with_motors=motor is not None), "grid_stops")
    # A direct-current motor slows under load; a synchronous one keeps the mains' pace.
    assert found.answer is answer
    assert "grid_stops" not in {f.id for f in sized(with_motors=True).findings}
