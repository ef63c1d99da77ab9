"""A drive answers for many designs at once as it answers for each by itself."""

from dataclasses import replace

import numpy as np
import pytest

from turnercalc.drives.base import Passing, passing_of
from turnercalc.drives.crank_link import CrankLink
from turnercalc.drives.shaft import TurningShaft
from turnercalc.drives.wording import CRANK_AND_LINK, why_not
from turnercalc.paths import CirclePath, LinePath, Path, RaisedCirclePath, TrochoidPath

ARC = (0.4, 2.2)
PATHS: dict[str, Path] = {
    "circle": CirclePath(0.08, 0.0),
    "raised circle": RaisedCirclePath(0.05, 0.08, 0.3),
    "line": LinePath(0.02, 0.01, 0.2),
    "trochoid": TrochoidPath(0.08, 0.03, 0.02),
}


def some(count: int) -> dict[str, np.ndarray]:
    rng = np.random.default_rng(4)
    shape = (count, 1, 1, 1, 1)
    return {
        "crank": rng.uniform(0.02, 0.12, shape),
        "link": rng.uniform(0.05, 0.35, shape),
        "across": rng.uniform(-0.1, 0.1, shape),
        "height": rng.uniform(-0.25, -0.02, shape),
    }


@pytest.mark.parametrize("arc", [None, ARC])
@pytest.mark.parametrize("name", PATHS)
def test_many_answer_as_each(name: str, arc: tuple[float, float] | None) -> None:
    count = 10 if name == "trochoid" else 200  # no closed form: every place is looked at
    path, lengths = PATHS[name], some(count)
    many = CrankLink(**lengths, arc=arc)
    found = passing_of(many, path, np.ones(count, bool))
    assert found.shape == (count,)
    for at in range(count):
        one = replace(many, **{key: float(own[at].item()) for key, own in lengths.items()})
        closing = one.closing(path)
        assert closing.closes == (found[at] == Passing.THROUGH)
        if closing.closes:
            continue
        wanted = closing.nearest.get("link.length")
        if wanted is None:
            assert found[at] == Passing.NO_BAR
        else:
            longer = wanted > one.link
            assert found[at] == (Passing.TOO_SHORT if longer else Passing.TOO_LONG)
    assert len(set(found.tolist())) >= (2 if name in ("line", "trochoid") else 3)


def test_a_link_at_its_limit_by_grashof() -> None:
    """Once round, link = ground + crank - arm just closes: the linkage folds into one line."""
    crank, arm, ground = 0.05, 0.08, 0.22
    shortest = ground + crank - arm
    link = np.array([shortest - 1e-9, shortest + 1e-9]).reshape(2, 1, 1, 1, 1)
    drive = CrankLink(crank, link, 0.0, -ground)
    found = passing_of(drive, CirclePath(arm, 0.0), np.ones(2, bool))
    assert found.tolist() == [Passing.TOO_SHORT, Passing.THROUGH]


def test_where_lengths_would_do_but_it_stays_somewhere() -> None:
    drive = CrankLink(0.05, 0.2, 0.0, -0.22)
    found = passing_of(drive, CirclePath(0.08, 0.0), np.array([False, True]))
    assert found.tolist() == [Passing.STAYS, Passing.THROUGH]


def test_a_drive_that_cannot_tell_more_says_that_it_stays() -> None:
    found = passing_of(TurningShaft(), CirclePath(0.08, 0.0), np.array([False, True]))
    assert found.tolist() == [Passing.STAYS, Passing.THROUGH]


def test_every_reason_has_its_words() -> None:
    words = why_not(CRANK_AND_LINK)
    assert len(words) == len(Passing)
    assert words[Passing.THROUGH] == ""
    assert words[Passing.TOO_SHORT] == "the link is too short"
    assert len(set(words)) == len(words)
