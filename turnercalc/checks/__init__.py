"""The checks: one question per file, found by looking at the folder; limits come from tables.

A new check is one file here that offers ``ID``, which is the file's name, and
``judge(evidence)``, a limit in ``tables/limits.csv`` where it has one, and its name in the
``checks`` of the turners it fits.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import cache
from importlib import import_module
from pkgutil import iter_modules
from types import MappingProxyType

from turnercalc.checks.evidence import Evidence
from turnercalc.findings import Finding

#: Asked whatever turns the eggs.
OF_THE_BOX = ("warm_room",)

Judge = Callable[[Evidence], Iterable[Finding]]


def judge_of(check: str) -> Judge:
    """Return the check of an id; its file has its name, and no other is loaded."""
    judge: Judge = import_module(f"{__name__}.{check}").judge
    return judge


@cache
def judges() -> Mapping[str, Judge]:
    """Return every check by its id."""
    modules = (import_module(f"{__name__}.{info.name}") for info in iter_modules(__path__))
    return MappingProxyType({m.ID: m.judge for m in modules if hasattr(m, "judge")})


@cache
def questions() -> Mapping[str, tuple[tuple[str, str], ...]]:
    """Return what each label on the page asks: title -> id and question of every such check."""
    found: dict[str, tuple[tuple[str, str], ...]] = {}
    for info in iter_modules(__path__):
        module = import_module(f"{__name__}.{info.name}")
        if hasattr(module, "judge") and hasattr(module, "TITLE") and module.__doc__:
            one = (module.ID, module.__doc__.strip().splitlines()[0])
            found[module.TITLE] = (*found.get(module.TITLE, ()), one)
    return MappingProxyType(found)


def run(evidence: Evidence) -> tuple[Finding, ...]:
    """Return the findings of every check the turner asks for, in its order, then of the box's."""
    checks = (*evidence.kind.checks, *OF_THE_BOX)
    return tuple(finding for check in checks for finding in judge_of(check)(evidence))
