"""What the structure checks have in common: forces in the worst planned load, and the parts."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from turnercalc.checks.evidence import Evidence
from turnercalc.loads import planned
from turnercalc.parts.strength import Bar, material_of, pin_material
from turnercalc.tables import Material


class LoadedPin(NamedTuple):
    """One pin, or the hardest loaded of several that are alike.

    Attributes
    ----------
    name : str
        As the builder calls it.
    force : float
        Largest with any planned load, highest friction [N].
    diameter : float
        [m]
    made_of : Material
    field : str
        Field path of its diameter.
    """

    name: str
    force: float
    diameter: float
    made_of: Material
    field: str


def loaded_pins(evidence: Evidence) -> Iterator[LoadedPin]:
    """Yield every pin whose thickness is known; turner and drive say so in `pin_sizes`."""
    cycle = evidence.cycle
    if cycle is None:
        return
    worst = (planned(cycle), cycle.levels.index("high"))
    for owner in (evidence.turner, evidence.drive):
        sizes = getattr(owner, "pin_sizes", {})
        for name, (diameter, field) in sizes.items():
            if name not in cycle.pin_forces or not diameter > 0.0:
                continue
            force = float(np.nanmax(np.abs(cycle.pin_forces[name][worst]), initial=0.0))
            section = evidence.ingredients.sections.get(field.partition(".")[0])
            bearing = getattr(section, "bearing", None)
            yield LoadedPin(name, force, diameter, pin_material(bearing), field)


def bar_forces(evidence: Evidence) -> tuple[float, float] | None:
    """Return the largest push and the largest pull along the link [N], highest friction."""
    cycle = evidence.cycle
    if cycle is None or cycle.bar_force is None:
        return None
    force = cycle.bar_force[planned(cycle), cycle.levels.index("high")]
    if not np.isfinite(force).any():
        return None
    return max(-float(np.nanmin(force)), 0.0), max(float(np.nanmax(force)), 0.0)


def link_of(evidence: Evidence) -> Bar | None:
    """Return the link, where its thickness and a known material are said."""
    section = evidence.ingredients.sections.get("link")
    if section is None or section.thickness is None:
        return None
    made_of = material_of(section.material)
    if made_of is None:
        return None
    return Bar(section.length, section.thickness, section.width, made_of)
