"""The ways of turning eggs: one file each, found by looking at the folder.

A new turner is one file here that offers ``KIND``, one starter file and its tests.
"""

from __future__ import annotations

from turnercalc.registry import Registry
from turnercalc.turners.base import TurnerKind

_REGISTRY: Registry[TurnerKind] = Registry(__name__, __path__, "turner")

kinds = _REGISTRY.kinds
find = _REGISTRY.find
