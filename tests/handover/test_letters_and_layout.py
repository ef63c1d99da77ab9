"""ASCII spelling, and lines that fit the screen."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnercalc.handover.layout import WIDTH, answered, labelled, section, table, wrap
from turnercalc.handover.letters import ascii_only


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("1.94 N·m", "1.94 N.m"),
        ("45.6° left down", "45.6 deg left down"),
        ("37.5 °C", "37.5 degC"),
        ("0.16 s/60°", "0.16 s/60deg"),
        ("±1 mm – about ≥ 2×", "+/-1 mm - about >= 2x"),
        ("Größe", "Grosse"),
        ("œufs à couver, “ponte”", 'oeufs a couver, "ponte"'),
        ("蛋", "?"),
        ("plain already", "plain already"),
    ],
)
def test_ascii_spelling(text: str, plain: str) -> None:
    assert ascii_only(text) == plain


@given(st.text())
def test_ascii_only_is_ascii_and_keeps_ascii(text: str) -> None:
    assert ascii_only(text).isascii()
    assert ascii_only(ascii_only(text)) == ascii_only(text)


words = st.lists(st.text("abc-.,()", min_size=1, max_size=12), min_size=1, max_size=60)


@given(words, st.integers(0, 30))
def test_wrapped_lines_fit_and_lose_no_word(parts: list[str], indent: int) -> None:
    lines = wrap(" ".join(parts), indent)
    assert all(len(line) <= WIDTH for line in lines)
    assert " ".join(lines).split() == parts


def test_a_setting_is_never_broken() -> None:
    setting = '--set trays.filled="in mirror pairs"'
    for blanks in range(40, 78):
        text = "x" * blanks + " " + setting + " and so on"
        assert any(setting in line for line in wrap(text))


@given(words, st.sampled_from(["fine", "marginal", "no", "unknown", "note"]))
def test_the_answer_stands_at_the_right_edge(parts: list[str], answer: str) -> None:
    lines = answered("Link to arm", " ".join(parts), answer)
    assert lines[0].startswith("  Link to arm")
    assert lines[0][72:] == answer
    assert all(len(line) <= WIDTH for line in lines)
    assert all(len(line) <= 70 for line in lines[1:])


def test_a_long_label_stands_beside_a_short_text_and_above_a_long_one() -> None:
    lines = answered("Height of the lowest pivot", "48 mm", "fine")
    assert lines == ["  Height of the lowest pivot  48 mm".ljust(72) + "fine"]
    lines = answered("Height of the lowest pivot", "x " * 30, "fine")
    assert lines[0] == "  Height of the lowest pivot".ljust(72) + "fine"
    assert lines[1].startswith(" " * 18 + "x x")


@pytest.mark.parametrize("figure", ["1.72 N·m", "48 mm", "35.1 kgf·cm", "50 Hz", "8 %"])
def test_a_figure_stays_with_its_unit(figure: str) -> None:
    for blanks in range(60, 80):
        assert any(figure in line for line in wrap("x" * blanks + f" {figure} and so on"))


def test_labelled_text_hangs_under_itself() -> None:
    assert labelled("Or", "x " * 40, margin=2, column=13)[1].startswith(" " * 13 + "x")


def test_table_columns_line_up() -> None:
    assert table([("friction", "low", "high"), ("all trays full", "0.42", "10.50")]) == [
        "  friction         low   high",
        "  all trays full  0.42  10.50",
    ]


def test_section_remark_at_the_right_edge() -> None:
    line = section("THE TURN", "seen from the door side")
    assert line.startswith("THE TURN ")
    assert len(line) == WIDTH
    assert line.endswith("seen from the door side")
