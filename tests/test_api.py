"""The front door: every name is there, explained, and its examples run."""

import ast
import doctest
import json
import os
from collections.abc import Callable
from functools import cache
from pathlib import Path

import numpy as np
import pytest

import turnercalc
from turnercalc.advice.capacity import MOST
from turnercalc.advice.rows import Rows, html_table
from turnercalc.cli import capacity as capacity_command
from turnercalc.design import Design
from turnercalc.errors import AskedError, TurnercalcError
from turnercalc.handover.notebook import Result
from turnercalc.handover.record import as_json
from turnercalc.motors import MotorFile
from turnercalc.sizing import Sizing

ROOT = Path(__file__).parents[1]


@cache
def result() -> Result:
    return turnercalc.calculate(larder(), motors())


@cache
def larder() -> Design:
    return turnercalc.read_design(ROOT / "examples" / "larder-rack.toml")


@cache
def motors() -> MotorFile:
    return turnercalc.read_motors(ROOT / "examples" / "motors.csv")


#: Every call of the front door that answers something, as quick as it can be asked.
ANSWERS = {
    "size": lambda: turnercalc.size(larder(), motors()),
    "calculate": result,
    "advise": lambda: turnercalc.advise(result().sizing, motors()),
    "sweep": lambda: turnercalc.sweep(larder(), {"link.length": [0.1, 0.22]}, friction="none"),
    "find_lengths": lambda: turnercalc.find_lengths(larder(), KEPT),
    "fit_trays": lambda: turnercalc.fit_trays(larder()),
    "judge_build": lambda: turnercalc.judge_build(larder(), count=500),
    "which_motor": lambda: turnercalc.which_motor(larder(), motors(), other_lengths=False),
    "capacity": lambda: turnercalc.capacity(larder(), motors(), most=1),
    "sensitivity": lambda: turnercalc.sensitivity(larder()),
    "compare": lambda: turnercalc.compare([larder(), larder()]),
    "nearest_trains": lambda: turnercalc.nearest_trains(2.4, stages=1),
}
KEPT = turnercalc.Wish(within={"arm.length": (0.08, 0.08), "crank.height": (-0.24, -0.2)}, count=1)


@pytest.mark.parametrize("name", turnercalc.__all__)
def test_every_name_is_there_and_explained(name: str) -> None:
    found = getattr(turnercalc, name)
    assert found.__doc__
    assert found.__module__.startswith("turnercalc.")


def test_a_misspelt_name_lists_what_there_is() -> None:
    with pytest.raises(AttributeError, match="find_lengths"):
        _ = turnercalc.find_length


def test_names_are_in_one_order_and_have_a_home() -> None:
    assert sorted(turnercalc.__all__, key=str) == turnercalc.__all__
    assert set(turnercalc.__all__) < set(dir(turnercalc))
    tree = ast.parse((ROOT / "turnercalc" / "__init__.py").read_text())
    imported = {
        alias.name
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("turnercalc")
        for alias in node.names
    }
    assert imported == set(turnercalc.__all__), "the type checker sees the same names"


def test_the_examples_of_the_page_run() -> None:
    before = Path.cwd()
    os.chdir(ROOT)
    try:
        done = doctest.testfile(
            str(ROOT / "examples" / "python.md"),
            module_relative=False,
            optionflags=doctest.NORMALIZE_WHITESPACE,
        )
    finally:
        os.chdir(before)
    assert done.attempted > 40
    assert done.failed == 0


def test_every_call_that_answers_is_looked_at() -> None:
    others = {"Design", "Result", "Sizing", "Wish", "read_design", "read_motors"}
    assert set(ANSWERS) | others == set(turnercalc.__all__)


@pytest.mark.parametrize("name", ANSWERS)
def test_every_answer_shows_itself_and_goes_into_dictionaries_and_arrays(name: str) -> None:
    answer = ANSWERS[name]()
    shown = answer._repr_html_()  # type: ignore[attr-defined]
    assert "<table>" in shown
    assert shown.count("<td>") > 2
    record = answer.to_dict()  # type: ignore[attr-defined]
    assert record
    assert json.loads(json.dumps(record, allow_nan=isinstance(answer, Rows)))
    arrays = answer.to_arrays()  # type: ignore[attr-defined]
    assert arrays
    if isinstance(answer, Rows):
        assert list(arrays) == list(record)
        lengths = {len(values) for values in arrays.values()}
        assert lengths == {len(answer.rows())}
        numbers = [values for values in arrays.values() if values.dtype.kind == "f"]
        assert numbers or name == "compare"  # which holds figures and words side by side


def test_a_sizing_of_the_front_door_is_one_of_the_command_line() -> None:
    sized = turnercalc.size(larder(), motors())
    assert isinstance(sized, Sizing)
    record, printed = sized.to_dict(), result().to_dict()
    assert "best_change" in printed
    assert "best_change" not in record  # nobody looked for one
    assert not any(one["field"] == "best_change" for one in record["unknown"])
    kept = {name: value for name, value in printed.items() if name in record and name != "unknown"}
    assert {name: record[name] for name in kept} == kept


def test_a_rod_is_told_in_its_own_directions() -> None:
    shed = turnercalc.read_design(ROOT / "examples" / "potting-shed-rack.toml")
    assert turnercalc.size(shed).to_arrays()["direction"] == ("out", "in")


@pytest.mark.parametrize(
    ("ask", "words"),
    [
        (lambda: turnercalc.find_lengths(larder(), wish("crank.radios", (0, 1))), "crank.radius"),
        (lambda: turnercalc.find_lengths(larder(), wish("crank.radius", (0.06, 0.05))), "low end"),
        (lambda: turnercalc.find_lengths(larder(), wish("crank.radius", 0.05)), "lowest and"),
        (lambda: turnercalc.find_lengths(larder(), wish("crank.radius", ("a", "b"))), "lowest and"),
        (
            lambda: turnercalc.find_lengths(larder(), wish("box.width", (0.4, 0.5))),
            "box.width stays",
        ),
        (lambda: turnercalc.Wish(count=0), "suggestions: a whole number"),
        (lambda: turnercalc.Wish(step="1 mm"), "steps of lengths"),
        (lambda: turnercalc.Wish(system="imperial"), "metric or us"),
        (lambda: turnercalc.judge_build(larder(), count=0), "builds: a whole number"),
        (lambda: turnercalc.judge_build(larder(), count=-1), "builds: a whole number"),
        (lambda: turnercalc.judge_build(larder(), count=2.5), "builds: a whole number"),
        (lambda: turnercalc.judge_build(larder(), seed="x"), "seed: a whole number"),
        (lambda: turnercalc.judge_build(larder(), marking="1 mm"), "error of marking"),
        (lambda: turnercalc.judge_build(larder(), half_known={"arm.lenght": (0, 1)}), "arm.length"),
        (lambda: turnercalc.judge_build(larder(), half_known={"arm.length": 0.08}), "lowest and"),
        (lambda: turnercalc.capacity(larder(), motors(), most=0), "a whole number"),
        (lambda: turnercalc.fit_trays(larder(), step=0.0), "steps of pitch"),
        (lambda: turnercalc.fit_trays(larder(), under=-0.1), "height to keep free"),
        (lambda: turnercalc.fit_trays(drum()), "trays on pivots"),
        (lambda: turnercalc.which_motor(larder(), motors(), kind="rope"), "chain"),
        (lambda: turnercalc.compare([larder()]), "two designs or more"),
        (lambda: turnercalc.compare(larder()), "two designs or more"),
        (lambda: turnercalc.compare(["a", "b"]), "read_design"),
        (lambda: turnercalc.capacity(larder(), "motors.csv"), "read_motors"),
        (lambda: turnercalc.which_motor(larder(), None), "read_motors"),
        (lambda: turnercalc.judge_build(larder(), "motors.csv"), "read_motors"),
        (lambda: turnercalc.calculate(larder(), "motors.csv"), "read_motors"),
    ],
)
def test_what_cannot_be_asked_is_refused_in_words(ask: Callable[[], object], words: str) -> None:
    with pytest.raises(TurnercalcError, match=words):
        ask()


@pytest.mark.parametrize("name", sorted(set(ANSWERS) - {"advise", "compare", "nearest_trains"}))
def test_the_name_of_a_file_is_no_design(name: str) -> None:
    rest = {"sweep": ({"crank.radius": [0.05]},), "which_motor": (motors(),)}
    rest["capacity"] = (motors(),)
    with pytest.raises(AskedError, match="read_design"):
        getattr(turnercalc, name)("larder-rack.toml", *rest.get(name, ()))


def test_refusals_are_of_one_tree_and_value_errors_too() -> None:
    assert issubclass(AskedError, TurnercalcError)
    assert issubclass(AskedError, ValueError)


def wish(path: str, span: object) -> turnercalc.Wish:
    return turnercalc.Wish(within={path: span})  # type: ignore[dict-item]


def drum() -> Design:
    return turnercalc.read_design(ROOT / "examples" / "tool-chest-drum.toml")


def test_the_command_line_counts_as_far_as_the_library() -> None:
    option = next(one for one in capacity_command.command.params if one.name == "most")
    assert option.default == MOST


def test_a_result_is_what_the_command_line_prints() -> None:
    printed = json.loads(as_json(result().sizing, result().advice))
    assert json.loads(json.dumps(result().to_dict())) == printed


def test_arrays_are_those_of_the_cycle() -> None:
    arrays = result().to_arrays()
    cycle = result().sizing.cycle
    assert cycle is not None
    np.testing.assert_array_equal(arrays["shaft_torque"], cycle.shaft_torque)
    assert arrays["shaft_torque"].shape == (
        len(arrays["loads"]),
        len(arrays["friction"]),
        len(arrays["direction"]),
        len(arrays["position"]),
    )


def test_a_result_shows_itself_and_escapes_what_people_wrote() -> None:
    design = result().sizing.design.replace({"name": "<b>larder</b>"})
    shown = turnercalc.calculate(design)._repr_html_()
    assert "<b>larder</b>" not in shown
    assert "&lt;b&gt;larder&lt;/b&gt;" in shown
    assert "Link to arm" in shown


def test_a_design_that_does_not_go_through_has_a_result_too() -> None:
    short = turnercalc.calculate(result().sizing.design.replace({"link.length": "150 mm"}))
    assert short.to_arrays() == {}
    assert str(short.verdict) == "no"


def test_tables_escape_and_leave_out_what_is_not_known() -> None:
    shown = html_table({"a<b": [None, 1.23456789], "c": ["<i>", "x"]})
    assert "<i>" not in shown
    assert "a&lt;b" in shown
    assert "1.2346" in shown
