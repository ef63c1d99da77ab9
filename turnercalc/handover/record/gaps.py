"""What is null in a record, and why: every gap is listed where it is made."""

from __future__ import annotations

from typing import Any, TypeVar

import numpy as np

from turnercalc.handover.numbers import rounded

Value = TypeVar("Value")


class Gaps:
    """Collects the reasons for what is null while a record is made."""

    def __init__(self) -> None:
        self._found: dict[str, tuple[str, str]] = {}

    def known(self, field: str, value: Value | None, why: str, ask: str = "") -> Value | None:
        """Return a value as it is, and note the reason where it is None."""
        if value is None:
            self._found.setdefault(field, (why, ask))
        return value

    def number(
        self,
        field: str,
        value: float | np.floating[Any] | None,
        why: str,
        *,
        per_si: float = 1.0,
        ask: str = "",
    ) -> float | None:
        """Return a rounded number, and note the reason where there is none."""
        return self.known(field, rounded(value, per_si), why, ask)

    def records(self) -> list[dict[str, str]]:
        """Return every gap with its reason."""
        return [
            {"field": field, "why": why, "ask_or_test": ask}
            for field, (why, ask) in self._found.items()
        ]
