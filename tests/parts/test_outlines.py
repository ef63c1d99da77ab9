"""The hull of outlines."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from scipy.spatial import ConvexHull

from tests.racks import school_like_rack
from turnercalc.parts.outlines import convex_hull, corners
from turnercalc.turners.base import Outline

PLACES = arrays(float, st.tuples(st.integers(3, 40), st.just(2)), elements=st.floats(-1.0, 1.0))


@given(PLACES)
def test_no_point_reaches_beyond_the_hull_in_any_direction(points: np.ndarray) -> None:
    hull = convex_hull(points)
    turn = np.linspace(0.0, 2.0 * np.pi, 73)
    ways = np.array([np.cos(turn), np.sin(turn)])
    np.testing.assert_allclose((hull @ ways).max(axis=0), (points @ ways).max(axis=0), atol=1e-12)
    assert {tuple(p) for p in hull.tolist()} <= {tuple(p) for p in points.tolist()}


# scipy's hull is Qhull (Barber, Dobkin and Huhdanpaa 1996).
def test_the_hull_is_that_of_another_program() -> None:
    points = np.random.default_rng(5).normal(size=(300, 2))
    theirs = points[ConvexHull(points).vertices]
    np.testing.assert_array_equal(np.unique(convex_hull(points), axis=0), np.unique(theirs, axis=0))


def test_only_eggs_are_looked_at_where_eggs_are_meant() -> None:
    board = Outline("tray", np.array([-1.0, 1.0, 0.0]), np.array([0.0, 0.0, 1.0]))
    egg = Outline("egg", np.array([0.1, 0.2, 0.15]), np.array([0.0, 0.0, 0.1]))
    turner, _ = school_like_rack(shapes=(board, egg))
    assert corners(turner, "egg")[0].max() == 0.2
    assert corners(turner)[0].max() == 1.0
    bare, _ = school_like_rack(shapes=(board,))
    assert corners(bare, "egg")[0].max() == 1.0
