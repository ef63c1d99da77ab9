"""Gear pairs against every combination there is."""

import itertools
import json
import math
from fractions import Fraction

import pytest

from turnercalc.advice.gears import STEEPEST, nearest_trains
from turnercalc.errors import AskedError, UnknownNameError
from turnercalc.handover.display import Style
from turnercalc.handover.gears_page import as_json, page
from turnercalc.tables import stock_teeth


def every_train(teeth: tuple[int, ...], stages: int) -> dict[Fraction, int]:
    """Return every ratio of so many stages with the fewest teeth that make it."""
    pairs = [(a, b) for a in teeth for b in teeth if 1 / STEEPEST <= Fraction(b, a) <= STEEPEST]
    found: dict[Fraction, int] = {}
    for train in itertools.combinations_with_replacement(pairs, stages):
        ratio = math.prod((Fraction(b, a) for a, b in train), start=Fraction(1))
        count = sum(a + b for a, b in train)
        found[ratio] = min(found.get(ratio, count), count)
    return found


SOME = (12, 15, 17, 20, 24, 32, 45, 60)


@pytest.mark.parametrize("stages", [1, 2, 3])
@pytest.mark.parametrize("wanted", [0.3, 1.0, 2.37, math.pi, 7.3, 31.0, 499.0])
def test_nearest_trains_are_those_of_exhaustive_search(stages: int, wanted: float) -> None:
    every = every_train(SOME, stages)
    ranked = sorted(every, key=lambda ratio: abs(math.log(ratio / Fraction(wanted))))
    found = nearest_trains(wanted, stages=stages, count=4, teeth=SOME)
    assert len(found) == 4
    for train, best in zip(found, ranked, strict=False):
        exact = math.prod((Fraction(b, a) for a, b in train.pairs), start=Fraction(1))
        ours, theirs = (abs(math.log(ratio / Fraction(wanted))) for ratio in (exact, best))
        assert ours == pytest.approx(theirs, abs=1e-12)
        assert train.ratio == pytest.approx(float(exact))
        assert train.off == pytest.approx(float(exact) / wanted - 1)
        assert train.teeth == every[exact]


def test_one_and_two_stages_of_the_whole_stock_list() -> None:
    stock = stock_teeth("spur")
    for wanted in (2.4, 7.77):
        one = nearest_trains(wanted, stages=1, count=1)[0]
        every = [b / a for a in stock for b in stock if 1 / STEEPEST <= b / a <= STEEPEST]
        best = min(every, key=lambda ratio: abs(math.log(ratio / wanted)))
        assert one.ratio == pytest.approx(best)
        two = nearest_trains(wanted, stages=2, count=1)[0]
        unique = sorted(set(every))
        least = min(abs(math.log(x * y / wanted)) for x in unique for y in unique)
        assert abs(math.log(two.ratio / wanted)) == pytest.approx(least, abs=1e-12)


def test_trains_of_a_text_book() -> None:
    """15/60 and 24/96 give 16, and 20/50, 25/75, 26/65 give 18.75 (worked examples of a course
    on gear trains: 975 rpm to 52 rpm)."""
    assert nearest_trains(16.0, stages=2, teeth=(15, 60, 24, 96))[0].off == 0.0
    found = nearest_trains(975 / 52, stages=3, count=1, teeth=(20, 50, 25, 75, 26, 65))[0]
    assert found.ratio == pytest.approx(975 / 52)


def test_settings_can_be_set() -> None:
    train = nearest_trains(4.0, "chain", stages=1, count=1)[0]
    assert train.settings(2) == {
        "gearing.2.kind": "chain",
        "gearing.2.motor_teeth": str(train.pairs[0][0]),
        "gearing.2.driven_teeth": str(train.pairs[0][1]),
    }
    assert 0.5 < train.efficiency < 1.0


@pytest.mark.parametrize(
    ("wish", "words"),
    [
        ({"ratio": 0.0}, "above 0"),
        ({"ratio": "2.4"}, "a number above 0"),
        ({"ratio": math.nan}, "above 0"),
        ({"stages": 4}, "from 1 to 3"),
        ({"stages": 1.5}, "whole number"),
        ({"count": 0}, "how many trains"),
        ({"teeth": []}, "at least one wheel"),
        ({"teeth": [0, 10]}, "from 3 to 1000"),
        ({"teeth": [12.5, 20]}, "whole number"),
        ({"teeth": "12, 20"}, "a list of whole numbers"),
        ({"teeth": 12}, "a list of whole numbers"),
        ({"teeth": range(10, 80)}, "40 different wheels at most"),
        ({"steepest": 0.5}, "1 or more"),
    ],
)
def test_wrong_wishes_are_refused_in_words(wish: dict[str, object], words: str) -> None:
    with pytest.raises(AskedError, match=words):
        nearest_trains(**{"ratio": 2.4, **wish})  # type: ignore[arg-type]


def test_a_kind_that_no_shop_keeps() -> None:
    with pytest.raises(UnknownNameError):
        nearest_trains(2.0, "sprockets of cheese")


def test_what_is_nearest_need_not_be_near() -> None:
    far = nearest_trains(1e5)
    assert far.near == ()
    assert far.best is None
    assert far.nearest is not None
    assert far.nearest.ratio == pytest.approx(8.0**3)  # three of the steepest stages
    told = page(far, Style())
    assert "comes within a tenth of 100000 : 1" in told.replace("\n  ", " ")
    assert "--set" not in told


def test_trains_more_than_a_tenth_off_are_counted_and_left_out() -> None:
    found = nearest_trains(100.0, count=3)
    told = page(found, Style())
    assert [len(train.pairs) for train in found.near] == [3, 3, 3]
    assert "6 more than a tenth off are left out" in told
    assert "-92 %" not in told
    # They are still there for whoever wants them.
    assert len(found) == 9
    assert [train["near"] for train in json.loads(as_json(found))["trains"]].count(True) == 3


def test_own_wheels_are_not_called_those_of_shops() -> None:
    told = page(nearest_trains(2.0, teeth=[20, 40]), Style())
    assert "your own wheels" in told
    assert "stock teeth" not in told
    assert "shops" not in told


@pytest.mark.parametrize(
    ("kind", "teeth", "words"),
    [
        ("spur", [12, 24], "undercut"),
        ("spur", [17, 34], ""),
        ("chain", [14, 28], "runs roughly"),
        ("chain", [15, 30], ""),
    ],
)
def test_wheels_too_small_to_run_well_are_told(kind: str, teeth: list[int], words: str) -> None:
    """Below 17 teeth at 20 degrees the flanks are undercut: 2 / sin^2(20 deg) = 17.1 (text books).
    For chains: common practice, no source."""
    told = page(nearest_trains(2.0, kind, teeth=teeth), Style())
    assert (words in told) if words else ("The smallest wheel" not in told)


def test_trains_are_a_table_and_a_sequence() -> None:
    found = nearest_trains(2.4, stages=1, count=2)
    assert [train.pairs for train in found] == [found[0].pairs, found[1].pairs]
    assert found[:1] == (found[0],)
    arrays = found.to_arrays()
    assert arrays["ratio"].tolist() == [train.ratio for train in found]
    assert found.to_dict()["teeth"][0] == "15 to 36"
    assert found._repr_html_().startswith("<table>")


def test_what_is_just_beyond_one_in_a_hundred_looks_like_it() -> None:
    """60/22 over 2.7 is 1.0101: the rule takes two stages, and the row says why."""
    trains = nearest_trains(2.7)
    assert trains.best is not None
    assert len(trains.best.pairs) == 2
    told = page(trains, Style())
    assert "+1.01 %" in told
