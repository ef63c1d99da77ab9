"""Numbers as people write them: fractions, decimal commas, thousands marks, odd characters."""

from __future__ import annotations

import re
import unicodedata

from turnercalc.errors import UnitError

LONGEST_TEXT = 120
LARGEST = 1e12  # SI; no quantity of a turner comes near
SMALLEST = 1e-12

_INVISIBLE = dict.fromkeys(
    [0x00AD, 0x200B, 0x200C, 0x200D, 0x200E, 0x200F, 0x2060, 0xFE0E, 0xFE0F, 0xFEFF]
)
_LOOKALIKES = str.maketrans(
    {
        **dict.fromkeys("‘’‚‛′ʹʼ`´", "'"),
        **dict.fromkeys("“”„‟″ʺ〃", '"'),
        **dict.fromkeys("‐‑‒–—―−﹣－⁻", "-"),
        **dict.fromkeys("⋅•∙․‧・･", "·"),
        **dict.fromkeys("✕✖⨯", "×"),
        **dict.fromkeys("∗✱＊", "*"),
        **dict.fromkeys("º˚∘", "°"),
        **dict.fromkeys("⁄∕／", "/"),
        **dict.fromkeys("∼～〜", "~"),
        "⩾": "≥",
        "⩽": "≤",
        "，": ",",
        "¼": " 1/4",
        "½": " 1/2",
        "¾": " 3/4",
        "⅐": " 1/7",
        "⅓": " 1/3",
        "⅔": " 2/3",
        "⅕": " 1/5",
        "⅖": " 2/5",
        "⅗": " 3/5",
        "⅘": " 4/5",
        "⅙": " 1/6",
        "⅚": " 5/6",
        "⅛": " 1/8",
        "⅜": " 3/8",
        "⅝": " 5/8",
        "⅞": " 7/8",
    }
)


def tidy(text: str) -> str:
    """Return the text with look-alike characters made one and spaces single.

    Raises
    ------
    UnitError
        Where the text is too long to be one quantity.
    """
    if len(text) > LONGEST_TEXT:
        message = f'"{text[:30]}..." is {len(text)} characters long: too long for one quantity.'
        raise UnitError(message, text=text[:LONGEST_TEXT])
    if not text.isascii():
        text = text.translate(_INVISIBLE).translate(_LOOKALIKES)
        text = unicodedata.normalize("NFKC", text).translate(_LOOKALIKES)
    if "''" in text:
        text = text.replace("''", '"')
    return " ".join(text.split())


# Mixed and simple fractions first: otherwise the 18 of 18 1/2 would be taken alone.
NUMBER = (
    r"(?:\d+(?: | ?- ?)\d+ ?/ ?\d+(?![\d.,/])"
    r"|\d+ ?/ ?\d+(?![\d.,/])"
    r"|\d{1,3}(?: \d{3})+(?:[.,]\d+)?(?![\d/])"
    r"|(?:\d[\d.,]*|[.,]\d+)(?:[eE][+-]?\d+)?)"
)

SINGLE = re.compile(rf"([+-]?) ?({NUMBER}) ?(.*)")  # sign, number, what follows

_MIXED = re.compile(r"(?:(\d+)(?: | ?- ?))?(\d+) ?/ ?(\d+)")
_GROUPED_COMMAS = re.compile(r"\d{1,3}(?:,\d{3})+")
_GROUPED_DOTS = re.compile(r"\d{1,3}(?:\.\d{3})+")


def read_number(token: str, rest: str = "") -> float:
    """Return the value of one number, without sign.

    Parameters
    ----------
    token : str
        Text that matches `NUMBER`.
    rest : str
        What follows it, so that the message can offer whole quantities.

    Raises
    ------
    UnitError
        Where the number could be several, or is none.
    """
    if "/" in token:
        return _read_fraction(token, rest)
    mantissa, _, exponent = token.lower().partition("e")
    decimal = _plain_decimal(mantissa.replace(" ", ""), rest)
    try:
        value = float(decimal)
    except ValueError:
        raise _not_a_number(token) from None
    if exponent:
        if len(exponent) > 4 or abs(int(exponent)) > 30:
            message = f"{token} is far outside anything an egg turner could have."
            raise UnitError(message, text=token)
        value *= 10.0 ** int(exponent)
    return value


def _read_fraction(token: str, rest: str) -> float:
    match = _MIXED.fullmatch(token)
    if match is None:  # pragma: no cover - NUMBER lets nothing else through
        raise _not_a_number(token)
    whole, top, bottom = (int(part or 0) for part in match.groups())
    if bottom == 0:
        message = f"{token} divides by nothing."
        raise UnitError(message, text=token)
    if match.group(1) is not None and top >= bottom:
        message = (
            f"{token} is no mixed number: {top}/{bottom} is not less than one. "
            f"Is it a range? Then write {whole} to {top}/{bottom}{_spaced(rest)}."
        )
        raise UnitError(message, text=token)
    return whole + top / bottom


def _plain_decimal(number: str, rest: str) -> str:
    """Return the number with a dot for the decimal mark and no thousands marks."""
    commas, dots = number.count(","), number.count(".")
    if commas == 0 and dots <= 1:
        return number
    if commas and dots:
        return _two_marks(number)
    if commas > 1 or dots > 1:
        grouped = _GROUPED_COMMAS if commas else _GROUPED_DOTS
        if not grouped.fullmatch(number):
            raise _not_a_number(number)
        return number.replace(",", "").replace(".", "")
    if _GROUPED_COMMAS.fullmatch(number) and not number.startswith("0"):
        figures = two_readings(number)
        choices = (f"{figures[0]}{_spaced(rest)}", f"{figures[1]}{_spaced(rest)}")
        raise ambiguous_number(number, choices)
    return number.replace(",", ".")


def two_readings(number: str) -> tuple[str, str]:
    """Return what ``1,500`` is with a decimal comma, and what with a thousands comma."""
    return number.replace(",", ".").rstrip("0").rstrip("."), number.replace(",", "")


def ambiguous_number(number: str, choices: tuple[str, ...]) -> UnitError:
    """Return the question that ``1,500`` leaves open."""
    message = (
        f"{number} can be read two ways: {choices[0]} with a decimal comma, or {choices[1]}. "
        "Write the one you mean without the comma."
    )
    return UnitError(message, text=number, choices=choices)


def _two_marks(number: str) -> str:
    """Return a number that has both marks: the last is the decimal, the other parts thousands."""
    decimal = max(number.rfind(","), number.rfind("."))
    whole, part = number[:decimal], number[decimal + 1 :]
    grouped = _GROUPED_COMMAS if number[decimal] == "." else _GROUPED_DOTS
    if not grouped.fullmatch(whole) or not part.isdigit():
        raise _not_a_number(number)
    return f"{whole.replace(',', '').replace('.', '')}.{part}"


def _spaced(rest: str) -> str:
    return f" {rest.strip()}" if rest.strip() else ""


def _not_a_number(token: str) -> UnitError:
    message = f"{token} is not a number that can be read. Write it like 1500 or 1500.5."
    return UnitError(message, text=token)
