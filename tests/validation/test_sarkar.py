"""B. K. Sarkar, Theory of Machines, illustrative example 4.6.

Read in the FOSSEE textbook companion. (Its examples 1.1 and 1.3 do not reproduce there and
are not used.)
"""

import pytest

from turnercalc.mechanics.gearing import train_ratio


def test_illustration_4_6_two_stage_ratio() -> None:
    # 15 driving 60, then 24 driving 96: 16
    assert train_ratio([15, 24], [60, 96]) == pytest.approx(16.0, rel=1e-12)
