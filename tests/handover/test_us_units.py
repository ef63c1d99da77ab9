"""US units on a page: a tape, thousandths, and one unit for a torque."""

import pytest

from turnercalc.handover.display import Style, inches

US = Style("us")


# Inch marks by hand: 35 mm is 1.378 in, and 1-3/8 is 1.375; 9 mm is 0.354 in, and 11/32 is
# 0.344; 22.9 mm is 0.9016 in, and 29/32 is 0.9063.
@pytest.mark.parametrize(
    ("metric", "shown"),
    [
        ("35 mm", "1-3/8 in"),
        ("9 mm", "11/32 in"),
        ("22.9 mm", "29/32 in"),
        ("57.15 mm", "2-1/4 in"),
        ("1 mm", "0.039 in"),
        ("0.2 mm", "0.008 in"),
        ("0 mm", "0 in"),
    ],
)
def test_lengths_are_on_a_tape_and_hairs_in_thousandths(metric: str, shown: str) -> None:
    assert US.words(f"It is {metric}.") == f"It is {shown}."


@pytest.mark.parametrize("thousandth", range(125, 4000, 37))
def test_no_mark_hides_more_than_half_a_sixty_fourth(thousandth: int) -> None:
    length = 0.0254e-3 * thousandth
    whole, _, fraction = inches(length).removesuffix(" in").rpartition("-")
    told = float(whole or 0)
    if "/" in fraction:
        top, bottom = fraction.split("/")
        told += float(top) / float(bottom)
    else:
        told = float(fraction)
    assert abs(told * 25.4e-3 - length) <= 0.2e-3 + 1e-9


def test_a_torque_has_one_unit_whatever_its_size() -> None:
    # 1 lbf·in is 0.112985 N·m, by 4.44822 N to the pound and 25.4 mm to the inch
    text = US.words("It takes 0.388 N·m, then 1.71 N·m.")
    assert text == "It takes 3.43 lbf·in, then 15.1 lbf·in."
    assert US.show(0.388, "torque") == "3.43 lbf·in"


def test_what_to_buy_begins_with_pound_inches_and_keeps_the_other_listings() -> None:
    text = US.to_buy("At least 3.41 N·m rated (34.8 kgf·cm, 483 ozf·in), 5 rpm.")
    assert text == "At least 30.2 lbf·in rated (483 ozf·in, 34.8 kgf·cm), 5 rpm."


def test_metric_stays_as_it_is() -> None:
    assert Style().words("It is 9 mm and 0.388 N·m.") == "It is 9 mm and 0.388 N·m."
