"""Stages outside the gearmotor: power in and out, both ways, and what holds a load."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnercalc.design import read_design
from turnercalc.design.starter import starter_text
from turnercalc.drives.stages import Stage, Stages
from turnercalc.errors import DesignError
from turnercalc.mechanics import screws, worm
from turnercalc.tables import Range3, stage_losses

KINDS = (
    "spur",
    "bevel",
    "chain",
    "toothed belt",
    "round belt",
    "v-belt",
    "planetary",
    "worm",
    "worm, two starts",
    "worm, four starts",
    "friction roller",
    "lead screw",
    "ball screw",
    "cord",
)
LEVELS = ("low", "middle", "high")
SHARE = st.floats(0.15, 0.99)


def stage(kind: str, ratio: float = 1.0) -> Stage:
    return Stage.of_kind(stage_losses(kind), ratio)


def exactly(efficiency: float, lead_angle: float | None = None, ratio: float = 1.0) -> Stage:
    return Stage("made", ratio, Range3(efficiency, efficiency, efficiency), 0.0, lead_angle)


@pytest.mark.parametrize("kind", KINDS)
def test_the_load_side_gets_the_share_of_the_table(kind: str) -> None:
    made = stage(kind, 3.0)
    torque = Stages((made,)).motor_torque(np.full((1, 3, 1, 1), 6.0), LEVELS).ravel()
    rows = stage_losses(kind).efficiency
    # Much friction goes with little efficiency; a third of the torque, and the loss, and the drag.
    shares = np.array([rows.high, rows.middle, rows.low])
    assert torque - made.no_load_drag == pytest.approx(6.0 / 3.0 / shares)
    assert made.no_load_drag > 0.0


@pytest.mark.parametrize("kind", KINDS)
def test_without_load_only_the_drag_is_felt(kind: str) -> None:
    made = stage(kind, 4.0)
    nothing = Stages((made,)).motor_torque(np.zeros((1, 3, 1, 1)), LEVELS)
    assert nothing == pytest.approx(np.full((1, 3, 1, 1), made.no_load_drag))


@pytest.mark.parametrize("kind", KINDS)
def test_there_and_back_always_loses(kind: str) -> None:
    """Lifting and letting down the same load costs work at every level: no stage is a source."""
    made = stage(kind)
    for level in LEVELS:
        eta = getattr(made.efficiency, level)
        up, down = made.motor_side(2.0, eta), made.motor_side(-2.0, eta)
        assert up + down > 0.0
        assert up > 2.0
        assert down > -2.0


@given(SHARE, st.floats(0.5, 30.0))
def test_a_loss_in_proportion_to_the_load_is_the_same_both_ways(eta: float, torque: float) -> None:
    # Coulomb friction in the mesh: what is added when lifting is what is taken off when lowering.
    made = exactly(eta)
    friction = made.motor_side(torque, eta) - torque
    assert made.motor_side(-torque, eta) == pytest.approx(-torque + friction)
    assert made.back_efficiency(eta) == pytest.approx(2.0 - 1.0 / eta)


@given(st.floats(2.0, 30.0), st.floats(0.01, 0.3), st.sampled_from([14.5, 20.0, 25.0]))
def test_a_worm_known_by_its_efficiency_has_the_exact_back_efficiency(
    lead_deg: float, friction: float, pressure_deg: float
) -> None:
    # Shigley's Mechanical Engineering Design, eq. 13-46 (from memory), both ways round.
    lead, pressure = np.radians([lead_deg, pressure_deg])
    forward = float(worm.worm_driving_efficiency(lead, friction, pressure))
    backward = worm.wheel_driving_efficiency(lead, friction, pressure)
    made = exactly(forward, lead)
    assert made.back_efficiency(forward) == pytest.approx(float(backward), rel=1e-9, abs=1e-9)
    assert made.holds() == bool(worm.worm_holds(lead, friction, pressure))


@given(st.floats(0.006, 0.04), st.floats(0.001, 0.02), st.floats(0.02, 0.3))
def test_a_screw_known_by_its_efficiency_has_the_exact_torques(
    diameter: float, pitch: float, friction: float
) -> None:
    # Shigley eqs. 8-1 and 8-2: torque to raise and to lower, square thread.
    lead = float(screws.screw_lead_angle(diameter, pitch))
    raising = float(screws.screw_raise_torque(1000.0, diameter, pitch, friction))
    lowering = float(screws.screw_lower_torque(1000.0, diameter, pitch, friction))
    work = 1000.0 * pitch / (2 * np.pi)
    eta = work / raising
    made = exactly(eta, lead)
    assert made.motor_side(work, eta) == pytest.approx(raising)
    assert made.motor_side(-work, eta) == pytest.approx(lowering, rel=1e-9, abs=1e-9)


def test_the_exact_form_is_not_the_rule_of_thumb() -> None:
    # Lead angle 20 degrees, efficiency 0.5: the rule says it just does not run back; by the exact
    # form the friction angle is atan(tan 20/0.5) - 20 = 16.05 degrees, and 19 % arrive.
    made = exactly(0.5, np.radians(20.0))
    assert np.degrees(screws.friction_angle_of(0.5, np.radians(20.0))) == pytest.approx(
        16.05, abs=0.01
    )
    assert made.back_efficiency(0.5) == pytest.approx(0.190, abs=1e-3)
    assert exactly(0.5).back_efficiency(0.5) == 0.0


def test_a_worm_of_the_table_may_or_may_not_hold_and_a_chain_never_does() -> None:
    """One start holds where it rubs much and runs back where it rubs little: do not rely on it."""
    one = stage("worm")
    assert one.holds("high")
    assert not one.holds("low")
    assert not any(stage("chain").holds(level) for level in LEVELS)
    assert not any(stage("worm, four starts").holds(level) for level in LEVELS)


def test_a_stage_that_holds_has_to_be_pushed_down() -> None:
    made = exactly(0.35, np.radians(5.0))
    assert made.motor_side(-3.0, 0.35) > 0.0


def test_held_torque_goes_through_every_stage_with_the_least_friction() -> None:
    train = Stages((stage("chain", 2.0), stage("spur", 3.0)))
    by_hand = 12.0 * (2 - 1 / 0.97) / 3.0 * (2 - 1 / 0.97) / 2.0
    assert train.held_torque(-12.0) == pytest.approx(by_hand)
    locked = Stages((Stage("worm", 20.0, Range3(0.3, 0.35, 0.4), 0.0, np.radians(5.0)),))
    assert locked.held_torque(12.0) == 0.0


def test_a_train_multiplies_ratios_and_efficiencies() -> None:
    train = Stages((stage("planetary", 4.0), stage("toothed belt", 2.5)))
    assert train.ratio == 10.0
    assert train.efficiency.middle == pytest.approx(0.88 * 0.96)
    assert Stages().ratio == 1.0
    torque = np.linspace(-3, 3, 7)[None, None, None]
    assert Stages().motor_torque(torque, ("middle",)) == pytest.approx(torque)


def test_from_rest_the_low_efficiency_counts() -> None:
    train = Stages((stage("worm", 10.0),))
    torque = np.full((1, 1, 1, 1), 5.0)
    starting, high = (train.motor_torque(torque, (level,)) for level in ("starting", "high"))
    assert starting == pytest.approx(high)


@pytest.mark.parametrize(
    ("settings", "says"),
    [
        ({"kind": "chain", "ratio": "2", "lead_angle": "5 deg"}, "Only worms and screws"),
        ({"kind": "planetary", "motor_teeth": "12", "driven_teeth": "36"}, "planetary"),
        ({"kind": "worm"}, "How much slower"),
        ({"kind": "treadmill", "ratio": "2"}, ""),
    ],
)
def test_a_stage_that_cannot_be_is_explained(settings: dict[str, str], says: str) -> None:
    given_settings = {f"gearing.1.{name}": value for name, value in settings.items()}
    with pytest.raises(DesignError) as caught:
        read_design(starter_text("rack"), given_settings)
    assert any(says in one.message for one in caught.value.complaints)


def test_the_lead_angle_of_the_table_is_told_as_taken_for_granted() -> None:
    worm_stage = {"gearing.1.kind": "worm", "gearing.1.ratio": "20"}
    design = read_design(starter_text("rack"), worm_stage)
    taken = {one.field: one.text for one in design.taken_for_granted()}
    assert taken["gearing.1.lead_angle"] == "5 deg"
    said = read_design(starter_text("rack"), worm_stage | {"gearing.1.lead_angle": "12 deg"})
    assert said.gearing[0].lead_angle == pytest.approx(np.radians(12.0))


def test_a_train_holds_where_any_stage_of_it_does() -> None:
    tight = Stage("worm", 20.0, Range3(0.25, 0.3, 0.35), 0.0, np.radians(4.0))
    assert Stages((stage("chain", 2.0), tight)).holds("low")
    assert not Stages((stage("chain", 2.0), stage("worm", 20.0))).holds("low")
    assert Stages((stage("chain", 2.0), stage("worm", 20.0))).holds("high")
    assert not Stages().holds("high")
