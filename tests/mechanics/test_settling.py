"""Friction that depends on the force it makes, in its simplest form: F = H + s g |F|.

By hand: where friction adds (s = +1, H > 0) the balance is H/(1 - g), and there is none from a
gain of 1 on; where it relieves (H < 0) it is H/(1 + g) at any gain.
"""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from turnercalc.mechanics.settling import MOST_ROUNDS, settle


def settled(load: float, gain: object) -> tuple[np.ndarray, np.ndarray]:
    gains = np.asarray(gain, float)
    (force,), agrees = settle(
        lambda values: (load + gains * np.abs(values[0]),),
        (np.full(gains.shape, load),),
        lambda values: 1e-12 * np.abs(values[0]),
    )
    return force, agrees


@given(st.floats(0.0, 0.85))
def test_hindering_friction_adds_up(gain: float) -> None:
    force, agrees = settled(2.0, gain)
    assert agrees
    assert force == pytest.approx(2.0 / (1.0 - gain), rel=1e-9)


@given(st.floats(1.0, 1e3))
def test_from_a_gain_of_one_on_hindering_friction_has_no_balance(gain: float) -> None:
    assert not settled(2.0, gain)[1]


@given(st.floats(0.0, 60.0))
def test_relieving_friction_always_has_a_balance(gain: float) -> None:
    # At just 2 the first whole step lands on H/(1 - g), a second balance that nothing leads to:
    # there the drive would have to push with all its own friction against a load that helps.
    assume(abs(gain - 2.0) > 1e-9)
    force, agrees = settled(-2.0, gain)
    assert agrees
    assert force == pytest.approx(-2.0 / (1.0 + gain), rel=1e-9)


def test_elements_settle_on_their_own() -> None:
    force, agrees = settled(-1.0, [0.0, 0.5, 0.99, 1.01, 3.0, 40.0])
    assert agrees.all()
    np.testing.assert_allclose(force, [-1, -1 / 1.5, -1 / 1.99, -1 / 2.01, -0.25, -1 / 41])


def test_values_that_run_away_are_given_up_early() -> None:
    rounds = 0

    def answer(values: tuple[np.ndarray, ...]) -> tuple[np.ndarray, ...]:
        nonlocal rounds
        rounds += 1
        return (1.0 + 2.0 * values[0],)

    assert not settle(answer, (np.ones(3),), lambda _: np.zeros(3))[1].any()
    assert rounds < 2 * MOST_ROUNDS


def test_what_is_not_wanted_costs_nothing() -> None:
    rounds = 0

    def answer(values: tuple[np.ndarray, ...]) -> tuple[np.ndarray, ...]:
        nonlocal rounds
        rounds += 1
        return (np.array([1.0, np.nan]) + 0.0 * values[0],)

    (force,), agrees = settle(
        answer, (np.zeros(2),), lambda _: np.full(2, 1e-12), np.array([True, False])
    )
    assert force[0] == 1.0
    assert agrees.tolist() == [True, False]
    assert rounds < 4
