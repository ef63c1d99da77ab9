"""Whether the link bows out or tears under its push and pull."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc import units
from turnercalc.checks.evidence import Evidence
from turnercalc.checks.structure import bar_forces, link_of
from turnercalc.checks.wording import judged, millimetres
from turnercalc.findings import Answer, Finding
from turnercalc.parts.strength import STEEL, rod_that_bears
from turnercalc.tables import limit, material

ID = "link_strength"
TITLE = "Link"
FIELDS = ("link.thickness", "link.width", "link.material", "link.length")
#: More times enough than this is told no closer.
MANY = 20.0


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield how many times over the link stands what it carries; without its size, what would."""
    forces = bar_forces(evidence)
    section = evidence.ingredients.sections.get("link")
    if forces is None or section is None:
        return
    push, pull = forces
    rule, bar = limit("bows_out"), link_of(evidence)
    carries = f"pushed with up to {units.show(push, 'force')}, pulled with {_force(pull)}"
    if bar is None:
        rod = rod_that_bears(push, section.length, material(STEEL), rule.fine or 1.0)
        yield Finding(
            id=ID,
            title=TITLE,
            answer=Answer.NOTE,
            text=f"It is {carries}. A steel rod of {millimetres(_whole(rod))} or thicker carries "
            "that without bowing out; say the link's thickness and material and it is judged.",
            reason=rule.reason,
            source=rule.source,
            fields=FIELDS,
        )
        return
    times = min(
        bar.bows_at / push if push > 0.0 else float("inf"),
        (rule.fine or 1.0) * bar.stands / max(push, pull, 1e-9),
    )
    told = min(times, 1e6)
    shape = "a round" if bar.width is None else "a flat"
    text = f"{carries[0].upper()}{carries[1:]}: {shape} {bar.made_of.name} link stands {_n(told)}."
    if rule.answer(told) is not Answer.FINE:
        text += (
            f" {rule.fine:g} times is wanted: thicker, shorter, or of something stiffer. A steel "
            f"rod would need {millimetres(_whole(_needed(push, section.length, rule.fine or 1)))}."
        )
    yield judged(ID, TITLE, told, rule, text, fields=FIELDS)


def _needed(push: float, length: float, factor: float) -> float:
    return rod_that_bears(push, length, material(STEEL), factor)


def _whole(size: float) -> float:
    """Return a size rounded up to what a shop keeps, whole millimetres and two at least [m]."""
    return 1e-3 * max(-(-1e3 * size // 1.0), 2.0)


def _force(force: float) -> str:
    return units.show(force, "force") if force > 0.0 else "nothing"


def _n(times: float) -> str:
    if times < 0.1:
        return "less than a tenth of that"
    return f"{MANY:g} times that and more" if times > MANY else f"{times:.1f} times that"
