"""The one-page report: a single HTML file that needs nothing else, moves, and prints."""

from turnercalc.handover.page.sheet import sheet

__all__ = ["sheet"]
