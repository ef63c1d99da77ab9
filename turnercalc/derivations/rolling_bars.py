"""Egg between two bars: nest angle, force on each bar, loss by rolling."""

from __future__ import annotations

from sympy import asin, cos, diff, exp, pi, sin, solve, symbols, together

from turnercalc.derivations.worked import Derivation

R, r, s, W, A, N, f = symbols("R r s W A N f")

_EGG_ON_BARS = {
    "R": ("radius of the egg where it touches", "m"),
    "r": ("radius of the bars", "m"),
}


def nest_angle() -> Derivation:
    """Derive the nest angle from the triangle of the three centres."""
    return Derivation(
        id="nest_angle",
        title="Nest angle of an egg between two bars",
        symbols={**_EGG_ON_BARS, "s": ("bar spacing, middle to middle", "m")},
        statement=(
            "The middles of egg and bar are R + r apart, and half the spacing is the side across:",
            "  sin A = (s/2)/(R + r). Beyond 1 the egg drops through.",
        ),
        result=asin(s / 2 / (R + r)),
        source="geometry",
        letter="A",
        unit="rad",
    )


def nest_force() -> Derivation:
    """Derive the force on a bar from the balance of the egg."""
    left, right = symbols("left right")
    balance = solve([(left - right) * sin(A), (left + right) * cos(A) - W], [left, right])
    return Derivation(
        id="nest_force",
        title="Force of an egg on each of its two bars",
        symbols={"W": ("weight of the egg", "N"), "A": ("nest angle", "rad")},
        statement=(
            "Both bars push along the line to the egg's middle, A from upright:",
            "  sideways  (N1 - N2) sin A = 0,   upwards  (N1 + N2) cos A = W.",
        ),
        result=balance[left],
        source="statics",
        letter="N",
        unit="N",
    )


def rolling_loss() -> Derivation:
    """Derive the torque at the bar that one rolling contact costs."""
    bar_turn, T = symbols("bar_turn T")
    egg_turn = bar_turn * r / R
    (torque,) = solve(T * bar_turn - N * f * (bar_turn + egg_turn), T)
    return Derivation(
        id="rolling_loss",
        title="Torque a bar loses at one contact with a rolling egg",
        symbols={
            "N": ("force at the contact", "N"),
            "f": ("arm of rolling friction", "m"),
            **_EGG_ON_BARS,
        },
        statement=(
            "Turning the bar by w turns the egg by w r/R the other way. The contact eats N f for",
            "each radian the two turn against each other, and the bar pays for it:",
            "  T w = N f (w + w r/R)",
        ),
        result=torque.factor(),
        source="rolling friction with an arm, e.g. McLean, Engineering Mechanics, chapter 9",
        letter="T",
        unit="N·m",
    )


def egg_turn() -> Derivation:
    """Derive how far an egg turns from surfaces that run together."""
    bar_turn, turned = symbols("p turned")
    (result,) = solve(turned * R - bar_turn * r, turned)
    return Derivation(
        id="egg_turn",
        title="Turn of an egg on bars that turn",
        symbols={"p": ("turn of the bars", "rad"), **_EGG_ON_BARS},
        statement=(
            "Without slip as much of the egg's girth passes the contact as of the bar's:",
            "  t R = p r. It turns against the bars; after whole turns it lies as it lay.",
        ),
        result=result,
        source="geometry",
        letter="t",
        unit="rad",
    )


def lopsided_egg() -> Derivation:
    """Derive the torque at the bars that lifts a heavy side, as the slope of its potential."""
    e, a, p = symbols("e a p")
    potential = -W * e * cos(a + p * r / R)
    torque = diff(potential, p).subs(p, 0)
    return Derivation(
        id="lopsided_egg",
        title="Torque at the bars that lifts the heavy side of an egg",
        symbols={
            "W": ("weight of the egg", "N"),
            "e": ("centre of mass from the axis it turns on", "m"),
            "a": ("heavy side from straight down, growing as it is lifted", "rad"),
            **_EGG_ON_BARS,
        },
        statement=(
            "A turn p of the bars turns the heavy side by p r/R. Its height makes the potential",
            "  V = -W e cos(a + p r/R),  and the torque is its slope dV/dp at p = 0.",
        ),
        result=torque,
        source="virtual work",
        letter="T",
        unit="N·m",
    )


def row_of_bars() -> Derivation:
    """Derive what equal bars ask of the first one, each turned by the one before it."""
    T, M, eta, n = symbols("T M eta n", positive=True)
    # M/eta is the same row one belt on: the two differ by their ends.
    (result,) = solve(M / eta - M - (T / eta ** (n + 1) - T), M)
    return Derivation(
        id="row_of_bars",
        title="Torque at a bar with equal bars behind it, each turned by the last",
        symbols={
            "T": ("torque of one bar", "N·m"),
            "eta": ("share of the work that a belt lets through, less than 1", ""),
            "n": ("bars behind it, on one side", ""),
        },
        statement=(
            "What a bar j belts away asks passes through j belts, each of which lets eta through:",
            "  M = T + T/eta + T/eta^2 + ... + T/eta^n",
            "The same row one belt on is M/eta, and the two differ by their ends:",
            "  M/eta - M = T/eta^(n + 1) - T",
        ),
        result=result,
        source="load-proportional loss, from memory",
        letter="M",
        unit="N·m",
    )


def belt_grip() -> Derivation:
    """Derive the torque at which a belt between two equal bars begins to slip."""
    P, mu, b, tight, slack = symbols("P mu b tight slack")
    pulls = solve([tight + slack - 2 * P, tight - slack * exp(pi * mu)], [tight, slack])
    return Derivation(
        id="belt_grip",
        title="Torque at which a belt slips that goes half round a bar",
        symbols={
            "P": ("pull of one strand at rest", "N"),
            "mu": ("friction of the belt on what it runs on", ""),
            "b": ("radius of that", "m"),
        },
        statement=(
            "An elastic belt keeps the sum of its pulls, and slips when they are e^(mu pi) apart:",
            "  T1 + T2 = 2 P,   T1 = T2 e^(mu pi),   M = (T1 - T2) b",
        ),
        result=together((pulls[tight] - pulls[slack]) * b).factor(),
        source="belt friction (Euler, Eytelwein), e.g. McLean, Engineering Mechanics, chapter 8",
        letter="M",
        unit="N·m",
    )
