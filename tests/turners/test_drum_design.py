"""The drum as a design file tells it: every drive, partial batches, every wrong input."""

from itertools import product

import numpy as np
import pytest

from tests.drum_design import CHEST, CRANK, ROD, ROLLERS, SLOT, STEPS, finding, sized
from turnercalc.building import build
from turnercalc.cycle import turn_cycle
from turnercalc.design.reader import read_design
from turnercalc.design.starter import starter_names, starter_text
from turnercalc.design.writer import write_design
from turnercalc.errors import CombinationError, DesignError
from turnercalc.findings import Answer
from turnercalc.sizing import size
from turnercalc.swing import rests
from turnercalc.turners.base import LoadCase
from turnercalc.turners.drum_loads import (
    ANY_ORDER,
    BALANCED,
    PAIRS,
    drum_load_cases,
    loading_order,
    order_moments,
)
from turnercalc.turners.rotating_drum import RotatingDrum

WAYS = {"shaft": {}, "steps": STEPS, "crank": CRANK, "slot": SLOT, "rod": ROD, "rollers": ROLLERS}
GRAVITY = 9.80665  # [m/s2], standard gravity (CGPM 1901)


# --- starter and example -----------------------------------------------------------------------


def test_the_starter_sizes_without_complaint() -> None:
    assert "drum" in starter_names()
    sizing = size(read_design(starter_text("drum")))
    assert sizing.verdict is Answer.FINE
    everything = read_design(starter_text("drum", everything=True))
    assert everything == read_design(starter_text("drum"))


@pytest.mark.parametrize("way", WAYS)
def test_every_drive_moves_it_as_far_as_is_wanted(way: str) -> None:
    sizing = sized(WAYS[way])
    low, high = sizing.turner.travel
    assert sizing.cycle is not None
    assert not sizing.cycle.jams.any()
    assert sizing.ends.low == pytest.approx(low, abs=np.radians(1.0))
    assert sizing.ends.high == pytest.approx(high, abs=np.radians(1.0))


@pytest.mark.parametrize("way", WAYS)
def test_energy_closes_with_every_drive(way: str) -> None:
    """What the motor gives over there and back is what friction takes; inertia left out."""
    cycle = sized(WAYS[way]).cycle
    assert cycle is not None
    if cycle.motion.round_and_round:
        work, lost = cycle.shaft_torque.mean(axis=-1), cycle.lost.mean(axis=-1)
    else:  # over and back again
        at = cycle.motion.position / np.ptp(cycle.motion.position)
        work, lost = (
            np.trapezoid(values, at).sum(axis=-1) for values in (cycle.shaft_torque, cycle.lost)
        )
    scale = np.abs(cycle.shaft_torque).max()
    np.testing.assert_allclose(work, lost, atol=1e-5 * scale)


def test_it_writes_back_what_it_read() -> None:
    design = read_design(CHEST)
    assert read_design(write_design(design)) == design


def test_us_units_mean_the_same() -> None:
    metric = sized()
    us = sized(drum__shelf_radius="5.90551 in", drum__empty_weight="6.39341 lb")
    assert us.cycle is not None
    assert metric.cycle is not None
    np.testing.assert_allclose(us.cycle.shaft_torque, metric.cycle.shaft_torque, atol=1e-4)


# --- known answers -----------------------------------------------------------------------------


def test_four_neighbours_of_eight_shelves_as_a_file() -> None:
    # Known answer: 8 shelves at 180 mm, 12 eggs of 58.333 g each, four neighbours: 3.23 N·m.
    sizing = sized(
        eggs__weighed="12 eggs = 700 g",
        drum__shelf_radius="180 mm",
        drum__eggs_per_shelf="12",
        drum__outside="450 mm",
        drum__empty_balance="balanced",
        drum__friction="0",
        loads=None,
    )
    drum = sizing.turner
    assert isinstance(drum, RotatingDrum)
    by_hand = 12 * 0.7 / 12 * GRAVITY * 0.180 / np.sin(np.pi / 8)
    assert by_hand == pytest.approx(3.23, abs=5e-3)
    assert finding(sizing, "imbalance").value == pytest.approx(by_hand)
    middle = {f.name: f.peaks[1].max() for f in sizing.families}
    assert middle["4 neighbours"] == pytest.approx(by_hand, rel=1e-4)
    # Fully balanced and without friction it needs nothing.
    assert abs(middle["full"]) < 1e-12
    assert abs(middle["opposite pairs"]) < 1e-12


def test_sixty_quail_eggs_on_six_shelves() -> None:
    # A known answer of 0.207 N·m: three neighbours of six shelves, 20 eggs = 9 oz, 3-1/4 in.
    sizing = sized(
        eggs__kind="coturnix quail",
        eggs__weighed="20 eggs = 9 oz",
        eggs__typical=None,
        eggs__largest=None,
        eggs__smallest=None,
        drum__shelves="6",
        drum__shelf_radius="3-1/4 in",
        drum__outside="8-1/4 in",
        drum__empty_balance="balanced",
        loads=None,
        with_motors=False,
    )
    worst = finding(sizing, "imbalance")
    assert worst.value == pytest.approx(0.207, abs=5e-4)
    assert "3 neighbours" in worst.text


# --- load cases --------------------------------------------------------------------------------


def test_the_worst_filling_is_the_worst_of_all_fillings() -> None:
    """Over a swing and with every drive's own friction, against all 2^8 by force."""
    built = build(read_design(CHEST, {"drum.empty_balance": "150 g at 120 mm toward shelf 3"}))
    fillings = [
        LoadCase(f"{n}", f"{n}", "any", True, np.array(cells))
        for n, cells in enumerate(product((0, 10), repeat=8))
    ]
    every = turn_cycle(built.turner, built.drive, fillings, count=61).shaft_torque.max(axis=0)
    ours = turn_cycle(built.turner, built.drive, built.turner.load_cases(), count=61)
    np.testing.assert_allclose(ours.shaft_torque.max(axis=0), every, atol=1e-12)


@pytest.mark.parametrize(
    ("filled", "planned"),
    [
        (ANY_ORDER, {"4 neighbours", "opposite pairs", "balanced order"}),
        (PAIRS, {"opposite pairs"}),
        (BALANCED, {"balanced order"}),
    ],
)
def test_a_promise_decides_what_is_planned(filled: str, planned: set[str]) -> None:
    families = {f.name: f.planned for f in sized(drum__filled=filled).families}
    kinds = ("4 neighbours", "opposite pairs", "balanced order")
    assert {name for name in kinds if families[name]} == planned
    assert families["full"]
    assert families["empty"]
    assert families["given what_four_neighbours_brought"]


def test_a_load_of_the_builders_own() -> None:
    case = next(c for c in sized().turner.load_cases() if c.name == "what four neighbours brought")
    assert case.cells.tolist() == [10, 7, 0, 0, 9, 8, 0, 0]
    assert case.egg_count == 34


@pytest.mark.parametrize("shelves", [2, 3, 4, 5, 6, 7])
@pytest.mark.parametrize("empty", [(0.0, 0.0), (0.3, -0.5)])
def test_no_order_of_filling_is_better(shelves: int, empty: tuple[float, float]) -> None:
    from itertools import permutations

    found = order_moments(loading_order(shelves, 1.0, empty), 1.0, empty)[1:].max()
    best = min(order_moments(order, 1.0, empty)[1:].max() for order in permutations(range(shelves)))
    assert found == pytest.approx(best, abs=1e-8)


def test_the_order_begins_with_shelf_1_and_names_each_once() -> None:
    for shelves in (2, 5, 8, 12, 17):
        order = loading_order(shelves)
        assert order[0] == 0
        assert sorted(order) == list(range(shelves))
        # Never more than one shelf out of balance, which the first one is already.
        assert order_moments(order, 1.0).max() == pytest.approx(1.0)


def test_cases_have_names_of_their_own() -> None:
    cases = drum_load_cases(6, 4, order=loading_order(6), given=[("a", [1] * 6), ("b", [0] * 6)])
    assert len({case.id for case in cases}) == len(cases)


# --- counterweight -----------------------------------------------------------------------------


@pytest.mark.parametrize("side", ["80 g at 50 mm toward shelf 1", "70 g at 120 mm toward shelf 6"])
def test_the_balancing_weight_balances(side: str) -> None:
    drum = sized(drum__empty_balance=side).turner
    assert isinstance(drum, RotatingDrum)
    weight = drum.balancing_weight(0.150)
    text = f"{1e3 * weight.mass:.6f} g at 150 mm toward shelf {weight.shelf:g}"
    again = sized(drum__empty_balance=side, drum__counterweight=text).turner
    assert isinstance(again, RotatingDrum)
    empty = np.zeros((1, 8))
    assert drum.imbalance(empty)[0] > 0.01
    assert again.imbalance(empty)[0] == pytest.approx(0.0, abs=1e-6)


# --- step by step ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("step", "count"), [("90 deg", 4), ("120 deg", 3), ("100 deg", 18), ("180 deg", 2)]
)
def test_steps_come_back_to_where_they_began(step: str, count: int) -> None:
    sizing = sized({**STEPS, "turning.step": step})
    assert len(rests(sizing.turner, sizing.ends)) == count
    assert sizing.demand is not None
    assert len(sizing.demand.move_spans) == count
    spans = {last - first for first, last in sizing.demand.move_spans}
    assert spans == {round(np.degrees(sizing.ends.total))}  # one index a degree


def test_one_step_takes_its_share_of_a_turn() -> None:
    # Worm 12 with a balanced drum hardly slows: 90 degrees at 12 rpm take 1.25 s.
    still = {**STEPS, "drum.filled": PAIRS, "motor.have": "planet 8"}
    timing = sized(still).timing
    assert timing is not None
    assert timing.run_time == pytest.approx(0.25 * 60 / 8)
    assert timing.longest_move == pytest.approx(0.25 * 60 / 8, rel=0.02)
    assert timing.drift is None
    assert timing.limits.longest_travel == pytest.approx(np.pi / 2)


def test_the_middle_of_a_drums_swing_is_no_place_to_avoid() -> None:
    timing = sized().timing
    assert timing is not None
    assert timing.share_near_level is None
    assert timing.share_beyond is None


# --- wrong input -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("settings", "says"),
    [
        ({"turning.motion": "shelves hang level"}, "never turn them"),
        ({"turning.motion": "gondolas"}, "never turn them"),
        ({"turning.motion": "trays swing with the drum"}, "never turn them"),
        ({"turning.swing": None}, "how far, to each side or in all"),
        ({"turning.swing": "95 deg"}, "in all"),
        ({"turning.motion": "step by step"}, "how far is one step"),
        ({"turning.motion": None}, "two machines"),
        ({"drum.eggs_per_shelf": "0"}, "at least 1"),
        ({"drum.shelves": "1"}, "not a drum"),
        ({"drum.empty_weight": "-3 kg"}, "-3 kg"),
        ({"drum.shelves": "7", "drum.filled": "in opposite pairs", "loads": None}, "opposite"),
        ({"drum.counterweight": "50 g at 100 mm toward shelf 9"}, "8 shelves"),
        ({"drum.outside": "290 mm"}, "300 mm"),
        ({"drum.empty_balance": "3 kg at 100 mm toward shelf 1"}, "part of the drum"),
        ({"drum.axle_diameter": None}, "How thick is the axle"),
        ({"drum.bearing": None}, "What does the axle turn in"),
        ({"drum.carried_by": "rollers"}, "[rollers]"),
        ({**ROLLERS, "rollers.spacing": "450 mm"}, "falls through"),
        ({**ROLLERS, "rollers.spacing": None}, "How far are the two rows"),
        ({**ROLLERS, "rollers.spacing": "30 mm"}, "touch each other"),
        ({**ROLLERS, "rollers.axle_diameter": "40 mm"}, "as thick as the roller"),
        ({**ROLLERS, "gearing.1.driven_diameter": "200 mm"}, "5 times slower"),
        ({"eggs.lie": "big end up"}, "stand on its head"),
        ({"eggs.lie": "on the side, across"}, "stand on its head"),
        ({"loads.1.shelves": "[1, 2]"}, "The number of shelves is 8"),
        ({"loads.1.shelves": "[11, 0, 0, 0, 0, 0, 0, 0]"}, "A shelf holds 0 to 10 eggs"),
    ],
)
def test_wrong_input_gets_a_clear_sentence(settings: dict[str, str | None], says: str) -> None:
    with pytest.raises(DesignError) as caught:
        build(read_design(CHEST, settings))
    every = " ".join(complaint.message for complaint in caught.value.complaints)
    assert says in every


@pytest.mark.parametrize(
    ("settings", "says"),
    [
        ({**CRANK, **STEPS}, "goes on the same way round"),
        ({**ROD, **ROLLERS, "gearing": None}, "loose on its rollers"),
    ],
)
def test_a_drive_that_makes_no_sense_names_one_that_does(
    settings: dict[str, str | None], says: str
) -> None:
    with pytest.raises(CombinationError, match=says) as caught:
        build(read_design(CHEST, settings))
    assert '"turning shaft"' in str(caught.value)


def test_a_friction_roller_is_the_last_stage() -> None:
    chain = {
        "gearing.2.kind": "chain",
        "gearing.2.motor_teeth": "12",
        "gearing.2.driven_teeth": "24",
    }
    with pytest.raises(DesignError, match="last stage"):
        build(read_design(CHEST, {**ROLLERS, **chain}))


def test_which_row_of_rollers_is_driven_tells_the_directions_apart() -> None:
    def costs(driven: str) -> list[float]:
        plain = {"rollers.bearing": "steel in nylon", "drum.filled": "in opposite pairs"}
        cycle = sized({**ROLLERS, **plain, "rollers.driven": driven}).cycle
        assert cycle is not None
        full = [case.family for case in cycle.loads].index("full")
        return [float(v) for v in cycle.lost[full, 1].mean(axis=-1)]

    left, right, one = costs("left side"), costs("right side"), costs("one side")
    assert right[1] > 1.02 * right[0]  # turning clockwise, the right row is pressed down
    assert left[0] == pytest.approx(right[1], rel=0.01)  # the empty drum is all but balanced
    assert (np.array(one) >= np.maximum(left, right)).all()  # at each place what costs more
    assert one == pytest.approx([max(*left), max(*right)], rel=0.01)


def test_rollers_that_no_motor_turns_are_dragged_alike_either_way() -> None:
    chain = {
        "gearing.1.kind": "chain",
        "gearing.1.motor_teeth": "12",
        "gearing.1.driven_teeth": "24",
        "gearing.1.motor_diameter": None,
        "gearing.1.driven_diameter": None,
    }
    cycle = sized({**ROLLERS, **chain}).cycle
    assert cycle is not None
    assert cycle.lost[:, :, 0] == pytest.approx(cycle.lost[:, :, 1])


def test_only_what_holds_overhead_is_offered_but_the_rest_is_read_and_judged() -> None:
    with pytest.raises(DesignError) as caught:
        read_design(CHEST, {"eggs.held_by": "glue"})
    (complaint,) = caught.value.complaints
    assert complaint.accepted == ("foam and net",)
    assert "cells" not in complaint.message
    cups = sized({"eggs.held_by": "cups", "eggs.cup_depth": "15 mm"})
    assert finding(cups, "held_over").text.startswith("Foam cups hold eggs from below only")
