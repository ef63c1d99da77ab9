"""Whether a mesh floor bumps the eggs."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_grid import on_grid
from turnercalc.checks.wording import judged, millimetres
from turnercalc.findings import Answer, Finding
from turnercalc.mechanics.pushing import mesh_drop
from turnercalc.tables import limit

ID = "grid_mesh"
TITLE = "Mesh floor"
FIELDS = ("floor.mesh", "floor.mesh_pitch", "floor.wire", "floor.surface")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield how far the smallest egg drops behind each wire; nothing on a smooth floor."""
    grid = on_grid(evidence)
    if grid is None or grid.mesh is None:
        return
    mesh, radius = grid.mesh, grid.smallest_radius or grid.egg_radius
    drop = float(mesh_drop(radius, mesh.pitch, 0.5 * mesh.wire))
    rule = limit("mesh_drop")
    bumps = math.inf
    if not math.isnan(evidence.ends.total):
        bumps = math.floor(max(evidence.ends.total - grid.play, 0.0) / mesh.pitch)
    often = f"{bumps} times a stroke" if math.isfinite(bumps) else "at every wire"
    text = f"All eggs at once climb a wire and drop {millimetres(drop, 1)}, {often}."
    if rule.answer(1e3 * drop) is not Answer.FINE:
        text += (
            " That shakes them, and takes most of the push. A thin board or a finer mesh under "
            "them, or wires on top that run along the slide, roll them smoothly."
        )
    yield judged(ID, TITLE, 1e3 * drop, rule, text, fields=FIELDS)
