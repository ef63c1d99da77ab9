"""Sweeps: the numbers of the command line, for arrays of designs."""

import json
import math
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from matplotlib.figure import Figure
from matplotlib.text import Text

from turnercalc.advice.ranges import read_range
from turnercalc.advice.sweep import sweep
from turnercalc.design import Design, read_design
from turnercalc.errors import AskedError, UnitError, UnknownNameError
from turnercalc.handover import sweep_table
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


@pytest.mark.parametrize(
    ("vary", "rest", "words"),
    [
        ({"crank.radius": [1, 2], "link.length": [1]}, {"grid": False}, "equally many"),
        ({}, {}, "name a field"),
        (None, {}, "name a field"),
        ({"crank.radius": []}, {}, "at least one value"),
        ({"crank.radius": np.ones((2, 2))}, {}, "2 dimensions"),
        ({"crank.radius": [[0.05], [0.06]]}, {}, "a number in SI or a text"),
        ({"crank.radius": [object()]}, {}, "a number in SI or a text"),
        ({"crank.radius": [0.05]}, {"friction": "some"}, "friction is one of"),
        ({"crank.radius": [0.05]}, {"cores": 0}, "cores: a whole number"),
        ({"crank.radius": [0.05]}, {"loads": []}, "loads: at least one"),
        ({path: np.ones(4000) for path in ("crank.radius", "link.length")}, {}, "16,000,000"),
    ],
)
def test_what_cannot_be_swept_is_refused_in_words(
    vary: dict[str, object], rest: dict[str, object], words: str
) -> None:
    with pytest.raises(AskedError, match=words):
        sweep(larder(), vary, **rest)  # type: ignore[arg-type]


def test_a_field_or_text_that_is_none_is_refused() -> None:
    with pytest.raises(UnknownNameError, match=r"Nearest: crank\.radius"):
        sweep(larder(), {"crank.radios": [0.05]})
    with pytest.raises(UnitError, match="wide"):
        sweep(larder(), {"crank.radius": ["wide"]})


def test_texts_are_read_as_the_file_has_them() -> None:
    """A sweep takes what `replace` takes; one value need not be a list."""
    texts = sweep(larder(), {"crank.radius": ["50 mm", 0.056], "link.length": "220 mm"})
    np.testing.assert_allclose(texts.varied["crank.radius"], [0.05, 0.056])
    numbers = sweep(larder(), {"crank.radius": [0.05, 0.056], "link.length": [0.22]})
    np.testing.assert_array_equal(texts.peak, numbers.peak)
    below = sweep(larder(), {"crank.height": ["220 mm below pivot"]}, friction="none")
    assert below.varied["crank.height"].tolist() == [-0.22]


def test_what_is_neither_figure_nor_word_is_swept_as_it_is_written() -> None:
    values = read_range(larder(), "motor.supply=12 V|24 V").values
    assert values == ("12 V", "24 V")
    found = sweep(larder(), {"motor.supply": values}, friction="none")
    assert found.closes.all()
    assert json.loads(sweep_table.as_json(larder(), found))["columns"]["motor.supply"] == [
        "12 V",
        "24 V",
    ]
    ranges = sweep(larder(), {"pivots.friction": ["0.1 to 0.2", "0.2 to 0.4"]})
    assert ranges.better[0] < ranges.better[1]


def test_what_is_no_number_is_masked_with_its_reason() -> None:
    found = sweep(larder(), {"crank.radius": [math.nan, 0.05, math.inf]}, friction="none")
    assert found.closes.tolist() == [False, True, False]
    assert "refused" in found.reason_of(0)


def test_names_say_what_they_hold() -> None:
    """The same names in a table of a script and in CSV, but for the unit of the ends."""
    found = sweep(larder(), VARY)
    arrays, printed = found.to_arrays(), sweep_table.columns(larder(), found)
    peaks = [name for name in arrays if name.startswith("peak")]
    assert peaks == [
        "peak_shaft_torque_Nm",
        "peak_shaft_torque_anticlockwise_Nm",
        "peak_shaft_torque_clockwise_Nm",
    ]
    assert set(peaks) < set(printed)
    for at in np.flatnonzero(found.closes & np.isfinite(found.better)):
        lower = min(peaks[1:], key=lambda name: arrays[name][at])
        assert arrays["better_direction"][at] in lower
        assert arrays[peaks[0]][at] == arrays[lower][at]
        assert printed["better_direction"][at] == arrays["better_direction"][at]


def test_a_rod_goes_out_and_in_and_the_harder_way_counts() -> None:
    shed = read_design(EXAMPLES / "potting-shed-rack.toml")
    found = sweep(shed, {"arm.length": [0.08, 0.085]})
    arrays = found.to_arrays()
    out, into = arrays["peak_push_out_N"], arrays["peak_push_in_N"]
    np.testing.assert_array_equal(arrays["peak_push_N"], np.maximum(out, into))
    assert arrays["harder_direction"].tolist() == ["out", "out"]
    assert float(found.better[1]) == pytest.approx(30.4, abs=0.05)  # the page of `size`


def test_friction_that_jams_is_the_reason_everywhere() -> None:
    vary = {"link.length": np.arange(0.200, 0.260, 0.002)}
    found = sweep(larder(), vary)
    assert found.jams.any()
    jam = int(np.flatnonzero(found.jams)[0])
    assert found.to_arrays()["reason"][jam] == "friction jams it"
    assert sweep_table.columns(larder(), found)["reason"][jam] == "friction jams it"
    assert found.to_arrays()["better_direction"][jam] == ""


def words_in(sheet: Figure) -> str:
    """Return every word of a figure."""
    return " ".join(text.get_text() for text in sheet.findobj(Text))


def test_a_plot_says_which_turn_it_shows_and_where_its_gaps_come_from() -> None:
    found = sweep(larder(), {"link.length": np.arange(0.180, 0.260, 0.01)})
    told = words_in(sweep_table.figure(larder(), found))
    assert "in either direction, middle friction" in told
    assert f"{int((~found.closes).sum())} do not go through" in told
    free = sweep(larder(), VARY, friction="none")
    told = words_in(sweep_table.figure(larder(), free))
    assert "in the better direction, without friction" in told
    assert "hardest planned turn, N·m" in told


def test_a_plot_of_nothing_says_why() -> None:
    found = sweep(larder(), {"link.length": [0.1, 0.12, 0.9]})
    told = words_in(sweep_table.figure(larder(), found))
    assert "None of these 3 designs turns" in told
    assert "2 times: the link is too short" in told
    assert "1 times: the link is too long" in told


def test_rounding_does_not_fill_a_plot() -> None:
    shed = read_design(EXAMPLES / "potting-shed-rack.toml")
    found = sweep(shed, {"arm.length": [0.08, 0.085, 0.09]}, friction="none")
    low, high = sweep_table.figure(shed, found, "ends").axes[0].get_ylim()
    assert high - low > 0.5  # degrees: they all stop at 45 degrees


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
        # The words of the file, said once for both ends; the steps begin where it says.
        ("crank.height=200..230 mm below pivot:20mm", (-0.22, -0.2)),
        ("crank.height=20 mm below pivot..20 mm above pivot:20 mm", (-0.02, 0.0, 0.02)),
        ("crank.height=-20..20mm:20mm", (-0.02, 0.0, 0.02)),
        ("eggs.weighed=10 eggs = 580..600 g:10 g", (0.058, 0.059, 0.06)),
        ("eggs.weighed=58..60 g each:1 g", (0.058, 0.059, 0.06)),
        ("turning.tilt=60..90 deg in all:30 deg", (math.radians(30), math.radians(45))),
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
        ("crank.radius=1..60mm:0.00001mm", "5,900,001 values; 1,000,000 is the most"),
        ("crank.radius=40..60", "40 what"),
        ("crank.height=200..220mm:10mm", "On which side of the pivot.*200..220mm below pivot"),
        ("crank.height=200mm|220mm", "On which side of the pivot"),
        ("crank.height=200..220mm below axle", "measured from the pivot"),
        ("eggs.weighed=580..600g", "of how many eggs"),
        ("turning.tilt=30..45deg", "each side of level, or 30 in all"),
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
