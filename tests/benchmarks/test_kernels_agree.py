"""The contenders of the benchmarks compute the same thing; a fast wrong answer is no contender."""

import numpy as np

from tests.benchmarks.kernels import Designs, bare_closed_form, first_moments, our_kernel, our_rack


def test_the_kernel_gives_what_the_bare_closed_form_gives() -> None:
    designs = Designs.draw(300)
    turner, drive = our_rack(designs)
    across, up = first_moments(turner)
    bare = bare_closed_form(designs, across, up, turner.tie_bar_mass)
    for ours, theirs in zip(our_kernel(turner, drive, designs), bare, strict=True):
        np.testing.assert_allclose(ours, theirs, rtol=1e-9, atol=1e-12)
