"""Settings of timers by arithmetic, and what each way of stopping leaves after a power cut."""

from dataclasses import replace

import numpy as np
import pytest

from turnercalc.timing.drift import drift
from turnercalc.timing.power_cut import power_cut
from turnercalc.timing.timers import Task, settings, time_words

# A crank at 6 rpm: half a turn in 5 s, a little less and more with the load.
PLAIN = Task(
    stopped_by="park switch",
    reverses=False,
    interval=3600.0,
    shortest=4.8,
    longest=5.6,
    run_time=5.0,
    shaft_speed=6.0 * np.pi / 30.0,
)


def told(**changes):
    return {timer.id: timer for timer in settings(replace(PLAIN, **changes))}


def test_a_park_switch_is_bridged_for_half_a_move():
    found = told()
    repeat, seconds = found["repeat_cycle_timer"], found["seconds_timer"]
    assert repeat.on_time == pytest.approx(2.4)
    assert seconds.on_time == 2.0
    for timer in (repeat, seconds):
        assert timer.does
        assert timer.on_time + timer.off_time == pytest.approx(3600.0)
        # long enough to leave, and off again before the shortest move is over
        assert 0.0 < timer.on_time < PLAIN.shortest


def test_a_slot_of_a_quarter_of_an_hour_is_no_pulse():
    slot = told()["slot_timer"]
    assert not slot.does
    assert slot.on_time is None
    assert "15 min" in slot.text
    assert "180 turns" in slot.text  # 900 s of moves of 5 s


def test_a_fast_move_needs_a_timer_with_tenths():
    found = told(shortest=1.0, longest=1.2, run_time=1.1)
    assert found["repeat_cycle_timer"].does
    assert not found["seconds_timer"].does
    assert "1 s" in found["seconds_timer"].text


def test_to_and_fro_between_end_switches_a_slot_timer_will_do():
    found = told(stopped_by="end switches", reverses=True)
    for timer in found.values():
        assert timer.does
        assert timer.on_time == timer.off_time == 3600.0
    assert "4 slots on" in found["slot_timer"].text
    odd = told(stopped_by="end switches", reverses=True, interval=2400.0)
    assert not odd["slot_timer"].does  # 40 min is no whole number of 15 min
    assert odd["repeat_cycle_timer"].does


def test_end_switches_on_a_crank_that_goes_round_work_like_a_park_switch():
    assert told(stopped_by="end switches")["repeat_cycle_timer"].on_time == pytest.approx(2.4)


@pytest.mark.parametrize(("run_time", "off_deg"), [(5.0, 18.0), (5.3, 18.0), (4.5, 18.0)])
def test_steps_of_a_second_leave_half_a_second_of_shaft(run_time, off_deg):
    # 36 degrees a second at 6 rpm; a step of 1 s is known to half a second
    seconds = told(stopped_by="timer", run_time=run_time)["seconds_timer"]
    assert seconds.on_time == round(run_time)
    assert np.degrees(seconds.off_by) == pytest.approx(off_deg)


def test_steps_of_a_tenth_are_ten_times_finer():
    repeat = told(stopped_by="timer")["repeat_cycle_timer"]
    assert np.degrees(repeat.off_by) == pytest.approx(1.8)


def test_by_time_alone_a_slot_timer_cannot():
    slot = told(stopped_by="timer")["slot_timer"]
    assert not slot.does
    assert "stop anywhere" in slot.text


def test_counted_steps_only_want_to_be_started():
    found = told(stopped_by="counted steps")
    assert found["slot_timer"].does
    assert found["slot_timer"].on_time == 900.0
    assert not told(stopped_by="counted steps", interval=900.0)["slot_timer"].does


def test_a_move_that_outlasts_the_interval_has_no_setting():
    assert not any(timer.does for timer in told(longest=4000.0).values())


def test_more_switching_times_than_a_timer_keeps_are_told():
    assert "24 switching times a day; many keep 20" in told()["seconds_timer"].text
    assert "many keep" not in told(interval=7200.0)["seconds_timer"].text
    both = told(stopped_by="end switches", reverses=True)["seconds_timer"].text
    assert "12 switching times" in both  # one on and off makes two moves


@pytest.mark.parametrize(
    ("time", "words"),
    [
        (2.4, "2.4 s"),
        (59.96, "1 min"),
        (3597.6, "59 min 57.6 s"),
        (3600.0, "1 h"),
        (7201, "2 h 1 s"),
    ],
)
def test_times_are_told_as_they_are_set(time, words):
    assert time_words(time) == words


# -- power cuts ----------------------------------------------------------------------------------


def cut(stopped_by, **changes):
    plain = {
        "longest": 6.0,
        "interval": 3600.0,
        "travel": np.pi,
        "holds": False,
        "holding_anywhere": 1.0,
    }
    return power_cut(stopped_by, **{**plain, **changes})


def test_switches_find_their_end_and_clocks_do_not():
    for kind, finds in (
        ("park switch", True),
        ("end switches", True),
        ("counted steps", False),
        ("timer", False),
    ):
        found = cut(kind)
        assert found.finds_its_end is finds
        assert found.most_off == (0.0 if finds else np.pi)
        assert found.share_in_move == pytest.approx(1.0 / 600.0)
        assert found.text
        assert found.do


def test_a_crank_that_goes_round_needs_no_relay_for_its_way():
    round_, to_and_fro = (cut("end switches", reverses=reverses) for reverses in (False, True))
    assert "which way it went" in to_and_fro.do
    for found in (round_, cut("end switches", reverses=False, anywhere=True)):
        assert "next end" in found.text
        assert "relay" not in found.text + found.do
        assert "both directions" not in found.do


def test_a_part_that_may_stand_anywhere_has_no_ends_to_be_off():
    for kind in ("timer", "counted steps"):
        found = cut(kind, anywhere=True)
        assert found.most_off == 0.0
        assert "goes on from there" in found.text
    assert cut("end switches", anywhere=True).text == cut("end switches").text


def test_a_loaded_tray_turns_back_what_does_not_hold():
    assert cut("timer").back_driven is True
    assert cut("timer", holds=True).back_driven is False
    assert cut("timer", holds=None).back_driven is None
    assert cut("timer", holding_anywhere=0.0, holds=None).back_driven is False


# -- each side of a drive that wanders off -------------------------------------------------------

THETA = np.arange(720) * np.pi / 360.0


def tilt(theta):
    """The two sides of an unequal linkage: 50 degrees at one end and 40 at the other."""
    return np.radians(5.0 - 45.0 * np.cos(theta))


def test_each_side_parks_level_where_its_linkage_says():
    rpm, run = 2.9637, 10.0
    found = drift(
        THETA,
        tilt(THETA),
        np.full(720, rpm * np.pi / 30.0),
        sense=1.0,
        start=0.0,
        run_time=run,
        flat=np.radians(35.0),
    )
    # by hand, one move after the other: n runs of 10.0 s turn the crank n x 177.82 degrees
    turned = np.radians(6.0 * rpm * run) * np.arange(1, 400)
    places = tilt(turned)
    high, low = places[0::2], places[1::2]
    for side, mine, first in ((found.sides[0], high, 0), (found.sides[1], -low, 1)):
        flat = int(np.flatnonzero(mine < np.radians(35.0))[0]) * 2 + first
        level = int(np.flatnonzero(mine <= 0.0)[0]) * 2 + first
        assert side.flat_after == flat
        assert side.level_after == level
    # a quarter turn off after 41 moves; the next to the high side is the 43rd, to the low the 42nd
    assert found.quarter_after == 41
    assert found.sides[0].at_quarter == pytest.approx(places[42], abs=1e-4)
    assert found.sides[1].at_quarter == pytest.approx(places[41], abs=1e-4)
    # the side that is 50 degrees steep lasts longer than the one of 40
    assert found.sides[0].level_after > found.sides[1].level_after
