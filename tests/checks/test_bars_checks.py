"""The questions about rolling bars, each at its edges; figures by hand beside them."""

import math

import numpy as np
import pytest

from tests.bars_design import bars_design, found, sized
from turnercalc.findings import Answer
from turnercalc.sizing import size
from turnercalc.tables import limit
from turnercalc.turners.bars import KIND
from turnercalc.turners.nests import nests


def test_every_question_is_answered_and_the_design_is_fine() -> None:
    sizing = sized(motor__have="worm 6")
    told = {finding.id for finding in sizing.findings}
    assert set(KIND.checks) <= told | {"species_note"}
    assert sizing.verdict is Answer.FINE, sizing.reason.text
    assert all("tray" not in f.text and "tilt" not in f.text for f in sizing.findings)


def test_nests_of_goose_eggs_on_25_mm_bars() -> None:
    # Recomputed: asin(34/(R + 12.5)) for R = 31.5, 28.75 and 26.5 mm. Known to be about 50.6,
    # 55.5 and 60.7 degrees, with 5 mm between the largest and 1.15 turns of the bars a move.
    sizing = size(bars_design())
    small, typical, large = nests(sizing.turner, sizing.ingredients.lot)  # type: ignore[arg-type]
    angles = np.degrees([large.angle, typical.angle, small.angle])
    by_hand = np.degrees(np.arcsin(34.0 / (np.array([31.5, 28.75, 26.5]) + 12.5)))
    assert angles == pytest.approx(by_hand)
    assert angles == pytest.approx([50.6, 55.5, 60.7], abs=0.06)
    assert sizing.ends.total / (2 * np.pi) == pytest.approx(1.15)
    assert found("neighbours_touch").value == pytest.approx(5.0)
    assert typical.share == pytest.approx(0.5 / math.cos(typical.angle))
    assert [nest.turn for nest in (small, large)] == pytest.approx([12.5 / 26.5, 12.5 / 31.5])


# -- egg turn --------------------------------------------------------------------------------------


@pytest.mark.parametrize("turn", ["360 deg", "720 deg", "330 deg", "1080 deg"])
def test_a_whole_number_of_egg_turns_is_no_turn(turn: str) -> None:
    finding = found("egg_turn", turning__egg_turn=turn)
    assert finding.answer is Answer.NO
    assert "no turn" in finding.text
    assert "180" in finding.text
    assert size(bars_design(turning__egg_turn=turn)).verdict is Answer.NO
    assert not sized(turning__egg_turn=turn).timing.counts.changes_sides  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("turn", "answer"),
    [
        ("59 deg", Answer.NO),
        ("61 deg", Answer.MARGINAL),
        ("89 deg", Answer.MARGINAL),
        ("91 deg", Answer.FINE),
        ("269 deg", Answer.FINE),
        ("271 deg", Answer.MARGINAL),
        # 535 deg for a typical egg is 580 for the smallest: 140 from where it lay.
        ("535 deg", Answer.FINE),
        # 610 deg: 110 from where it lay, but 662 for the smallest is 58 short of two turns.
        ("610 deg", Answer.MARGINAL),
    ],
)
def test_what_is_left_of_whole_turns_counts(turn: str, answer: Answer) -> None:
    assert found("egg_turn", turning__egg_turn=turn).answer is answer


def test_seconds_for_eggs_of_each_size() -> None:
    sizing = sized(motor__have="worm 6")
    finding = next(f for f in sizing.findings if f.id == "egg_turn")
    longest = sizing.chosen.longest_move  # type: ignore[union-attr]
    assert longest is not None
    # The smallest comes round sooner, in the share of the radii.
    assert f"{longest:.0f} s" in finding.text
    small, large = longest * 26.5 / 28.75, longest * 31.5 / 28.75
    assert f"180° takes {small:.0f} to {large:.0f} s" in finding.text


def test_turning_one_way_for_ever_is_cautioned() -> None:
    assert found("sense").answer is Answer.FINE
    finding = found("sense", turning__sense="always the same")
    assert finding.answer is Answer.MARGINAL
    assert "wind up" in finding.text


# -- sizes and spacing -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("pitch", "answer"),
    [("66 mm", Answer.FINE), ("65.9 mm", Answer.MARGINAL), ("62.9 mm", Answer.NO)],
)
def test_neighbours(pitch: str, answer: Answer) -> None:
    finding = found("neighbours_touch", bars__pitch=pitch)
    assert finding.answer is answer
    if answer is not Answer.FINE:
        assert "66 mm" in finding.text  # 63 mm and 3 in hand


def test_bars_closer_than_the_eggs_are_an_answer_with_a_pitch_that_does() -> None:
    sizing = size(bars_design(bars__pitch="50 mm"))
    assert sizing.verdict is Answer.NO
    assert sizing.exit_code == 1
    assert sizing.reason.id == "neighbours_touch"
    assert "in each other's way" in sizing.reason.text
    assert "66 mm" in sizing.reason.text


def test_one_lane_has_no_neighbours() -> None:
    sizing = size(bars_design(bars__count="2", bars__driven_bar="1", bars__pitch="50 mm"))
    assert "neighbours_touch" not in {finding.id for finding in sizing.findings}


@pytest.mark.parametrize(
    ("pitch", "answer"),
    [("74 mm", Answer.FINE), ("74.1 mm", Answer.MARGINAL), ("78.1 mm", Answer.NO)],
)
def test_the_smallest_egg_over_the_gap(pitch: str, answer: Answer) -> None:
    # 53 mm broad; the gap is the pitch less 25 mm; 4 mm in hand wanted.
    assert found("drop_through", bars__pitch=pitch).answer is answer


def test_sizes_from_the_species_table_are_named_where_they_decide() -> None:
    finding = found("drop_through", eggs__smallest=None)
    assert "species table" in finding.text
    assert "species table" not in found("drop_through").text


def test_deep_nests_wedge() -> None:
    # asin(p/2/(26.5 + 12.5)) is 65 degrees at 70.7 mm and 80 at 76.8 mm.
    assert found("nest", bars__pitch="70.6 mm").answer is Answer.FINE
    assert found("nest", bars__pitch="70.8 mm").answer is Answer.MARGINAL
    assert found("nest", bars__pitch="76.9 mm").answer is Answer.NO
    # Its reason says what a bar bears at both limits: 1/(2 cos A).
    reason = limit("nest_angle_most").reason
    assert f"{0.5 / math.cos(math.radians(65)):.1f} times" in reason
    assert f"{0.5 / math.cos(math.radians(80)):.1f} times" in reason


def test_climbing_out() -> None:
    # The largest lies asin(34/44) = 50.6 deg deep; rubber reaches atan 0.9 = 42.0, bare metal
    # atan 0.45 = 24.2; 5 degrees in hand.
    assert found("climbing_out").answer is Answer.FINE
    assert found("climbing_out", bars__surface="rubber").value == pytest.approx(8.6, abs=0.06)
    leaning = found("climbing_out", bars__surface="rubber", box__leans="4 deg")
    assert leaning.answer is Answer.MARGINAL
    assert "lean of 4°" in leaning.text


def test_a_bar_that_stands_beside_one_that_turns() -> None:
    # The smallest lies 60.7 deg deep; bare metal has atan 0.45 = 24.2 at the most: 5.1 left.
    # Rubber has atan 0.9 = 42.0: it wedges, which counts only where a bar may stay behind.
    assert found("wedging").value == pytest.approx(90 - 60.66 - 24.23, abs=0.02)
    assert found("wedging").answer is Answer.FINE
    rubber = {"bars__surface": "rubber"}
    assert found("wedging", **rubber).answer is Answer.NOTE
    assert found("wedging", **rubber, bars__belt_pull="4 N").answer is Answer.MARGINAL
    assert found("wedging", **rubber, bars__joined_by="one motor each").answer is Answer.MARGINAL
    assert found("wedging", **rubber, bars__joined_by="chain").answer is Answer.NOTE


def test_bars_that_slip_under_the_eggs() -> None:
    finding = found("traction", bars__surface="glass", bars__rolling_arm="2 to 4 mm")
    assert finding.answer is Answer.MARGINAL or finding.answer is Answer.NO
    assert "rubber" in finding.text
    assert found("traction", bars__surface="rubber").value > found("traction").value  # type: ignore[operator]


def test_cross_stops() -> None:
    assert found("cross_stops").answer is Answer.FINE
    assert found("cross_stops").value == pytest.approx(6.0)
    assert found("cross_stops", bars__stop_spacing="94 mm").answer is Answer.MARGINAL
    assert found("cross_stops", bars__stop_spacing="91 mm").answer is Answer.NO
    finding = found("cross_stops", bars__stop_spacing="110 mm")
    assert finding.answer is Answer.NO
    assert "3 fit" in finding.text  # 420 / 110
    assert found("cross_stops", bars__stop_spacing=None).value == pytest.approx(6.0)


def test_under_the_bars() -> None:
    # The smallest hangs lowest: sqrt(39^2 - 34^2) - 26.5 = -7.4 mm; 18 - 7.4 = 10.6 mm left.
    assert found("under_bars").value == pytest.approx(18 + math.sqrt(39**2 - 34**2) - 26.5)
    low = "10 mm below the bar middles"
    assert found("under_bars", bars__under_bars=low).answer is Answer.MARGINAL
    assert found("under_bars", bars__under_bars="5 mm below the bar middles").answer is Answer.NO
    unknown = found("under_bars", bars__under_bars=None)
    assert unknown.answer is Answer.UNKNOWN
    assert "7 mm below" in unknown.text


def test_sag_by_hand() -> None:
    # 10 eggs of 60 g on two 8 mm steel bars of 0.5 m, 5 w L^4/(384 E I): a beam on two supports
    # under an even load (Gere and Goodno, Mechanics of Materials, table of deflections, from
    # memory).
    steel = {
        "eggs__kind": "chicken",
        "eggs__weighed": "1 egg = 60 g",
        "eggs__typical": "57 x 44 mm",
        "eggs__largest": "57 x 44 mm",
        "eggs__smallest": "57 x 44 mm",
        "turning__last_day": "18",
        "box__depth": "600 mm",
        "bars__count": "2",
        "bars__driven_bar": "1",
        "bars__diameter": "8 mm",
        "bars__wall": None,
        "bars__weight": None,
        "bars__material": "steel",
        "bars__pitch": "30 mm",
        "bars__length": "500 mm",
        "bars__eggs_per_lane": "10",
        "bars__stop_spacing": None,
    }
    # A is asin(15/26); the push of ten eggs is W/(2 cos A), the bar's weight acts straight down.
    angle = math.asin(15 / 26)
    push = 10 * 0.060 * 9.80665 / (2 * math.cos(angle))
    own = math.pi / 4 * 0.008**2 * 0.5 * 7850 * 9.80665
    load = math.hypot(push * math.sin(angle), push * math.cos(angle) + own)
    second = math.pi / 64 * 0.008**4
    by_hand = 5 * load / 0.5 * 0.5**4 / (384 * 205e9 * second)
    assert found("bar_sag", **steel).value == pytest.approx(1e3 * by_hand, rel=1e-4)
    assert found("bar_sag", **steel).answer is Answer.FINE
    assert found("bar_sag", **(steel | {"bars__material": "nylon"})).answer is Answer.NO


def test_creep_counts_for_plastics() -> None:
    rod = {"bars__wall": None, "bars__weight": "300 g"}
    acetal = found("bar_sag", bars__material="acetal", **rod)
    steel = found("bar_sag", bars__material="steel", **rod)
    assert "creep" in acetal.text
    assert "creep" not in steel.text


# -- belts -----------------------------------------------------------------------------------------


def test_belts_that_slip_and_belts_that_cannot() -> None:
    assert found("belt_grip").answer is Answer.FINE
    slack = found("belt_grip", bars__belt_pull="5 N")
    assert slack.answer is not Answer.FINE
    assert slack.value < found("belt_grip").value  # type: ignore[operator]
    larger = found("belt_grip", bars__belt_runs_on="40 mm")
    assert larger.value == pytest.approx(found("belt_grip").value * 40 / 25)  # type: ignore[operator]
    for joined in ("toothed belts, bar to bar", "chain", "one motor each"):
        sizing = size(bars_design(bars__joined_by=joined))
        assert "belt_grip" not in {finding.id for finding in sizing.findings}


def test_the_driven_bar() -> None:
    assert found("driven_bar").answer is Answer.FINE
    end = found("driven_bar", bars__driven_bar="5")
    assert end.answer is Answer.NOTE
    assert "bar 3" in end.text.lower()
    assert "driven_bar" not in {f.id for f in size(bars_design(bars__joined_by="chain")).findings}
    assert "5 alike" in found("driven_bar", bars__joined_by="one motor each").text


# -- motors ----------------------------------------------------------------------------------------


def test_a_motor_that_cannot_turn_back_does_only_where_none_has_to() -> None:
    to_and_fro = sized(motor__have="one way")
    assert to_and_fro.chosen is not None
    assert to_and_fro.chosen.finding("motor_reverses").answer is Answer.NO  # type: ignore[union-attr]
    always = sized(motor__have="one way", turning__sense="always the same")
    assert always.chosen is not None
    assert always.chosen.finding("motor_reverses") is None
    # The same move, over and over: the same torque and the same time.
    assert always.ends == to_and_fro.ends
