"""A derivation: what it starts from, what SymPy makes of it, and the same with numbers put in."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType
from typing import Any

import numpy as np
import sympy
from numpy.typing import ArrayLike, NDArray
from sympy.printing.precedence import precedence
from sympy.printing.str import StrPrinter

from turnercalc.errors import UnknownNameError

WIDTH = 80
_NAME = re.compile(r"[A-Za-z_][A-Za-z_0-9]*")
_FANCY = (("**2", "²"), ("**3", "³"), ("**4", "⁴"), ("**", "^"), ("*", "·"), ("pi", "π"))
_PLAIN = (("**", "^"),)
_TO_ASCII = str.maketrans(
    {"²": "^2", "³": "^3", "⁴": "^4", "·": ".", "π": "pi", "°": " deg", "×": "x", "−": "-"}
)


class _Printer(StrPrinter):  # type: ignore[misc]  # SymPy carries no types
    """Writes sums with their positive terms first, as people do."""

    def _print_Add(self, expr: Any, order: Any = None) -> str:  # noqa: N802 (SymPy's own name)
        terms = sorted(
            self._as_ordered_terms(expr, order=order),
            key=lambda term: bool(term.could_extract_minus_sign()),
        )
        text = ""
        for term in terms:
            minus = bool(term.could_extract_minus_sign())
            body = self.parenthesize(-term if minus else term, precedence(expr))
            sign = (" - " if minus else " + ") if text else ("-" if minus else "")
            text += sign + body
        return text


@dataclass(frozen=True)
class Worked:
    """A formula with the numbers of one case.

    Attributes
    ----------
    lines : tuple of str
        The formula, what each letter is here, the formula with numbers, and the result, in
        plain text of at most 80 columns.
    value : float
        The result, in the derivation's own unit (SI).
    """

    lines: tuple[str, ...]
    value: float


@dataclass(frozen=True)
class Derivation:
    """One formula, with where it comes from.

    Attributes
    ----------
    id : str
        Its name in the registry.
    title : str
        What it gives, for people.
    symbols : mapping of str to (str, str)
        Every letter of the result: meaning and SI unit ("" for a plain number).
    statement : tuple of str
        What the derivation starts from and how it goes on; a line that begins with two spaces
        is a formula and stands alone, the others run together.
    result : sympy.Expr
        The formula, in those letters.
    source : str
        Where it can be read.
    letter : str
        What stands left of the equals sign.
    unit : str
        SI unit of the result ("" for a plain number).
    """

    id: str
    title: str
    symbols: Mapping[str, tuple[str, str]]
    statement: tuple[str, ...]
    result: Any
    source: str
    letter: str
    unit: str

    def __post_init__(self) -> None:
        # topics share their letters among formulas: keep this one's own, and read-only
        object.__setattr__(self, "symbols", MappingProxyType(dict(self.symbols)))

    @cached_property
    def formula(self) -> str:
        """The result as SymPy writes it, ``**`` and ``*`` included."""
        return str(_Printer().doprint(self.result))

    @cached_property
    def function(self) -> Callable[..., Any]:
        """The result as a numpy function of the symbols, in their order."""
        # common subexpressions once: an order of magnitude faster on the longer ones
        made: Callable[..., Any] = sympy.lambdify(
            [sympy.Symbol(name) for name in self.symbols], self.result, modules="numpy", cse=True
        )
        return made

    def evaluate(self, values: Mapping[str, ArrayLike]) -> NDArray[np.float64]:
        """Return the result for arrays of values.

        Parameters
        ----------
        values : mapping of str to array_like
            One for each symbol; they broadcast. [SI]

        Returns
        -------
        ndarray
            NaN where the formula has no value. [SI]

        Raises
        ------
        UnknownNameError
            Where a symbol has no value; others than the symbols are passed over.
        """
        missing = [name for name in self.symbols if name not in values]
        if missing:
            told = ", ".join(f"{name} ({self.symbols[name][0]})" for name in missing)
            message = f"the formula {self.id} also needs {told}"
            raise UnknownNameError(message)
        arguments = [np.asarray(values[name], float) for name in self.symbols]
        with np.errstate(invalid="ignore", divide="ignore"):
            return np.asarray(self.function(*arguments), float)

    def substitute(self, values: Mapping[str, float], *, ascii_only: bool = False) -> Worked:
        """Return the formula, the numbers put in, and the result.

        Parameters
        ----------
        values : mapping of str to float
            One for each symbol. [SI]
        ascii_only : bool
            Leave out signs that a bare terminal does not have.

        Returns
        -------
        Worked
            Its lines are at most 80 columns wide.

        Raises
        ------
        UnknownNameError
            Where a symbol has no value.
        """
        value = float(self.evaluate(values))
        letter = self.letter
        numbers = {name: _number(float(values[name])) for name in self.symbols}
        wide = max(map(len, self.symbols), default=0)
        told = [
            f"  {name:<{wide}} = {_measure(float(values[name]), unit)}   {meaning}"
            for name, (meaning, unit) in self.symbols.items()
        ]
        filled = _NAME.sub(
            lambda found: _held(numbers[found[0]]) if found[0] in numbers else found[0],
            self.formula,
        )
        lines = [
            *_equation(letter, self.formula, ascii_only),
            *(line for long in told for line in _wrapped(long, len("  ") + wide + len(" = "))),
            *_equation(letter, filled, ascii_only),
            f"{letter} = {_measure(value, self.unit)}",
        ]
        return Worked(_letters(lines, ascii_only), value)

    def explanation(self, *, ascii_only: bool = False) -> tuple[str, ...]:
        """Return title, derivation, formula, letters and source as lines of at most 80 columns.

        Parameters
        ----------
        ascii_only : bool
            Leave out signs that a bare terminal does not have.

        Returns
        -------
        tuple of str
            Lines without line ends.
        """
        wide = max(map(len, self.symbols), default=0)
        letters = [
            f"  {name:<{wide}}   {meaning}{f' [{unit}]' if unit else ''}"
            for name, (meaning, unit) in self.symbols.items()
        ]
        lines = [
            self.title,
            "",
            *_paragraphs(self.statement),
            "",
            *_equation(self.letter, self.formula, ascii_only),
            "",
            *(line for long in letters for line in _wrapped(long, wide + 5)),
            "",
            *_wrapped(f"  Source: {self.source}", 4),
        ]
        return _letters(lines, ascii_only)


def _number(value: float) -> str:
    return f"{value:.5g}"


def _held(number: str) -> str:
    """Keep a sign or an exponent together inside a product or a power."""
    return f"({number})" if number.startswith("-") or "e" in number else number


def _measure(value: float, unit: str) -> str:
    """Return a value with its unit, angles in degrees as well."""
    told = f"{_number(value)} {unit}".rstrip()
    return f"{told} ({np.degrees(value):.4g}°)" if unit == "rad" else told


def _letters(lines: list[str], ascii_only: bool) -> tuple[str, ...]:
    if not ascii_only:
        return tuple(lines)
    plain = [line.translate(_TO_ASCII) for line in lines]
    return tuple(piece for line in plain for piece in _wrapped(line, 4))


def _equation(letter: str, expression: str, ascii_only: bool) -> list[str]:
    """Return ``letter = expression``, broken before a sign, else after a product sign."""
    for old, new in _PLAIN if ascii_only else _FANCY:
        pattern = rf"\b{old}\b" if old.isalpha() else re.escape(old)
        expression = re.sub(pattern, new, expression)
    start = f"  {letter} = "
    room = WIDTH - len(start)
    lines = [""]
    for term in re.split(r" (?=[+-] )", expression):
        pieces = [term] if len(term) <= room else re.findall(r"[^·*]+[·*]?", term)
        for number, piece in enumerate(pieces):
            space = " " if lines[-1] and number == 0 else ""
            if len(lines[-1]) + len(space + piece) <= room:
                lines[-1] += space + piece
            else:
                lines.append(piece)
    return [
        (start if number == 0 else " " * len(start)) + text for number, text in enumerate(lines)
    ]


def _paragraphs(statement: tuple[str, ...]) -> list[str]:
    """Run prose lines together and wrap them; formulas, which begin with two spaces, stay."""
    blocks: list[str] = []
    for line in statement:
        if blocks and not line.startswith("  ") and not blocks[-1].startswith("  "):
            blocks[-1] += f" {line}"
        else:
            blocks.append(line)
    return [piece for block in blocks for piece in _wrapped(f"  {block}", _indent(block))]


def _indent(block: str) -> int:
    return 6 if block.startswith("  ") else 2


def _wrapped(text: str, indent: int) -> list[str]:
    """Break a text that is too wide at its spaces, later lines indented."""
    lines = []
    while len(text) > WIDTH:
        cut = text.rfind(" ", indent + 1, WIDTH + 1)
        if cut <= indent:
            break
        lines.append(text[:cut].rstrip())
        text = " " * indent + text[cut:].lstrip()
    return [*lines, text]
