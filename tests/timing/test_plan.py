"""Timer settings, counts and shares of a whole rack with a motor."""

import numpy as np
import pytest

from tests.rack_design import driven_by, evidence
from turnercalc.timing.counting import count
from turnercalc.timing.plan import give_up_after


# 24, 96 and 3 turns a day are one every 60 min, 15 min and 8 h (arithmetic).
@pytest.mark.parametrize(("turns", "seconds"), [(24, 3600.0), (96, 900.0), (3, 28800.0)])
def test_so_many_turns_a_day_are_so_far_apart(turns: int, seconds: float) -> None:
    assert count(turns, 18, 21).interval == seconds


# Chickens turned 24 times a day to day 18: 432 turns; 96 times a day: 1728. Days: Virginia Tech
# Extension, science of incubation; 24 a day: Poultry Sci. 99 (2020) 4417. After a week a counter
# reads 7 x 24 = 168 (arithmetic).
@pytest.mark.parametrize(("turns", "in_all"), [(24, 432), (96, 1728), (3, 54)])
def test_the_counter_reads_turns_times_days(turns: int, in_all: int) -> None:
    found = count(turns, 18, 21)
    assert found.last_day_count == in_all
    assert found.day_7 == 7 * turns
    assert found.quiet_days == 3


def test_moves_that_do_not_change_sides_count_for_nothing() -> None:
    assert count(24, 18, 21, changes_sides=False).counted_per_day == 0.0
    assert count(24, 18, 21).counted_per_day == 24.0


def test_a_short_hatch_is_over_before_day_seven() -> None:
    assert count(24, 5, 8).day_7 == count(24, 5, 8).last_day_count == 120


# A synchronous motor holds its speed whatever the load: half a turn at n rpm takes 30/n s.
@pytest.mark.parametrize("rpm", [2.5, 6.0, 15.0])
def test_half_a_turn_takes_thirty_over_rpm_seconds(rpm: float) -> None:
    timing = driven_by(evidence(), rpm).timing
    assert timing is not None
    assert timing.shortest_move == pytest.approx(30.0 / rpm, rel=0.02)
    assert timing.longest_move == pytest.approx(30.0 / rpm, rel=0.02)
    assert timing.shaft_speed == pytest.approx(rpm * np.pi / 30.0)
    expected = timing.limits.gentleness.rate * rpm * np.pi / 30.0
    assert timing.peak_speed == pytest.approx(expected)


def test_stages_slow_the_shaft_by_their_ratio() -> None:
    plain = driven_by(evidence(), 6.0).timing
    chain = evidence(
        {"gearing.1.kind": "chain", "gearing.1.motor_teeth": 12, "gearing.1.driven_teeth": 24}
    )
    slowed = driven_by(chain, 6.0).timing
    assert plain is not None
    assert slowed is not None
    assert plain.shaft_speed is not None
    assert slowed.gear_ratio == pytest.approx(2.0)
    assert slowed.shaft_speed == pytest.approx(0.5 * plain.shaft_speed)
    assert plain.peak_acceleration is not None
    assert slowed.peak_acceleration == pytest.approx(0.25 * plain.peak_acceleration)


def test_the_wanted_ratio_makes_it_slow_enough_and_no_slower() -> None:
    timing = driven_by(evidence(), 60.0).timing
    assert timing is not None
    assert timing.gear_ratios_wanted is not None
    low, high = timing.gear_ratios_wanted
    # 60 rpm down to the 15 rpm of a two-second move, and to the half rpm of a minute's move
    assert low == pytest.approx(4.0, rel=0.02)
    assert high == pytest.approx(120.0, rel=0.02)


def test_a_move_is_given_up_after_twice_its_longest() -> None:
    assert give_up_after(6.1) == 13.0
    assert give_up_after(6.0) == 12.0
    assert give_up_after(float("inf")) is None
    assert give_up_after(None) is None


def test_a_sagging_motor_is_slower_up_and_faster_down() -> None:
    found = evidence()
    assert found.demand is not None
    peak = found.demand.hardest((found.better_direction,))[0]
    timing = driven_by(found, 6.0, stall_torque=3.0 * peak).timing
    assert timing is not None
    assert timing.shortest_move is not None
    assert timing.longest_move is not None
    assert timing.shortest_move < timing.longest_move
    assert timing.longest_move > 5.0
    assert timing.give_up_after == np.ceil(2.0 * timing.longest_move)


def test_parked_by_a_switch_the_day_is_spent_at_the_ends() -> None:
    timing = driven_by(evidence(), 6.0).timing
    assert timing is not None
    assert timing.share_beyond is not None
    assert timing.share_near_level is not None
    # at most the 5 s move of every 3600 s is spent elsewhere
    assert 1.0 - 5.1 / 3600.0 < timing.share_beyond < 1.0
    assert 0.0 < timing.share_near_level < 5.1 / 3600.0


def test_a_bare_timer_with_a_motor_off_its_label_spreads_over_the_whole_swing() -> None:
    found = evidence({"motor.stopped_by": "timer"})
    assert found.demand is not None
    peak = found.demand.hardest((found.better_direction,))[0]
    timing = driven_by(found, 6.0, stall_torque=4.0 * peak).timing
    assert timing is not None
    assert timing.drift is not None
    assert timing.drift.run_time == 5.0
    assert timing.drift.per_move != 0.0
    assert timing.drift.flat_after is not None
    assert timing.share_near_level is not None
    # a place spread evenly over a cosine's turn is within 20 of 45.6 degrees for a third of it
    assert timing.share_near_level > 0.1


def test_a_motor_that_keeps_its_speed_can_be_timed() -> None:
    timing = driven_by(evidence({"motor.stopped_by": "timer"}), 6.0).timing
    assert timing is not None
    assert timing.drift is not None
    assert timing.drift.per_move == pytest.approx(0.0, abs=1e-9)
    assert timing.drift.flat_after is None


def test_without_a_motor_nothing_is_made_up() -> None:
    timing = evidence().timing
    assert timing is not None
    assert timing.shaft_speed is None
    assert timing.shortest_move is None
    assert timing.give_up_after is None
    assert timing.peak_acceleration is None
    assert timing.share_beyond is None
    assert timing.drift is None
    assert timing.gear_ratios_wanted is None
    assert timing.counts.last_day_count == 432


def test_a_stalled_motor_has_no_settings() -> None:
    found = evidence()
    assert found.demand is not None
    peak = found.demand.hardest((found.better_direction,))[0]
    timing = driven_by(found, 6.0, stall_torque=0.5 * peak).timing
    assert timing is not None
    assert timing.longest_move == np.inf
    assert timing.give_up_after is None
