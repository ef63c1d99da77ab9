"""The example pasted from a shop page, read as a builder reads it with a pencil."""

import math
from pathlib import Path

import pytest

from turnercalc.errors import UnknownNameError
from turnercalc.motors import read_motors

PAGE = Path(__file__).parents[2] / "examples" / "shop-page.txt"
KGF_CM = 0.0980665  # N·m, from standard gravity (3rd CGPM, 1901)
RPM = math.tau / 60.0


@pytest.fixture(scope="module")
def page():
    return read_motors(PAGE)


def test_every_row_of_the_table_and_nothing_else(page):
    names = [(row.motor.title or row.motor.id).split()[0].rstrip(",") for row in page]
    assert names == [f"K{n}" for n in range(1, 12)]
    assert [row.used for row in page] == [n != 5 for n in range(1, 12)]
    assert any("Add to basket" in remark for remark in page.remarks)


@pytest.mark.parametrize(
    ("name", "field", "value"),
    [
        ("K1", "rated_torque", 30 * KGF_CM),
        ("K1", "stall_torque", 70 * KGF_CM),
        ("K1", "unnamed_speed", 5 * RPM),
        ("K2", "unnamed_torque", 45 * KGF_CM),
        ("K3", "unnamed_speed", 5 * RPM),  # the spreadsheet's 5-Jun
        ("K4", "stall_torque", 50 * KGF_CM),
        ("K6", "unnamed_torque", 70 * KGF_CM),  # settled by 14 W at 5 rpm
        ("K7", "unnamed_torque", 9.4 * KGF_CM),
        ("K8", "stall_torque", 20.0),
        ("K9", "force", 750.0),
        ("K9", "stroke", 0.1),
        ("K10", "unnamed_torque", 15.3 * KGF_CM),
        ("K11", "holding_torque", 1.5),
    ],
)
def test_figures(page, name, field, value):
    assert getattr(page.row(name).motor, field) == pytest.approx(value, rel=1e-9)


def test_words(page):
    classes = {name: page.row(name).motor.motor_class for name in ("K1", "K2", "K3", "K8", "K10")}
    assert classes == {
        "K1": "brushed_worm",
        "K2": "synchronous_reversible",
        "K3": "synchronous_one_way",
        "K8": "wiper",
        "K10": "shaded_pole",
    }
    assert page.row("K1").motor.holds_when_off is True
    assert [r.hertz for r in page.row("K3").motor.ratings] == [50.0, 60.0]


def test_the_impossible_row_says_how_it_could_be(page):
    row = page.row("K5")
    assert "12.3 W out of 8 W" in row.refused
    assert [p.torque_is for p in row.possible] == ["stall_torque"]


def test_a_name_that_two_rows_begin_with_is_no_name(page):
    assert page.row("k9 linear").motor.stroke == 0.1
    with pytest.raises(UnknownNameError):
        page.row("K")
    twice = read_motors(
        "what,rated torque,speed,supply\nK1 a,1 Nm,5 rpm,12 V\nK1 b,2 Nm,5 rpm,12 V\n"
    )
    with pytest.raises(UnknownNameError):
        twice.row("K1")
