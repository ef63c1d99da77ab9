"""The questions about a drum, at and around their limits."""

import math

import numpy as np
import pytest

from tests.drum_design import CRANK, ROLLERS, STEPS, finding, sized
from turnercalc.findings import Answer

GRAVITY = 9.80665  # [m/s2], standard gravity (CGPM 1901)


@pytest.mark.parametrize(
    ("swing", "answer"),
    [
        ("90 deg each side", Answer.FINE),
        ("40 deg each side", Answer.FINE),
        ("35 deg each side", Answer.MARGINAL),
        ("25 deg each side", Answer.NO),
        ("180 deg each side", Answer.NO),  # a whole turn brings the same side up
        ("155 deg each side", Answer.NO),  # 310 in all is 50 the other way round
        ("140 deg each side", Answer.FINE),  # 280 in all is 80 the other way round
    ],
)
def test_a_move_counts_by_how_far_the_eggs_then_lie_turned(swing: str, answer: Answer) -> None:
    sizing = sized(turning__swing=swing)
    assert finding(sizing, "drum_move").answer is answer
    turns = finding(sizing, "turns_per_day")
    assert (turns.answer is Answer.NO) == (answer is Answer.NO)
    assert sizing.timing is not None
    assert sizing.timing.counts.changes_sides == (answer is not Answer.NO)


@pytest.mark.parametrize(
    ("step", "answer"),
    [
        ("90 deg", Answer.FINE),
        ("360 deg", Answer.NO),
        ("420 deg", Answer.NO),
        ("30 deg", Answer.NO),
    ],
)
def test_a_step_counts_like_any_move(step: str, answer: Answer) -> None:
    # 420 degrees are a whole turn and 60: just a turn, and marginal.
    wanted = Answer.MARGINAL if step == "420 deg" else answer
    assert finding(sized({**STEPS, "turning.step": step}), "drum_move").answer is wanted


def test_what_was_asked_for_stands_beside_what_comes_out() -> None:
    text = finding(sized({**CRANK, "turning.swing": "40 deg each side"}), "drum_move").text
    assert "48.6° to each side, 97.2° in all; you asked for 40° each side" in text


def test_going_on_the_same_way_round_is_cautioned() -> None:
    assert finding(sized(STEPS), "sense").answer is Answer.MARGINAL
    assert not [f for f in sized().findings if f.id == "sense"]


@pytest.mark.parametrize(
    ("held_by", "more"),
    [("cells", {"eggs.cell_room": "48 mm"}), ("troughs", {"eggs.trough_angle": "90 deg"})],
)
def test_what_holds_from_below_lets_go_overhead(held_by: str, more: dict[str, str]) -> None:
    found = finding(sized({"eggs.held_by": held_by, **more}), "held_over")
    assert found.answer is Answer.NO
    assert "upside down" in found.text


@pytest.mark.parametrize(
    ("squeeze", "answer"),
    [
        ("0.9 to 1.1 N", Answer.FINE),
        ("0.8 N", Answer.MARGINAL),  # less than friction needs, more than the weight
        ("0.3 N", Answer.NO),  # less than an egg weighs: it comes off the foam
        (None, Answer.UNKNOWN),
    ],
)
def test_foam_and_net_hold_an_egg_on_its_side_and_overhead(
    squeeze: str | None, answer: Answer
) -> None:
    sizing = sized(drum__squeeze=squeeze)
    assert finding(sizing, "held_over").answer is answer
    if squeeze == "0.9 to 1.1 N":
        # By hand: 2 tan(23 deg) times the press over the weight, the lesser of both ends.
        lot = sizing.ingredients.lot
        pairs = ((0.9, lot.smallest.mass), (1.1, lot.largest.mass))
        by_hand = min(2 * math.tan(math.radians(23)) * p / (m * GRAVITY) for p, m in pairs)
        assert finding(sizing, "held_over").value == pytest.approx(by_hand)


@pytest.mark.parametrize(
    ("squeeze", "answer"),
    [("0.9 to 1.1 N", Answer.FINE), ("3 N", Answer.MARGINAL), ("6 N", Answer.NO)],
)
def test_a_shell_bears_the_press_and_the_eggs_own_weight(squeeze: str, answer: Answer) -> None:
    sizing = sized(drum__squeeze=squeeze)
    found = finding(sizing, "shell_squeeze")
    assert found.answer is answer
    press = float(squeeze.split(" ")[-2])
    weight = sizing.ingredients.lot.largest.mass * GRAVITY
    assert found.value == pytest.approx(press + weight)


@pytest.mark.parametrize(
    ("radius", "answer"),
    [("150 mm", Answer.FINE), ("63 mm", Answer.MARGINAL), ("58 mm", Answer.NO)],
)
def test_neighbouring_shelves_keep_their_eggs_apart(radius: str, answer: Answer) -> None:
    # Bad input of the kind "closer than the eggs": a chord of 2 R sin(180/8) against 46.5 mm.
    found = finding(sized(drum__shelf_radius=radius), "eggs_apart")
    chord = 2 * float(radius.split()[0]) * math.sin(math.pi / 8)
    assert found.answer is answer
    assert found.value == pytest.approx(chord - 46.5)


@pytest.mark.parametrize(("depth", "answer"), [("690 mm", Answer.FINE), ("580 mm", Answer.NO)])
def test_a_row_of_eggs_fits_along_the_axle(depth: str, answer: Answer) -> None:
    found = finding(sized(box__depth=depth), "shelf_length")
    assert found.answer is answer
    assert found.value == pytest.approx(float(depth.split()[0]) - (9 * 58 + 62))


def test_room_is_that_of_the_circle_it_sweeps() -> None:
    sizing = sized()
    assert sizing.clearances is not None
    # 455 mm wide and 385 mm across leave 35 mm; 230 mm up in 470 mm leave 37.5 and 47.5 mm.
    assert sizing.clearances.turner.left == pytest.approx(0.035, abs=5e-4)
    assert sizing.clearances.turner.below == pytest.approx(0.0375, abs=5e-4)
    assert sizing.clearances.turner.above == pytest.approx(0.0475, abs=5e-4)
    assert finding(sized(drum__outside="470 mm"), "room").answer is Answer.NO


def test_the_imbalance_and_the_weight_that_takes_it_away() -> None:
    text = finding(sized(), "imbalance").text
    # By hand: 70 g at 120 mm is 56 g at 150 mm, opposite of shelf 3.
    assert "56 g 150 mm from the axle toward shelf 7" in text
    assert "would balance" not in finding(sized(drum__empty_balance="balanced"), "imbalance").text
    between = finding(
        sized(drum__empty_balance="70 g at 120 mm toward shelf 3.5"), "imbalance"
    ).text
    assert "the middle between shelves 7 and 8" in between


def test_the_filling_order_is_told() -> None:
    found = finding(sized(drum__empty_balance="balanced"), "loading_order")
    assert "1, 5, 2, 6, 3, 7, 4, 8" in found.text
    # One full shelf: 10 eggs of 61.25 g, 150 mm from the axle.
    assert found.value == pytest.approx(10 * 0.06125 * GRAVITY * 0.150)


def test_a_clock_alone_is_cautioned_where_it_has_to_reverse() -> None:
    assert finding(sized(motor__stopped_by="timer"), "stops").answer is Answer.MARGINAL
    assert not [f for f in sized().findings if f.id == "stops"]
    steps = sized({**STEPS, "motor.stopped_by": "timer"})
    assert not [f for f in steps.findings if f.id == "stops"]


def test_a_drum_that_goes_on_has_no_ends_to_switch_at() -> None:
    assert (
        finding(sized({**STEPS, "motor.stopped_by": "end switches"}), "stops").answer is Answer.NO
    )
    parked = sized({**STEPS, "motor.stopped_by": "park switch"})
    assert not [f for f in parked.findings if f.id == "stops"]


# --- rollers -----------------------------------------------------------------------------------


def test_a_one_sided_drum_slips_on_its_roller_and_a_balanced_one_does_not() -> None:
    assert finding(sized(ROLLERS), "roller_grip").answer is Answer.NO
    balanced = finding(sized({**ROLLERS, "drum.filled": "in opposite pairs"}), "roller_grip")
    assert balanced.answer is Answer.FINE


def test_both_rows_grip_better_than_one() -> None:
    one = finding(sized(ROLLERS), "roller_grip").value
    both = finding(sized({**ROLLERS, "rollers.driven": "both sides"}), "roller_grip").value
    assert one is not None
    assert both is not None
    assert both > 1.5 * one


def test_a_drum_whose_heavy_side_stands_over_a_roller_climbs_out() -> None:
    # Rollers 60 mm apart bear 27 mm to either side; half full the middle of the weight is
    # further out than that.
    narrow = {**ROLLERS, "rollers.spacing": "60 mm", "rollers.driven": "both sides"}
    found = finding(sized(narrow), "roller_grip")
    assert found.answer is Answer.NO
    assert "climbs out" in found.text
    cells = np.array([[10.0, 10, 10, 10, 0, 0, 0, 0]])
    drum = sized(narrow).turner
    offset = drum.imbalance(cells)[0] / drum.weight(cells).item()  # type: ignore[attr-defined]
    assert offset > 0.180 * 60 / 400


def test_a_pressed_roller_grips_by_its_press() -> None:
    pressed = {
        "rollers.rim": "360 mm",
        "rollers.diameter": "40 mm",
        "rollers.surfaces": "rubber on wood",
        "rollers.press": "40 N",
        "gearing.1.kind": "friction roller",
        "gearing.1.motor_diameter": "40 mm",
        "gearing.1.driven_diameter": "360 mm",
    }
    sizing = sized(pressed)
    found = finding(sizing, "roller_grip")
    assert sizing.cycle is not None
    high = sizing.cycle.shaft_torque[:, sizing.cycle.levels.index("high")]
    # The least grip of rubber on wood in damp air is 0.5.
    assert found.value == pytest.approx(0.5 * 40 / (np.abs(high).max() / 0.180))
    without = finding(sized({**pressed, "rollers.press": None}), "roller_grip")
    assert without.answer is Answer.UNKNOWN


def test_a_roller_that_nobody_describes_stays_unknown_behind_any_stage() -> None:
    stages = {
        "gearing.1.kind": "friction roller",
        "gearing.1.ratio": "3",
        "gearing.2.kind": "chain",
        "gearing.2.motor_teeth": "12",
        "gearing.2.driven_teeth": "24",
    }
    assert finding(sized(stages), "roller_grip").answer is Answer.UNKNOWN


def test_a_drum_one_sided_beyond_the_motor_is_said_clearly() -> None:
    sizing = sized(
        motor__have="worm 12", drum__eggs_per_shelf="14", box__depth="900 mm", loads=None
    )
    assert sizing.verdict is Answer.NO
    assert sizing.reason.id in ("motor_strength", "motor_corner")
    assert "4 neighbours" in sizing.reason.text
