"""Whether a full tray sags between its pivots, where its rails are told."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import judged, millimetres, worse
from turnercalc.findings import Answer, Finding
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.parts.strength import Rail, material_of
from turnercalc.tables import limit

ID = "tray_sag"
TITLE = "Tray sag"
FIELDS = ("rails.height", "rails.thickness", "rails.material", "rails.span")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the sag of a rail in the middle under a full tray, creep in the warm box included."""
    sections = evidence.ingredients.sections
    rails, trays = sections.get("rails"), sections.get("trays")
    if rails is None or trays is None:
        return
    made_of = material_of(rails.material)
    if made_of is None:
        yield _not_known(rails.material)
        return
    eggs = trays.rows * trays.eggs_per_row * evidence.ingredients.lot.typical.mass
    load = STANDARD_GRAVITY * (trays.empty_weight + eggs) / rails.count
    rail = Rail(rails.span, rails.height, rails.thickness, load, made_of)
    whole, stress = limit("bar_sag"), limit("rail_use")
    rule, value = whole, 1e3 * rail.sag
    if worse(stress.answer(rail.use), whole.answer(1e3 * rail.sag)):
        rule, value = stress, rail.use
    creep = ", creep in the warm box included" if made_of.creep_factor < 1.0 else ""
    sag = "less than 0.1 mm" if rail.sag < 1e-4 else millimetres(rail.sag, 1)
    text = f"{sag} in the middle of a full tray{creep}; {100.0 * rail.use:.0f} % of what it may."
    if rule.answer(value) is not Answer.FINE:
        text = (
            f"A full tray sags {sag} in the middle{creep}, and its rails use "
            f"{100.0 * rail.use:.0f} % of what they may. Half as high again is 3.4 times stiffer."
        )
    yield judged(ID, TITLE, value, rule, text, fields=FIELDS)


def _not_known(name: str) -> Finding:
    return Finding(
        id=ID,
        title=TITLE,
        answer=Answer.UNKNOWN,
        text=f'How stiff "{name}" is stands in no table here, so the sag is not known.',
        fields=("rails.material",),
        ask="Load a tray and lay a straightedge along it, or name the material nearest to it.",
        caps_verdict=False,
    )
