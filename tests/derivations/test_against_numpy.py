"""What SymPy derives is what numpy computes, to the last digits, on random points."""

from collections.abc import Callable, Mapping

import numpy as np
import pytest
from numpy.typing import NDArray

from turnercalc.derivations import derivation, names
from turnercalc.mechanics import (
    balance,
    friction,
    gearing,
    linear_actuator,
    pushing,
    rolling,
    screws,
    worm,
)
from turnercalc.mechanics import slotted_lever as lever
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.mechanics.four_bar import Loop, close_loop
from turnercalc.mechanics.slider_crank import Slide, close_slider
from turnercalc.tables import Range3
from turnercalc.turners import support_rollers
from turnercalc.turners.arc_on_rollers import RollerResistance
from turnercalc.turners.joining import HALF_ROUND, Belt, Joining

Array = NDArray[np.float64]
Values = Mapping[str, Array]
POINTS = 400


def between(low: float, high: float, seed: int) -> Array:
    return np.random.default_rng(seed).uniform(low, high, POINTS)


def racks() -> dict[str, Array]:
    """Crank-rockers with a margin, the crank centre anywhere round the pivot."""
    crank = between(0.02, 0.06, 1)
    arm = crank * between(1.2, 3.0, 2)
    ground = crank * between(2.5, 6.0, 3)
    shortest = np.maximum(ground + crank - arm, arm - ground + crank) + 0.1 * crank
    link = shortest + between(0, 1, 4) * (arm + ground - crank - 0.1 * crank - shortest)
    where = between(-np.pi, np.pi, 5)
    return {
        "r": crank,
        "L": link,
        "a": arm,
        "X": ground * np.cos(where),
        "Y": ground * np.sin(where),
        "t": between(0, 2 * np.pi, 6),
        "b": np.where(between(-1, 1, 7) > 0, 1.0, -1.0),
    }


RACK = racks()


def loop() -> Loop:
    v = RACK
    return close_loop(v["r"], v["L"], v["a"], v["X"], v["Y"], v["t"], v["b"])


RACK_CLOSED = {
    **RACK,
    "p": loop().arm_angle,
    "p1": loop().arm_rate,
    "M": between(1, 20, 8),
    "g": np.full(POINTS, STANDARD_GRAVITY),
    "x": between(-0.05, 0.05, 9),
    "y": between(-0.1, 0.1, 10),
    "q": between(-0.9, 0.9, 11),
}


def link_to_arm() -> Array:
    closed = loop()
    arm = RACK["a"] * np.exp(1j * closed.arm_angle)
    return np.abs(np.angle(arm / (closed.link_x + 1j * closed.link_y)))


LEVER = {"d": between(0.1, 0.4, 1), "t": between(0, 2 * np.pi, 2)}
LEVER["r"] = LEVER["d"] * between(0.2, 0.9, 3)

ACTUATOR = {
    "p": between(0.1, 0.4, 1),
    "q": between(0.02, 0.09, 2),
    "u": between(0.1, 3.0, 3),
    "T": between(-20, 20, 4),
}

SLIDER = {
    "r": between(0.02, 0.06, 1),
    "e": between(-0.02, 0.02, 2),
    "t": between(0, 2 * np.pi, 3),
    "b": np.where(between(-1, 1, 4) > 0, 1.0, -1.0),
}
SLIDER["L"] = (SLIDER["r"] + np.abs(SLIDER["e"])) * between(1.3, 4.0, 5)


def slide() -> Slide:
    v = SLIDER
    return close_slider(v["r"], v["L"], v["e"], v["t"], v["b"])


CRADLE = {
    "M": between(1, 10, 1),
    "g": np.full(POINTS, STANDARD_GRAVITY),
    "R": between(0.1, 0.6, 2),
    "h": between(0.05, 0.5, 3),
    "a": between(-0.1, 0.1, 4),
    "q": between(-0.8, 0.8, 5),
}


def cradle() -> rolling.RunnerPin:
    return rolling.runner_pin(CRADLE["R"], CRADLE["a"], CRADLE["h"], CRADLE["q"])


DRIVEN = {
    **CRADLE,
    "Q": between(-3.0, 3.0, 6),
    "X": between(-0.2, 0.2, 7),
    "Y": between(0.05, 0.4, 8),
    "b": between(-3.0, 3.0, 9),
    "W": between(5.0, 60.0, 10),
    "H": between(-20.0, 20.0, 11),
    "B": between(0.1, 1.2, 12),
}


def grip_by_balance() -> Array:
    """Return floor friction over floor press from all three equations of balance, solved."""
    v = DRIVEN
    equations = np.zeros((POINTS, 3, 3))
    equations[:, 0, 0], equations[:, 0, 2] = np.cos(v["b"]), -1.0  # F cos b - H = 0
    equations[:, 1, 0], equations[:, 1, 1] = np.sin(v["b"]), 1.0  # F sin b + N = M g
    equations[:, 2, 0] = v["X"] * np.sin(v["b"]) - v["Y"] * np.cos(v["b"])
    known = np.stack([0.0 * v["Q"], v["M"] * v["g"], v["Q"]], axis=-1)
    _, press, held = np.linalg.solve(equations, known[..., None])[..., 0].T
    return np.asarray(held / press)


def roller_press() -> Array:
    v = DRIVEN
    none = np.zeros(())
    return RollerResistance(v["W"], none, v["B"], none, none).presses(v["H"], 0.0)[0]


BARS = {
    "R": between(0.012, 0.035, 1),
    "r": between(0.004, 0.015, 2),
    "W": between(0.1, 2.0, 3),
    "A": between(0.1, 1.4, 4),
    "N": between(0.1, 2.0, 5),
    "f": between(0.0, 0.003, 6),
    "p": between(0.5, 20.0, 17),
    "e": between(0.0, 0.002, 18),
    "a": between(-3.0, 3.0, 19),
    "T": between(0.005, 0.05, 20),
    "eta": between(0.5, 0.99, 21),
    "n": np.floor(between(0.0, 8.0, 22)),
    "P": between(2.0, 40.0, 23),
    "mu": between(0.1, 0.9, 24),
    "b": between(0.004, 0.03, 25),
}
BARS["s"] = 2 * (BARS["R"] + BARS["r"]) * between(0.1, 0.98, 7)

GRID = {
    **BARS,
    "k": between(0.0, 0.7, 8),
    "u": between(0.5, 6.0, 9),
    "p": between(0.0, 0.01, 10),
    "d": between(-0.1, 0.1, 11),
    "b": between(0.0, 0.05, 12),
    "T": between(0.0, 0.001, 13),
    "a": between(0.003, 0.02, 14),
    "w": between(0.0, 0.001, 15),
    "A": between(0.0, 0.3, 16),
}

#: Bars so rough that the egg would jam are left out.
PUSHED = {**GRID, "k": between(0.0, 0.45, 8), "A": between(0.0, 0.2, 16)}

DRUM = {
    "m": between(0.01, 1, 1),
    "R": between(0.05, 0.5, 2),
    "N": np.floor(between(3, 30, 3)),
    "M": between(1, 10, 4),
    "g": np.full(POINTS, STANDARD_GRAVITY),
    "x": between(-0.1, 0.1, 5),
    "y": between(-0.1, 0.1, 6),
    "q": between(-4, 4, 7),
}
#: Rollers less than 45 degrees from straight below, where the pull takes weight off the row.
ROLLERS = {"W": between(5, 200, 9), "A": between(0.2, 0.78, 10), "f": between(0.1, 0.9, 11)}
DRUM["n"] = np.floor(1 + (DRUM["N"] - 1) * between(0, 0.99, 8))

WORM = {
    "f": between(0.01, 0.3, 1),
    "c": between(0.1, 0.5, 2),
    "u": between(0.02, 0.7, 3),
    "F": between(10, 5000, 4),
    "d": between(0.005, 0.03, 5),
    "v": np.where(between(-1, 1, 6) > 0, np.radians(15), 0.0),
    "eta": between(0.3, 1.0, 7),
    "r": between(0.001, 0.02, 8),
}
WORM["L"] = WORM["d"] * between(0.1, 1.0, 9)


def of(function: Callable[..., Array], values: Values, letters: str) -> Array:
    return function(*(values[letter] for letter in letters.split()))


def row_of_bars() -> Array:
    """Return what the package's joined bars ask, one row of equal bars at a time."""
    asked = []
    for torque, eta, behind in zip(BARS["T"], BARS["eta"], BARS["n"], strict=True):
        row = np.full((int(behind) + 1, 1, 1, 1), torque)
        asked.append(Joining(bar_to_bar=True).together(row, 0, np.full((1, 1, 1), eta)).item())
    return np.array(asked)


def belt_grip() -> Array:
    return np.array(
        [
            Belt(pull, radius, Range3(mu, mu, mu)).grip(HALF_ROUND)
            for pull, radius, mu in zip(BARS["P"], BARS["b"], BARS["mu"], strict=True)
        ]
    )


EXPECTED: dict[str, tuple[Values, Callable[[], Array]]] = {
    "crank_and_link_rate": (RACK_CLOSED, lambda: loop().arm_rate),
    "crank_and_link_second": (RACK_CLOSED, lambda: loop().arm_second),
    "crank_and_link_torque": (
        RACK_CLOSED,
        lambda: (
            loop().arm_rate
            * balance.gravity_torque(
                RACK_CLOSED["M"] * RACK_CLOSED["x"],
                RACK_CLOSED["M"] * RACK_CLOSED["y"],
                RACK_CLOSED["q"],
            )
        ),
    ),
    "link_to_arm_angle": (RACK_CLOSED, link_to_arm),
    "slotted_lever_angle": (LEVER, lambda: of(lever.lever_angle, LEVER, "r d t")),
    "slotted_lever_rate": (LEVER, lambda: of(lever.lever_rate, LEVER, "r d t")),
    "slotted_lever_second": (LEVER, lambda: of(lever.lever_second, LEVER, "r d t")),
    "actuator_length": (ACTUATOR, lambda: of(linear_actuator.eye_distance, ACTUATOR, "p q u")),
    "actuator_moment_arm": (
        ACTUATOR,
        lambda: of(linear_actuator.actuator_moment_arm, ACTUATOR, "p q u"),
    ),
    "actuator_force": (ACTUATOR, lambda: of(linear_actuator.actuator_force, ACTUATOR, "T p q u")),
    "slider_position": (SLIDER, lambda: slide().position),
    "slider_rate": (SLIDER, lambda: slide().rate),
    "slider_second": (SLIDER, lambda: slide().second),
    "cradle_height": (CRADLE, lambda: cradle().y),
    "cradle_torque": (CRADLE, lambda: CRADLE["M"] * CRADLE["g"] * cradle().y_rate),
    "cradle_grip": (DRIVEN, grip_by_balance),
    "arc_roller_press": (DRIVEN, roller_press),
    "nest_angle": (BARS, lambda: of(rolling.nest_angle, BARS, "R r s")),
    "nest_force": (BARS, lambda: of(rolling.nest_force, BARS, "W A")),
    "rolling_loss": (BARS, lambda: of(rolling.rolling_loss_at_bar, BARS, "N f R r")),
    "egg_turn": (BARS, lambda: BARS["p"] * of(rolling.egg_turn_ratio, BARS, "R r")),
    "lopsided_egg": (BARS, lambda: of(rolling.lopsided_torque_at_bar, BARS, "W e R r a")),
    "row_of_bars": (BARS, row_of_bars),
    "belt_grip": (BARS, belt_grip),
    "grid_push": (GRID, lambda: of(rolling.rolling_push, GRID, "W R f k")),
    "grid_stroke": (GRID, lambda: of(pushing.grid_stroke, GRID, "u R p")),
    "grid_push_anywhere": (
        PUSHED,
        lambda: of(lambda *given: pushing.pushed(*given).push, PUSHED, "W R f k d A b T"),
    ),
    "grid_climb": (GRID, lambda: of(pushing.climb_angle, GRID, "R a w")),
    "grid_mesh_drop": (GRID, lambda: of(pushing.mesh_drop, GRID, "R a w")),
    "drum_imbalance": (DRUM, lambda: of(balance.contiguous_moment, DRUM, "m R N n")),
    "drum_torque": (
        DRUM,
        lambda: balance.gravity_torque(DRUM["M"] * DRUM["x"], DRUM["M"] * DRUM["y"], DRUM["q"]),
    ),
    "roller_grip": (
        ROLLERS,
        lambda: support_rollers.gripping_force(
            ROLLERS["W"], ROLLERS["A"], ROLLERS["f"], both_driven=False
        ),
    ),
    "roller_climb": (ROLLERS, lambda: of(support_rollers.climbing_force, ROLLERS, "W A")),
    "worm_efficiency": (WORM, lambda: of(worm.worm_driving_efficiency, WORM, "u f c")),
    "worm_back_efficiency": (WORM, lambda: of(worm.wheel_driving_efficiency, WORM, "u f c")),
    "screw_torque": (WORM, lambda: of(screws.screw_raise_torque, WORM, "F d L f v")),
    "screw_efficiency": (WORM, lambda: of(screws.screw_thread_efficiency, WORM, "d L f v")),
    "stage_back_efficiency": (WORM, lambda: of(gearing.back_driven_efficiency, WORM, "eta")),
    "pivot_friction": (WORM, lambda: of(friction.journal_torque, WORM, "F r f")),
}


def test_every_derivation_is_compared() -> None:
    # the arm's angle is compared on its own below: whole turns do not count
    assert set(EXPECTED) | {"crank_and_link_angle"} == set(names())


@pytest.mark.parametrize("name", EXPECTED)
def test_sympy_and_numpy_agree(name: str) -> None:
    values, compute = EXPECTED[name]
    derived, computed = derivation(name).evaluate(values), compute()
    assert np.isfinite(computed).all()
    # 1e-12 of each value, or of a typical one where terms cancel
    scale = np.median(np.abs(computed))
    np.testing.assert_allclose(derived, computed, rtol=1e-12, atol=1e-12 * scale)


def test_arm_angle_agrees_apart_from_whole_turns() -> None:
    derived = derivation("crank_and_link_angle").evaluate(RACK)
    np.testing.assert_allclose(
        np.exp(1j * derived), np.exp(1j * loop().arm_angle), rtol=0, atol=1e-12
    )


@pytest.mark.parametrize("link", [0.1, 0.5])
def test_a_loop_that_does_not_close_is_nan_in_both(link: float) -> None:
    case = {"r": 0.05, "L": link, "a": 0.07, "X": 0.05, "Y": -0.2, "t": 0.3, "b": 1.0}
    assert np.isnan(derivation("crank_and_link_angle").evaluate(case))
    assert np.isnan(close_loop(0.05, link, 0.07, 0.05, -0.2, 0.3, 1.0).arm_angle)
