"""Answers that need many sizings: what to change so that it helps most."""

from turnercalc.advice.best_change import Advice, Change, advise

__all__ = ["Advice", "Change", "advise"]
