"""What a sweep is asked for, and which way it is computed."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.advice.asked import as_number, need_design, whole
from turnercalc.advice.many import fast_fields, takes_arrays
from turnercalc.advice.ranges import info_of, read_value
from turnercalc.advice.sweep.blocks import in_blocks
from turnercalc.advice.sweep.result import Sweep
from turnercalc.advice.sweep.singly import Progress, one_by_one
from turnercalc.building import build
from turnercalc.design import Design
from turnercalc.drives.wording import why_not, wording_of
from turnercalc.errors import AskedError, UnknownNameError
from turnercalc.motors import MotorFile
from turnercalc.turners.base import LoadCase

FRICTION = ("none", "low", "middle", "high")
#: More designs than this do not fit the memory of a small computer.
MOST_DESIGNS = 10_000_000


def sweep(
    design: Design,
    vary: Mapping[str, Sequence[Any] | ArrayLike],
    *,
    grid: bool = True,
    friction: str = "middle",
    loads: Sequence[LoadCase] | None = None,
    motor_file: MotorFile | None = None,
    full: bool = False,
    cores: int | None = None,
    progress: Progress | None = None,
) -> Sweep:
    """Return what comes out of a design with some fields varied.

    Parameters
    ----------
    design : Design
        What is varied.
    vary : mapping
        Field path -> values: SI numbers, texts as the file has them (``"220 mm"``), or words.
    grid : bool
        Whether every value of one field meets every value of the others; else the values stand
        side by side and are equally many.
    friction : str
        ``none``, ``low``, ``middle`` or ``high``. None is many times faster.
    loads : sequence of LoadCase, optional
        By default every planned load that can be the hardest anywhere.
    motor_file : MotorFile, optional
        For `full`.
    full : bool
        Whether each design is sized in full, with its verdict: slower by far.
    cores : int, optional
        Cores to use at most; all by default. Another one is called in only where that is quicker.
    progress : callable, optional
        Called with designs done and designs in all.

    Raises
    ------
    AskedError
        Nothing is varied, values are none, or not equally many, or `friction` is no such level.
    UnitError
        A text is no value of its field.
    UnknownNameError
        There is no such field.
    """
    need_design(design)
    if friction not in FRICTION:
        raise AskedError(f"friction is one of {', '.join(FRICTION)}, not {friction!r}")
    if loads is not None and not loads:
        raise AskedError("loads: at least one, or None for every planned one")
    cores = None if cores is None else whole(cores, "cores")
    columns, shape = lay_out(design, vary, grid=grid)
    built = build(design)
    numbers = all(np.issubdtype(values.dtype, np.number) for values in columns.values())
    fast = numbers and set(columns) <= fast_fields(built.turner, built.drive)
    words = wording_of(built.drive)
    if full or not fast or not takes_arrays(built.turner, built.drive, columns):
        found = one_by_one(
            design, columns, why_not(words), loads, friction, motor_file, full, progress
        )
    else:
        found = in_blocks(design, built, columns, why_not(words), loads, friction, cores, progress)
    return Sweep(
        varied=columns,
        shape=shape,
        friction=friction,
        unit=built.turner.coordinate_unit,
        force_unit="N·m" if built.drive.position_unit == "rad" else "N",
        ways=words.ways,
        both_ways=built.drive.both_ways,
        **found,
    )


def lay_out(
    design: Design, vary: Mapping[str, Sequence[Any] | ArrayLike], *, grid: bool
) -> tuple[dict[str, NDArray[Any]], tuple[int, ...]]:
    """Return one column for each field, all equally long, and the shape of the grid."""
    if not isinstance(vary, Mapping) or not vary:
        raise AskedError("name a field to vary and its values, such as {'crank.radius': [0.05]}")
    given = {path: values_of(design, path, values) for path, values in vary.items()}
    sizes = tuple(len(values) for values in given.values())
    if not grid:
        if len(set(sizes)) != 1:
            raise AskedError(f"side by side the values have to be equally many, not {sizes}")
        return given, (sizes[0],)
    total = math.prod(sizes)
    if total > MOST_DESIGNS:
        raise AskedError(f"That are {total:,} designs; {MOST_DESIGNS:,} at once is the most.")
    mesh = np.meshgrid(*[np.arange(count) for count in sizes], indexing="ij")
    columns = {
        path: values[at.ravel()] for (path, values), at in zip(given.items(), mesh, strict=True)
    }
    return columns, sizes


def values_of(design: Design, path: str, values: Any) -> NDArray[Any]:
    """Return the values of a field on one axis; texts are read as the file has them."""
    design.value(path)  # names the nearest
    if isinstance(values, np.ndarray) and values.ndim > 1:
        raise AskedError(f"{path}: values in one row, not in {values.ndim} dimensions")
    if isinstance(values, np.ndarray) and np.issubdtype(values.dtype, np.number):
        found = np.atleast_1d(values)
    else:
        several = isinstance(values, Iterable) and not isinstance(values, str | bytes)
        found = row_of([value_of(design, path, one) for one in (values if several else [values])])
    if not len(found):
        raise AskedError(f"{path}: at least one value")
    return found


def value_of(design: Design, path: str, value: Any) -> Any:
    """Return one value: a number in SI, or what a text says."""
    if isinstance(value, str):
        return read_value(design, path, value)
    if value is None or isinstance(value, bool) or as_number(value) is not None:
        return value
    if isinstance(value, float | np.floating):  # refused design by design, with its reason
        return float(value)
    if is_figure(design, path) or isinstance(value, np.ndarray):
        raise AskedError(f"{path}: a number in SI or a text such as the file has, not {value!r}")
    return value


def is_figure(design: Design, path: str) -> bool:
    """Tell whether a field is one number with a unit."""
    try:
        return info_of(design, path).phrase.quantity is not None
    except UnknownNameError:
        return False


def row_of(values: list[Any]) -> NDArray[Any]:
    """Return values as an array: of numbers where all are, else of what they are."""
    if all(as_number(one) is not None or isinstance(one, float) for one in values):
        return np.array(values)
    found = np.empty(len(values), dtype=object)
    found[:] = values
    return found
