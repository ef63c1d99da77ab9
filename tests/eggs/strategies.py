"""Eggs for property tests: any bird, any size, in metres."""

from hypothesis import settings
from hypothesis import strategies as st

from turnercalc.eggs.shape import pear_diameter, quarter_diameter

# A busy machine is no failure: no deadlines. FEW where one example takes tens of milliseconds.
MANY = settings(deadline=None)
FEW = settings(deadline=None, max_examples=25)

# Length from a small finch to beyond an ostrich, breadth and asymmetry as shares of it.
LENGTH = st.floats(0.012, 0.2)
ROUNDNESS = st.floats(0.55, 0.95)
ASYMMETRY = st.floats(0.0, 0.08)


@st.composite
def eggs(draw):
    """Length, breadth and w of one egg [m]."""
    length = draw(LENGTH)
    return length, length * draw(ROUNDNESS), length * draw(ASYMMETRY)


@st.composite
def eggs_with_quarter(draw):
    """Length, breadth, w and D, with D between the pear shape and the ovoid's own [m]."""
    length, breadth, w = draw(eggs())
    share = draw(st.floats(0.0, 1.0))
    pear, own = pear_diameter(length, breadth, w), quarter_diameter(length, breadth, w)
    return length, breadth, w, float(pear + share * (own - pear))
