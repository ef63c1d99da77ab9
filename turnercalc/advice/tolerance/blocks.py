"""What is built with the masses, places and friction that were drawn for a block of builds."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from turnercalc.advice.tolerance.errors import Source
from turnercalc.building import Built, build
from turnercalc.design import Design
from turnercalc.errors import TurnercalcError
from turnercalc.tables import Range3

#: Where the builder says how far it goes, and with that where its switches are set.
WISH = "turning."


def drawn_block(
    design: Design, built: Built, sources: Sequence[Source], drawn: Mapping[str, float]
) -> Built | None:
    """Return what is built with the values drawn for a block; None where it cannot be built.

    Parameters
    ----------
    design, built
        As meant.
    sources : sequence of Source
        What is drawn by the block.
    drawn : mapping
        `Source.field` -> value [SI].

    Notes
    -----
    Switches and timer are set for the design as meant: how far it goes does not follow what comes
    out otherwise, except for what the builder half knows of that itself.
    """
    values = changed_values(design, sources, drawn)
    if not values:
        return built
    anew = any(source.half_known for source in sources)
    try:
        found = build(_read_again(design, values) if anew else with_values(design, values))
        stop = getattr(found.turner, "stopped_at", None)
        if stop is None:
            return found
        wished = {path: value for path, value in values.items() if path.startswith(WISH)}
        meant = build(_read_again(design, wished)) if wished else built
        return replace(found, turner=stop(meant.turner.travel))
    except TurnercalcError:
        return None


def changed_values(
    design: Design, sources: Sequence[Source], drawn: Mapping[str, float]
) -> dict[str, Any]:
    """Return the new value of every field that was drawn, as its section holds it."""
    now = design.values()
    found: dict[str, Any] = {}
    for source in sources:
        if source.path not in now:
            continue
        value: Any = drawn[source.field]
        old = found.get(source.path, now[source.path])
        if source.part:
            value = replace(old, **{source.part: max(value, 0.0)})
        elif isinstance(old, Range3):
            value = Range3(value, value, value)
        found[source.path] = value
    return found


def with_values(design: Design, values: Mapping[str, Any]) -> Design:
    """Return a design with values put into its sections as they are.

    Much quicker than reading it anew; what was taken for granted is not worked out again.
    """
    by_section: dict[str, dict[str, Any]] = {}
    for path, value in values.items():
        key, _, name = path.rpartition(".")
        by_section.setdefault(key, {})[name] = value
    sections: dict[str, Any] = dict(design.sections)
    for key, changes in by_section.items():
        name, _, number = key.partition(".")
        if number:
            several = list(sections[name])
            several[int(number) - 1] = several[int(number) - 1].model_copy(update=changes)
            sections[name] = tuple(several)
        else:
            sections[name] = sections[name].model_copy(update=changes)
    return replace(design, sections=MappingProxyType(sections))


def _read_again(design: Design, values: Mapping[str, Any]) -> Design:
    """Return a design with values said anew, so that what follows from them follows."""
    return design.replace(values, si=True)
