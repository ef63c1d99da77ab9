"""What every turner offers, and what it may assume of the forces put on it.

A turner is one moving part (or many moving alike) with one coordinate q. It offers the path of
the pin a drive may hold, its load torque as the slope of its potential, its inertia, and its
losses as a *function* of the force put on that pin. It knows no drive.

Shapes: every array broadcasts to (design, load, friction, direction, position); leading axes
that are not needed are left out.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.fields import FROM_PIVOT, Origin, Section
from turnercalc.ingredients import Ingredients
from turnercalc.paths import Path

Array = NDArray[np.float64]


class Resistance(Protocol):
    """The losses of a turner as a function of the force a drive puts on its driven pin."""

    def __call__(self, x: ArrayLike, y: ArrayLike) -> Array:
        """Return the losses at the coordinate [N·m or N], always >= 0, for a force (x, y) [N]."""
        ...

    def bearing_forces(self, x: ArrayLike, y: ArrayLike) -> Mapping[str, Array]:
        """Return the force on each bearing [N] for a force (x, y) [N] on the driven pin."""
        ...


@dataclass(frozen=True)
class LoadCase:
    """Which eggs are in.

    Attributes
    ----------
    id, name : str
        For scripts and for people.
    family : str
        Cases of one family are shown as one line, by their worst member.
    planned : bool
        Whether the motor must be ready for it.
    cells : ndarray
        Number of eggs at every place of the turner, in the turner's own terms.
    """

    id: str
    name: str
    family: str
    planned: bool
    cells: NDArray[np.int64]

    @property
    def egg_count(self) -> int:
        """Number of eggs in."""
        return int(self.cells.sum())


@dataclass(frozen=True)
class Measured:
    """A figure of a turner that is made or measured by hand, beside the lengths of its path.

    A turner lists its own in an attribute ``measured``, a tuple of these.

    Attributes
    ----------
    field : str
        Field path.
    error : str
        How far it comes out: a row of the table of building errors.
    part : str
        Attribute of the field's value, where that holds several figures.
    word : str
        What that part is called behind the field path.
    per : float
        Of the figure's own unit for one of the row's.
    unit : str
        That unit, where it is none of ours.
    """

    field: str
    error: str
    part: str = ""
    word: str = ""
    per: float = 1.0
    unit: str = ""


@dataclass(frozen=True)
class Outline:
    """A polygon fixed to a moving part, in the part's own frame at q = 0 [m].

    `side` is -1 or +1 for an egg that leans so far to the left or the right of its seat, 0 for
    what stands always so; those that lean come in pairs, in the same order.
    """

    name: str
    across: Array
    height: Array
    side: int = 0


@dataclass(frozen=True)
class Growing:
    """What a builder makes more of to turn more eggs.

    Attributes
    ----------
    field : str
        Field path of the count.
    thing, one : str
        What is counted, many and one.
    room : tuple of str
        Ids of the checks that say whether so many have room.
    """

    field: str
    thing: str
    one: str
    room: tuple[str, ...] = ("room",)

    def named(self, count: int) -> str:
        """Return a count with its word."""
        return f"{count} {self.one if count == 1 else self.thing}"


class Turner(Protocol):
    """The moving part of one way of turning; see the module's head for shapes and signs."""

    @property
    def travel(self) -> tuple[float, float]:
        """The wanted range of the coordinate, lowest and highest [rad or m]."""
        ...

    @property
    def endless(self) -> bool:
        """Whether each move goes on where the last one ended, always the same way round.

        `travel` is one move then, and a whole turn of the coordinate the cycle.
        """
        ...

    @property
    def coordinate_unit(self) -> str:
        """``rad`` for a part that swings, ``m`` for one that slides."""
        ...

    @property
    def rests_on_pin(self) -> bool:
        """Whether a drive may hold a pin of it (False: it can only be turned at its shaft)."""
        ...

    @property
    def dimensions(self) -> Mapping[str, str]:
        """Lengths of the driven pin's path: attribute name -> field path."""
        ...

    def path(self) -> Path:
        """Return the path of the driven pin."""
        ...

    def load_torque(self, cells: Array, coordinate: ArrayLike, sense: ArrayLike) -> Array:
        """Return the load torque without friction and inertia: dV/dq [N·m or N].

        `cells` has the load axis first; the result has shape (load, 1, direction, position).
        `sense` is the sign of dq/dt; eggs that lie loose lean to the side they came from.
        """
        ...

    def inertia(self, cells: Array, coordinate: ArrayLike) -> tuple[Array, Array]:
        """Return J [kg·m2 or kg] and dJ/dq, shape (load, 1, 1, position)."""
        ...

    def resistance(
        self, cells: Array, coordinate: ArrayLike, sense: ArrayLike, levels: Sequence[str]
    ) -> Resistance:
        """Return the losses as a function of the force on the driven pin."""
        ...

    def load_cases(self) -> tuple[LoadCase, ...]:
        """Return every load case worth computing, planned or not."""
        ...

    @property
    def origin_height(self) -> float | None:
        """The origin above the floor of the box [m]; None: the builder did not say."""
        ...

    @property
    def origin_from_left(self) -> float | None:
        """The origin from the left wall of the box [m]; None: the builder did not say."""
        ...

    @property
    def origin_field(self) -> str:
        """Field path that says `origin_height`."""
        ...

    @property
    def stack(self) -> tuple[tuple[float, float], ...]:
        """Where the equal parts that move alike stand: (across, height) from the origin [m]."""
        ...

    def outlines(self) -> tuple[Outline, ...]:
        """Return the outlines fixed to one of the equal parts; those of eggs are named ``egg``."""
        ...

    def path_of(self, across: ArrayLike, height: ArrayLike) -> Path:
        """Return the path of any point fixed to the moving part, its place given at q = 0 [m].

        Points given as arrays lie on the leading axes, the coordinate on the last.
        """
        ...


@dataclass(frozen=True)
class TurnerKind:
    """One way of turning, as the registry knows it.

    Attributes
    ----------
    id : str
        For scripts, such as ``tilting_trays``.
    words : tuple of str
        What a design file may say for it; the first is the one written back.
    starter : str
        The word after ``turnercalc start``.
    says : str
        One line for a person who has to choose.
    sections : mapping
        Section name to the model that reads it. A section is required unless it is named in
        `pin_sections` (required only with a drive that holds a pin) or `optional_sections`.
    pin_sections, optional_sections : tuple of str
        See `sections`.
    load_entry : type
        The model that reads one ``[[loads]]`` entry.
    drives : tuple of str
        Ids of the drives that make sense for it; the first is the usual one.
    build : callable
        Ingredients -> Turner.
    checks : tuple of str
        Ids of the checks that belong to it, in the order they are shown.
    measured_from : Origin
        What its places, and those of crank or actuator, are measured from.
    grows : tuple of Growing
        What a builder may make more of, the usual first; empty where nothing is counted.
    """

    id: str
    words: tuple[str, ...]
    starter: str
    says: str
    sections: Mapping[str, type[Section]]
    load_entry: type[Section]
    drives: tuple[str, ...]
    build: Callable[[Ingredients], Turner]
    checks: tuple[str, ...] = ()
    pin_sections: tuple[str, ...] = ()
    optional_sections: tuple[str, ...] = ()
    measured_from: Origin = FROM_PIVOT
    grows: tuple[Growing, ...] = ()
