"""What every turner keeps to, whoever writes it: what drives and all the rest rely on."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from turnercalc.cycle import TurnCycle, turn_cycle
from turnercalc.drives.base import DIRECTIONS, Drive
from turnercalc.turners.base import Turner

Array = NDArray[np.float64]
G = 9.80665  # m/s2, standard gravity (CGPM 1901)
COUNT = 1441


def coordinates(turner: Turner, count: int = 61) -> Array:
    low, high = turner.travel
    return np.linspace(low, high, count)


def cells_of(turner: Turner) -> Array:
    return np.stack([case.cells for case in turner.load_cases()]).astype(float)


def run(turner: Turner, drive: Drive) -> TurnCycle:
    cycle = turn_cycle(turner, drive, turner.load_cases(), count=COUNT)
    assert cycle.motion.closes.all()
    assert np.ptp(cycle.motion.coordinate) > 0.5 * min(np.ptp(turner.travel), 1.6)
    return cycle


def over_a_cycle(cycle: TurnCycle, values: Array) -> Array:
    """Integral over the position: once round, or out and back (both directions together)."""
    if cycle.motion.round_and_round:
        return values.mean(axis=-1) * 2.0 * np.pi
    return np.trapezoid(values, cycle.motion.position, axis=-1).sum(axis=-1)


def energy_closes(turner: Turner, drive: Drive) -> None:
    """Shaft work over a cycle is what friction took, and what the eggs lost by themselves."""
    cycle = run(turner, drive)
    motion = cycle.motion
    sense = DIRECTIONS * np.sign(motion.rate)
    held = turner.load_torque(cells_of(turner), motion.coordinate, sense)
    held = np.broadcast_to(held * motion.rate * DIRECTIONS, cycle.shaft_torque.shape)
    jammed = cycle.jams.any(axis=-1)
    if not motion.round_and_round:
        jammed = jammed.any(axis=-1)
    assert not jammed.all()
    work = over_a_cycle(cycle, cycle.shaft_torque)
    lost = over_a_cycle(cycle, cycle.lost)
    by_eggs = over_a_cycle(cycle, held)
    scale = over_a_cycle(cycle, np.abs(cycle.shaft_torque)) + 1e-12
    close = np.abs(work - lost - by_eggs) <= 2e-4 * scale
    assert close[~jammed].all()
    assert (cycle.lost[~cycle.jams] >= -1e-12).all()
    # Nothing is ever gained: loose or rolling eggs may lose, never give.
    assert (by_eggs >= -2e-3 * scale)[~jammed].all()
    if eggs_are_held(turner):
        assert (np.abs(by_eggs) <= 2e-3 * scale)[~jammed].all()


def friction_costs(turner: Turner, drive: Drive) -> None:
    """More friction costs more work over a cycle; from rest it asks no less than on the way."""
    levels = ("low", "middle", "high", "starting")
    cycle = turn_cycle(turner, drive, turner.load_cases(), levels=levels, count=COUNT)
    work = over_a_cycle(cycle, cycle.shaft_torque)
    if cycle.motion.round_and_round:
        work = work.max(axis=-1)
    steps = np.diff(work, axis=1)
    assert (steps[np.isfinite(steps)] >= -1e-9).all()


def forces_are_sizes(turner: Turner, drive: Drive) -> None:
    """Bearing forces are sizes, and there is at least one bearing."""
    cycle = run(turner, drive)
    assert cycle.pin_forces
    for name, force in cycle.pin_forces.items():
        assert name
        assert force.shape == cycle.shaft_torque.shape
        # A force that presses on one side only may be told with its sign.
        assert np.isfinite(force[~cycle.jams]).all()


def without_friction_both_ways_are_one(turner: Turner, drive: Drive) -> None:
    """What a frictionless cycle asks of the shaft is the same in both directions, sign turned."""
    cycle = turn_cycle(turner, drive, turner.load_cases(), levels=("none",), count=361)
    one, other = cycle.shaft_torque[:, 0, 0], cycle.shaft_torque[:, 0, 1]
    if eggs_are_held(turner):
        scale = np.abs(one).max() + 1e-12
        np.testing.assert_allclose(one, -other, atol=1e-9 * scale)


# -- the turner alone -----------------------------------------------------------------------------


def eggs_are_held(turner: Turner) -> bool:
    """Whether eggs move with the part that is driven, like a stone fixed to it."""
    eggs = [o for o in turner.outlines() if o.name == "egg"]
    assert eggs, "a turner shows its eggs"
    rest = [o for o in turner.outlines() if o.name != "egg"]
    assert rest, "and what holds them"
    across = np.array([eggs[0].across[0], rest[0].across[0]])
    height = np.array([eggs[0].height[0], rest[0].height[0]])
    x, y = turner.path_of(across[:, None], height[:, None]).point(coordinates(turner))
    apart = np.hypot(x[0] - x[1], y[0] - y[1])
    return bool(np.ptp(apart) < 1e-9)


def load_torque_is_the_slope_of_the_weights_height(turner: Turner, egg_mass: float) -> None:
    """One more egg adds its weight times the climb of one place on the part, and no other torque.

    The place is found from the torque itself and has to lie among the outlines of the eggs; the
    empty part has a weight and a balance point of its own.
    """
    if not eggs_are_held(turner):
        return
    q = coordinates(turner)
    shape = turner.load_cases()[0].cells.shape
    empty = np.zeros((1, *shape))

    def torque(cells: Array) -> Array:
        found = turner.load_torque(cells, q, 1.0)
        return np.broadcast_to(found, (1, 1, 1, q.size))[0, 0, 0]

    place_of(turner, q, torque(empty), None)
    eggs = [o for o in turner.outlines() if o.name == "egg"]
    across = np.concatenate([o.across for o in eggs])
    height = np.concatenate([o.height for o in eggs])
    for index in np.ndindex(shape):
        one = empty.copy()
        one[(0, *index)] = 1.0
        x, y = place_of(turner, q, torque(one) - torque(empty), egg_mass * G)
        assert across.min() < x < across.max()
        assert height.min() < y < height.max()


def place_of(turner: Turner, q: Array, torque: Array, weight: float | None) -> tuple[float, float]:
    """Return the place on the part, level, at which a weight [N] makes a torque [m].

    The climb of a place is the origin's and a share for each metre across and up; what these do
    not explain of the torque breaks the contract. Where the weight is not known either it is
    found with the place, and the moments are returned instead.
    """
    across, height = np.array([0.0, 1.0, 0.0]), np.array([0.0, 0.0, 1.0])
    _, climb = turner.path_of(across[:, None], height[:, None]).tangent(q)
    origin, right, up = np.broadcast_to(climb, (3, q.size))
    basis = np.stack([right - origin, up - origin])
    left = torque
    if weight is None:
        basis = np.concatenate([basis, origin[None]])
    else:
        left = torque - weight * origin
    found, *_ = np.linalg.lstsq(basis.T, left, rcond=None)
    scale = np.abs(torque).max() + 1e-12
    np.testing.assert_allclose(left - found @ basis, 0.0, atol=1e-9 * scale)
    return float(found[0]) / (weight or 1.0), float(found[1]) / (weight or 1.0)


def inertia_is_positive_and_knows_its_slope(turner: Turner, egg_mass: float) -> None:
    """J > 0 for every load, more with eggs than without, and dJ/dq is its derivative."""
    del egg_mass
    q = coordinates(turner)
    cells = cells_of(turner)
    step = 1e-5 * (np.ptp(turner.travel) or 1.0)
    inertia, slope = turner.inertia(cells, q)
    more, _ = turner.inertia(cells, q + step)
    less, _ = turner.inertia(cells, q - step)
    assert (np.asarray(inertia) > 0.0).all()
    scale = np.abs(inertia).max()
    expected = (np.asarray(more) - np.asarray(less)) / (2 * step)
    np.testing.assert_allclose(
        np.broadcast_to(slope, expected.shape), expected, atol=1e-9 * scale / step
    )
    eggs = cells.reshape(len(cells), -1).sum(axis=1)
    full, empty = int(eggs.argmax()), int(eggs.argmin())
    if eggs[full] > eggs[empty]:
        assert (np.asarray(inertia)[full] > np.asarray(inertia)[empty]).all()


def outline_agrees_with_path(turner: Turner, egg_mass: float) -> None:
    """Every corner is where its path begins, and its rates are those of its way."""
    del egg_mass
    q = coordinates(turner, 21)
    step = 1e-6 * (np.ptp(turner.travel) or 1.0)
    outlines = turner.outlines()
    across = np.concatenate([o.across for o in outlines])
    height = np.concatenate([o.height for o in outlines])
    path = turner.path_of(across[:, None], height[:, None])
    x, y = path.point(np.zeros(1))
    np.testing.assert_allclose(x[:, 0], across, atol=1e-9)
    np.testing.assert_allclose(y[:, 0], height, atol=1e-9)
    for value, derivative in (("point", "tangent"), ("tangent", "second")):
        ahead, behind = (getattr(path, value)(q + s) for s in (step, -step))
        here = getattr(path, derivative)(q)
        for more, less, rate in zip(ahead, behind, here, strict=True):
            expected = (more - less) / (2 * step)
            scale = np.abs(rate).max() + 1.0
            np.testing.assert_allclose(
                np.broadcast_to(rate, expected.shape), expected, atol=1e-5 * scale
            )


def the_pin_is_fixed_to_the_part(turner: Turner, egg_mass: float) -> None:
    """The driven pin keeps its distance from the corners of what carries the eggs."""
    del egg_mass
    if not turner.rests_on_pin:
        return
    q = coordinates(turner, 21)
    pin_x, pin_y = turner.path().point(q)
    parts = [o for o in turner.outlines() if o.name != "egg"]
    for part in parts[:1]:
        x, y = turner.path_of(part.across[:, None], part.height[:, None]).point(q)
        apart = np.hypot(x - pin_x, y - pin_y)
        np.testing.assert_allclose(apart, apart[:, :1] + 0.0 * apart, atol=1e-9)


def load_cases_are_sound(turner: Turner, egg_mass: float) -> None:
    """Ids and names are their own, eggs are counted, one is full and at least one is planned."""
    del egg_mass
    cases = turner.load_cases()
    ids = [case.id for case in cases]
    names = [case.name for case in cases]
    assert len(set(ids)) == len(ids)
    assert len(set(names)) == len(names)
    assert any(case.planned for case in cases)
    assert max(case.egg_count for case in cases) > 0
    assert len({case.cells.shape for case in cases}) == 1
    for case in cases:
        assert (case.cells >= 0).all()
        assert case.family


TURNER_CONTRACTS = (
    load_torque_is_the_slope_of_the_weights_height,
    inertia_is_positive_and_knows_its_slope,
    outline_agrees_with_path,
    the_pin_is_fixed_to_the_part,
    load_cases_are_sound,
)
DRIVE_CONTRACTS = (
    energy_closes,
    friction_costs,
    forces_are_sizes,
    without_friction_both_ways_are_one,
)


def name_of(contract: object) -> str:
    return getattr(contract, "__name__", str(contract))
