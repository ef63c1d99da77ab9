"""Figures of very many builds without keeping the builds."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

BINS = 4000
KEPT = 2000


class Tally:
    """Count, mean, deviation and quantiles of numbers that come in blocks.

    Quantiles are read off bins laid out from the first `KEPT` numbers or more, so that they are
    right to a `BINS`-th of three times their range; those of fewer numbers are exact, and so are
    least and most.
    """

    def __init__(self) -> None:
        self.count = 0
        self.mean = 0.0
        self._squares = 0.0
        self.least, self.most = np.inf, -np.inf
        self._edges: Array | None = None
        self._kept: list[Array] = []
        self._bins = np.zeros(BINS + 2)

    def add(self, values: Array) -> None:
        """Take in a block of finite numbers."""
        if not values.size:
            return
        total = self.count + values.size
        ahead = float(values.mean()) - self.mean
        self._squares += float(((values - values.mean()) ** 2).sum())
        self._squares += ahead**2 * self.count * values.size / total
        self.mean += ahead * values.size / total
        self.count = total
        self.least = min(self.least, float(values.min()))
        self.most = max(self.most, float(values.max()))
        if self._edges is None:
            self._kept.append(np.array(values, float))
            if total >= KEPT:
                self._lay_out()
        else:
            self._bin(values)

    def _lay_out(self) -> None:
        """Lay out the bins and put what was kept into them."""
        wider = max(self.most - self.least, 1e-12)
        self._edges = np.linspace(self.least - wider, self.most + wider, BINS + 1)
        for values in self._kept:
            self._bin(values)
        self._kept.clear()

    def _bin(self, values: Array) -> None:
        assert self._edges is not None
        self._bins += np.bincount(np.searchsorted(self._edges, values), minlength=BINS + 2)

    @property
    def deviation(self) -> float:
        """Standard deviation."""
        return float(np.sqrt(self._squares / (self.count - 1))) if self.count > 1 else 0.0

    def quantile(self, share: float) -> float:
        """Return the value that a share of the numbers stay under."""
        if self._edges is None:
            return float(np.quantile(np.concatenate(self._kept), share)) if self._kept else np.nan
        below = np.cumsum(self._bins)
        wanted = share * self.count
        at = int(np.searchsorted(below, wanted))
        if at == 0:
            return self.least
        if at > BINS:
            return self.most
        inside = (wanted - below[at - 1]) / max(self._bins[at], 1e-300)
        low, high = self._edges[at - 1], self._edges[at]
        return float(np.clip(low + inside * (high - low), self.least, self.most))


class Regression:
    """Shares of a variance by the error it comes from, from sums alone.

    Ordinary least squares: where the answer is nearly linear in independent errors, the square of
    a slope times the variance of its error is the variance which that error alone brings.
    """

    def __init__(self, count: int) -> None:
        self._xx = np.zeros((count + 1, count + 1))
        self._xy = np.zeros(count + 1)
        self._yy = 0.0
        self._n = 0

    def add(self, errors: Array, values: Array) -> None:
        """Take in a block: errors (build, source) of any scale, and one value a build."""
        x = np.concatenate([np.ones((len(values), 1)), errors], axis=1)
        self._xx += x.T @ x
        self._xy += x.T @ values
        self._yy += float(values @ values)
        self._n += len(values)

    def shares(self) -> Array:
        """Return the share of the variance that each source alone explains, each 0 to 1."""
        if self._n < 2:
            return np.zeros(self._xy.size - 1)
        mean = self._xy[0] / self._n
        variance = self._yy / self._n - mean**2
        if variance <= 1e-18 * max(mean**2, 1e-300):
            return np.zeros(self._xy.size - 1)
        slopes = np.linalg.lstsq(self._xx, self._xy, rcond=None)[0][1:]
        spread = np.diag(self._xx)[1:] / self._n - (self._xx[0, 1:] / self._n) ** 2
        return np.asarray(np.clip(slopes**2 * spread / variance, 0.0, 1.0))
