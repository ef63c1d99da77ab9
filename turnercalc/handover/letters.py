"""Letters for terminals and printers that know ASCII only."""

from __future__ import annotations

import unicodedata

_SPELT = str.maketrans(
    {
        "·": ".",
        "⋅": ".",
        "×": "x",
        "±": "+/-",
        "–": "-",
        "—": "-",
        "−": "-",
        "‐": "-",
        "‑": "-",
        "≤": "<=",
        "≥": ">=",
        "≈": "about ",
        "µ": "u",
        "μ": "u",
        "→": "->",
        "←": "<-",
        "‘": "'",
        "’": "'",
        "“": '"',
        "”": '"',
        "„": '"',
        "…": "...",
        "ß": "ss",
        "ø": "oe",
        "Ø": "Oe",
        "æ": "ae",
        "Æ": "Ae",
        "œ": "oe",
        "ł": "l",
        "Ł": "L",
        "\u00a0": " ",
        "\u202f": " ",
        "\u2009": " ",
    }
)


def ascii_only(text: str) -> str:
    """Return text in ASCII: N·m as N.m, a degree sign as `` deg``, accents dropped.

    What has no ASCII spelling becomes a question mark.
    """
    if text.isascii():
        return text
    text = text.replace("°C", "degC").replace("°F", "degF")
    text = text.replace("s/60°", "s/60deg").replace("°", " deg").translate(_SPELT)
    decomposed = unicodedata.normalize("NFKD", text)
    kept = "".join(letter for letter in decomposed if not unicodedata.combining(letter))
    return kept.encode("ascii", "replace").decode("ascii")
