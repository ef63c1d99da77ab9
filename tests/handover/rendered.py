"""A printed page as pixels, and what can be measured on it without knowing how it was drawn."""

import numpy as np
import pypdfium2
from scipy.signal import oaconvolve

DPI = 300
INCH = 25.4


def page(pdf: bytes, number: int) -> np.ndarray:
    """Return a page as darkness from 0 to 1, one pixel for 1/300 in, the first row at the top."""
    bitmap = pypdfium2.PdfDocument(pdf)[number].render(scale=DPI / 72, grayscale=True)
    return 1.0 - np.asarray(bitmap.to_numpy(), float).squeeze() / 255.0


def millimetres(pixels: float) -> float:
    return pixels * INCH / DPI


def level_strokes(dark: np.ndarray) -> list[tuple[int, int, int]]:
    """Return runs of dark pixels at least 50 mm long, as (row, first column, columns)."""
    found = []
    for row, line in enumerate(dark > 0.35):
        edges = np.flatnonzero(np.diff(np.concatenate([[0], line.astype(int), [0]])))
        for first, last in zip(edges[::2], edges[1::2], strict=True):
            if millimetres(last - first) > 50.0:
                found.append((row, int(first), int(last - first)))
    return found


def rings(dark: np.ndarray, radius: float, count: int, stroke: float = 0.35) -> np.ndarray:
    """Return the middles (column, row) of the circles of a radius [mm] that stand out most.

    A ring is laid on the page everywhere; where it lies on dark pixels all the way round and on
    light ones beside them is a circle. The place is refined by the middle of the peak.
    """
    r = radius * DPI / INCH
    half = int(r + 6)
    y, x = np.mgrid[-half : half + 1, -half : half + 1]
    away = np.abs(np.hypot(x, y) - r)
    on, beside = away <= 0.5 * stroke * DPI / INCH, (away > 3.0) & (away <= 5.0)
    kernel = on / on.sum() - beside / beside.sum()
    score = oaconvolve(dark.astype(np.float32), kernel[::-1, ::-1].astype(np.float32), mode="same")
    found = []
    for _ in range(count):
        row, column = np.unravel_index(score.argmax(), score.shape)
        near = np.s_[row - 2 : row + 3, column - 2 : column + 3]
        weight = np.maximum(score[near], 0.0) ** 4
        dy, dx = np.mgrid[-2:3, -2:3]
        found.append(
            (column + (weight * dx).sum() / weight.sum(), row + (weight * dy).sum() / weight.sum())
        )
        score[max(row - half, 0) : row + half, max(column - half, 0) : column + half] = -1.0
    return np.array(found)


def apart(one: np.ndarray, other: np.ndarray) -> float:
    """Return the distance of two places on the page [mm]."""
    return millimetres(float(np.hypot(*(one - other))))
