"""Each check of a rack: what makes it fine, marginal, no or unknown, and what it says then."""

from collections.abc import Callable, Iterator
from dataclasses import replace

import numpy as np
import pytest

from tests.rack_design import driven_by, evidence, with_ends
from tests.racks import school_like_rack
from turnercalc import checks
from turnercalc.checks import (
    as_built,
    balance,
    closes,
    direction,
    fit,
    gentleness,
    holding,
    jam,
    knock,
    lean,
    link_to_arm,
    rest_at_ends,
    retention,
    room,
    tilt,
    tilt_ends,
)
from turnercalc.checks.evidence import Evidence
from turnercalc.drives.crank_link import CrankLink
from turnercalc.findings import Answer, Finding
from turnercalc.paths import CirclePath
from turnercalc.tables import limit

FINE, MARGINAL, NO, UNKNOWN = Answer.FINE, Answer.MARGINAL, Answer.NO, Answer.UNKNOWN
NOTE = Answer.NOTE


def only(judge: Callable[[Evidence], Iterator[Finding]], found: Evidence) -> Finding:
    (finding,) = judge(found)
    return finding


# --- all of them -----------------------------------------------------------------------------


@pytest.mark.parametrize("check", sorted(checks.judges()))
def test_every_check_answers_for_a_usual_rack_and_for_one_that_does_not_close(check: str) -> None:
    judge = checks.judges()[check]
    for found in (evidence(), driven_by(evidence(), 6.0), evidence({"link.length": "120 mm"})):
        for finding in judge(found):
            assert finding.text
            assert finding.title
            assert finding.fields
            assert (finding.answer is UNKNOWN) <= bool(finding.ask)
            assert finding.value is None or np.isfinite(finding.value)
            assert "nan" not in finding.text


def test_every_check_stands_in_the_file_of_its_name() -> None:
    for check, judge in checks.judges().items():
        assert judge is checks.judge_of(check)


def test_every_check_a_rack_asks_for_is_there_and_every_one_has_its_own_id() -> None:
    assert set(evidence().kind.checks) <= set(checks.judges())
    found = [finding.id for finding in checks.run(driven_by(evidence(), 6.0))]
    assert len(found) == len(set(found))


def test_a_usual_rack_is_fine_all_through() -> None:
    answers = {finding.answer for finding in checks.run(driven_by(evidence(), 6.0))}
    assert answers <= {FINE, NOTE}


# --- closing ---------------------------------------------------------------------------------


def test_a_link_that_is_too_short_is_told_by_how_much_and_what_would_do() -> None:
    short = evidence({"link.length": "140 mm"})
    finding = only(closes.judge, short)
    assert finding.answer is NO
    assert "too short" in finding.text
    nearest = short.closing.nearest["link.length"]
    assert nearest > 0.14
    assert f"link.length of {1e3 * nearest:.1f} mm" in finding.text
    # the promise is kept: 1 mm longer than the nearest closes, the nearest less 1 mm does not
    longer, shorter = (f"{1e3 * nearest + d:.3f} mm" for d in (1.0, -1.0))
    assert evidence({"link.length": longer}).closing.closes
    assert not evidence({"link.length": shorter}).closing.closes


def test_a_link_that_is_too_long_is_told_so() -> None:
    finding = only(closes.judge, evidence({"link.length": "260 mm"}))
    assert finding.answer is NO
    assert "too long" in finding.text


def test_closing_by_a_hair_is_marginal() -> None:
    nearest = evidence({"link.length": "140 mm"}).closing.nearest["link.length"]
    hair = evidence({"link.length": f"{1e3 * nearest + 1.0:.3f} mm"})
    finding = only(closes.judge, hair)
    assert finding.answer is MARGINAL
    assert finding.value == pytest.approx(1.0, abs=0.01)


# --- the ends of the swing -------------------------------------------------------------------


def test_tilt_is_told_to_both_sides_with_the_whole_beside_it() -> None:
    finding = only(tilt.judge, with_ends(evidence(), 50.1, 40.2))
    assert finding.text.startswith("50.1° left down, 40.2° right down, 90.3° in all")
    assert "asked for 45° each side" in finding.text
    assert finding.value == pytest.approx(50.1)  # past 50 the steep end decides
    assert finding.answer is MARGINAL


def test_the_flatter_end_decides_where_both_could() -> None:
    finding = only(tilt.judge, with_ends(evidence(), 47.0, 33.0))
    assert finding.value == pytest.approx(33.0)
    assert finding.limit_fine == limit("tilt_each_side").fine


def test_a_box_that_leans_adds_to_one_side_and_takes_from_the_other() -> None:
    leaning = evidence({"box.leans": "3 deg"})
    left, right = tilt.true_ends(leaning)
    assert left - leaning.ends.high == pytest.approx(np.radians(3.0))
    assert left + right == pytest.approx(leaning.ends.total)
    finding = only(tilt_ends.judge, leaning)
    assert finding.value == pytest.approx(6.0, abs=0.3)
    assert "further to the left" in finding.text


@pytest.mark.parametrize(
    ("left", "right", "answer"), [(45, 44, FINE), (50, 41, MARGINAL), (58, 35, NO)]
)
def test_ends_that_differ_are_told_which_is_steep(
    left: float, right: float, answer: Answer
) -> None:
    finding = only(tilt_ends.judge, with_ends(evidence(), left, right))
    assert finding.answer is answer
    if answer is not FINE:
        assert "further to the left" in finding.text


def test_as_built_is_judged_by_its_flattest_and_its_steepest() -> None:
    found = evidence()
    assert found.as_built is not None
    for least, most, answer in (
        (42, 48, FINE),
        (38, 48, MARGINAL),
        (42, 52, MARGINAL),
        (15, 48, NO),
    ):
        built = replace(found.as_built, least=np.radians(least), most=np.radians(most))
        finding = only(as_built.judge, replace(found, as_built=built))
        assert finding.answer is answer
        assert f"{least}° to {most}°" in finding.text
        assert ("Aim 2° higher to be sure of 40°" in finding.text) is (least == 38)


def test_what_closes_by_a_hair_is_not_called_fine_as_built() -> None:
    nearest = evidence({"link.length": "140 mm"}).closing.nearest["link.length"]
    hair = evidence({"link.length": f"{1e3 * nearest + 0.05:.3f} mm"})
    assert hair.closing.closes
    finding = only(as_built.judge, hair)
    assert finding.answer is MARGINAL
    assert "does not go all the way" in finding.text
    assert list(knock.judge(hair)) == []  # nothing is said of a play that is not known


# --- eggs in their seats ---------------------------------------------------------------------


def test_low_walls_let_the_smallest_egg_go() -> None:
    high, low = evidence(), evidence({"eggs.cell_wall": "4 mm"})
    assert only(retention.judge, high).answer is FINE
    finding = only(retention.judge, low)
    assert finding.answer in (MARGINAL, NO)
    leaves = low.ingredients.seating.leaves_tilt
    assert leaves is not None
    assert finding.value == pytest.approx(np.degrees(leaves - max(tilt.true_ends(low))))


def test_wide_cells_let_eggs_lean() -> None:
    narrow = only(lean.judge, evidence({"eggs.cell_room": "46.5 mm"}))
    roomy = {"eggs.cell_room": "60 mm", "trays.row_spacing": "64 mm", "trays.width": "400 mm"}
    wide = only(lean.judge, evidence(roomy))
    assert narrow.value is not None
    assert wide.value is not None
    assert narrow.answer is FINE
    assert wide.value > narrow.value
    assert wide.answer is not FINE


def test_eggs_in_round_holes_do_not_lean() -> None:
    held = evidence({"eggs.held_by": "round holes", "eggs.hole": "36 mm"})
    finding = only(lean.judge, held)
    assert finding.value == 0.0
    assert finding.answer is FINE
    assert list(fit.judge(held)) == []


@pytest.mark.parametrize(
    ("room_mm", "answer"), [("47 mm", FINE), ("46.2 mm", MARGINAL), ("45 mm", NO)]
)
def test_the_largest_egg_has_to_fit_its_cell(room_mm: str, answer: Answer) -> None:
    assert only(fit.judge, evidence({"eggs.cell_room": room_mm})).answer is answer


# --- room ------------------------------------------------------------------------------------


def test_room_is_told_in_one_line_while_it_is_fine() -> None:
    finding = only(room.judge, evidence())
    assert finding.answer is FINE
    for words in ("each side", "above", "below", "between trays", "for crank and link"):
        assert words in finding.text


@pytest.mark.parametrize(
    ("settings", "where"),
    [
        ({"box.width": "300 mm"}, "wall"),
        ({"box.height": "700 mm"}, "above"),
        ({"trays.lowest_pivot": "130 mm above the box floor"}, "below"),
        ({"trays.pitch": "90 mm"}, "between trays"),
    ],
)
def test_what_does_not_fit_is_told_with_its_place(settings: dict[str, object], where: str) -> None:
    finding = next(iter(room.judge(evidence(settings))))
    assert finding.answer is NO
    assert finding.value is not None
    assert finding.value < 0.0
    assert "does not fit" in finding.text
    assert where in finding.text


def test_a_height_nobody_measured_is_asked_for() -> None:
    known, unknown = room.judge(evidence({"trays.lowest_pivot": None}))
    assert known.answer is FINE
    assert "above" not in known.text
    assert unknown.answer is UNKNOWN
    assert unknown.fields == ("trays.lowest_pivot",)
    assert unknown.ask


# --- linkage ---------------------------------------------------------------------------------


# Transmission angles of the four-bar of crank 40, coupler 120, rocker 80 and ground 100:
# 74.3 degrees at a crank angle of 120, 26.4 at the least, 86.4 with crank and ground stretched
# out. Open course on mechanism design, lesson 6; law of cosines, recomputed by hand.
def test_the_angle_between_link_and_arm_is_the_transmission_angle_of_the_course() -> None:
    drive, path = CrankLink(0.04, 0.12, -0.1, 0.0), CirclePath(0.08, 0.0)
    for theta_deg, expected in ((120.0, 74.3), (180.0, 86.4), (0.0, 26.4)):
        motion = drive.close(path, np.radians([theta_deg]))
        angle = np.degrees(link_to_arm.link_to_arm(motion, path)[0])
        assert angle == pytest.approx(expected, abs=0.05)
    whole = drive.close(path, drive.positions((0.0, 0.0), 720))
    assert np.degrees(link_to_arm.link_to_arm(whole, path).min()) == pytest.approx(26.4, abs=0.05)


# 40 degrees over the loaded part of the cycle, down to 30 for slow drives: textbooks of linkages,
# from memory.
@pytest.mark.parametrize(("arm", "answer"), [("70 mm", FINE), ("66 mm", MARGINAL), ("61 mm", NO)])
def test_a_shorter_arm_swings_to_a_worse_angle(arm: str, answer: Answer) -> None:
    finding = only(link_to_arm.judge, evidence({"arm.length": arm}))
    assert finding.answer is answer
    assert "40° wanted" in finding.text


def test_a_jam_is_no_with_ordinary_and_marginal_with_the_highest_friction() -> None:
    found = evidence()
    cycle, starting = found.cycle, found.starting
    assert cycle is not None
    assert starting is not None
    assert list(jam.judge(found)) == []
    for which, level, answer in ((cycle, 1, NO), (cycle, 2, MARGINAL), (starting, 0, MARGINAL)):
        stuck = which.jams.copy()
        stuck[0, level, 0, 30] = True
        name = "cycle" if which is cycle else "starting"
        finding = only(jam.judge, replace(found, **{name: replace(which, jams=stuck)}))  # type: ignore[arg-type]
        assert finding.answer is answer


ARMS_DOWN = {
    # the usual rack's linkage, turned a quarter clockwise about the lowest pivot
    "arm.points": "down",
    "crank.across": "200 mm left of pivot",
    "crank.height": "49.5 mm below pivot",
}


def test_a_tie_bar_in_line_with_its_arms_is_named_as_what_jams() -> None:
    # Mechanics: pins of equal arms over one another lie on the bar's own line, so that what it
    # pushes goes through the pivots. One tray has no tie bar, and arms to the side no such line.
    found = evidence(ARMS_DOWN)
    finding = only(jam.judge, found)
    assert finding.answer is NO
    assert "tie bar stands in line with the arms" in finding.text
    assert "point right or left" in finding.text
    assert list(jam.judge(evidence())) == []
    assert list(jam.judge(evidence({**ARMS_DOWN, "trays.count": 1}))) == []


def test_the_thicker_a_rusty_pivot_the_surer_it_jams() -> None:
    answers, needed = [], []
    for diameter in (8, 110, 160):
        found = evidence({"pivots.friction": "0.9", "pivots.diameter": f"{diameter} mm"})
        assert found.demand is not None
        answers.append([finding.answer for finding in jam.judge(found)])
        needed.append(found.demand.hardest((0,))[0])
    assert answers == [[], [MARGINAL], [NO]]
    assert needed[0] < needed[1] < needed[2] == np.inf  # no motor is strong enough for a jam


# --- moving ----------------------------------------------------------------------------------


@pytest.mark.parametrize(("rpm", "answer"), [(6.0, FINE), (20.0, MARGINAL), (45.0, NO)])
def test_a_fast_motor_is_rough(rpm: float, answer: Answer) -> None:
    finding = only(gentleness.judge, driven_by(evidence(), rpm))
    assert finding.answer is answer
    if answer is not FINE:
        assert "rpm at the driving shaft is the most" in finding.text


def test_a_motor_that_stalls_on_some_load_is_still_timed_on_the_others() -> None:
    found = evidence()
    assert found.demand is not None
    peak = found.demand.hardest((found.better_direction,))[0]
    finding = only(gentleness.judge, driven_by(found, 6.0, stall_torque=0.8 * peak))
    assert finding.answer is FINE
    assert "inf" not in finding.text


def test_without_a_motor_the_fastest_gentle_speed_is_told() -> None:
    finding = only(gentleness.judge, evidence())
    assert finding.answer is NOTE
    assert "rpm" in finding.text


def test_top_heavy_trays_knock_a_little_and_are_called_top_heavy() -> None:
    low, high = evidence(), evidence({"trays.egg_floor": "60 mm below pivot"})
    assert low.ingredients.seating.rest.height - 0.016 > 0.0
    assert only(balance.judge, low).answer is NOTE
    assert list(balance.judge(high)) == []
    told = only(knock.judge, low)
    assert told.answer is NOTE
    assert told.value is not None
    assert 0.0 < told.value < 5.0


def test_a_heavy_tie_bar_never_lets_the_link_go_slack() -> None:
    settings = {"tie_bar.weight": "9 kg", "trays.filled": "in mirror pairs"}
    finding = only(knock.judge, evidence(settings))
    assert finding.answer is FINE


def test_the_kinder_direction_is_named_with_what_the_other_costs() -> None:
    found = evidence({"trays.filled": "in mirror pairs"})
    finding = only(direction.judge, found)
    names = ("anticlockwise", "clockwise")
    assert f"turn {names[found.better_direction]}," in finding.text
    assert "the door side" in finding.text
    assert found.cycle is not None
    peaks = found.cycle.shaft_torque[:, 1][[case.planned for case in found.cycle.loads]]
    by_direction = peaks.max(axis=(0, 2))
    assert finding.value == pytest.approx(by_direction.max() / by_direction.min() - 1.0)


def test_rests_are_not_judged_without_a_motor() -> None:
    assert list(rest_at_ends.judge(evidence())) == []
    assert only(rest_at_ends.judge, driven_by(evidence(), 6.0)).answer is FINE


def test_a_bare_timer_is_told_what_it_does_to_the_day() -> None:
    found = evidence({"motor.stopped_by": "timer"})
    assert found.demand is not None
    peak = found.demand.hardest((found.better_direction,))[0]
    finding = only(rest_at_ends.judge, driven_by(found, 6.0, stall_torque=4.0 * peak))
    assert finding.answer in (MARGINAL, NO)
    assert "timer alone" in finding.text


# --- holding ---------------------------------------------------------------------------------


def test_a_crank_on_its_rest_point_holds_itself() -> None:
    finding = only(holding.judge, evidence())
    assert finding.answer is FINE
    assert "rest point" in finding.text
    assert "power cut" in finding.text


def test_a_timer_may_leave_it_where_the_motor_has_to_hold() -> None:
    finding = only(holding.judge, evidence({"motor.stopped_by": "timer"}))
    assert finding.answer is NOTE
    assert finding.value is not None
    assert finding.value > 0.1


# --- small things ----------------------------------------------------------------------------


def test_the_core_rack_of_the_tests_has_no_outline_and_needs_none_for_the_linkage() -> None:
    turner, drive = school_like_rack()
    motion = drive.close(turner.path(), drive.positions(turner.travel))
    assert np.isfinite(link_to_arm.link_to_arm(motion, turner.path())).all()
