"""A stock stage behind a motor that does not fit: what it promises is what the design then says."""

from functools import cache
from pathlib import Path

import pytest

from turnercalc.advice.gears import nearest_trains
from turnercalc.advice.which_motor import which_motor
from turnercalc.design import read_design
from turnercalc.findings import Answer
from turnercalc.motors import read_motors
from turnercalc.motors.staged import RATIOS, TWO_STAGES, stock_pair, trains
from turnercalc.sizing import size
from turnercalc.tables import stage_losses, stock_teeth

EXAMPLES = Path(__file__).parents[2] / "examples"


@cache
def motor_file():
    return read_motors(EXAMPLES / "motors.csv")


@cache
def sized(*settings: tuple[str, str]):
    return size(read_design(EXAMPLES / "larder-rack.toml", dict(settings)), motor_file())


def result(found, name):
    return next(r for r in found.motors if r.motor.id == name)


def with_pairs(*pairs: tuple[int, int]):
    return tuple(
        (f"gearing.{number}.{key}", str(value))
        for number, (motor, driven) in enumerate(pairs, start=1)
        for key, value in (("kind", "chain"), ("motor_teeth", motor), ("driven_teeth", driven))
    )


@pytest.mark.parametrize("name", ["worm 5", "worm 12", "spur 6", "wiper"])
def test_the_pair_makes_the_motor_do_and_the_design_agrees(name):
    staged = result(sized(), name).staged
    assert staged is not None
    assert staged.result.verdict is Answer.FINE
    after = result(sized(*with_pairs(*staged.pairs)), name)
    assert after.verdict is Answer.FINE
    assert after.times_enough == pytest.approx(staged.result.times_enough, rel=1e-9)


def test_no_smaller_pair_would_do():
    staged = result(sized(), "worm 12").staged
    smaller = trains()[trains().index(staged.pairs) - 1]
    assert result(sized(*with_pairs(*smaller)), "worm 12").verdict is not Answer.FINE


def test_the_torque_goes_with_ratio_and_efficiency():
    plain = result(sized(), "worm 12")
    rated, ratio = 1.4, plain.staged.ratio  # N·m on the listing
    losses = stage_losses("chain")
    asked = rated / plain.times_enough / ratio / losses.efficiency.middle
    asked += losses.no_load_drag or 0.0
    # the little that inertia asks falls with the third power of the ratio
    assert plain.staged.result.times_enough == pytest.approx(rated / asked, rel=5e-3)


def test_motors_that_do_and_motors_no_stage_helps_get_none():
    assert result(sized(), "syn 60").staged is None
    assert result(sized(), "jack").staged is None
    assert result(sized(), "club find").staged is None


def test_what_no_train_makes_fine_gets_the_one_that_makes_it_strongest():
    """0.2 times enough: eight times slower, the steepest single stage, it is marginal."""
    staged = result(sized(), "turntable").staged
    assert staged.result.verdict is Answer.MARGINAL
    assert staged.ratio == max(RATIOS)


def test_a_motor_is_also_judged_without_the_stages_of_the_design():
    geared = sized(*with_pairs((12, 36)))
    alone = result(geared, "worm 12").without_stages
    assert alone is not None
    assert alone.times_enough == pytest.approx(result(sized(), "worm 12").times_enough, rel=1e-9)
    assert result(sized(), "worm 12").without_stages is None


@pytest.mark.parametrize("kind", ["chain", "toothed belt", "spur"])
def test_shops_stock_the_pairs_and_none_smaller_is_as_near(kind):
    stocked = stock_teeth(kind)
    for pair in (pair for train in trains(kind) for pair in train):
        assert set(pair) <= set(stocked)
    for ratio in RATIOS:
        motor, driven = stock_pair(ratio, kind)
        assert (motor, driven) == nearest_trains(ratio, kind, stages=1, count=1)[0].pairs[0]


def test_the_pair_of_a_ratio_is_that_ratio():
    for train, ratio in zip(trains(), RATIOS, strict=False):
        assert train[0][1] / train[0][0] == pytest.approx(ratio)
    assert len(trains()) == len(RATIOS) + len(TWO_STAGES)
    for (driven, motor), (motor_too, driven_too) in zip(
        [train[0] for train in trains(faster=True)], [train[0] for train in trains()], strict=False
    ):
        assert (driven, motor) == (driven_too, motor_too)


@pytest.mark.parametrize("example", ["larder-rack", "tool-chest-drum", "seed-tray-grid"])
def test_the_search_among_all_motors_finds_the_same_train(example):
    """What a sizing says of a motor behind stock stages, and what `which_motor` says, is one."""
    design = read_design(EXAMPLES / f"{example}.toml", {"motor.have": None})
    found = {m.motor: m for m in which_motor(design, motor_file(), other_lengths=False)}
    for one in size(design, motor_file()).motors:
        match = found[one.motor.id]
        best = one if one.staged is None else one.staged.result
        assert best.verdict is match.verdict, one.motor.id
        if match.works:
            pairs = None if match.train is None else match.train.pairs
            assert (one.staged.pairs if one.staged else None) == pairs, one.motor.id
