"""Design and motors in, one complete frozen answer out."""

from __future__ import annotations

from dataclasses import dataclass

from turnercalc.checks.evidence import Evidence
from turnercalc.findings import Answer, Assumed, Finding


@dataclass(frozen=True)
class Sizing(Evidence):
    """One complete answer about a design: everything computed, and every question judged.

    Attributes
    ----------
    findings : tuple of Finding
        The checks of the turner, in the order they are told; a motor's own findings stand with
        the motor in `motors`.
    verdict : Answer
        fine, marginal or no, over all findings that count and the chosen motor.
    reason : Finding
        The one finding that decides the verdict.
    assumed : tuple of Assumed
        What was taken for granted.
    unknown : tuple of Finding
        What is not known, each with what to ask or test.
    """

    findings: tuple[Finding, ...]
    verdict: Answer
    reason: Finding
    assumed: tuple[Assumed, ...]
    unknown: tuple[Finding, ...]

    @property
    def exit_code(self) -> int:
        """0 for fine or marginal, 1 for no."""
        return 1 if self.verdict is Answer.NO else 0
