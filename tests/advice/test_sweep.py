"""Sweeps: the numbers of the command line, for arrays of designs."""

import math
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from turnercalc.advice.ranges import read_range
from turnercalc.advice.sweep import sweep
from turnercalc.design import Design, read_design
from turnercalc.errors import UnitError, UnknownNameError
from turnercalc.loads import hardest
from turnercalc.sizing import size

EXAMPLES = Path(__file__).parents[2] / "examples"


@cache
def larder() -> Design:
    return read_design(EXAMPLES / "larder-rack.toml")


VARY = {"crank.radius": [0.04, 0.05, 0.056, 0.09], "link.length": [0.16, 0.211, 0.22, 0.30]}


def test_every_design_of_a_sweep_is_as_it_is_sized() -> None:
    found = sweep(larder(), VARY)
    assert found.shape == (4, 4)
    assert 4 < found.closes.sum() < 16
    for at in range(16):
        values = {path: float(column[at]) for path, column in found.varied.items()}
        with np.errstate(invalid="ignore"):  # one of them comes to its jam point
            sizing = size(larder().replace(values, si=True))
        assert found.closes[at] == (sizing.cycle is not None)
        if sizing.cycle is None:
            assert found.reason_of(at) in sizing.reason.text or "link" in found.reason_of(at)
            assert np.isnan(found.low[at])
            assert np.isnan(found.peak[at]).all()
            assert ("short" in found.reason_of(at)) == ("short" in sizing.reason.text)
            continue
        assert found.low[at] == pytest.approx(sizing.ends.low, abs=1e-10)
        assert found.high[at] == pytest.approx(sizing.ends.high, abs=1e-10)
        peaks = [hardest(sizing.cycle, 1, way).torque for way in (0, 1)]
        np.testing.assert_allclose(found.peak[at], peaks, rtol=1e-9)


def test_arrays_and_one_by_one_agree() -> None:
    """The same designs with a field that has no array kernel, set to what it is anyway."""
    fast = sweep(larder(), VARY)
    slow = sweep(larder(), {**VARY, "trays.empty_weight": [0.74]})
    np.testing.assert_allclose(fast.low, slow.low, atol=1e-10)
    np.testing.assert_allclose(fast.high, slow.high, atol=1e-10)
    np.testing.assert_allclose(fast.peak, slow.peak, rtol=1e-9)
    assert (fast.closes == slow.closes).all()


def test_without_friction_the_peak_is_the_kernel_and_less() -> None:
    free = sweep(larder(), VARY, friction="none")
    rubbed = sweep(larder(), VARY)
    both = free.closes & np.isfinite(rubbed.better)
    assert (free.better[both] < rubbed.better[both]).all()
    assert (free.closes == rubbed.closes).all()


def test_blocks_and_cores_change_nothing() -> None:
    rng = np.random.default_rng(3)
    vary = {"crank.radius": rng.uniform(0.04, 0.07, 2500), "arm.length": np.full(2500, 0.08)}
    one, two = (sweep(larder(), vary, grid=False, friction="none", cores=n) for n in (1, 2))
    np.testing.assert_array_equal(one.peak, two.peak)
    few = {path: values[2100:2110] for path, values in vary.items()}
    again = sweep(larder(), few, grid=False, friction="none")
    np.testing.assert_allclose(one.low[2100:2110], again.low, rtol=1e-12)


def test_full_sizings_have_verdicts() -> None:
    filled = ("in any order", "in mirror pairs")
    found = sweep(larder(), {"trays.filled": filled}, full=True)
    assert found.verdict is not None
    for at, words in enumerate(filled):
        assert found.verdict[at] == size(larder().replace({"trays.filled": words})).verdict.value


def test_a_value_that_is_refused_has_its_reason() -> None:
    found = sweep(larder(), {"trays.count": [3, 2]})
    assert found.closes.tolist() == [True, False]
    assert "refused" in found.reason_of(1)  # a load of the file's own is for three trays
    assert "trays" in found.reason_of(1)


def test_arrays_dictionary_and_notebook() -> None:
    found = sweep(larder(), VARY, friction="none")
    arrays = found.to_arrays()
    assert {"crank.radius", "closes", "low_end_rad", "reason"} <= set(arrays)
    assert all(len(values) == 16 for values in arrays.values())
    assert None in found.to_dict()["low_end_rad"]
    assert found._repr_html_().startswith("<table>")


def test_wrong_words() -> None:
    with pytest.raises(UnknownNameError, match=r"Nearest: crank\.radius"):
        sweep(larder(), {"crank.radios": [0.05]})
    with pytest.raises(ValueError, match="equally many"):
        sweep(larder(), {"crank.radius": [1, 2], "link.length": [1]}, grid=False)
    with pytest.raises(ValueError, match="name a field"):
        sweep(larder(), {})
    with pytest.raises(ValueError, match="friction is one of"):
        sweep(larder(), {"crank.radius": [0.05]}, friction="some")


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("crank.radius=40..60mm:10mm", (0.04, 0.05, 0.06)),
        ("crank.radius = 40 mm .. 6 cm : 10 mm", (0.04, 0.05, 0.06)),
        ("crank.height=-260..-180mm:40mm", (-0.26, -0.22, -0.18)),
        ("crank.height=200 mm below pivot|150 mm below pivot", (-0.2, -0.15)),
        ("trays.count=2..4", (2, 3, 4)),
        ("trays.filled=in any order|in mirror pairs", ("in any order", "in mirror pairs")),
        ("crank.radius=2in", (0.0508,)),
        ("link.length=1/2..1 in:1/4 in", (0.0127, 0.01905, 0.0254)),
    ],
)
def test_ranges_as_they_are_written(text: str, values: tuple[object, ...]) -> None:
    assert read_range(larder(), text).values == pytest.approx(values)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("crank.radius", "gives no field its values"),
        ("crank.radius=60..40mm", "runs backwards"),
        ("crank.radius=40..60mm:0mm", "no step"),
        ("crank.radius=40..60", "40 what"),
    ],
)
def test_ranges_that_are_none(text: str, words: str) -> None:
    with pytest.raises(UnitError, match=words):
        read_range(larder(), text)


def test_nothing_is_clipped() -> None:
    """A link that just reaches closes, one a hair shorter does not."""
    crank, across, height, arm = 0.056, 0.056, 0.22, 0.08
    shortest = math.hypot(across, height) + crank - arm
    found = sweep(larder(), {"link.length": [shortest - 1e-6, shortest + 1e-3]}, friction="none")
    assert found.closes.tolist() == [False, True]


def test_a_length_that_a_file_refuses_is_masked() -> None:
    found = sweep(larder(), {"crank.radius": [0.0, -0.05, 0.05]}, friction="none")
    assert found.closes.tolist() == [False, False, True]
    assert "refused" in found.reason_of(0)
    assert np.isnan(found.peak[:2]).all()
