"""The front door: every name is there, explained, and its examples run."""

import ast
import doctest
import json
import os
from functools import cache
from pathlib import Path

import numpy as np
import pytest

import turnercalc
from turnercalc.advice.rows import html_table
from turnercalc.handover.notebook import Result
from turnercalc.handover.record import as_json

ROOT = Path(__file__).parents[1]


@cache
def result() -> Result:
    return turnercalc.calculate(
        turnercalc.read_design(ROOT / "examples" / "larder-rack.toml"),
        turnercalc.read_motors(ROOT / "examples" / "motors.csv"),
    )


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
