"""What a power cut leaves behind, for each way of stopping a move."""

from __future__ import annotations

from dataclasses import dataclass

from turnercalc.timing.timers import CLOCK, ENDS, PARK, STEPS


@dataclass(frozen=True)
class PowerCut:
    """What happens when the power fails and comes back.

    Attributes
    ----------
    stopped_by : str
        What stops the moves.
    share_in_move : float or None
        Share of the day in which a cut falls into a move [ratio].
    finds_its_end : bool
        Whether it reaches the right end by itself once there is power again.
    most_off : float or None
        By how much the driving shaft may be off for good after a cut [rad or m]; 0 where it
        finds its end.
    back_driven : bool or None
        Whether the load may turn it back while it stands half way; None where that is unknown.
    holding_anywhere : float
        What the load may put on the motor half way [N·m or N].
    text, do : str
        What happens, and what to do about it, for people.
    """

    stopped_by: str
    share_in_move: float | None
    finds_its_end: bool
    most_off: float | None
    back_driven: bool | None
    holding_anywhere: float
    text: str
    do: str


_TEXTS = {
    PARK: (
        "cut short half way, it runs on to its end once there is power: the park switch is still "
        "closed. Ends and count stay right.",
        "Let the park switch carry the motor by itself; the timer only starts a move. A timer "
        "that loses its clock starts its pause anew, or turns at once.",
    ),
    ENDS: (
        "cut short half way, it runs on to the end that its relay or control stands for, and stops "
        "there. Ends stay right; one turn may be missing or be made twice.",
        "A relay that latches remembers which way it went. A control has to read both switches "
        "first and must never have both directions on.",
    ),
    STEPS: (
        "cut short half way, the count is lost, and every end after it is off by what was left of "
        "the move.",
        "Give it a home switch and let the control find it first after every cut.",
    ),
    CLOCK: (
        "cut short half way, what is missing of the move is never made up: from then on it parks "
        "off its ends, at worst half way between them.",
        "Look at the ends after every cut and set them by hand, or put in a park switch.",
    ),
}
#: End switches under a crank that goes round and round: nothing has to remember a way.
_ON_TO_THE_NEXT_END = (
    "cut short half way, it goes on round to its next end once there is power, and the switch "
    "there stops it. Ends and count stay right.",
    "Let the switches carry the motor by themselves; the timer only starts a move. A timer that "
    "loses its clock starts its pause anew, or turns at once.",
)
#: The same for a part that may stand anywhere.
_ANYWHERE = (
    "cut short half way, the eggs are turned by what is missing less that once; the next move goes "
    "on from there.",
    "Nothing has to be set again, but for a timer that loses its clock.",
)


def power_cut(
    stopped_by: str,
    *,
    longest: float | None,
    interval: float,
    travel: float,
    holds: bool | None,
    holding_anywhere: float,
    reverses: bool = True,
    anywhere: bool = False,
) -> PowerCut:
    """Return what a power cut does.

    Parameters
    ----------
    stopped_by : str
        ``park switch``, ``end switches``, ``timer`` or ``counted steps``.
    longest : float or None
        Longest move [s].
    interval : float
        From the start of one move to the start of the next [s].
    travel : float
        What the driving shaft turns in the longer move [rad or m].
    holds : bool or None
        Whether the motor holds when it is off.
    holding_anywhere : float
        The most that a load puts on the motor at rest anywhere [N·m or N].
    reverses : bool
        Whether the motor goes to and fro.
    anywhere : bool
        Whether the part may stand anywhere, so that it has no ends to be off.
    """
    finds = stopped_by in (PARK, ENDS)
    text, do = _TEXTS[stopped_by]
    if stopped_by == ENDS and not reverses:
        text, do = _ON_TO_THE_NEXT_END
    elif anywhere and not finds:
        text, do = _ANYWHERE
    pushed = holding_anywhere > 0.0
    return PowerCut(
        stopped_by=stopped_by,
        share_in_move=None if longest is None else min(1.0, longest / interval),
        finds_its_end=finds,
        most_off=0.0 if finds or anywhere else travel,
        back_driven=False if not pushed else (None if holds is None else not holds),
        holding_anywhere=holding_anywhere,
        text=text,
        do=do,
    )
