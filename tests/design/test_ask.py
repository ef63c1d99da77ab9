"""The question mode: what is asked, what is asked again, and the file that comes of it."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping

import pytest

from turnercalc.design import Design, read_design
from turnercalc.design.ask import Question, ask_for_design, interview, question_text
from turnercalc.design.why import WHY
from turnercalc.errors import UnknownNameError

ANSWERS: Mapping[str, str] = {
    "name": "My rack",
    "drive": "crank and link",
    "drawn_from": "the door",
    "box.width": "480 mm",
    "box.height": "1.1 m",
    "box.depth": "42 cm",
    "eggs.kind": "hen",
    "eggs.lie": "big end up",
    "eggs.held_by": "cells",
    "eggs.cell_room": "47 mm",
    "trays.count": "4",
    "trays.pitch": "140 mm",
    "trays.rows": "7",
    "trays.eggs_per_row": "6",
    "trays.row_spacing": "2 in",
    "trays.empty_weight": "2 lb",
    "trays.egg_floor": "20 mm below pivot",
    "pivots.diameter": '5/16"',
    "pivots.bearing": "steel in nylon",
    "arm.length": "80 mm",
    "arm.points": "right",
    "crank.radius": "56.5 mm",
    "crank.runs": "round and round",
    "crank.across": "56.5 mm right of pivot",
    "crank.height": "160 mm below pivot",
    "link.length": "160 mm",
    "motor.supply": "12 V",
    "motor.stands": "outside",
    "motor.stopped_by": "timer",
}


class Builder:
    """Somebody who answers from a list, the first answers to a question first."""

    def __init__(
        self, answers: Mapping[str, str | list[str]], yes: Mapping[str, int] | None = None
    ):
        self.answers = {
            path: list(given) if isinstance(given, list) else [given]
            for path, given in {**ANSWERS, **answers}.items()
        }
        self.yes = dict(yes or {})
        self.told: list[str] = []
        self.asked: list[str] = []

    def tell(self, text: str) -> None:
        self.told.append(text)

    def ask(self, prompt: str) -> str:
        path = prompt.removesuffix("> ")
        self.asked.append(path)
        assert len(self.asked) < 400, "asked for ever"
        if path == "yes or no":
            for word, times in self.yes.items():
                if word in self.told[-1] and times:
                    self.yes[word] -= 1
                    return "yes"
            return ""
        given = self.answers.get(path, [""])
        return given.pop(0) if len(given) > 1 else given[0]

    def design(self, turner: str = "rack") -> tuple[str, Design]:
        text = ask_for_design(self.ask, self.tell, turner)
        tomllib.loads(text)
        return text, read_design(text)


def test_answers_become_a_file_that_reads_without_complaint() -> None:
    builder = Builder({})
    text, design = builder.design()
    assert design.notes == ()
    assert design.value("crank.radius") == pytest.approx(0.0565)
    assert design.value("pivots.diameter") == pytest.approx(5 / 16 * 0.0254)
    assert 'stopped_by = "timer"' in text
    assert "# Hole to hole" in text


def test_only_what_must_be_known_is_asked_unless_more_is_wanted() -> None:
    builder = Builder({})
    builder.design()
    assert [path for path in builder.asked if path != "yes or no"] == list(ANSWERS)


def test_every_question_that_has_a_reason_says_it() -> None:
    builder = Builder({})
    builder.design()
    told = " ".join(" ".join(builder.told).split())
    for path in ("drawn_from", "eggs.lie", "trays.egg_floor", "crank.radius", "motor.stopped_by"):
        assert " ".join(WHY[path].split()) in told, path


@pytest.mark.parametrize(
    ("path", "bad", "says"),
    [
        ("box.width", "480", "480 what?"),
        ("eggs.kind", "chikken", "Nearest: chicken"),
        ("eggs.lie", "upside", "none of the words"),
        ("trays.egg_floor", "20 mm", "On which side of the pivot?"),
        ("trays.count", "3.5", "whole"),
        ("motor.supply", "230 V", "frequency"),
        ("crank.radius", "", "It cannot be left open"),
        ("crank.radius", "?", WHY["crank.radius"][:30]),
        ("crank.radius", "unknown", "It cannot be left open"),
        ("pivots.bearing", "steel in nilon", "Nearest: steel in nylon"),
        ("eggs.cell_room", "?", "It cannot be left open"),
        ("crank.radius", "5650 mm", "far more than the box has"),
        ("box.depth", "[", "list cannot be read"),
        ("name", "", "It cannot be left open"),
    ],
)
def test_a_bad_answer_is_explained_and_asked_again(path: str, bad: str, says: str) -> None:
    builder = Builder({path: [bad, ANSWERS[path]]})
    _, design = builder.design()
    assert builder.asked.count(path) == 2
    assert any(says in " ".join(text.split()) for text in builder.told)
    assert design == Builder({}).design()[1]


def test_another_way_of_holding_asks_its_own_question() -> None:
    builder = Builder({"eggs.held_by": "round holes", "eggs.hole": "35 mm"})
    _, design = builder.design()
    assert "eggs.hole" in builder.asked
    assert "eggs.cell_room" not in builder.asked
    assert design.value("eggs.hole") == pytest.approx(0.035)


def test_a_crank_to_and_fro_asks_for_its_arc() -> None:
    answers: dict[str, str | list[str]] = {
        "crank.runs": "to and fro",
        "crank.first_angle": "90 deg",
        "crank.last_angle": "270 deg",
    }
    builder = Builder(answers)
    _, design = builder.design()
    assert design.value("crank.last_angle") == pytest.approx(4.712389)
    assert "crank.first_angle" in builder.asked


def test_stages_and_loads_are_asked_for_until_there_are_enough() -> None:
    rows = str([[6] * 7] * 4)
    answers: dict[str, str | list[str]] = {
        "gearing.1.kind": "chain",
        "gearing.1.motor_teeth": "12",
        "gearing.1.driven_teeth": "24",
        "loads.1.name": "first",
        "loads.1.trays": ["[[6, 6]]", rows],
        "loads.2.name": "second",
        "loads.2.trays": rows,
    }
    builder = Builder(answers, yes={"[[gearing]]": 1, "[[loads]]": 2})
    _, design = builder.design()
    assert design.gearing[0].speed_ratio == 2.0
    assert [load.name for load in design.loads] == ["first", "second"]
    assert any("The number of trays is 4" in text for text in builder.told)


def test_what_could_be_left_out_is_asked_with_what_is_taken_otherwise() -> None:
    builder = Builder(
        {"link.weight": "90 g", "link.thickness": "?", "box.leans": ["20 deg", "1 deg"]},
        yes={"more things": 1},
    )
    _, design = builder.design()
    assert design.value("link.weight") == pytest.approx(0.09)
    assert design.value("box.leans") == pytest.approx(0.0174533)
    assert "link.thickness" in design.unknown
    told = " ".join(" ".join(builder.told).split())
    assert "Without an answer: 0.15 to 0.45 is taken (friction.csv: steel in nylon, damp)" in told
    assert "Without an answer: thickness of the link: buckling is unknown without it" in told
    assert "eggs.hole" not in builder.asked  # eggs stand in cells


def test_extra_sections_are_asked_for_when_they_are_there() -> None:
    _, design = Builder({}, yes={"[tie_bar]": 1}).design()
    assert design["tie_bar"].weight == pytest.approx(0.4 * 3 * 0.140)  # 0.4 kg a metre, 3 pitches
    answers = {"counterweight.weight": "400 g", "counterweight.height": "60 mm below pivot"}
    _, design = Builder(answers, yes={"[counterweight]": 1}).design()
    assert design["counterweight"].weight == pytest.approx(0.4)


def test_anything_but_yes_or_no_is_asked_again() -> None:
    talk = interview("rack")
    question = next(talk)
    while question.path:
        question = talk.send(ANSWERS.get(question.path, ""))
    again = talk.send("perhaps")
    assert again.text == question.text
    assert "Yes or no?" in again.complaint


def test_an_unknown_turner_is_refused_before_anything_is_asked() -> None:
    with pytest.raises(UnknownNameError, match="tilting trays"):
        Builder({}).design("wheel")


def test_questions_fit_the_screen() -> None:
    builder = Builder({}, yes={"more things": 1})
    builder.design()
    for text in builder.told:
        assert max(len(line) for line in text.splitlines()) <= 80
    question = Question("a.b", "How long?", "Because.", "5 mm", required=False, otherwise="none")
    assert question_text(question).splitlines()[1:] == [
        "How long?",
        "  Because.",
        "  For example: 5 mm",
        "  Without an answer: none",
    ]


def test_the_interview_itself_needs_no_terminal() -> None:
    talk = interview("rack")
    text = ""
    question = next(talk)
    while not text:
        try:
            question = talk.send(ANSWERS.get(question.path, ""))
        except StopIteration as end:
            text = end.value
    assert read_design(text).name == "My rack"
