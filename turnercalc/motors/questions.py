"""One question about a motor, and the finding that an answer makes of it."""

from __future__ import annotations

from dataclasses import dataclass

from turnercalc.findings import Answer, Finding


@dataclass(frozen=True)
class Question:
    """What is asked, with the reason and source that every answer carries.

    Attributes
    ----------
    id, title, unit, reason, source, fields
        As in `Finding`.
    """

    id: str
    title: str
    reason: str
    source: str
    unit: str = ""
    fields: tuple[str, ...] = ()

    def answer(
        self,
        answer: Answer,
        text: str,
        *,
        value: float | None = None,
        fine: float | None = None,
        no: float | None = None,
        ask: str = "",
        caps: bool = True,
    ) -> Finding:
        """Return the finding: value and limits in the question's unit."""
        return Finding(
            id=self.id,
            title=self.title,
            answer=answer,
            text=text,
            value=value,
            unit=self.unit,
            limit_fine=fine,
            limit_no=no,
            reason=self.reason,
            source=self.source,
            fields=self.fields,
            ask=ask,
            caps_verdict=caps,
        )
