"""How many trays fit the box: count, pitch and pivot height."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Any

import numpy as np

from turnercalc.advice.asked import above_zero, need_design, not_below_zero
from turnercalc.advice.lengths import Lengths, Wish, find_lengths
from turnercalc.advice.lengths.writing import setting_of
from turnercalc.advice.rows import Rows
from turnercalc.building import build
from turnercalc.design import Design
from turnercalc.errors import AskedError
from turnercalc.findings import Answer
from turnercalc.parts.outlines import corners
from turnercalc.tables import limit
from turnercalc.turners.base import Turner

STEPS = 181
MILLIMETRE = 1e-3
SET_BY_FITTING = ("trays.count", "trays.pitch", "trays.lowest_pivot")


@dataclass(frozen=True)
class TrayFit(Rows):
    """The most trays of a design's kind that fit its box at the wanted tilt.

    Attributes
    ----------
    count : int
        How many; 0 where not even one fits.
    pitch, lowest_pivot : float
        From pivot to pivot, and the lowest pivot above the box floor [m].
    spare : float
        Height left over; the pivots stand as low as they can, so that it is above [m].
    steepest : float
        The most tilt to each side at which one tray fits between the walls [rad].
    settings : mapping
        Field path -> text, as ``--set`` takes it; empty where none fits.
    text : str
        The same in a sentence or two.
    """

    count: int
    pitch: float
    lowest_pivot: float
    spare: float
    steepest: float
    settings: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    text: str = ""

    def rows(self) -> list[dict[str, Any]]:
        """Return one line: lengths in m, the angle in rad."""
        return [
            {
                "count": self.count,
                "pitch_m": self.pitch,
                "lowest_pivot_m": self.lowest_pivot,
                "spare_m": self.spare,
                "steepest_rad": self.steepest,
                "text": self.text,
            }
        ]


def fit_trays(
    design: Design, *, under: float = 0.0, step: float = MILLIMETRE, system: str = "metric"
) -> TrayFit:
    """Return how many trays fit, how far apart and how high.

    Parameters
    ----------
    design : Design
        With trays; its own count, pitch and pivot height are not looked at.
    under : float
        Height to keep free under the lowest tray, for a crank or water [m].
    step : float
        Pitch and height come out in whole steps [m].
    system : str
        Units of the settings: ``metric`` or ``us``.

    Raises
    ------
    AskedError
        The design has no trays, or a height or step cannot be.

    Notes
    -----
    With t the steepest tilt, neighbours need ``pitch cos t >= thickness + gap``, and a tray
    reaches so far up, down and to the sides as its corners come anywhere in the swing.
    """
    need_design(design)
    if design.get("trays") is None:
        raise AskedError("Only racks with trays on pivots are fitted: this design has none.")
    step = above_zero(step, "steps of pitch and height")
    under = not_below_zero(under, "height to keep free")
    turner, box = build(design).turner, design["box"]
    low, high = turner.travel
    gap, wall = (1e-3 * (limit(name).fine or 0.0) for name in ("neighbour_gap", "clearance"))
    left, right, down, up = reach(turner, low, high)
    thickness = float(np.ptp(corners(turner)[1]))
    steep = max(abs(low), abs(high))
    pitch = math.ceil((thickness + gap) / math.cos(steep) / step - 1e-9) * step
    lowest = math.ceil((down + wall + under) / step - 1e-9) * step
    from_left = turner.origin_from_left
    beside = 0.5 * box.width if from_left is None else from_left
    narrow = max(left + wall - beside, right + wall - (box.width - beside))
    head = box.height - lowest - up - wall
    steepest = steepest_between(turner, beside - wall, box.width - beside - wall)
    if narrow > 0.0 or head < 0.0:
        return TrayFit(0, pitch, lowest, head, steepest, text=none_fits(narrow, head, steepest))
    count = math.floor(head / pitch + 1e-9) + 1
    spare = head - (count - 1) * pitch
    values = {"trays.count": count, "trays.pitch": pitch, "trays.lowest_pivot": lowest}
    settings = {path: setting_of(design, path, value, system) for path, value in values.items()}
    trays = "tray fits" if count == 1 else "trays fit"
    text = (
        f"{count} {trays} by their own room at {math.degrees(steep):.3g}° to each side: "
        f"{settings['trays.pitch']} from pivot to pivot, the lowest "
        f"{settings['trays.lowest_pivot']}, with {1e3 * spare:.0f} mm of height to spare."
    )
    if design.loads and count != design["trays"].count:
        text += " The loads of your own in the file are for another number of trays: change them."
    return TrayFit(count, pitch, lowest, spare, steepest, settings, text)


@dataclass(frozen=True)
class Arranged:
    """Trays that fit, and lengths that turn just these.

    Attributes
    ----------
    fit : TrayFit
        The most trays by their own room.
    design : Design
        With the trays that the lengths are for; the given one where there are none.
    lengths : Lengths
        Every suggestion sets the trays as well, and was sized with them.
    text : str
        For which trays the lengths are, and why not for more.
    """

    fit: TrayFit
    design: Design
    lengths: Lengths
    text: str


def arrange(design: Design, wish: Wish | None = None) -> Arranged:
    """Return the most trays that fit and for which there are lengths, best first.

    Of every count the height to spare is left under the lowest tray first, where a crank has most
    use of it, then above. The most trays for which the lengths are fine are taken; failing that,
    the most that are turned at all.

    Raises
    ------
    AskedError, UnknownNameError
        As for `fit_trays` and `find_lengths`.
    """
    wish = wish or Wish()
    fit = fit_trays(design, step=wish.step, system=wish.system)
    tried: list[tuple[int, Design, Lengths]] = []
    for count in range(fit.count, 0, -1):
        spare = fit.spare + (fit.count - count) * fit.pitch
        raised = fit.lowest_pivot + math.floor(spare / wish.step + 1e-9) * wish.step
        for lowest in dict.fromkeys((raised, fit.lowest_pivot)):
            values = dict(zip(SET_BY_FITTING, (count, fit.pitch, lowest), strict=True))
            trays = {
                path: setting_of(design, path, value, wish.system) for path, value in values.items()
            }
            # Loads of one's own are told tray by tray: of another number the usual ones stand in.
            other = design.loads and count != design["trays"].count
            changed = design.replace({**trays, "loads": []} if other else trays)
            tried.append((count, changed, with_trays(find_lengths(changed, wish), trays)))
            if any(one.answer is Answer.FINE for one in tried[-1][2].suggestions):
                return Arranged(fit, *tried[-1][1:], told_for(fit, tried, count))
    for count, changed, found in tried:
        if found.suggestions:
            return Arranged(fit, changed, found, told_for(fit, tried, count))
    if not tried:
        return Arranged(fit, design, Lengths((), fit.text), "")
    few = "this tray" if fit.count == 1 else f"{fit.count} trays, nor for fewer"
    return Arranged(fit, design, tried[0][2], f"There are no lengths for {few}.")


def with_trays(found: Lengths, trays: Mapping[str, str]) -> Lengths:
    """Return lengths whose settings set the trays as well."""
    return replace(
        found,
        suggestions=tuple(
            replace(one, settings={**trays, **one.settings}) for one in found.suggestions
        ),
    )


def told_for(fit: TrayFit, tried: Sequence[tuple[int, Design, Lengths]], count: int) -> str:
    """Return for how many trays the lengths are, and how it went with more."""
    one = "1 tray" if count == 1 else f"{count} trays"
    text = f"The lengths beneath are for {one}, and each block sets both."
    if count == fit.count:
        return text
    more = [found for number, _, found in tried if number > count]
    most = "1 more" if fit.count == count + 1 else f"up to {fit.count}"
    marginal = next((found.suggestions[0] for found in more if found.suggestions), None)
    if marginal is not None:
        settings = marginal.settings.items()
        sets = " ".join(f'--set {path}="{to}"' for path, to in settings if path in SET_BY_FITTING)
        return (
            f"{text} With {most} they are marginal at best; for those say {sets} in place of "
            "--trays."
        )
    return f"{text} With {most} there are none: {more[0].why_none}"


def reach(turner: Turner, low: float, high: float) -> tuple[float, float, float, float]:
    """Return how far one tray comes to the left, right, down and up from its pivot [m]."""
    across, height = corners(turner)
    q = np.linspace(low, high, STEPS)
    x, y = turner.path_of(across[:, None], height[:, None]).point(q)
    return -float(x.min()), float(x.max()), -float(y.min()), float(y.max())


def steepest_between(turner: Turner, left: float, right: float) -> float:
    """Return the most tilt to each side at which a tray stays between two walls [rad]."""
    tilts = np.radians(np.arange(0.0, 90.5, 0.5))
    fits = [
        max(found[0] - left, found[1] - right) <= 0.0
        for found in (reach(turner, -tilt, tilt) for tilt in tilts)
    ]
    if not fits[0]:
        return 0.0
    return float(tilts[fits.index(False) - 1] if False in fits else tilts[-1])


def none_fits(narrow: float, head: float, steepest: float) -> str:
    """Return why not even one tray fits."""
    if narrow > 0.0:
        text = f"Not one tray fits: the box is {1e3 * narrow:.0f} mm too narrow at a side."
        if steepest <= 0.0:
            return f"{text} Level it does not fit either: make the trays narrower."
        return f"{text} It would fit up to {math.degrees(steepest):.3g}° to each side."
    return f"Not one tray fits: the box is {-1e3 * head:.0f} mm too low."
