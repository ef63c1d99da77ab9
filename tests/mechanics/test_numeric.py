"""The habits of arrays that are more than one line."""

import numpy as np
import pytest

from turnercalc.mechanics.numeric import cos_sin


def test_cosine_and_sine_are_those_of_the_c_library() -> None:
    angle = np.concatenate([np.linspace(-7.0, 7.0, 100_001), [1e3, -1e5, 1e-12, 0.0]])
    cos, sin = cos_sin(angle)
    np.testing.assert_allclose(cos, np.cos(angle), rtol=0.0, atol=1e-15)
    np.testing.assert_allclose(sin, np.sin(angle), rtol=0.0, atol=1e-15)


@pytest.mark.parametrize("quarters", range(-8, 9))
def test_quarter_turns_do_not_blow_up(quarters: int) -> None:
    cos, sin = cos_sin(quarters * 0.5 * np.pi)
    assert cos == pytest.approx(np.cos(quarters * 0.5 * np.pi), abs=2e-15)
    assert sin == pytest.approx(np.sin(quarters * 0.5 * np.pi), abs=2e-15)


def test_what_is_no_angle_has_neither() -> None:
    cos, sin = cos_sin([np.nan, 0.0])
    assert np.isnan([cos[0], sin[0]]).all()
    assert (cos[1], sin[1]) == (1.0, 0.0)
