"""The contenders compute the same thing; a fast wrong answer is no contender."""

import numpy as np
import pytest

from tests.benchmarks.designs import bare_sweep, lengths, our_sweep, rack, scalar_build
from turnercalc.advice.sweep import sweep
from turnercalc.advice.tolerance.builds import ends_with_play
from turnercalc.building import build


def test_the_sweep_gives_what_the_bare_closed_form_gives() -> None:
    """Empty trays in a level box: one load, no eggs that lean."""
    design, varied = rack(), lengths(700)
    turner = build(design).turner
    empty = [case for case in turner.load_cases() if case.family == "empty"]
    ours = sweep(design, varied, grid=False, friction="none", loads=empty)
    up = 3 * 0.74 * -0.006
    np.testing.assert_allclose(ours.peak, bare_sweep(varied, 0.0, up, 0.24), rtol=1e-9)


def test_one_core_and_two_give_the_same() -> None:
    design, varied = rack(), lengths(3000)
    one, two = our_sweep(design, varied, 1), our_sweep(design, varied, 2)
    np.testing.assert_array_equal(one.peak, two.peak)
    np.testing.assert_array_equal(one.low, two.low)


def test_the_scalar_path_has_the_ends_of_the_builds() -> None:
    design, varied = rack(), lengths(4)
    many = ends_with_play(build(design), varied, [])
    for at in range(4):
        values = {path: float(array[at]) for path, array in varied.items()}
        low, high, _ = scalar_build(design, values)
        assert many.low[at] == pytest.approx(low, abs=1e-9)
        assert many.high[at] == pytest.approx(high, abs=1e-9)
