"""The contract of turner and drive, over the registry: every turner with every drive it takes."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.contracts.contracts import DRIVE_CONTRACTS, TURNER_CONTRACTS, name_of
from tests.contracts.fitting import combinations, egg_mass_of, fitted, turner_of
from turnercalc import drives, turners
from turnercalc.drives.base import Drive
from turnercalc.turners.base import Turner


@pytest.mark.parametrize("contract", TURNER_CONTRACTS, ids=name_of)
@pytest.mark.parametrize("kind_id", turners.kinds())
def test_every_turner(kind_id: str, contract: Callable[[Turner, float], None]) -> None:
    kind = turners.kinds()[kind_id]
    contract(turner_of(kind, kind.drives[0]), egg_mass_of(kind))


@pytest.mark.parametrize("contract", DRIVE_CONTRACTS, ids=name_of)
@pytest.mark.parametrize(("kind_id", "drive_id"), combinations())
def test_every_turner_with_every_drive(
    kind_id: str, drive_id: str, contract: Callable[[Turner, Drive], None]
) -> None:
    turner = turner_of(turners.kinds()[kind_id], drive_id)
    contract(turner, fitted(drive_id, turner))


@pytest.mark.parametrize(("kind_id", "drive_id"), combinations())
def test_a_drive_that_is_named_is_there(kind_id: str, drive_id: str) -> None:
    assert drive_id in drives.kinds(), f"{kind_id} names a drive that nobody offers"


def test_no_two_kinds_answer_to_the_same_word() -> None:
    for registry in (turners.kinds(), drives.kinds()):
        words = [word for kind in registry.values() for word in (kind.id, *kind.words)]
        assert len(set(words)) == len(words)
