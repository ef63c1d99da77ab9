"""Looking eggs up by the name of their animal."""

import math

import pytest

from turnercalc.eggs.species import NotTurned, Species, all_species, look_up, species
from turnercalc.errors import UnknownNameError
from turnercalc.tables import HOW


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("chicken", "chicken"),
        ("Chickens", "chicken"),
        ("hen", "chicken"),
        ("coturnix quail", "coturnix quail"),
        ("Japanese quail", "coturnix quail"),
        ("quail", "coturnix quail"),
        ("Coturnix (Japanese) quail", "coturnix quail"),
        ("northern bobwhite", "bobwhite quail"),
        ("ring-necked pheasant", "pheasant"),
        ("ring necked pheasant", "pheasant"),
        ("geese", "goose"),
        ("Pekin duck", "duck"),
        ("ducks", "duck"),
        ("muscovy", "muscovy duck"),
        ("peacock", "peafowl"),
        ("ostriches", "ostrich"),
        ("  guinea   fowl ", "guinea fowl"),
    ],
)
def test_species_answer_to_what_people_call_them(said, meant):
    assert species(said).name == meant


def test_units_are_si():
    goose = species("goose")
    assert goose.mass == pytest.approx(0.150)
    assert goose.breadth == pytest.approx(0.057)
    assert goose.tilt == pytest.approx(math.pi / 4)
    assert (goose.incubation_days, goose.last_turning_day) == (30, 26)


@pytest.mark.parametrize(
    "said",
    [
        "crocodile",
        "alligators",
        "tortoise",
        "corn snake",
        "geckos",
        "ball python",
        "bearded_dragon",
    ],
)
def test_reptile_eggs_are_not_turned(said):
    """Common practice, no source."""
    found = look_up(said)
    assert isinstance(found, NotTurned)
    assert found.reason.startswith("Reptile eggs are not turned")
    assert found.how == "common practice, no source"
    with pytest.raises(UnknownNameError, match=f"No turner is needed for {said}"):
        species(said)


def test_a_slip_of_the_pen_gets_the_nearest():
    with pytest.raises(
        UnknownNameError, match=r'No eggs of "phesant" are known. Nearest: pheasant'
    ):
        species("phesant")


def test_a_strange_animal_gets_the_whole_list():
    with pytest.raises(UnknownNameError, match="Known: chicken, bantam, coturnix quail"):
        species("xyzzy")


@pytest.mark.parametrize("one", all_species(), ids=lambda one: one.name)
def test_every_species_is_in_order(one):
    assert isinstance(look_up(one.name), Species)
    assert one.mass_min < one.mass < one.mass_max
    assert one.breadth < one.length
    assert one.last_turning_day < one.incubation_days
    assert one.hand_turns_per_day <= one.turns_per_day
    assert one.how("mass") in HOW
    assert one.source


def test_a_figure_says_how_it_came_to_us():
    assert species("goose").how("mass") == "read"
    assert species("goose").how("length") == "from memory"
    assert species("emu").how("turns_per_day") == "from memory"
    with pytest.raises(UnknownNameError, match="no figure 'colour'"):
        species("emu").how("colour")


def test_size_goes_with_the_cube_root_of_mass():
    chicken = species("chicken")
    length, breadth = chicken.size_at(8 * chicken.mass)
    assert (length, breadth) == pytest.approx((2 * chicken.length, 2 * chicken.breadth))
