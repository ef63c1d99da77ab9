"""What a timer alone does to a crank, against arithmetic and against a stopwatch simulation."""

import numpy as np
import pytest

from turnercalc.timing.drift import drift, in_sense, moves_before, stops

TURN = 2.0 * np.pi
THETA = np.arange(360) * np.pi / 180.0


def tilt(theta: np.ndarray) -> np.ndarray:
    return np.asarray(np.radians(45.0) * np.cos(theta))


# A salvaged turntable motor, labelled 3 rpm and measured at 2.9637 rpm, run 10.0 s each hour for
# half a turn: 2.18 degrees short a move, a quarter turn off after 41 moves, so that at 24 a day
# the tray parks level after 1.7 days. A builder's measurement; the rest is arithmetic, redone here.
def test_a_motor_a_little_slower_than_its_label_parks_level_after_two_days() -> None:
    rpm = 2.9637
    short = 180.0 - 6.0 * rpm * 10.0
    assert short == pytest.approx(2.18, abs=0.005)
    moves = int(90.0 / short)
    assert moves == 41
    assert moves / 24.0 == pytest.approx(1.7, abs=0.01)

    found = drift(
        THETA,
        tilt(THETA),
        np.full(360, rpm * np.pi / 30.0),
        sense=1.0,
        start=0.0,
        run_time=10.0,
        flat=np.radians(35.0),
    )
    assert np.degrees(found.per_move) == pytest.approx(-short)
    assert found.quarter_after == moves
    # 45 cos(n x 2.178 deg) is first under 35 degrees at n = 18 (17.87): 17 moves pass before it
    assert found.flat_after == int(np.degrees(np.arccos(35.0 / 45.0)) / short)


def test_a_run_time_that_fits_never_drifts() -> None:
    found = drift(
        THETA,
        tilt(THETA),
        np.full(360, 0.5),
        sense=-1.0,
        start=np.pi,
        run_time=2.0 * np.pi,
        flat=np.radians(35.0),
    )
    assert found.per_move == pytest.approx(0.0, abs=1e-12)
    assert found.quarter_after is None
    assert found.flat_after is None


@pytest.mark.parametrize("sense", [1.0, -1.0])
def test_stops_of_an_uneven_turn_are_those_of_small_steps_in_time(sense: float) -> None:
    def pace(theta: float) -> float:
        return float(0.5 + 0.3 * np.sin(theta) + 0.1 * np.cos(3.0 * theta))

    start, run_time, moves = 0.3, 4.0, 5
    turned, speed = in_sense(THETA, [pace(t) for t in THETA], sense)
    found = stops(turned, speed, sense * start, run_time, moves)

    here, step, passed = start, 1e-3, []
    for _ in range(moves):
        for _ in range(round(run_time / step)):
            middle = here + 0.5 * sense * step * pace(here)
            here += sense * step * pace(middle)
        passed.append(abs(here - start))
    # speeds stand every degree: between them a place is known to a few hundredths of a degree
    np.testing.assert_allclose(found, passed, atol=np.radians(0.05))


def test_moves_add_up_whatever_the_load_does() -> None:
    speed = 0.5 + 0.4 * np.sin(THETA) ** 2
    once = stops(THETA, speed, 1.0, 3.0, 8)
    twice = stops(THETA, speed, 1.0, 6.0, 4)
    np.testing.assert_allclose(once[1::2], twice, atol=1e-12)


def test_a_shaft_that_stands_still_has_no_stops() -> None:
    speed = np.full(360, 0.5)
    speed[100] = 0.0
    assert np.isnan(stops(THETA, speed, 0.0, 3.0, 4)).all()


def test_the_first_bad_move_is_counted_from_the_good_ones_before_it() -> None:
    assert moves_before([False, False, True, False]) == 2
    assert moves_before([False] * 9) is None
