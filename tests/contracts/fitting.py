"""Every turner with every drive: designs made from its starter, and drives that fit its path.

Nothing here names a turner. A drive that arrives later is taught here once how it is bolted on.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Any

import numpy as np

from turnercalc import drives, turners
from turnercalc.building import gather
from turnercalc.design import Design, read_design
from turnercalc.design.schema import schema_for
from turnercalc.design.starter import starter_text
from turnercalc.drives.base import Drive
from turnercalc.drives.crank_link import CrankLink
from turnercalc.drives.linear_actuator import LinearActuator
from turnercalc.drives.shaft import TurningShaft
from turnercalc.drives.slotted_lever import SlottedLever
from turnercalc.errors import DesignError
from turnercalc.fields import field_infos
from turnercalc.joints import JointFriction
from turnercalc.paths import CirclePath, Path
from turnercalc.turners.base import Turner, TurnerKind

RUBS = JointFriction(0.05, 0.10, 0.15, 0.20)
#: A pin drive of these tests does not swing a part farther than this to each side [rad].
WIDEST = 0.8


@dataclass(frozen=True)
class Span:
    """The way of a driven pin between two coordinates."""

    path: Path
    low: float
    high: float

    @property
    def middle(self) -> float:
        return 0.5 * (self.low + self.high)

    def at(self, coordinate: float) -> complex:
        x, y = self.path.point(coordinate)
        return complex(x, y)

    @property
    def along(self) -> complex:
        """Unit vector the pin goes along half way."""
        x, y = self.path.tangent(self.middle)
        return complex(x, y) / abs(complex(x, y))

    @property
    def chord(self) -> float:
        return abs(self.at(self.high) - self.at(self.low))


def span_of(turner: Turner) -> Span:
    """The wanted travel, as far as a pin drive can follow it."""
    low, high = turner.travel
    half, middle = 0.5 * (high - low), 0.5 * (high + low)
    if turner.coordinate_unit == "rad":
        half = min(half, WIDEST)
    return Span(turner.path(), middle - half, middle + half)


def crank_and_link(span: Span) -> Drive:
    link = 4.0 * span.chord + 0.1
    shaft = span.at(span.middle) - span.along * link
    return CrankLink(
        0.4 * span.chord,
        link,
        shaft.real,
        shaft.imag,
        link_mass=0.05,
        pin_diameter=0.006,
        friction=RUBS,
    )


def slotted_lever(span: Span) -> Drive:
    more: dict[str, Any] = {"pin_diameter": 0.006, "friction": RUBS}
    half = 0.5 * (span.high - span.low)
    if isinstance(span.path, CirclePath):
        shaft = 1.6 * span.at(span.middle)
        return SlottedLever(abs(shaft) * np.sin(0.9 * half), shaft.real, shaft.imag, **more)
    shaft = span.at(span.middle) - 0.2j * span.along
    return SlottedLever(0.9 * half, shaft.real, shaft.imag, **more)


def linear_actuator(span: Span) -> Drive:
    length = 3.0 * span.chord + 0.1
    eye = span.at(span.middle) - span.along * length
    return LinearActuator(
        0.2 * length,
        2.0 * length,
        eye.real,
        eye.imag,
        whole_stroke=False,
        weight_mass=0.8,
        pin_diameter=0.006,
        friction=RUBS,
    )


def turning_shaft(span: Span) -> Drive:
    del span
    return TurningShaft()


FITTED: dict[str, Callable[[Span], Drive]] = {
    "crank_and_link": crank_and_link,
    "slotted_lever": slotted_lever,
    "linear_actuator": linear_actuator,
    "turning_shaft": turning_shaft,
}


def fitted(drive_id: str, turner: Turner) -> Drive:
    """A drive of plain lengths that moves a turner over its travel, or most of it."""
    assert drive_id in FITTED, f"teach {__name__} how a {drive_id} is bolted on"
    span = span_of(turner)
    drive = FITTED[drive_id](span)
    return drive.assemble(turner.path(), (span.low, span.high), endless=turner.endless)


def starter_with(kind: TurnerKind, drive_id: str, text: str | None = None) -> Design:
    """A turner's starter with another drive: what that asks for is filled in by its examples."""
    plain = starter_text(kind.starter) if text is None else text
    other = drives.kinds()[drive_id]
    schema = schema_for(kind, other)
    head, *blocks = re.split(r"(?m)^(?=\[)", plain)
    head = re.sub(r'(?m)^drive( *)= "[^"]*"', rf'drive\1= "{other.words[0]}"', head)
    own = other.id == kind.drives[0]
    kept = [b for b in blocks if b.lstrip("[").split("]")[0] in schema.sections]
    # Stages that stood behind another drive stay behind.
    kept = [b for b in kept if own or not b.startswith("[[gearing]]")]
    there = {block.lstrip("[").split("]")[0] for block in kept}
    settings: dict[str, object] = {}
    for section in sorted(schema.required - there):
        for info in field_infos(schema.sections[section]):
            if info.required:
                settings[f"{section}.{info.name}"] = info.example
    if "actuator.runs" in settings:
        settings["actuator.runs"] = "between end switches"
    if "actuator" in schema.sections:
        settings["motor.stopped_by"] = "end switches"
    return read_filled_in(head + "".join(kept), settings)


def read_filled_in(text: str, settings: dict[str, object]) -> Design:
    """Read a design, giving whatever it still asks for the first answer that it would accept."""
    for _ in range(3):
        try:
            return read_design(text, settings)
        except DesignError as error:
            missing = {
                c.field: c.accepted[0] for c in error.complaints if not c.read and c.accepted
            }
            if not missing.keys() - settings.keys():
                raise
            settings = settings | missing
    return read_design(text, settings)


def turner_of(kind: TurnerKind, drive_id: str, text: str | None = None) -> Turner:
    """The turner of a starter, its eggs fast in the middle of their seats."""
    turner = kind.build(gather(starter_with(kind, drive_id, text)))
    # Eggs that change sides lose energy where they slip, not in a bearing.
    if is_dataclass(turner) and "egg_shift" in {field.name for field in fields(turner)}:
        return replace(turner, egg_shift=0.0)  # type: ignore[type-var]
    return turner


def egg_mass_of(kind: TurnerKind, text: str | None = None) -> float:
    """The typical egg of a starter [kg]."""
    return gather(starter_with(kind, kind.drives[0], text)).lot.typical.mass


def combinations() -> list[tuple[str, str]]:
    """Every turner with every drive that makes sense for it."""
    return [(kind.id, drive) for kind in turners.kinds().values() for drive in kind.drives]
