"""Whether the bars stay straight under their eggs."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_bars import on_bars
from turnercalc.checks.wording import judged, millimetres, worse
from turnercalc.findings import Answer, Finding
from turnercalc.mechanics.beams import round_second_moment, uniform_load_sag
from turnercalc.tables import limit, material
from turnercalc.turners.bar_sections import bore
from turnercalc.turners.rolling_bars import RollingBars

ID = "bar_sag"
TITLE = "Sag"
FIELDS = ("bars.diameter", "bars.wall", "bars.material", "bars.length")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the sag of the hardest loaded bar in the middle, in itself and over its length."""
    found = on_bars(evidence)
    if found is None:
        return
    section = evidence.ingredients.sections["bars"]
    what = material(section.material)
    load = bar_load(found[0])
    second = round_second_moment(section.diameter, bore(section.diameter, section.wall))
    stiffness = what.youngs_modulus * what.creep_factor
    sag = float(uniform_load_sag(load / section.length, section.length, stiffness, second))
    whole, share = limit("bar_sag"), limit("bar_sag_ratio")
    by_share = worse(share.answer(sag / section.length), whole.answer(1e3 * sag))
    rule, value = (share, sag / section.length) if by_share else (whole, 1e3 * sag)
    creep = ", creep in the warm box included" if what.creep_factor < 1.0 else ""
    text = f"{_fine(sag)} in the middle of the hardest loaded bar{creep}."
    if rule.answer(value) is not Answer.FINE:
        text = (
            f"The hardest loaded bar sags {_fine(sag)} in its middle{creep}: eggs creep there and "
            "the bar turns unevenly. A thicker bar, a stiffer material or a support half way."
        )
    yield judged(ID, TITLE, value, rule, text, fields=FIELDS)


def bar_load(bars: RollingBars) -> float:
    """Return the largest load of eggs and its own weight on any bar with all lanes full [N].

    The pull of belts acts at the bar's ends and bends it little.
    """
    full = max(bars.load_cases(), key=lambda case: case.egg_count)
    return float(np.hypot(*bars.egg_loads(full.cells[None].astype(float))).max())


def _fine(sag: float) -> str:
    return "less than 0.01 mm" if sag < 1e-5 else millimetres(sag, 2)
