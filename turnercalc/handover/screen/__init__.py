"""The verdict page of the terminal: 80 columns, the verdict first, then what it rests on.

Each section is a file with one function from a result to lines; none of them computes.
"""

from __future__ import annotations

from turnercalc.handover.screen.page import Files, page

__all__ = ["Files", "page"]
