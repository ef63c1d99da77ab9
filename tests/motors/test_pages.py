"""Whatever a text reads as can be shown, told as JSON, copied and judged; files of every kind."""

import json
from dataclasses import replace

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.motors.demands import demand
from tests.motors.test_matching import SYNCHRONOUS, WORM
from tests.motors.test_reading import WORDS
from turnercalc.errors import MotorFileError
from turnercalc.handover import motor_list
from turnercalc.handover.display import Style
from turnercalc.motors import rank, read_motors, to_csv

HEAD = "name;what;rated torque;speed;supply;duty;insulation class;price;holds when off;notes\n"


def everything(text):
    try:
        file = read_motors(text)
    except MotorFileError:
        return  # it has said why it cannot be read
    assert max(len(line) for line in motor_list.page(file, Style()).splitlines()) <= 80
    json.loads(motor_list.as_json(file))
    to_csv(file)
    for result in rank(file, demand()):
        assert result.findings


@settings(max_examples=120, deadline=None)
@given(st.lists(WORDS, max_size=40).map("".join))
def test_any_heap_of_words_can_be_shown_and_judged(text):
    everything(text)


@settings(max_examples=120, deadline=None)
@given(st.lists(st.lists(WORDS, max_size=3).map(" ".join), min_size=9, max_size=9))
def test_any_cells_under_good_heads_can_be_shown_and_judged(cells):
    row = ";".join(cell.replace(";", " ").replace("\n", " ") for cell in cells)
    everything(f"{HEAD}x;{row}\n")


def test_a_spreadsheet_by_its_path(tmp_path):
    book = openpyxl.Workbook()
    book.active.append(["name", "what", "speed (rpm)", "rated torque (kgf·cm)", "supply"])
    book.active.append(["A", "worm gear motor", 5, 30, "12 V DC"])
    book.active.append([None, None, None, None, None])
    book.active.append(["B", "stepper", 10.5, None, "24 V"])
    path = tmp_path / "motors.xlsx"
    book.save(path)
    file = read_motors(path)
    assert [(r.motor.id, r.used) for r in file] == [("A", True), ("B", False)]
    assert file.rows[0].motor.rated_torque == pytest.approx(30 * 0.0980665)


def test_enough_before_oversized_then_heat_then_price():
    inside = demand(stands="inside the box")
    fit = replace(WORM, id="W", ambient_most=60.0, protection="IP54", input_power=5.0, price=30.0)
    big = replace(fit, id="big", rated_torque=60.0, stall_torque=240.0, price=1.0)
    weak = replace(fit, id="weak", rated_torque=2.5, stall_torque=9.0, price=1.0)
    cool = replace(fit, id="cool", input_power=1.0, price=40.0)
    cheap = replace(fit, id="cheap", price=20.0)
    hot = replace(SYNCHRONOUS, id="hot", ambient_most=60.0, protection="IP54", input_power=400.0)
    names = [r.motor.id for r in rank([hot, weak, big, fit, cheap, cool], inside)]
    assert names[:3] == ["cool", "cheap", "W"]
    assert names.index("big") > names.index("W")
    assert names.index("weak") > names.index("big")
    assert set(names[3:]) == {"big", "hot", "weak"}
