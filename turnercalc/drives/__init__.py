"""The drives: one file each, found by looking at the folder.

A new drive is one file here that offers ``KIND``, and its tests.
"""

from __future__ import annotations

from turnercalc.drives.base import DriveKind
from turnercalc.registry import Registry

_REGISTRY: Registry[DriveKind] = Registry(__name__, __path__, "drive")

kinds = _REGISTRY.kinds
find = _REGISTRY.find
