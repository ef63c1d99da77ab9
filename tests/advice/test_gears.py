"""Gear pairs against every combination there is."""

import itertools
import math
from fractions import Fraction

import pytest

from turnercalc.advice.gears import STEEPEST, nearest_trains
from turnercalc.errors import UnknownNameError
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


def test_wrong_wishes() -> None:
    with pytest.raises(ValueError, match="above 0"):
        nearest_trains(0.0)
    with pytest.raises(ValueError, match="1 to 3"):
        nearest_trains(2.0, stages=4)
    with pytest.raises(UnknownNameError):
        nearest_trains(2.0, "sprockets of cheese")
