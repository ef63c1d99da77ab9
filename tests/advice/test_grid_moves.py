"""Every change that is proposed for a sliding grid comes true when it is made."""

from __future__ import annotations

import pytest

from tests.grid_design import ROD, YOKE, motors, sized
from turnercalc.advice import Change, advise
from turnercalc.advice.moves import proposals
from turnercalc.findings import Answer
from turnercalc.sizing import Sizing, size

#: Trouble -> the change that answers it.
TROUBLES: dict[str, tuple[dict[str, str], str]] = {
    "a floor that drags": ({"floor.friction": "0.03 to 0.06"}, "line_floor"),
    "a mesh that bumps": (
        {"floor.surface": "wire mesh", "floor.mesh_pitch": "16 mm"},
        "line_floor",
    ),
    "bars that jam": ({"grid.bar_friction": "0.9 to 1.2"}, "smoother_bars"),
    "bars too low": ({"grid.bar_top": "12 mm"}, "half_egg_bars"),
    "bars too high": ({"grid.bar_bottom": "32 mm"}, "half_egg_bars"),
    "rods too high": (
        {
            "grid.bars": "round rods",
            "grid.bar_thickness": "10 mm",
            "grid.bar_bottom": "32 mm",
            "grid.bar_top": "42 mm",
        },
        "half_egg_bars",
    ),
    "too short a stroke": ({"crank.radius": "20 mm"}, "right_stroke"),
    "a whole turn": ({"turning.egg_turn": "360 deg", "crank.radius": "70.5 mm"}, "half_a_turn"),
    "a grid that is lifted": (
        {"grid.weight": "150 g", "guides.hold_down": "no"},
        "hold_grid_down",
    ),
    "nothing but a timer": (
        {"motor.stopped_by": "timer", "motor.have": "spur 6"},
        "park_switch",
    ),
    "a motor too weak": (
        {
            "motor.have": "turntable",
            "guides.bearing": "wood in wood",
            "grid.weight": "5 kg",
        },
        "wheels",
    ),
}


def promised(sizing: Sizing) -> tuple[Change, ...]:
    return advise(sizing, motors()).changes


@pytest.mark.parametrize("trouble", TROUBLES)
def test_what_is_proposed_answers_the_trouble_and_delivers(trouble: str) -> None:
    settings, expected = TROUBLES[trouble]
    before = sized(dict(settings), with_motors=True)
    assert before.verdict in (Answer.NO, Answer.MARGINAL)
    changes = promised(before)
    assert changes, before.reason.text
    assert expected in [change.id for change in changes]
    for change in changes:
        after = size(before.design.replace(dict(change.settings)), motors())
        assert after.verdict is change.verdict_after
        assert change.say.endswith(".")
        if change.times_enough_after is not None and after.chosen is not None:
            assert after.chosen.times_enough == pytest.approx(change.times_enough_after)
            assert after.chosen.motor.id == change.motor_after


def test_a_stroke_is_put_right_with_a_yoke_too() -> None:
    before = sized({**YOKE, "crank.radius": "25 mm"}, with_motors=True)
    best = promised(before)[0]
    assert best.id == "right_stroke"
    after = size(before.design.replace(dict(best.settings)), motors())
    assert 1e3 * after.ends.total == pytest.approx(72.8, abs=1.0)


def test_a_rod_that_runs_its_whole_stroke_gets_end_switches() -> None:
    whole = {**ROD, "actuator.runs": "its whole stroke", "actuator.shortest": "240 mm"}
    before = sized(whole, with_motors=True)
    assert before.verdict is not Answer.FINE
    change = next(c for c in promised(before) if c.id == "right_stroke")
    assert change.settings["actuator.runs"] == "between end switches"
    assert change.verdict_after is Answer.FINE


def test_no_move_of_another_turner_is_proposed_for_a_grid() -> None:
    for settings in ({}, YOKE, ROD):
        for proposal in proposals(sized(dict(settings), with_motors=True)):
            for field in proposal.settings:
                assert field.partition(".")[0] in {
                    "grid",
                    "floor",
                    "guides",
                    "crank",
                    "link",
                    "slot",
                    "actuator",
                    "motor",
                    "gearing",
                    "turning",
                    "eggs",
                }, proposal
