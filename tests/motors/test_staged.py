"""A stock stage behind a motor that does not fit: what it promises is what the design then says."""

from functools import cache
from pathlib import Path

import pytest

from turnercalc.design import read_design
from turnercalc.findings import Answer
from turnercalc.motors import read_motors
from turnercalc.motors.staged import DRIVEN_TEETH, MOTOR_TEETH, pairs
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


def with_pair(motor_teeth: int, driven_teeth: int):
    return (
        ("gearing.1.kind", "chain"),
        ("gearing.1.motor_teeth", str(motor_teeth)),
        ("gearing.1.driven_teeth", str(driven_teeth)),
    )


@pytest.mark.parametrize("name", ["worm 5", "worm 12", "spur 6", "wiper"])
def test_the_pair_makes_the_motor_do_and_the_design_agrees(name):
    staged = result(sized(), name).staged
    assert staged is not None
    assert staged.result.verdict is Answer.FINE
    after = result(sized(*with_pair(staged.motor_teeth, staged.driven_teeth)), name)
    assert after.verdict is Answer.FINE
    assert after.times_enough == pytest.approx(staged.result.times_enough, rel=1e-9)


def test_no_smaller_pair_would_do():
    staged = result(sized(), "worm 12").staged
    smaller = DRIVEN_TEETH[DRIVEN_TEETH.index(staged.driven_teeth) - 1]
    assert result(sized(*with_pair(12, smaller)), "worm 12").verdict is not Answer.FINE


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
    # 0.2 times enough at 5 rpm: five times slower is too weak still
    assert result(sized(), "turntable").staged is None


def test_a_motor_is_also_judged_without_the_stages_of_the_design():
    geared = sized(*with_pair(12, 36))
    alone = result(geared, "worm 12").without_stages
    assert alone is not None
    assert alone.times_enough == pytest.approx(result(sized(), "worm 12").times_enough, rel=1e-9)
    assert result(sized(), "worm 12").without_stages is None


def test_shops_stock_the_pairs():
    stocked = stock_teeth("chain")
    assert MOTOR_TEETH in stocked
    assert set(DRIVEN_TEETH) <= set(stocked)
    assert pairs(faster=True)[0] == tuple(reversed(pairs()[0]))
