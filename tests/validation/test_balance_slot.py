"""A tray on a slotted lever, body by body, with friction in slot and pivot.

Statics of machines (Beer and Johnston, Vector Mechanics for Engineers: Statics, chapter 6 and
section 8.6, from memory): the pin presses one face of the slot, drags along it by the friction
coefficient against the sliding of its own skin, and the tray's pivot resists with the friction
circle times its true reaction. No virtual work is used, and of the package only the cycle that is
judged. Geometry as complex numbers x + iy about the tray's pivot.
"""

import numpy as np
import pytest
from scipy.optimize import brentq

from tests.racks import case
from turnercalc.cycle import turn_cycle
from turnercalc.drives.slotted_lever import SlottedLever
from turnercalc.joints import JointFriction
from turnercalc.turners.tilting_trays import TiltingTrays

G = 9.80665  # m/s2, standard gravity (CGPM 1901)
MU = 0.25
ROWS = (-0.09, -0.03, 0.03, 0.09)
EGG, HEIGHT = 0.060, 0.030
TRAY, TRAY_HEIGHT = 0.8, -0.005
PIVOT, PIN = 0.010, 0.008  # diameters

DRIVES = {
    "below": (0.035, 0.0, -0.12),
    "below and aside": (0.030, 0.04, -0.11),
    "above": (0.040, -0.02, 0.13),
}
FILLINGS = ((5, 5, 5, 5), (5, 5, 0, 0), (0, 0, 5, 5), (0, 0, 0, 0))


def cross(a: complex, b: complex) -> float:
    return (a.conjugate() * b).imag


def shaft_torque(
    crank: float, centre: complex, arm: float, eggs: tuple[int, ...], theta: float, way: float
) -> float:
    """Torque as the motor feels it, from the balance of tray and crank."""
    turn = np.exp(1j * theta)
    pin = centre + crank * turn
    along = pin / abs(pin)  # of the slot, outwards
    across = 1j * along
    velocity = 1j * crank * turn  # of the pin's middle, per unit of shaft speed
    rate = cross(pin, velocity) / abs(pin) ** 2
    slip = (along.conjugate() * velocity).real
    tilt = np.exp(1j * (np.angle(along) - arm))
    bodies = [(TRAY, 1j * TRAY_HEIGHT)]
    bodies += [(EGG * n, x + 1j * HEIGHT) for n, x in zip(eggs, ROWS, strict=True)]
    weight = -1j * G * sum(mass for mass, _ in bodies)
    moment = sum(cross(place * tilt, -1j * G * mass) for mass, place in bodies)
    circle = 0.5 * PIVOT * np.sin(np.arctan(MU))

    def force(size: float, face: float) -> tuple[complex, complex]:
        """Where the pin presses the tray's slot, and with what force."""
        skin = way * (slip - face * 0.5 * PIN * (1.0 - rate))
        return pin + face * 0.5 * PIN * across, size * (face * across + MU * np.sign(skin) * along)

    def left_over(size: float, face: float) -> float:
        at, push = force(size, face)
        return moment + cross(at, push) - np.sign(way * rate) * circle * abs(push + weight)

    for face in (1.0, -1.0):
        if left_over(0.0, face) * left_over(1e3, face) <= 0.0:
            at, push = force(brentq(left_over, 0.0, 1e3, args=(face,), xtol=1e-12), face)
            return way * cross(at - centre, push)
    raise AssertionError("friction jams it: choose other numbers")


@pytest.mark.parametrize("where", DRIVES)
def test_a_tray_on_a_slotted_lever_with_friction(where: str) -> None:
    crank, across, height = DRIVES[where]
    centre = complex(across, height)
    arm = float(np.angle(centre))
    friction = JointFriction(MU, MU, MU, MU)
    tray = TiltingTrays(
        count=1,
        row_places=ROWS,
        eggs_per_row=5,
        egg_mass=EGG,
        egg_height=HEIGHT,
        tray_mass=TRAY,
        tray_height=TRAY_HEIGHT,
        arm_length=0.1,
        arm_angle=arm,
        pivot_diameter=PIVOT,
        pivot_friction=friction,
        wanted_tilt=np.radians(20.0),
        cases=tuple(case(str(eggs), [eggs]) for eggs in FILLINGS),
    )
    drive = SlottedLever(crank, across, height, pin_diameter=PIN, friction=friction)
    cycle = turn_cycle(
        tray, drive.assemble(tray.path()), tray.load_cases(), levels=("middle",), count=72
    )
    ours = cycle.shaft_torque[:, 0]
    theirs = np.array(
        [
            [
                [
                    shaft_torque(crank, centre, arm, eggs, float(t), way)
                    for t in cycle.motion.position
                ]
                for way in (1.0, -1.0)
            ]
            for eggs in FILLINGS
        ]
    )
    peak = np.abs(theirs).max(axis=(1, 2), keepdims=True)
    assert np.abs(ours - theirs).max(axis=(1, 2)) == pytest.approx(0.0, abs=1e-6 * peak.max())
    # Friction matters here: without it the peak would be several per cent lower.
    free = turn_cycle(
        tray, drive.assemble(tray.path()), tray.load_cases(), levels=("none",), count=72
    )
    assert (ours.max(axis=-1) > 1.03 * free.shaft_torque[:, 0].max(axis=-1))[1:3].all()
