"""Walls of a box as builders say them, against the arithmetic of ISO 6946."""

import pytest
from pydantic_core import PydanticCustomError

from turnercalc.errors import UnitError
from turnercalc.fields import PHRASES
from turnercalc.fields.walls import read_area, read_wall
from turnercalc.mechanics.thermal import steady_rise, transmittance


@pytest.mark.parametrize(
    ("text", "square_metres"),
    [
        ("1.9 m2", 1.9),
        ("1,9 m²", 1.9),
        ("20 sq ft", 20 * 0.3048**2),
        ("14000 cm2", 1.4),
        ("3 square metres", 3.0),
    ],
)
def test_areas(text, square_metres):
    assert read_area(text) == pytest.approx(square_metres, rel=1e-12)


def test_layers_add_their_resistances():
    # ISO 6946 (from memory): R = sum d/lambda and 0.13 m2·K/W for each face into still air;
    # 30 mm of foam of 0.038 W/(m·K) and 6 mm of plywood of 0.13 W/(m·K), by hand
    foam, ply = 0.030 / 0.038, 0.006 / 0.13
    assert read_wall("30 mm foam board").transmittance == pytest.approx(1 / (0.26 + foam))
    both = read_wall("6 mm plywood + 30 mm foam board").transmittance
    assert both == pytest.approx(1 / (0.26 + foam + ply))
    assert float(transmittance([0.030], [0.038])) == pytest.approx(1 / (0.26 + foam))


def test_a_wall_of_nothing_is_its_two_faces():
    assert float(transmittance([0.0], [1.0])) == pytest.approx(1 / 0.26)


def test_a_transmittance_may_be_given_itself():
    for text in ("1.1 W/m2K", "1,1 W/(m²·K)", "1.1 W/m^2 K"):
        assert read_wall(text).transmittance == pytest.approx(1.1)


@pytest.mark.parametrize("text", ["30 foam", "20 mm jelly", "good", "", "mm", "+", "5 mm", "1 W"])
def test_what_is_no_wall_says_what_would_be(text):
    with pytest.raises(UnitError) as caught:
        read_wall(text)
    assert caught.value.choices


def test_a_wall_reads_back_as_it_was_written():
    wall = read_wall("2 in fridge wall")
    assert PHRASES["wall"].read(PHRASES["wall"].write(wall)) == wall


def test_ten_watts_kept_a_small_box_warm():
    # A builder's figure: 10 W held a small insulated box at 37 degC. With 0.5 m2 of 30 mm foam
    # that is 21 K above the room, a room of 16 degC (arithmetic).
    rise = steady_rise(10.0, 0.5 * read_wall("30 mm foam board").transmittance)
    assert float(rise) == pytest.approx(21.0, abs=0.1)


@pytest.mark.parametrize(
    ("kind", "text"), [("area", "0.001 m2"), ("area", "900 m2"), ("wall", "30 W/m2K")]
)
def test_sizes_that_no_box_has_are_refused_in_words(kind, text):
    with pytest.raises(PydanticCustomError) as caught:
        PHRASES[kind].read(text)
    assert text.split()[0] in str(caught.value)


def test_an_area_in_square_metres_may_be_a_number_for_scripts():
    assert PHRASES["area"].read(1.9, si=True) == 1.9
    with pytest.raises(PydanticCustomError):
        PHRASES["area"].read(1.9)
