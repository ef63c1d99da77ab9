"""``turnercalc convert``."""

import json

import pytest

from .conftest import Run


def test_kg_per_cm_is_shown_in_every_unit_with_the_doubt(run: Run) -> None:
    code, out, err = run("convert", "46 kg/cm")
    assert (code, err) == (0, "")
    # 46 kgf·cm = 46 x 0.0980665 N·m (the kilogram-force is 9.80665 N by definition)
    assert "4.511 N·m" in out
    assert "46 kgf·cm" in out
    # 1 ozf·in = 0.0070615518 N·m (NIST SP 811, appendix B.8)
    assert f"{4.511059 / 0.0070615518:.1f} ozf·in" in out
    assert "spring" in out


@pytest.mark.parametrize("words", [["18", "1/2", "in"], ["18-1/2in"], ["18 1/2", "in"]])
def test_words_need_no_quotes(run: Run, words: list[str]) -> None:
    # 1 in = 25.4 mm by definition
    assert "469.9 mm" in run("convert", *words).out


def test_plain_is_ascii(run: Run) -> None:
    out = run("convert", "--plain", "45 deg").out
    assert out.isascii()
    assert "45 deg" in out


def test_json_carries_the_unit_in_its_key(run: Run) -> None:
    record = json.loads(run("convert", "--json", "30 kgf.cm").out)
    assert record["format"] == "turnercalc-conversion/1"
    assert record["kind"] == "torque"
    assert record["value_Nm"] == pytest.approx(30 * 0.0980665)


@pytest.mark.parametrize("text", ["1,500", "70", "quick", ""])
def test_what_cannot_be_read_is_explained(run: Run, text: str) -> None:
    code, out, err = run("convert", text)
    assert (code, out) == (2, "")
    assert err
    assert "Traceback" not in err
