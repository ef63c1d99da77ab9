"""Put rubber on a cradle's runners."""

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.advice.moves.on_runners import cradle_of
from turnercalc.fields import to_text
from turnercalc.sizing import Sizing
from turnercalc.tables import runner_pair


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield a rubber strip under the runners, where nothing else holds them."""
    cradle = cradle_of(sizing)
    if cradle is None or not cradle.rolls_on_floor or cradle.strapped:
        return
    said = sizing.design["cradle"].runners
    now = runner_pair(said)
    floor = "wood" if now.name.endswith("wood") else "steel"
    better = runner_pair(f"rubber on {floor}")
    if now.grip.low >= better.grip.low:
        return
    settings = {"cradle.runners": better.name}
    # What the builder measured belongs to the old runners.
    measured = {
        "grip": (better.grip, "friction"),
        "rolling_arm": (better.rolling_arm, "length range"),
    }
    for name, (value, kind) in measured.items():
        origin = sizing.design.origin.get(f"cradle.{name}")
        if origin is not None and origin.how != "taken for granted":
            settings[f"cradle.{name}"] = to_text(value, kind)
    yield Proposal("rubber_runners", settings, "Glue a strip of rubber under the runners.")
