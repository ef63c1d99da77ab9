"""From a design to the objects that can be computed: eggs, turner, drive, stages."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields, is_dataclass
from functools import lru_cache

import numpy as np

from turnercalc import drives, turners
from turnercalc.design import Design
from turnercalc.design.common import Eggs, lot_of, seat_of
from turnercalc.drives.base import Drive, DriveKind
from turnercalc.drives.stages import Stage, Stages
from turnercalc.eggs.lot import EggLot
from turnercalc.eggs.seats import Seating, seat
from turnercalc.eggs.species import NotTurned, look_up
from turnercalc.errors import CombinationError, NotTurnedError
from turnercalc.ingredients import Ingredients
from turnercalc.tables import stage_losses
from turnercalc.turners.base import Turner, TurnerKind


@dataclass(frozen=True)
class Built:
    """Everything a design names, ready to be computed.

    Attributes
    ----------
    kind : TurnerKind
        The way of turning.
    ingredients : Ingredients
        Sections in SI, the eggs, and how they sit.
    turner, drive, stages
        The drive is put together on the turner's path.
    """

    kind: TurnerKind
    ingredients: Ingredients
    turner: Turner
    drive: Drive
    stages: Stages


def build(design: Design) -> Built:
    """Return what a design names; raises DesignError or CombinationError with what is wrong."""
    kind = turners.kinds()[design.turner]
    refuse_what_makes_no_sense(design, kind)
    ingredients = gather(design)
    turner = kind.build(ingredients)
    refuse_what_cannot_go_on(turner, kind, drives.kinds()[design.drive])
    drive = drives.kinds()[design.drive].build(ingredients)
    drive = drive.assemble(
        turner.path(),
        turner.travel,
        endless=turner.endless,
        turns_back=getattr(turner, "turns_back", True),
    )
    stages = stages_of(design)
    if stages.stages and drive.position_unit == "m":
        raise CombinationError(
            "A rod pushes the turner itself: no stage can stand between them. Leave [[gearing]] "
            'out, or take "crank and link" behind the stage.'
        )
    return Built(kind, ingredients, turner, drive, stages)


def refuse_what_makes_no_sense(design: Design, kind: TurnerKind) -> None:
    """Raise CombinationError for a drive that cannot move a turner, naming what can."""
    if design.drive in kind.drives:
        return
    known = drives.kinds()
    others = [f'"{known[name].words[0]}"' for name in kind.drives if name in known]
    asked = known[design.drive].words[0]
    raise CombinationError(
        f'"{kind.words[0]}" cannot be moved by "{asked}". What moves it: {", ".join(others)}.'
    )


def refuse_what_cannot_go_on(turner: Turner, kind: TurnerKind, drive: DriveKind) -> None:
    """Raise CombinationError for a drive on a pin of a part that has none, or that goes round."""
    if not drive.holds_pin or (turner.rests_on_pin and not turner.endless):
        return
    known = drives.kinds()
    others = [f'"{known[name].words[0]}"' for name in kind.drives if not known[name].holds_pin]
    why = (
        "It goes on the same way round, and a pin cannot be pushed on for ever"
        if turner.endless
        else "It lies loose on its rollers, and a push on a pin would lift it off"
    )
    instead = " or ".join(others)
    raise CombinationError(f'{why}: {instead} turns it instead of "{drive.words[0]}".')


def gather(design: Design) -> Ingredients:
    """Return the sections, the eggs and how they sit."""
    lot, seating = seated(design["eggs"])
    return Ingredients(sections=design.sections, lot=lot, seating=seating, loads=design["loads"])


@lru_cache(maxsize=16)
def seated(eggs: Eggs) -> tuple[EggLot, Seating]:
    """Return the eggs and how they sit.

    Kept for the last few, because advice sizes the same eggs in many racks and the statics of an
    egg in its seat take longer than a turn cycle.
    """
    given = dict(eggs)  # not model_dump, which would take the sizes apart
    lot = lot_of(given)
    if lot is None:
        found = look_up(eggs.kind)
        assert isinstance(found, NotTurned)
        raise NotTurnedError(f"Eggs of the {eggs.kind} are not turned. {found.reason}")
    return lot, seat(lot, seat_of(given))


def stages_of(design: Design) -> Stages:
    """Return the external stages, motor first."""
    return Stages(
        tuple(
            Stage.of_kind(
                stage_losses(entry.kind), entry.speed_ratio, entry.efficiency, entry.lead_angle
            )
            for entry in design["gearing"]
        )
    )


def alike(one: object, other: object) -> bool:
    """Tell whether two built things are the same in every field, arrays and all."""
    if type(one) is not type(other):
        return False
    if isinstance(one, np.ndarray):
        return np.array_equal(one, other, equal_nan=one.dtype.kind == "f")  # type: ignore[arg-type]
    if is_dataclass(one):
        return all(alike(getattr(one, f.name), getattr(other, f.name)) for f in fields(one))
    if isinstance(one, Mapping):
        assert isinstance(other, Mapping)
        return list(one) == list(other) and all(alike(one[key], other[key]) for key in one)
    if isinstance(one, tuple | list):
        assert isinstance(other, tuple | list)
        return len(one) == len(other) and all(map(alike, one, other))
    return bool(one == other)
