"""Links, pins, rails and shafts of a rack, and what a stall does: against statics by hand."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from tests.rack_design import evidence
from turnercalc import checks
from turnercalc.checks.evidence import Evidence
from turnercalc.design import read_design
from turnercalc.findings import Answer, Finding
from turnercalc.motors import read_motors
from turnercalc.parts.strength import (
    Bar,
    Rail,
    TwistedShaft,
    material_of,
    pin_for,
    pin_gives_at,
    pin_material,
    pin_use,
    rod_that_bears,
)
from turnercalc.sizing import size
from turnercalc.tables import material

EXAMPLES = Path(__file__).parents[2] / "examples"
STEEL, PINE = material("steel"), material("softwood")


def judge(name: str, found: Evidence) -> list[Finding]:
    return list(checks.judges()[name](found))


def one(name: str, **settings: object) -> Finding:
    plain = {key.replace("__", "."): value for key, value in settings.items()}
    (found,) = judge(name, evidence(plain))
    return found


# -- the parts, by hand -------------------------------------------------------------------------


def test_a_round_rod_bows_out_by_eulers_formula() -> None:
    # pi^2 E I/L^2 with I = pi d^4/64: 5 mm steel (205 GPa), 200 mm between pins:
    # I = 30.68 mm4, pi^2 * 205e3 * 30.68/200^2 = 1552 N (Euler, worked here by hand).
    rod = Bar(0.200, 0.005, None, STEEL)
    assert rod.bows_at == pytest.approx(1552.0, abs=1.0)
    assert rod.stands == pytest.approx(120e6 * 19.635e-6, rel=1e-4)


def test_a_flat_bar_bows_out_the_thin_way_and_is_never_weaker_than_the_round() -> None:
    # 3 x 15 mm: I = 15 * 3^3/12 = 33.75 mm4, whichever way round it is told.
    flat = Bar(0.200, 0.003, 0.015, STEEL)
    assert flat.second_moment == pytest.approx(33.75e-12)
    assert Bar(0.200, 0.015, 0.003, STEEL).second_moment == flat.second_moment
    assert flat.bows_at > Bar(0.200, 0.003, None, STEEL).bows_at


def test_plastic_bows_out_earlier_in_the_warm_box() -> None:
    # PLA keeps a fifth of its 2.8 GPa under a standing load (materials table).
    pla = Bar(0.200, 0.010, None, material("pla"))
    assert pla.bows_at == pytest.approx(np.pi**2 * 0.56e9 * np.pi * 1e-8 / 64 / 0.04, rel=1e-9)


def test_the_rod_that_is_named_is_just_enough() -> None:
    needed = rod_that_bears(100.0, 0.3, STEEL, 3.0)
    assert Bar(0.3, needed, None, STEEL).bows_at == pytest.approx(300.0)


def test_a_pin_that_sticks_out_bends_before_it_shears() -> None:
    # F a diameter outside the hole: sigma = 32 F/(pi d^2), tau = 4 F/(pi d^2). 100 N on 6 mm:
    # 28.3 MPa of 120, and 3.5 of 60.
    assert pin_use(100.0, 0.006, STEEL) == pytest.approx(28.3 / 120.0, rel=1e-3)
    assert pin_use(100.0, pin_for(100.0, STEEL), STEEL) == pytest.approx(1.0)
    # Twice the working stress is where it gives: 2 * 120 * 36 pi/32 = 848 N.
    assert pin_gives_at(0.006, STEEL) == pytest.approx(848.0, abs=1.0)


def test_a_pin_is_of_what_turns_in_its_bearing() -> None:
    assert pin_material("steel in nylon").name == "steel"
    assert pin_material("wood in wood").name == "softwood"
    assert pin_material("ball bearing").name == "steel"
    assert material_of("moon dust") is None


def test_a_rail_sags_as_a_beam_on_two_rests() -> None:
    # 5 w L^4/384 E I: pine 20 x 30 mm (I = 45 000 mm4), 400 mm, 25 N, E = 8 GPa of which creep
    # leaves 0.6: 5 * 25 * 400^3/(384 * 4800 * 45000) = 0.0965 mm; stress M/W = 1.25 N·m/3000 mm3.
    rail = Rail(0.400, 0.030, 0.020, 25.0, PINE)
    assert 1e3 * rail.sag == pytest.approx(0.0965, abs=2e-4)
    assert rail.use == pytest.approx(1.25 / 3000e-9 / 8e6, rel=1e-6)


def test_a_shaft_winds_up_by_its_polar_moment() -> None:
    # T L/(G J), J = pi d^4/32: 2 N·m on 8 mm steel (79 GPa), 0.4 m: 1.443 degrees; 19.9 MPa.
    shaft = TwistedShaft(2.0, 0.400, 0.008, STEEL)
    assert np.degrees(shaft.twist) == pytest.approx(1.443, abs=1e-3)
    assert shaft.use == pytest.approx(19.89 / 60.0, rel=1e-3)


# -- the questions ------------------------------------------------------------------------------


def test_a_link_whose_size_nobody_says_is_a_note_that_names_a_rod() -> None:
    found = one("link_strength")
    assert found.answer is Answer.NOTE
    # 3 x 49.1 N on 200 mm: I = 147 * 200^2/(pi^2 * 205e3) = 2.91 mm4, d = 2.78 mm.
    assert "A steel rod of 3 mm or thicker" in found.text


def test_the_link_is_judged_by_the_largest_push_at_high_friction() -> None:
    found = evidence({"link.thickness": "5 mm", "link.material": "steel"})
    assert found.cycle is not None
    assert found.cycle.bar_force is not None
    planned = [case.planned for case in found.cycle.loads]
    push = -found.cycle.bar_force[planned, 2].min()
    (told,) = judge("link_strength", found)
    assert told.answer is Answer.FINE
    assert told.value == pytest.approx(1552.0 / push, rel=1e-3)


def test_a_link_of_wire_is_refused_with_the_rod_it_would_need() -> None:
    found = one("link_strength", link__thickness="1 mm", link__material="nylon")
    assert found.answer is Answer.NO
    assert "A steel rod would need 3 mm" in found.text
    assert "less than a tenth" in found.text


def test_a_material_that_no_table_knows_leaves_the_note() -> None:
    found = one("link_strength", link__thickness="5 mm", link__material="moon dust")
    assert found.answer is Answer.NOTE


def test_the_hardest_used_pin_is_named() -> None:
    fine = one("pin_strength")
    assert fine.answer is Answer.FINE
    thin = one("pin_strength", pivots__diameter="1 mm")
    assert thin.answer is not Answer.FINE
    assert "pivot" in thin.text
    assert thin.fields == ("pivots.diameter",)
    assert "in a fork" in thin.text


def test_wooden_pivots_are_judged_as_wood() -> None:
    settings = {"pivots.bearing": "wood in wood", "pivots.diameter": "4 mm"}
    (found,) = judge("pin_strength", evidence(settings))
    assert "softwood of 4 mm" in found.text


def test_sag_and_twist_are_asked_only_where_the_builder_says_what_is_there() -> None:
    assert judge("tray_sag", evidence()) == []
    assert judge("shaft_twist", evidence()) == []


def test_a_full_tray_on_thin_rails_sags() -> None:
    rails = {"rails.material": "softwood", "rails.height": "9 mm", "rails.thickness": "6 mm"}
    (found,) = judge("tray_sag", evidence(rails))
    # Half of 700 g and 36 eggs of 59 g on each rail, the box 420 mm deep.
    load = 0.5 * 9.80665 * (0.700 + 36 * 0.059)
    second = 6.0 * 9.0**3 / 12.0  # mm4
    sag = 5 * load * 420.0**3 / (384 * 4800.0 * second)
    assert found.value == pytest.approx(sag, rel=2e-3)
    assert found.answer is Answer.NO
    stiff = evidence(rails | {"rails.height": "25 mm", "rails.thickness": "18 mm"})
    assert judge("tray_sag", stiff)[0].answer is Answer.FINE


def test_an_unknown_rail_material_is_named_and_does_not_cap_the_verdict() -> None:
    rails = {"rails.material": "moon dust", "rails.height": "9 mm", "rails.thickness": "6 mm"}
    (found,) = judge("tray_sag", evidence(rails))
    assert found.answer is Answer.UNKNOWN
    assert not found.caps_verdict


def test_a_long_thin_shaft_lets_the_far_end_lag() -> None:
    thin = evidence({"pivots.shaft_length": "400 mm", "pivots.diameter": "5 mm"})
    thick = evidence({"pivots.shaft_length": "400 mm", "pivots.diameter": "12 mm"})
    (slack,), (stiff,) = judge("shaft_twist", thin), judge("shaft_twist", thick)
    assert slack.answer is not Answer.FINE
    assert stiff.answer is Answer.FINE
    # Twist falls with the fourth power of the diameter; the torque is the tray's own.
    assert slack.value == pytest.approx(stiff.value * (12 / 5) ** 4, rel=1e-6)  # type: ignore[operator]


def test_the_force_of_a_stall_is_the_torque_over_the_lever_of_the_link() -> None:
    sizing = size(read_design(EXAMPLES / "larder-rack.toml"), read_motors(EXAMPLES / "motors.csv"))
    (found,) = judge("jam_force", sizing)
    # worm 5 stalls at 8 N·m (its listing). The lever of the link about the crank's shaft is
    # |r x u| for crank r and the unit vector u along the link; least 5 degrees from either end.
    theta = sizing.cycle.motion.position  # type: ignore[union-attr]
    ends = np.array([sizing.ends.low_position, sizing.ends.high_position])
    off = np.abs(np.angle(np.exp(1j * (theta[:, None] - ends)))).min(axis=1)
    q = sizing.cycle.motion.coordinate  # type: ignore[union-attr]
    crank = 0.056 * np.exp(1j * theta)
    link = 0.080 * np.exp(1j * q) - (0.056 - 0.220j) - crank
    lever = np.abs((np.conj(crank) * link).imag) / np.abs(link)
    expected = (8.0 / lever[off >= np.radians(5.0)]).max()
    assert found.value == pytest.approx(expected, rel=2e-3)
    assert found.answer is Answer.NOTE
    assert "6 mm crank pin gives first, at 850 N" in found.text


def test_a_stalled_actuator_pushes_with_its_full_force() -> None:
    sizing = size(
        read_design(EXAMPLES / "potting-shed-rack.toml"), read_motors(EXAMPLES / "actuators.csv")
    )
    (found,) = judge("jam_force", sizing)
    stall = sizing.chosen.finding("motor_stall")  # type: ignore[union-attr]
    assert stall is not None
    # The pins bear the push and the weight of the actuator's halves.
    assert found.value == pytest.approx(stall.value, rel=0.03)
    assert "through the rod" in found.text


def test_without_a_motor_nothing_is_said_of_a_stall() -> None:
    assert judge("jam_force", evidence()) == []


def test_a_friction_roller_has_to_carry_the_torque_over_its_radius() -> None:
    roller = {"kind": "friction roller", "motor_diameter": "20 mm", "driven_diameter": "60 mm"}
    chain = {"kind": "chain", "ratio": "2"}
    settings = {f"gearing.1.{name}": text for name, text in roller.items()}
    settings |= {f"gearing.2.{name}": text for name, text in chain.items()}
    found = evidence(settings)
    assert found.cycle is not None
    planned = [case.planned for case in found.cycle.loads]
    hardest = found.cycle.shaft_torque[planned, 2, found.better_direction].max()
    # Behind the chain, high friction: half of the torque, over 0.9, and the chain's drag.
    at_roller = hardest / 2 / 0.9 + 0.01
    (told,) = judge("stage_grip", found)
    assert told.value == pytest.approx(at_roller / 0.030, rel=1e-6)
    assert "friction roller" in told.text
    assert "press" in told.text


def test_a_chain_does_not_slip() -> None:
    assert judge("stage_grip", evidence({"gearing.1.kind": "chain", "gearing.1.ratio": "2"})) == []
