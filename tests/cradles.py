"""Cradles in plain numbers, for tests of the core."""

import numpy as np
from hypothesis import strategies as st

from tests.racks import case
from turnercalc.drives.crank_link import CrankLink
from turnercalc.joints import FRICTIONLESS, JointFriction
from turnercalc.tables import Range3
from turnercalc.turners.rocking_cradle import NO_RESISTANCE, RockingCradle

PLYWOOD = Range3(0.0005, 0.00125, 0.002)


def reaching_link(cradle: RockingCradle, crank: float, across: float, height: float) -> float:
    """Return the link that stands on the level pin when the crank stands square to it."""
    to_pin = np.hypot(cradle.pin_across - across, cradle.pin_height - height)
    return float(np.sqrt(to_pin**2 - crank**2))


def plain_cradle(**changes: object) -> tuple[RockingCradle, CrankLink]:
    """Six rows of six hen's eggs on runners of 0.3 m, pushed from the right near the top."""
    numbers: dict[str, object] = {
        "runner_radius": 0.30,
        "row_places": tuple(0.05 * (np.arange(6) - 2.5)),
        "eggs_per_row": 6,
        "egg_mass": 0.060,
        "egg_height": 0.155,
        "cradle_mass": 2.4,
        "cradle_height": 0.07,
        "pin_across": 0.15,
        "pin_height": 0.13,
        "wanted_tilt": np.radians(40.0),
        "egg_inertia": 1.6e-5,
        "cradle_inertia": 0.03,
        "cases": (case("full", [[6] * 6]), case("right", [[0, 0, 0, 6, 6, 6]])),
    }
    cradle = RockingCradle(**(numbers | changes))  # type: ignore[arg-type]
    link = reaching_link(cradle, 0.06, 0.45, 0.10)
    return cradle, CrankLink(0.06, link, 0.45, 0.10).assemble(cradle.path())


@st.composite
def cradles(draw: st.DrawFn, friction: bool = True) -> tuple[RockingCradle, CrankLink]:
    """Return cradles that close, of any balance, loading and resistance."""
    radius = draw(st.floats(0.2, 0.6))
    rows, eggs = draw(st.integers(1, 7)), draw(st.integers(1, 8))
    fill = st.lists(st.integers(0, eggs), min_size=rows, max_size=rows)
    arm = draw(st.floats(0.0, 0.004)) if friction else 0.0
    mu = draw(st.floats(0.0, 0.3)) if friction else 0.0
    cradle = RockingCradle(
        runner_radius=radius,
        row_places=tuple(0.05 * (np.arange(rows) - (rows - 1) / 2) + draw(st.floats(-0.01, 0.01))),
        eggs_per_row=eggs,
        egg_mass=draw(st.floats(0.01, 0.15)),
        egg_height=draw(st.floats(0.05, 0.5)),
        cradle_mass=draw(st.floats(0.5, 5.0)),
        cradle_height=draw(st.floats(0.03, 0.2)),
        pin_across=draw(st.floats(-0.05, 0.05)),
        pin_height=draw(st.floats(0.15, 0.4)),
        wanted_tilt=np.radians(40.0),
        egg_inertia=1e-5,
        egg_shift=draw(st.sampled_from([0.0, 0.002])),
        slip_angle=np.radians(8.0),
        cradle_inertia=0.02,
        rolling_arm=Range3(0.5 * arm, arm, 1.5 * arm) if arm else NO_RESISTANCE,
        cases=(case("full", [[eggs] * rows]), case("some", [draw(fill)])),
    )
    side = draw(st.sampled_from([1.0, -1.0]))
    crank = draw(st.floats(0.03, 0.07))
    across, height = side * draw(st.floats(0.45, 0.7)), draw(st.floats(0.1, 0.4))
    link = reaching_link(cradle, crank, across, height)
    level = JointFriction(0.5 * mu, mu, 1.5 * mu, 1.8 * mu) if mu else FRICTIONLESS
    drive = CrankLink(
        crank,
        link,
        across,
        height,
        link_mass=draw(st.floats(0.0, 0.2)),
        pin_diameter=0.006,
        friction=level,
    )
    return cradle, drive.assemble(cradle.path())
