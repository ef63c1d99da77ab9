"""The command that shows how a motor file was read, and its clean copy."""

import io
import json
import sys
from pathlib import Path

import pytest

from turnercalc.motors import read_motors

from .conftest import Run

EXAMPLES = Path(__file__).parents[2] / "examples"
WITH_MARK = "\ufeffname;what;speed;torque;supply\r\nA;worm gear motor;5,5 rpm;1.5 Nm;12 V\r\n"


@pytest.fixture
def paste(monkeypatch: pytest.MonkeyPatch):
    def on_standard_input(text: str) -> None:
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(text.encode())))

    return on_standard_input


def test_a_pasted_table_is_told_row_by_row(run: Run, paste) -> None:
    paste(WITH_MARK)
    found = run("motors", "-")
    assert found.code == 0
    assert '"5,5 rpm"' in found.out
    assert max(len(line) for line in found.out.splitlines()) <= 80


def test_a_clean_copy_reads_as_the_same_motors(run: Run) -> None:
    path = EXAMPLES / "motors.csv"
    copy = run("motors", str(path), "--csv")
    assert copy.code == 0
    first, again = read_motors(path), read_motors(copy.out)
    assert [r.motor.id for r in again] == [r.motor.id for r in first]
    assert [r.motor.any_torque for r in again] == [r.motor.any_torque for r in first]
    assert [r.used for r in again] == [r.used for r in first]


def test_figures_are_quoted_as_they_stand(run: Run, paste) -> None:
    paste("name,what,rated torque,speed,supply\nA,worm motor,3 N,5 RPM,12V DC")
    found = run("motors", "-")
    assert '"3 N" refused' in found.out
    assert '"5 RPM"' in found.out


def test_a_force_of_an_actuator_is_told_as_one(run: Run) -> None:
    found = run("motors", str(EXAMPLES / "motors.csv"))
    assert "300 N: 50% of its listed force 600 N" in found.out


def test_csv_and_json_at_once_are_refused(run: Run) -> None:
    found = run("motors", str(EXAMPLES / "motors.csv"), "--csv", "--json")
    assert found.code == 2
    assert "not both" in found.err


def test_an_empty_file_says_so_and_is_no_error(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "none.csv"
    path.write_text("", encoding="utf-8")
    found = run("motors", str(path))
    assert found.code == 0
    assert "none.csv is empty" in found.out
    assert json.loads(run("motors", str(path), "--json").out)["motors"] == []


def test_with_an_empty_file_there_is_only_shopping(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "none.csv"
    path.write_text("name;what;speed;torque;supply\n", encoding="utf-8")
    found = run("size", str(EXAMPLES / "larder-rack.toml"), "-m", str(path), "--brief")
    assert found.code == 0
    assert "worm 5 not judged" in " ".join(found.out.split())
    assert "Buy" in found.out


def test_a_motor_the_file_does_not_have_is_named_with_what_it_has(run: Run) -> None:
    found = run(
        *("size", str(EXAMPLES / "larder-rack.toml"), "-m", str(EXAMPLES / "motors.csv")),
        *("--set", "motor.have=worm 55"),
    )
    assert found.code == 2
    assert "worm 5" in found.err
