"""The tree of errors. Every one of them speaks to the builder.

TurnercalcError
├── UnitError            a text is no quantity, or could be several       (ValueError)
├── DesignError          a design file needs its builder                  (ValueError)
├── MotorFileError       a motor file cannot be read at all               (ValueError)
├── NotTurnedError       the animal's eggs are left as they lie: an answer, not a fault
├── AskedError           a call from Python asks for what cannot be       (ValueError)
├── CombinationError     a turner and a drive that make no sense together (ValueError)
├── UnknownNameError     a name that no table or registry holds           (LookupError)
├── TableError           one of our own tables is damaged                 (ValueError)
└── OutputError          a result could not be written                    (OSError)
"""

from __future__ import annotations

from dataclasses import dataclass


class TurnercalcError(Exception):
    """Anything the builder can act on. The command line prints it and exits with 2."""


class UnitError(TurnercalcError, ValueError):
    """A text that is not a quantity of the wanted kind, or could be several.

    Attributes
    ----------
    text : str
        What was read.
    choices : tuple of str
        What it could mean, each a text that would be accepted.
    """

    def __init__(self, message: str, *, text: str = "", choices: tuple[str, ...] = ()) -> None:
        super().__init__(message)
        self.text = text
        self.choices = choices


@dataclass(frozen=True)
class Complaint:
    """One thing in a design file that needs the builder.

    Attributes
    ----------
    line : int or None
        Line number, counted from 1; None where the thing is missing.
    field : str
        Field path such as ``crank.radius``.
    read : str
        The text as it stands in the file.
    message : str
        What is wrong, in one or two sentences.
    accepted : tuple of str
        Texts that would be accepted.
    """

    line: int | None
    field: str
    read: str
    message: str
    accepted: tuple[str, ...] = ()


class DesignError(TurnercalcError, ValueError):
    """A design file that cannot be used as it stands; carries every complaint at once."""

    def __init__(
        self, message: str, *, complaints: tuple[Complaint, ...] = (), understood: int = 0
    ) -> None:
        super().__init__(message)
        self.complaints = complaints
        self.understood = understood


class MotorFileError(TurnercalcError, ValueError):
    """A motor file in which no table of motors could be found."""


class NotTurnedError(TurnercalcError):
    """The answer for an animal whose eggs are not turned: no turner at all."""


class AskedError(TurnercalcError, ValueError):
    """A call asks for what cannot be, such as no builds at all; the message says what can."""


class CombinationError(TurnercalcError, ValueError):
    """A turner and a drive that make no sense together; the message names one that does."""


class UnknownNameError(TurnercalcError, LookupError):
    """A name that no table or registry holds; the message names the nearest."""


class TableError(TurnercalcError, ValueError):
    """One of our own tables is damaged."""


class OutputError(TurnercalcError, OSError):
    """A result could not be written; the message names the file and the folder."""
