"""Derivations as people read them: 80 columns, numbers put in, names that can be misspelt."""

import re
import subprocess
import sys

import pytest

from tests.derivations.test_against_numpy import EXPECTED, RACK
from turnercalc.derivations import derivation, names, topics
from turnercalc.derivations.worked import Derivation
from turnercalc.errors import UnknownNameError


def some_values(found: Derivation) -> dict[str, float]:
    """Different, awkward numbers for every letter: negative, long and tiny ones too."""
    awkward = [0.0707106781, -0.2, 0.4, 1.2345678, 3e-7, 12.0, 0.31, 200.0]
    return {name: awkward[i % len(awkward)] for i, name in enumerate(found.symbols)}


@pytest.mark.parametrize("name", names())
@pytest.mark.parametrize("ascii_only", [False, True])
def test_lines_fit_the_page(name: str, ascii_only: bool) -> None:
    found = derivation(name)
    worked = found.substitute(some_values(found), ascii_only=ascii_only)
    for line in (*found.explanation(ascii_only=ascii_only), *worked.lines):
        assert len(line) <= 80
        assert line == line.rstrip()
        assert "\n" not in line
        if ascii_only:
            assert line.isascii()


@pytest.mark.parametrize("name", names())
def test_every_letter_is_told_and_used(name: str) -> None:
    found = derivation(name)
    assert {str(letter) for letter in found.result.free_symbols} == set(found.symbols)
    told = "\n".join(found.explanation())
    for letter, (meaning, _) in found.symbols.items():
        assert re.search(rf"^  {letter} +{re.escape(meaning[:20])}", told, re.MULTILINE)
    assert found.source
    assert found.title in told


def test_worked_line_by_line() -> None:
    # 60 g of weight, nest angle 60 degrees: the cosine is a half, so each bar gets the weight
    worked = derivation("nest_force").substitute({"W": 0.6, "A": 1.0471975512})
    assert worked.lines == (
        "  N = W/(2·cos(A))",
        "  W = 0.6 N   weight of the egg",
        "  A = 1.0472 rad (60°)   nest angle",
        "  N = 0.6/(2·cos(1.0472))",
        "N = 0.6 N",
    )
    assert worked.value == pytest.approx(0.6, rel=1e-9)


def test_worked_in_ascii_with_negative_numbers() -> None:
    values = {"M": 10.0, "g": 9.80665, "x": -0.01, "y": 0.04, "q": 0.5, "p1": -0.6}
    lines = derivation("crank_and_link_torque").substitute(values, ascii_only=True).lines
    assert lines[0] == "  T = M*g*p1*(x*cos(q) - y*sin(q))"
    assert lines[2] == "  g  = 9.8066 m/s^2   gravity"
    assert lines[7] == "  T = 10*9.8066*(-0.6)*((-0.01)*cos(0.5) - 0.04*sin(0.5))"
    assert lines[8] == "T = 1.6447 N.m"


@pytest.mark.parametrize("name", names())
def test_the_filled_in_formula_gives_the_result(name: str) -> None:
    # Read the printed line with the numbers as a person with a pocket calculator would.
    found = derivation(name)
    case = RACK if name == "crank_and_link_angle" else EXPECTED[name][0]
    values = {letter: float(case[letter][0]) for letter in found.symbols}
    worked = found.substitute(values, ascii_only=True)
    start = f"  {found.letter} = "
    text = "\n".join(worked.lines)
    filled = text.split(start)[2].rsplit(f"\n{found.letter} = ", 1)[0]
    code = "from math import *\n"
    expression = " ".join(filled.split()).replace("^", "**")
    scope: dict[str, float] = {}
    exec(f"{code}value = {expression}", scope)  # our own line, printed just above
    # five digits are printed, and differences of them lose some
    assert scope["value"] == pytest.approx(worked.value, rel=5e-3)


@pytest.mark.parametrize("spelt", ["nest angle", "nest-angle", "Nest_Angle"])
def test_names_are_found_however_spelt(spelt: str) -> None:
    assert derivation(spelt) is derivation("nest_angle")


def test_a_misspelt_name_gets_the_nearest() -> None:
    with pytest.raises(UnknownNameError, match=r'"nest angel"\. Did you mean nest_angle'):
        derivation("nest angel")


def test_a_topic_names_its_formulas() -> None:
    with pytest.raises(
        UnknownNameError, match=r"several formulas\. Ask for one of: crank_and_link"
    ):
        derivation("crank and link")


def test_a_missing_number_is_asked_for() -> None:
    with pytest.raises(UnknownNameError, match=r"nest_force also needs A \(nest angle\)"):
        derivation("nest_force").substitute({"W": 0.6})


def test_names_and_topics_do_not_load_sympy() -> None:
    program = (
        "import sys; from turnercalc.derivations import names, topics;"
        "names(); topics(); sys.exit('sympy' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", program], check=False).returncode == 0


def test_topics_hold_every_name_once() -> None:
    held = [name for ids in topics().values() for name in ids]
    assert sorted(held) == sorted(set(held)) == sorted(names())
