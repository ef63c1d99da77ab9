"""Drums with friction against balances of forces that know nothing of the package.

* On an axle, by crank and link: Newton-Euler per body with journal friction, `force_balance.py`,
  solved by scipy. A drum is to it a part on one pivot, with a mass on every filled shelf.
* On rollers: the equations of a drum on two contacts, written out below (Beer and Johnston,
  Vector Mechanics for Engineers: Statics, chapters 4 and 8, from memory).

Wanted: within 3 %; both count the same forces, so they agree to the last digits.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan, cos, pi, radians, sin
from typing import NamedTuple

import numpy as np
import pytest
from scipy.optimize import root

from turnercalc.cycle import turn_cycle
from turnercalc.drives.crank_link import CrankLink
from turnercalc.drives.shaft import TurningShaft
from turnercalc.joints import JointFriction
from turnercalc.tables import Range3
from turnercalc.turners.base import LoadCase
from turnercalc.turners.rotating_drum import RotatingDrum
from turnercalc.turners.support_rollers import (
    BOTH,
    LEFT,
    NEITHER,
    RIGHT,
    Rows,
    SupportRollers,
    climbing_force,
    gripping_force,
)

from .force_balance import balance
from .rack_numbers import CrankLink as CrankNumbers
from .rack_numbers import Journal, PointMass, Rack, RackFriction, Tray

GRAVITY = 9.80665  # [m/s2], standard gravity (CGPM 1901)
FILLINGS = ((6, 6, 0, 0, 0), (6, 6, 6, 6, 6), (0, 0, 4, 6, 2), (0, 0, 0, 0, 0))
EGG, RADIUS, EMPTY = 0.062, 0.120, 1.7


def load(cells: tuple[int, ...]) -> LoadCase:
    return LoadCase("filled", "filled", "filled", True, np.array(cells))


def constant(mu: float) -> JointFriction:
    return JointFriction(mu, mu, mu, mu)


@pytest.mark.parametrize("filling", FILLINGS)
@pytest.mark.parametrize("direction", [1, -1])
def test_axle_and_both_pins_of_a_crank_drum(filling: tuple[int, ...], direction: int) -> None:
    axle, pin = Journal(0.005, 0.3), Journal(0.003, 0.25)
    # Shelf 1 stands straight up, the others follow anticlockwise, 72 degrees apart.
    masses = tuple(
        PointMass(
            EGG * n, RADIUS * cos(pi / 2 + 2 * pi * i / 5), RADIUS * sin(pi / 2 + 2 * pi * i / 5)
        )
        for i, n in enumerate(filling)
        if n
    )
    numbers = Rack(
        trays=(Tray((*masses, PointMass(EMPTY, 0.0, 0.0))),),
        pitch=0.1,
        arm_length=0.08,
        arm_angle=0.0,
        crank=CrankNumbers(0.055, 0.055, -0.16, 0.17, +1, 0.07),
    )
    angles = np.linspace(0.0, 2 * pi, 73)[:-1]
    forces = balance(numbers, RackFriction(axle, pin, pin, axle), angles, direction)
    drum = RotatingDrum(
        5,
        6,
        RADIUS,
        EGG,
        drum_mass=EMPTY,
        axle_diameter=2 * axle.radius,
        friction=constant(axle.coefficient),
        arm_length=0.08,
        wanted=(-0.8, 0.8),
    )
    drive = CrankLink(
        0.055,
        0.17,
        0.055,
        -0.16,
        branch=1.0,
        link_mass=0.07,
        pin_diameter=2 * pin.radius,
        friction=constant(pin.coefficient),
    )
    ours = turn_cycle(drum, drive, [load(filling)], levels=("middle",), positions=angles)
    which = (1, -1).index(direction)
    peak = np.abs(forces.torque).max()
    assert not ours.jams.any()
    assert ours.shaft_torque[0, 0, which] == pytest.approx(forces.torque, abs=1e-7 * peak)
    assert ours.lost[0, 0, which] == pytest.approx(forces.loss, abs=1e-7 * peak)
    half = 0.5 * forces.pivot_force[:, 0]
    assert ours.pin_forces["axle bearings"][0, 0, which] == pytest.approx(half, abs=1e-6)


def on_two_rollers(
    weight: float, half_angle: float, pull: float, side: float
) -> tuple[float, float]:
    """Return the normal forces of the driven and of the other row [N].

    The driven row stands on the right (`side` +1) or on the left of the lowest point and pulls
    along the rim, anticlockwise; weight, both normal forces and the pull have to balance.
    """
    a = half_angle
    along = np.array([cos(side * a), sin(side * a)])  # the way the rim goes there
    # Both press towards the axle: columns for the driven row and for the other.
    press = np.array([[-sin(side * a), sin(side * a)], [cos(a), cos(a)]])
    driven, other = np.linalg.solve(press, np.array([0.0, weight]) - pull * along)
    return float(driven), float(other)


@pytest.mark.parametrize("half_angle", [25.0, 35.0, 50.0])
@pytest.mark.parametrize("grip", [0.2, 0.5])
def test_a_driven_row_slips_at_its_grip(half_angle: float, grip: float) -> None:
    weight, angle = 70.0, radians(half_angle)
    pull = float(gripping_force(weight, angle, grip, both_driven=False))
    sides = [on_two_rollers(weight, angle, pull, side)[0] for side in (1.0, -1.0)]
    # In the worse direction it is just at its grip, in the other it has some in hand.
    assert min(sides) * grip == pytest.approx(pull, rel=1e-9)
    assert max(sides) * grip >= pull


@pytest.mark.parametrize("half_angle", [20.0, 35.0, 50.0])
def test_a_drum_climbs_out_where_the_other_row_bears_nothing(half_angle: float) -> None:
    weight, angle = 70.0, radians(half_angle)
    pull = float(climbing_force(weight, angle))
    assert on_two_rollers(weight, angle, pull, 1.0)[1] == pytest.approx(0.0, abs=1e-8)
    # The same in other words: the centre of mass stands straight over the driven row.
    rim = 0.18
    assert pull * rim / weight == pytest.approx(rim * sin(angle))


def test_both_rows_driven_share_the_weight() -> None:
    weight, angle, grip = 70.0, radians(35.0), 0.4

    # Across and up, for the right and the left row, each pulling its grip anticlockwise.
    across = [-sin(angle) + grip * cos(angle), sin(angle) + grip * cos(angle)]
    up = [cos(angle) + grip * sin(angle), cos(angle) - grip * sin(angle)]
    right, left = np.linalg.solve([across, up], [0.0, weight])
    expected = grip * (right + left)
    assert float(gripping_force(weight, angle, grip, both_driven=True)) == pytest.approx(expected)


@dataclass(frozen=True)
class Carried:
    """A drum of 360 mm on rollers of 40 mm: plain axles, or other numbers."""

    rim: float = 0.18
    roller: float = 0.02
    axle: float = 0.004
    mu: float = 0.15
    arm: float = 0.5e-3
    angle: float = radians(33.0)
    lean: float = 0.0

    @property
    def circle(self) -> float:
        """Radius of the friction circle of a roller's axle [m]."""
        return self.axle * sin(atan(self.mu))

    def drum(self, *turned: Rows) -> RotatingDrum:
        arm = Range3(self.arm, self.arm, self.arm)
        rollers = SupportRollers(
            self.rim, self.roller, self.angle, 2 * self.axle, constant(self.mu), arm, turned
        )
        return RotatingDrum(
            8, 10, 0.15, 0.061, drum_mass=2.9, rollers=rollers, endless=True, lean=self.lean
        )


class Found(NamedTuple):
    motor: float
    hardest: float


def body_by_body(on: Carried, weight: float, torque: float, sense: float, driven: str) -> Found:
    """Return the motor torque at the drum's speed and the hardest pressed axle of a roller.

    Three equations for the drum (across, up, moments about its axle) and one for each row
    (moments about its own axle), solved by scipy. Unknown are the two normal forces, the two
    forces along the rim (anticlockwise on the drum) and the motor's torque. It sits on a row of
    rollers, on the drum's own axle, or on both rows with half the rim's pull on each.
    """
    a = on.angle

    def equations(v: np.ndarray) -> list[float]:
        (right, left, along_right, along_left), motor = v[:4], v[4]
        faster = on.rim / on.roller
        at_roller = motor / faster
        share = {"right": (1, 0), "left": (0, 1), "axle": (0, 0), "both": (0.5, 0.5)}[driven]
        across = (left - right) * sin(a) + (along_right + along_left) * cos(a)
        up = (left + right) * cos(a) + (along_right - along_left) * sin(a)
        # Flattening turns against the turning of either body, and so does an axle.
        flat = sense * on.arm * (right + left)
        moments = on.rim * (along_right + along_left) - flat - torque
        rows = []
        for normal, along, part in zip(
            (right, left), (along_right, along_left), share, strict=True
        ):
            drag = on.arm * normal + on.circle * np.hypot(normal, along)
            rows.append(part * at_roller - along * on.roller - sense * drag)
        if driven == "axle":
            moments += motor
        if driven == "both":
            rows = [rows[0] + rows[1], along_right - along_left]
        return [
            across - weight * sin(on.lean),
            up - weight * cos(on.lean),
            moments,
            *rows,
        ]

    start = [weight / 2, weight / 2, 0.0, 0.0, torque]
    found = root(equations, start, tol=1e-12).x
    assert np.abs(equations(found)).max() < 1e-8  # [N, N·m]
    assert min(found[:2]) > 0.0  # it stays on its rollers
    return Found(float(found[4]), max(np.hypot(found[0], found[2]), np.hypot(found[1], found[3])))


ROWS = {"right": RIGHT, "left": LEFT, "axle": NEITHER, "both": BOTH}
#: Ordinary rollers; on ball bearings; small ones with soft rims, far apart, in a box that leans.
CARRIED = (
    Carried(),
    Carried(mu=0.003),
    Carried(roller=0.012, arm=1.2e-3, angle=radians(52.0), lean=radians(4.0)),
    Carried(angle=radians(24.0), lean=radians(-3.0)),
)
#: Full, and up to nearly all the pull the drum bears before it climbs out at 24 degrees.
LOADS = ((10,) * 8, (10, 9, 10, 10, 10, 10, 10, 10), (10, 10, 10, 8, 7, 8, 10, 10))


@pytest.mark.parametrize("on", CARRIED)
@pytest.mark.parametrize("driven", ROWS)
@pytest.mark.parametrize("filling", LOADS)
def test_a_drum_on_rollers_body_by_body(on: Carried, driven: str, filling: tuple[int, ...]) -> None:
    """At every position and in either direction of turning, wherever the motor sits."""
    drum = on.drum(ROWS[driven])
    cycle = turn_cycle(
        drum, TurningShaft(endless=True), [load(filling)], levels=("middle",), count=12
    )
    weight = (2.9 + sum(filling) * 0.061) * GRAVITY
    for which, sense in enumerate((1.0, -1.0)):
        for i, q in enumerate(cycle.motion.coordinate):
            # Shelf by shelf: what it takes to hold the drum there, anticlockwise positive.
            places = pi / 2 + 2 * pi * np.arange(8) / 8 + q + on.lean
            torque = float(GRAVITY * 0.061 * 0.15 * np.sum(np.array(filling) * np.cos(places)))
            found = body_by_body(on, weight, torque, sense, driven)
            felt = cycle.shaft_torque[0, 0, which, i]
            assert felt == pytest.approx(sense * found.motor, rel=1e-8, abs=1e-8)
            pressed = cycle.pin_forces["support rollers"][0, 0, which, i]
            assert pressed == pytest.approx(found.hardest, rel=1e-8)


def test_the_pull_of_the_driven_row_tells_the_directions_apart() -> None:
    """Turning so that its row lifts the drum costs less than turning the other way."""
    on, full = Carried(), (10,) * 8
    weight = (2.9 + 80 * 0.061) * GRAVITY
    losses = [s * body_by_body(on, weight, 0.0, s, "right").motor for s in (1.0, -1.0)]
    assert losses[1] / losses[0] > 1.03  # worth telling
    shaft = TurningShaft(endless=True)
    cycle = turn_cycle(on.drum(RIGHT), shaft, [load(full)], levels=("middle",), count=4)
    assert cycle.shaft_torque[0, 0, :, 0] == pytest.approx(losses)
    # On the left it is the other way about; where nobody says, the harder one counts.
    cycle = turn_cycle(on.drum(LEFT), shaft, [load(full)], levels=("middle",), count=4)
    assert cycle.shaft_torque[0, 0, :, 0] == pytest.approx(losses[::-1])
    cycle = turn_cycle(on.drum(LEFT, RIGHT), shaft, [load(full)], levels=("middle",), count=4)
    assert cycle.shaft_torque[0, 0, :, 0] == pytest.approx([max(losses)] * 2)
