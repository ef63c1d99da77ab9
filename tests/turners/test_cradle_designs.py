"""Many cradles at once: a design axis before all others gives what one after another gives."""

from dataclasses import replace

import numpy as np
import pytest

from tests.cradles import plain_cradle, reaching_link
from tests.turners.test_arc_on_rollers import on_rollers
from turnercalc.cycle import frictionless
from turnercalc.drives.crank_link import CrankLink
from turnercalc.turners.rocking_cradle import RockingCradle

POSITIONS = np.linspace(0.0, 6.0, 37)
RADII, HEIGHTS = np.array([0.27, 0.30, 0.36, 0.30]), np.array([0.11, 0.13, 0.15, 0.09])


def on_floor(cradle: RockingCradle) -> RockingCradle:
    return cradle


@pytest.mark.parametrize("kind", [on_floor, on_rollers])
def test_a_block_of_designs_is_its_designs_one_by_one(kind: object) -> None:
    plain, _ = plain_cradle(egg_shift=0.001, slip_angle=np.radians(3.0))
    make = on_rollers if kind is on_rollers else on_floor
    cells = np.stack([case.cells for case in plain.load_cases()]).astype(float)
    shape = (-1, 1, 1, 1, 1)
    links = np.array(
        [
            reaching_link(
                replace(plain, runner_radius=float(r), pin_height=float(h)), 0.05, 0.45, 0.10
            )
            for r, h in zip(RADII, HEIGHTS, strict=True)
        ]
    )
    block = make(
        replace(plain, runner_radius=RADII.reshape(shape), pin_height=HEIGHTS.reshape(shape))
    )
    drive = CrankLink(0.05, links.reshape(shape), 0.45, 0.10).assemble(block.path())
    q, rate, second, torque = frictionless(block, drive, cells, POSITIONS)
    assert q.shape == (4, 1, 1, 1, 37)
    assert torque.shape == (4, len(cells), 1, 1, 37)
    block_inertia, block_slope = block.inertia(cells, q)
    for at, (radius, height, link) in enumerate(zip(RADII, HEIGHTS, links, strict=True)):
        one = make(replace(plain, runner_radius=float(radius), pin_height=float(height)))
        alone = CrankLink(0.05, float(link), 0.45, 0.10).assemble(one.path())
        expected = frictionless(one, alone, cells, POSITIONS)
        for ours, theirs in zip((q, rate, second), expected[:3], strict=True):
            np.testing.assert_allclose(ours[at].squeeze(), theirs.squeeze(), atol=1e-11)
        np.testing.assert_allclose(torque[at].squeeze(), expected[3].squeeze(), atol=1e-11)
        inertia, slope = one.inertia(cells, expected[0])
        np.testing.assert_allclose(
            np.broadcast_to(block_inertia, torque.shape)[at].squeeze(),
            np.broadcast_to(inertia, torque.shape[1:]).squeeze(),
            rtol=1e-12,
        )
        np.testing.assert_allclose(
            np.broadcast_to(block_slope, torque.shape)[at].squeeze(),
            np.broadcast_to(slope, torque.shape[1:]).squeeze(),
            atol=1e-12,
        )
