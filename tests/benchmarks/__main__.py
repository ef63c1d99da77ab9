"""Measure and print every ratio: ``python -m tests.benchmarks``. Nothing is asserted here."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import numpy as np

from tests.benchmarks.designs import report
from tests.benchmarks.kernels import (
    Designs,
    bare_closed_form,
    first_moments,
    our_kernel,
    our_rack,
    ratio,
)

ROOT = Path(__file__).parents[2]


def kernel_ratios() -> None:
    for count in (1000, 2000, 4000):
        designs = Designs.draw(count)
        turner, drive = our_rack(designs)
        across, up = first_moments(turner)
        found = ratio(
            lambda d=designs, t=turner, dr=drive: our_kernel(t, dr, d),  # type: ignore[misc]
            lambda d=designs, t=turner, a=across, u=up: bare_closed_form(d, a, u, t.tie_bar_mass),  # type: ignore[misc]
        )
        print(f"cycle kernel over bare closed form, {count} designs x 72: {found:.2f}")


def per_pose_ratio() -> None:
    """Our kernel per pose against the fastest path of pylinkage, 72 positions of one design."""
    from pylinkage import Crank, Ground, Linkage, RRRDyad

    turns = 50
    designs = Designs.draw(2000)
    turner, drive = our_rack(designs)
    centre = Ground(float(designs.across[0]), float(designs.height[0]))
    pivot = Ground(0.0, 0.0)
    crank = Crank(centre, float(designs.crank[0]), angular_velocity=2 * np.pi / 72)
    arm = RRRDyad(crank, pivot, float(designs.link[0]), float(designs.arm[0]))
    linkage = Linkage([centre, pivot, crank, arm])
    linkage.step_fast(iterations=72)
    poses = 72 * turns
    theirs: Callable[[], object] = lambda: linkage.step_fast(iterations=poses)  # noqa: E731
    found = ratio(theirs, lambda: our_kernel(turner, drive, designs))
    per_pose = found / poses * (2000 * 72)
    print(f"pylinkage step_fast (positions only) over our kernel, per pose: {per_pose:.1f}")


def start_ratio(what: list[str], reference: str, label: str) -> None:
    def run(arguments: list[str]) -> None:
        subprocess.run([sys.executable, *arguments], cwd=ROOT, check=False, capture_output=True)

    found = ratio(lambda: run(what), lambda: run(["-c", reference]), rounds=9)
    print(f"{label}: {found:.2f}")


def processor_ratio(what: list[str], reference: list[str], label: str, rounds: int = 9) -> None:
    """Print processor time over processor time, the middle of as many rounds, turn about.

    Processor time, unlike the time on the clock, does not wait for others on a busy machine.
    """
    took = np.array([[processor_time(what), processor_time(reference)] for _ in range(rounds)])
    middle, yardstick = np.median(took, axis=0)
    print(f"{label}: {middle / yardstick:.2f} ({middle:.2f} s over {yardstick:.2f} s)")


def processor_time(arguments: list[str]) -> float:
    """Return the processor time of one run of Python, user and system [s]."""
    before = os.times()
    subprocess.run([sys.executable, *arguments], cwd=ROOT, check=False, capture_output=True)
    after = os.times()
    return (after.children_user - before.children_user) + (
        after.children_system - before.children_system
    )


def main() -> None:
    kernel_ratios()
    per_pose_ratio()
    report()
    start_ratio(
        ["-m", "turnercalc", "--help"], "import click", "turnercalc --help over import click"
    )
    for command in ("size", "match", "capacity"):
        for example in ("larder-rack", "seed-tray-grid"):
            what = ["-m", "turnercalc", command, f"examples/{example}.toml"]
            processor_ratio(
                [*what, "-m", "examples/motors.csv"],
                ["-c", "import numpy"],
                f"answer over import numpy, {command} {example}",
                rounds=9 if command == "size" else 3,
            )


if __name__ == "__main__":
    main()
