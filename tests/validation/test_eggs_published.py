"""Egg sizes, masses and rules against published figures.

Keys of the sources, as the comments below use them:

PO07  Polat et al. 2007, quail eggs under compression (AGRIS 647245f753aa8c8963045e85), abstract
TU18  Turkey egg characteristics, Braz. J. Poult. Sci. 2018 (SciELO S1516-635X2018000200317)
MY15  Myhrvold et al. 2015, amniote life-history database, Ecology 96:3109
HO79  Hoyt 1979, Auk 96:73-77; constants from memory
PA74  Paganelli, Olszowka and Ar 1974, Condor 76:319-325; constants from memory
NA05  Narushin 2005, Poultry Sci. 84:482-484
KA21  Karabulut 2021, Vet. Med.-Czech 66:440-447 (goose); its volumes follow from a slip of units
AR80  Ar and Rahn 1980, Water in the avian egg, Am. Zool. 20
ME91  goose eggshell conductance and hatch, Br. Poult. Sci. 32:723-732, 1991
HE    A. Heck, Univ. of Amsterdam, egg mathematics teaching pages
PA    7 Pa. Code 87.42 (US weight classes); EU: Delegated Regulation (EU) 2023/2465, limits as in
      a MAFF letter of 25 June 1996
"""

import math

import numpy as np
import pytest

from turnercalc.eggs.allometry import (
    geometric_mean_diameter,
    hoyt_gap,
    hoyt_mass,
    hoyt_volume,
    mass_after_water_loss,
    narushin_surface,
    narushin_volume,
    paganelli_density,
    paganelli_surface,
    shape_index,
    surface_by_mean_diameter,
)
from turnercalc.eggs.classes import eu_class, us_class, us_minimum
from turnercalc.eggs.lot import make_lot
from turnercalc.eggs.mass_properties import mass_properties, revolve
from turnercalc.eggs.practice import evidence, interval, quiet_days, tilt_limit, turns_until
from turnercalc.eggs.seats import ALONG, CELLS, Seat, seat
from turnercalc.eggs.shape import Profile
from turnercalc.eggs.species import all_species, species
from turnercalc.findings import Answer
from turnercalc.tables import Range3, table

MM = 1e-3
TURKEY = (66.61 * MM, 46.84 * MM)  # TU18: means of the flock
QUAIL = (34.87 * MM, 26.20 * MM)  # PO07: means of 40 eggs


# --- turkey, TU18 ------------------------------------------------------------------------------


def test_turkey_shape_index():
    assert 100 * shape_index(*TURKEY) == pytest.approx(70.3, abs=0.1)


def test_turkey_geometric_mean_diameter():
    # 52.66 mm printed as the mean over eggs; the means give 52.67
    assert geometric_mean_diameter(*TURKEY) / MM == pytest.approx(52.66, abs=0.05)


def test_turkey_surface():
    # 8712.42 mm2 printed
    assert surface_by_mean_diameter(*TURKEY) / MM**2 == pytest.approx(8712.42, rel=1e-3)


def test_turkey_spheroid_volume():
    # 76 553 mm3 printed for (pi/6) L B^2: our shape with the greatest breadth at half length
    volume = mass_properties(*TURKEY, 0.0).volume
    assert volume / MM**3 == pytest.approx(76_553, rel=1e-3)


def test_turkey_sphericity():
    # 79.31 % printed as the mean over eggs
    assert 100 * geometric_mean_diameter(*TURKEY) / TURKEY[0] == pytest.approx(79.31, abs=0.4)


def test_turkey_mass_by_hoyt():
    # 77.74 g measured; HO79 gives 80.09 g
    assert hoyt_mass(*TURKEY) == pytest.approx(0.08009, abs=5e-5)
    assert abs(hoyt_gap(*TURKEY, 0.07774)) < 0.05


def test_turkey_volume_by_hoyt():
    assert hoyt_volume(*TURKEY) == pytest.approx(74.53e-6, abs=0.02e-6)


# --- quail, PO07 -------------------------------------------------------------------------------


def test_quail_geometric_mean_diameter():
    assert geometric_mean_diameter(*QUAIL) / MM == pytest.approx(28.82, abs=0.01)


def test_quail_surface():
    assert surface_by_mean_diameter(*QUAIL) / MM**2 == pytest.approx(2608.5, rel=1e-3)


def test_quail_mass_by_hoyt():
    # 12.69 g measured
    assert hoyt_mass(*QUAIL) == pytest.approx(13.12e-3, abs=2e-5)
    assert abs(hoyt_gap(*QUAIL, 12.69e-3)) < 0.05


@pytest.mark.parametrize(
    ("surface", "mu", "slides_at"),
    # PO07 prints the coefficients; the angles are their arc tangents
    [
        ("plywood", 0.301, 16.75),
        ("glass", 0.282, 15.75),
        ("galvanised steel", 0.274, 15.32),
        ("fibreglass", 0.266, 14.90),
    ],
)
def test_quail_eggs_slide_at(surface, mu, slides_at):
    lot = make_lot(species("quail"))
    holder = Seat(ALONG, CELLS, room=0.03, friction=Range3(mu, mu, mu))
    assert math.degrees(seat(lot, holder).friction_tilt.middle) == pytest.approx(
        slides_at, abs=0.01
    )
    row = table("egg_friction").row(surface)
    assert row.number("low") <= mu <= row.number("high")
    assert row.number("middle") == pytest.approx(mu, abs=0.006)


# --- big eggs, MY15 ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("length", "breadth", "mass", "by_hoyt", "tolerance", "gap"),
    [
        (130, 90, 579.6, 577.0, 0.1, 0.02),  # emu
        (130.5, 90, 609.3, 579.3, 0.1, 0.06),  # greater rhea
        # The ostrich's mass and size come from different eggs: no closer than 12 %
        (158, 125, 1500, 1352.9, 0.5, 0.12),
    ],
)
def test_ratites_by_hoyt(length, breadth, mass, by_hoyt, tolerance, gap):
    size = (length * MM, breadth * MM)
    assert 1e3 * hoyt_mass(*size) == pytest.approx(by_hoyt, abs=tolerance)
    assert abs(hoyt_gap(*size, mass * 1e-3)) < gap


def test_goose_shape_index():
    # KA21: 81.2 x 54.3 mm, 66.9 %
    assert 100 * shape_index(81.2 * MM, 54.3 * MM) == pytest.approx(66.9, abs=0.1)


# --- two half spheroids, HE --------------------------------------------------------------------


def half_spheroids(blunt, pointed, equator, n=200):
    """Profile of two half spheroids that meet at their equator, on Gauss-Legendre nodes."""
    nodes, weights = np.polynomial.legendre.leggauss(n)
    xs, ws, y2, slope = [], [], [], []
    for half, sign in ((blunt, -1), (pointed, +1)):
        t = (nodes + 1) / 2
        xs.append(sign * half * t)
        ws.append(half * weights / 2)
        y2.append(equator**2 * (1 - t**2))
        slope.append(-sign * equator**2 * t / half)
    at = Profile(np.concatenate(y2), np.concatenate(slope))
    return revolve(np.concatenate(xs), np.concatenate(ws), at)


HEN_OF_HALVES = half_spheroids(blunt=2.75, pointed=3.43, equator=2.30)  # cm


def test_two_half_spheroids_volume():
    assert HEN_OF_HALVES.volume == pytest.approx(68.5, abs=0.05)  # ml printed


def test_two_half_spheroids_surface():
    assert HEN_OF_HALVES.surface == pytest.approx(82.2, abs=0.05)  # cm2 printed


def test_two_half_spheroids_centre():
    # 3/8 of each half's length from the equator, weighted by the halves' volumes: textbook
    expected = 3 / 8 * (3.43**2 - 2.75**2) / (3.43 + 2.75)
    assert HEN_OF_HALVES.centre == pytest.approx(expected, rel=1e-9)
    assert (2.75 + HEN_OF_HALVES.centre) / (2.75 + 3.43) == pytest.approx(0.486, abs=5e-4)


# --- rules -------------------------------------------------------------------------------------


def test_narushin_2005_for_a_hen():
    # Formulas of NA05 written out: 0.6057 - 0.0018 x 43.5 = 0.5274; 3.155 - 0.782 + 0.50025
    assert narushin_volume(57.5 * MM, 43.5 * MM) / MM**3 == pytest.approx(57_383.4, abs=0.1)
    assert narushin_surface(57.5 * MM, 43.5 * MM) / MM**2 == pytest.approx(7186.7, abs=0.1)


@pytest.mark.parametrize(
    ("length", "breadth"),
    [
        (8.12, 5.43),  # KA21's slip, centimetres put in: a 5.43 m egg
        (81.2 * MM, 54.3 * MM),  # a goose
        (158 * MM, 125 * MM),  # an ostrich
        QUAIL,
    ],
)
def test_narushin_2005_refuses_what_is_no_hens_egg(length, breadth):
    assert np.isnan(narushin_volume(length, breadth))
    assert np.isnan(narushin_surface(length, breadth))


@pytest.mark.parametrize(("mass", "surface", "tolerance"), [(60, 72.70, 0.05), (1500, 612.3, 0.5)])
def test_paganelli_surface(mass, surface, tolerance):
    assert 1e4 * paganelli_surface(mass * 1e-3) == pytest.approx(surface, abs=tolerance)


@pytest.mark.parametrize(("mass", "density"), [(12.69, 1068.3), (60, 1091.8), (1500, 1142.2)])
def test_paganelli_density(mass, density):
    assert paganelli_density(mass * 1e-3) == pytest.approx(density, abs=0.5)


def test_hoyts_two_constants_imply_a_density():
    ratio = hoyt_mass(57.5 * MM, 43.5 * MM) / hoyt_volume(57.5 * MM, 43.5 * MM)
    assert ratio == pytest.approx(1074.5, abs=0.1)


def test_water_loss():
    assert mass_after_water_loss(0.060) == pytest.approx(0.0510)  # AR80: 0.15 of 60 g
    goose = species("goose")
    assert goose.water_loss == 0.12  # ME91
    assert mass_after_water_loss(0.150, goose.water_loss) == pytest.approx(0.1320)


# --- weight classes ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "grams"),
    [
        ("Jumbo", 70.87),
        ("Extra Large", 63.79),
        ("Large", 56.70),
        ("Medium", 49.61),
        ("Small", 42.52),
        ("Peewee", 35.44),
    ],
)
def test_us_minimum_per_egg(name, grams):
    # PA prints ounces a dozen: 30, 27, 24, 21, 18, 15
    assert 1e3 * us_minimum(name) == pytest.approx(grams, abs=0.01)
    assert us_class(us_minimum(name)) == name
    assert us_class(us_minimum(name) - 1e-4) != name


def test_us_large_by_thirty_dozen():
    # PA: 45 lb per 30 dozen
    assert us_minimum("Large") == pytest.approx(45 * 0.45359237 / 360, rel=1e-9)


@pytest.mark.parametrize(
    ("grams", "label"),
    [(73.0, "XL"), (72.9, "L"), (63.0, "L"), (62.9, "M"), (53.0, "M"), (52.9, "S")],
)
def test_eu_class(grams, label):
    assert eu_class(grams * 1e-3) == label


# --- the species table against Hoyt's rule and the sizes of its sources -------------------------


@pytest.mark.parametrize(
    ("name", "index", "by_hoyt"),
    # computed here from length and breadth alone; the printed shape indices of goose (68 %,
    # Archiv fuer Gefluegelkunde 68, 2004) and ostrich (80.8 and 81.8 %, Nikolova 2010) bear it out
    [
        ("chicken", 75.7, 59.6),
        ("bantam", 77.1, 36.0),
        ("coturnix quail", 75.1, 13.1),
        ("bobwhite quail", 80.0, 9.5),
        ("chukar", 75.9, 19.5),
        ("pheasant", 80.0, 32.0),
        ("guinea fowl", 78.0, 41.7),
        ("turkey", 70.3, 80.1),
        ("duck", 74.4, 79.9),
        ("mallard", 72.8, 53.8),
        ("muscovy duck", 72.5, 72.1),
        ("goose", 67.9, 149.6),
        ("pigeon", 74.4, 18.0),
        ("peafowl", 74.3, 103.7),
        ("ostrich", 79.1, 1352.9),
        ("emu", 69.2, 577.0),
        ("rhea", 69.0, 579.3),
    ],
)
def test_species_sizes(name, index, by_hoyt):
    one = species(name)
    assert 100 * one.breadth / one.length == pytest.approx(index, abs=0.06)
    assert 1e3 * hoyt_mass(one.length, one.breadth) == pytest.approx(by_hoyt, abs=0.06)


@pytest.mark.parametrize("one", all_species(), ids=lambda one: one.name)
def test_every_species_agrees_with_hoyt(one):
    # Mass and size of different samples agree within about 7 %; the ostrich's do not and say so
    allowed = 0.12 if one.name == "ostrich" else 0.07
    assert abs(hoyt_gap(one.length, one.breadth, one.mass)) < allowed
    assert one.mass_min < one.mass < one.mass_max


def test_there_are_seventeen_species():
    assert len(all_species()) == 17


@pytest.mark.parametrize(
    ("name", "days", "quiet"),
    # chicken: Virginia Tech Extension; duck and Muscovy: Mississippi State chart, from memory
    [("chicken", 21, 3), ("duck", 28, 3), ("muscovy duck", 35, 4)],
)
def test_quiet_days(name, days, quiet):
    one = species(name)
    assert one.incubation_days == days
    assert quiet_days(one.incubation_days, one.last_turning_day) == quiet


def test_chicken_temperature_is_a_hundred_fahrenheit():
    # Mississippi State Univ. Extension: 100 F in moving air
    assert species("chicken").temperature == pytest.approx((100 - 32) / 1.8, abs=0.05)


# --- turning practice --------------------------------------------------------------------------


@pytest.mark.parametrize(("turns", "minutes"), [(24, 60), (96, 15), (3, 480)])
def test_turns_a_day_as_interval(turns, minutes):
    assert interval(turns) == minutes * 60


def test_turns_until_the_last_day():
    # Poultry Sci. 99 (2020) 4417: 24 a day to day 18; Virginia Tech: by hand, days 2 to 18
    assert turns_until(18, 24) == 432
    assert turns_until(18, 96) == 1728
    assert turns_until(18, 3, first_day=1) == 51
    assert turns_until(7, 24) == 168


@pytest.mark.parametrize(
    ("tilt", "turns", "answer"),
    # Elibol and Brake 2006, Poultry Sci. 85:1433 (doi 10.1093/ps/85.8.1433)
    [
        (45, 24, Answer.FINE),
        (40, 24, Answer.FINE),
        (35, 24, Answer.MARGINAL),
        (35, 96, Answer.FINE),
    ],
)
def test_tilt_by_turns_a_day(tilt, turns, answer):
    assert tilt_limit(turns).answer(tilt) is answer


def test_hatch_by_turns_a_day_is_best_at_twenty_four():
    # Poultry Sci. 99 (2020) 4417: 91.84 % at 24; lower by 6.61, 15.51, 19.70 at 12, 6, 3
    row = table("turning_practice").row("often_24")
    assert row.number("hatch_of_fertile_percent") == 91.84
    for turns, fall in ((12, "6.61"), (6, "15.51"), (3, "19.70")):
        assert f"lower by {fall}" in table("turning_practice").row(f"often_{turns}").text("finding")


def test_goose_eggs_with_a_half_turn_by_hand():
    # Salamon and Kent 2016, Int. J. Poult. Sci. 15:57 (doi 10.3923/ijps.2016.57.61)
    rows = table("turning_practice")
    with_turn, without = rows.row("goose_hand_turn"), rows.row("goose_no_hand_turn")
    assert with_turn.number("hatch_of_fertile_percent") == 63.77
    assert without.number("hatch_of_fertile_percent") == 44.12
    assert "half turn by hand" in species("goose").note


def test_totals_of_the_papers_stand_as_each_side():
    # Robertson 1961: tilted through 90 in all; van Schalkwyk et al. 2000: ostrich, 60 to 90 in all
    assert table("turning_practice").row("often_96").number("tilt_deg") == 45
    ostrich = species("ostrich")
    assert (math.degrees(ostrich.tilt_low), math.degrees(ostrich.tilt)) == pytest.approx((30, 45))


def test_evidence_names_its_papers():
    for topic in ("angle", "frequency"):
        assert any("doi" in found.source for found in evidence(topic))
    assert {found.topic for found in evidence()} == {
        "angle",
        "frequency",
        "days",
        "position",
        "gentleness",
    }
