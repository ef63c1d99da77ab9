"""Whether these eggs are turned at all."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.eggs.species import NotTurned, Species, look_up
from turnercalc.findings import Answer, Finding

ID = "species_turned"
TITLE = "Turned at all"
FIELDS = ("eggs.kind",)


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield a no for animals whose eggs are left as they lie, and what a species asks besides."""
    yield from of_kind(evidence.ingredients.sections["eggs"].kind)


def of_kind(kind: str) -> Iterator[Finding]:
    """Yield the findings about the animal of a name alone, before anything is built."""
    found = look_up(kind)
    if isinstance(found, NotTurned):
        yield _left_alone(found)
        return
    yield Finding(
        id=ID,
        title=TITLE,
        answer=Answer.FINE,
        text=f"{_capital(found.name)} eggs are turned, usually until day "
        f"{found.last_turning_day:g} of {found.incubation_days:g}.",
        source=found.source,
        fields=FIELDS,
    )
    if found.note:
        yield _note(found)


def _left_alone(animal: NotTurned) -> Finding:
    return Finding(
        id=ID,
        title=TITLE,
        answer=Answer.NO,
        text=f"{animal.reason} So there is no turner for {animal.name} eggs: mark the top of each "
        "egg with a soft pencil and keep it uppermost.",
        reason=animal.reason,
        source=animal.source if animal.how == animal.source else f"{animal.source} ({animal.how})",
        fields=FIELDS,
    )


def _note(species: Species) -> Finding:
    return Finding(
        id="species_note",
        title=_capital(species.name),
        answer=Answer.NOTE,
        text=species.note,
        source=species.source,
        fields=FIELDS,
    )


def _capital(name: str) -> str:
    return name[:1].upper() + name[1:]
