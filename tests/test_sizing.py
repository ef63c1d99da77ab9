"""The whole of it: a design file and a motor file in, one complete frozen answer out."""

from dataclasses import FrozenInstanceError
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from turnercalc import cycle, demanding, sizing
from turnercalc.advice import best_change
from turnercalc.design import read_design
from turnercalc.errors import DesignError, NotTurnedError, UnknownNameError
from turnercalc.findings import Answer
from turnercalc.handover.record import as_json
from turnercalc.loads import first_of_the_largest
from turnercalc.motors import read_motors
from turnercalc.sizing import Sizing, size

EXAMPLES = Path(__file__).parents[1] / "examples"
RACK = EXAMPLES / "larder-rack.toml"
MOTORS = EXAMPLES / "motors.csv"


def test_the_example_is_marginal_because_of_the_motor_and_nothing_else() -> None:
    sizing = size(read_design(RACK), read_motors(MOTORS))
    assert sizing.verdict is Answer.MARGINAL
    assert sizing.reason.id == "motor_strength"
    assert {f.answer for f in sizing.findings} <= {Answer.FINE, Answer.NOTE}
    assert sizing.exit_code == 0


def test_the_example_has_many_motors_of_many_classes() -> None:
    motors = read_motors(MOTORS)
    assert len(motors) >= 12
    assert len({motor.motor_class for motor in motors.motors if motor.motor_class}) >= 6


def test_a_sizing_is_frozen() -> None:
    sizing = size(read_design(RACK))
    with pytest.raises(FrozenInstanceError):
        sizing.verdict = Answer.FINE  # type: ignore[misc]


def test_without_a_motor_file_the_mechanism_is_judged_and_there_is_a_shopping_line() -> None:
    sizing = size(read_design(RACK))
    assert sizing.motors == ()
    assert sizing.chosen is None
    assert sizing.shopping is not None
    assert sizing.shopping.rated_torque_min > 0


def test_a_link_that_does_not_reach_is_an_answer_with_the_missing_millimetres() -> None:
    sizing = size(read_design(RACK, {"link.length": "190 mm"}), read_motors(MOTORS))
    assert sizing.verdict is Answer.NO
    assert sizing.reason.id == "closes"
    assert sizing.cycle is None
    assert sizing.exit_code == 1
    nearest = sizing.closing.nearest["link.length"]
    # The nearest that works does work, and a millimetre less does not.
    works = size(read_design(RACK, {"link.length": f"{1e3 * nearest + 0.01:.3f} mm"}))
    fails = size(read_design(RACK, {"link.length": f"{1e3 * nearest - 1:.3f} mm"}))
    assert works.cycle is not None
    assert fails.cycle is None


def test_reptile_eggs_are_answered_with_that_and_no_turner() -> None:
    # Reptile eggs are not turned: common practice, no source.
    with pytest.raises(NotTurnedError, match="not turned"):
        size(read_design(RACK, {"eggs.kind": "tortoise"}))


def test_a_motor_that_is_not_in_the_file_is_named_with_the_nearest() -> None:
    with pytest.raises(UnknownNameError, match="worm 5"):
        size(read_design(RACK, {"motor.have": "worm 6"}), read_motors(MOTORS))


@pytest.mark.parametrize(
    ("field", "text"),
    [
        ("turning.tilt", "95 deg each side"),
        ("trays.empty_weight", "-680 g"),
        ("trays.eggs_per_row", "0"),
        ("crank.radius", "50"),
        ("trays.pitch", "1,500 mm"),
    ],
)
def test_nonsense_is_refused_with_a_sentence(field: str, text: str) -> None:
    with pytest.raises(DesignError) as refused:
        read_design(RACK, {field: text})
    (complaint,) = refused.value.complaints
    assert complaint.field == field
    assert complaint.message.endswith((".", "?"))


def test_two_sizings_of_one_design_are_the_same() -> None:
    one, two = (size(read_design(RACK), read_motors(MOTORS)) for _ in range(2))
    assert one.cycle is not None
    assert two.cycle is not None
    np.testing.assert_array_equal(one.cycle.shaft_torque, two.cycle.shaft_torque)
    assert one.findings == two.findings


def test_a_gentler_promise_never_makes_the_verdict_worse() -> None:
    rank = {Answer.FINE: 2, Answer.MARGINAL: 1, Answer.NO: 0}
    free = size(read_design(RACK), read_motors(MOTORS))
    paired = size(read_design(RACK, {"trays.filled": "in mirror pairs"}), read_motors(MOTORS))
    assert rank[paired.verdict] >= rank[free.verdict]


def test_a_box_that_leans_makes_the_sides_differ() -> None:
    level = size(read_design(RACK))
    leaning = size(read_design(RACK, {"box.leans": "5 deg"}))
    assert level.cycle is not None
    assert leaning.cycle is not None
    assert not np.allclose(level.cycle.shaft_torque, leaning.cycle.shaft_torque, rtol=1e-3)


# --- what is the same is not worked out again ---------------------------------------------------


def told(sizing: Sizing) -> str:
    return as_json(sizing, best_change.Advice(()), with_cycle=True)


@pytest.fixture
def cycles(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """Positions of every turn cycle that is computed from here on."""
    counted: list[int] = []
    real = cycle.turn_cycle

    def counting(*what: Any, **how: Any) -> cycle.TurnCycle:
        found = real(*what, **how)
        counted.append(found.motion.position.size)
        return found

    for module in (sizing, demanding, best_change):
        monkeypatch.setattr(module, "turn_cycle", counting)
    return counted


def test_one_sizing_computes_its_cycle_twice_and_once_where_it_parks(cycles: list[int]) -> None:
    # Running and from rest; whatever the number of motors and of stages behind them.
    size(read_design(RACK), read_motors(MOTORS))
    assert sorted(cycles) == [2, 360, 360]


@pytest.mark.parametrize(
    "change",
    [
        {"motor.have": "syn 60"},
        {"gearing": [{"kind": "chain", "motor_teeth": "12", "driven_teeth": "24"}]},
    ],
)
def test_another_motor_or_stage_takes_the_cycle_over(
    change: dict[str, Any], cycles: list[int]
) -> None:
    design, motors = read_design(RACK), read_motors(MOTORS)
    first = size(design, motors)
    changed = design.replace(change)
    cycles.clear()
    again = size(changed, motors, like=first)
    assert cycles == [2]
    assert again.cycle is first.cycle
    assert told(again) == told(size(changed, motors))


@pytest.mark.parametrize(
    ("field", "text"),
    [
        ("link.length", "221 mm"),
        ("trays.empty_weight", "741 g"),
        ("turning.tilt", "44 deg each side"),
        ("eggs.weighed", "12 eggs = 740 g"),
        ("box.leans", "2 deg"),
        ("pivots.bearing", "ball bearing"),
        ("trays.filled", "in mirror pairs"),
        ("box.width", "470 mm"),
    ],
)
def test_another_mechanism_takes_nothing_over(field: str, text: str) -> None:
    design = read_design(RACK)
    first, changed = size(design), design.replace({field: text})
    again = size(changed, like=first)
    assert again.cycle is not first.cycle
    assert told(again) == told(size(changed))


def test_another_count_of_positions_takes_nothing_over() -> None:
    design = read_design(RACK)
    assert size(design, count=90, like=size(design)).cycle.motion.position.size == 90  # type: ignore[union-attr]


def test_advice_sizes_few_proposals_in_full(cycles: list[int]) -> None:
    motors = read_motors(MOTORS)
    first = size(read_design(RACK), motors)
    cycles.clear()
    best_change.advise(first, motors)
    # Mirror pairs alone change the mechanism; a chain and another motor do not.
    assert cycles.count(360) == 2
    # While sifting: as it stands, and for each proposal that changes the mechanism.
    assert 1 < cycles.count(90) <= 10


@pytest.mark.parametrize(
    ("values", "first"),
    [
        ([1.0, 2.0, 2.0 * (1.0 + 1e-15), 1.5], 1),
        ([-2.0, -1.0 - 1e-15, -1.0], 1),
        ([3.0, np.nan, 4.0], 1),
        ([3.0, np.inf, np.nan], 1),
        ([0.0, 0.0], 0),
        ([1.0, 1.001], 1),
    ],
)
def test_the_last_digit_does_not_decide_which_load_is_told(values: list[float], first: int) -> None:
    assert first_of_the_largest(np.array(values)) == first
