"""The words of this trade as we use them: one word per thing, in every file and on every page."""

from __future__ import annotations

from turnercalc.handover.glossary_builds import BUILD_WORDS
from turnercalc.handover.word import Word

WORDS = (
    Word(
        "tilt",
        "How far a tray stands from level, counted to each side. A rack that goes from 45° left "
        "side down to 45° right side down tilts 45° each side, 90° in all; both figures are "
        "always shown, because mixing them up halves or doubles everything.",
        ("angle", "each side", "in all", "swing"),
        ("turn",),
    ),
    Word(
        "turn",
        "One move to the other side. A tray that goes over and comes back has made two turns. "
        "For rolling bars or a sliding grid it is one run, for a drum one move.",
        ("turning", "turns per day", "move"),
        ("tilt", "turn cycle"),
    ),
    Word(
        "turn cycle",
        "Over and back: with a crank that goes round and round, one revolution of the crank and "
        "two turns of the eggs.",
        ("cycle", "revolution"),
        ("turn",),
    ),
    Word(
        "crank",
        "The lever or disc on the gearmotor's shaft. Its radius is measured from the middle of "
        "the shaft to the middle of the hole for the link.",
        ("disc", "crank disc", "crank radius"),
        ("link", "arm"),
    ),
    Word(
        "link",
        "The rod from the crank to the arm. Its length counts from hole middle to hole middle.",
        ("rod", "push rod", "connecting rod", "conrod"),
        ("crank", "arm", "link to arm"),
    ),
    Word(
        "arm",
        "The lever fixed to the tray, from the pivot to the hole for the link. `points` says "
        "where it points with the tray level.",
        ("lever", "horn", "tray arm"),
        ("link", "tie bar"),
    ),
    Word(
        "tie bar",
        "The bar that joins the arms of all trays, so that the link moves only the lowest one.",
        ("link bar", "connecting bar"),
        ("arm",),
    ),
    Word(
        "pivot",
        "What a tray turns on. Heights and sideways measures of a rack count from the lowest one.",
        ("axle", "pivots", "tilt axis"),
        ("egg floor",),
    ),
    Word(
        "egg floor",
        "What the eggs stand on, measured up or down from the pivot. It decides how high the "
        "weight sits, and a few millimetres change the torque a good deal: measure it.",
        ("tray floor",),
        ("pivot",),
    ),
    Word(
        "drawn from",
        "The side you look from. Left, right, clockwise and anticlockwise in a design are as "
        "seen from there, along the tilt axis.",
        ("drawn_from", "seen from", "left", "right"),
    ),
    Word(
        "load torque",
        "The torque at the tray, bar set or drum itself: weights, loose eggs, friction.",
        ("torque at the tray",),
        ("shaft torque", "motor torque"),
    ),
    Word(
        "shaft torque",
        "The torque at the crank or driving shaft. Positive: the motor has to push. Negative: the "
        "trays push the motor along.",
        ("crank torque", "torque"),
        ("load torque", "motor torque"),
    ),
    Word(
        "motor torque",
        "The torque at the gearmotor's own output shaft: the shaft torque after the stages "
        "between them, a chain for example. Without stages the two are the same. The gears inside "
        "a gearmotor are in its listed torque already.",
        (),
        ("shaft torque", "stage"),
    ),
    Word(
        "rated torque",
        "What a motor may give all day at its rated speed without getting too hot.",
        ("nominal torque", "continuous torque"),
        ("starting torque", "stall torque", "holding torque", "dependable torque"),
    ),
    Word(
        "starting torque",
        "What a motor gives from rest at the moment it is switched on.",
        ("breakaway torque",),
        ("rated torque", "stall torque"),
    ),
    Word(
        "stall torque",
        "What a motor gives just when it can no longer turn. It bears that for seconds only, so "
        "only a part of it counts.",
        ("max torque", "maximum torque", "locked rotor torque"),
        ("rated torque", "dependable torque"),
    ),
    Word(
        "holding torque",
        "What a motor resists without turning: a stepper with its current on, or a worm gear "
        "that cannot be pushed back. It says little about what the motor can move.",
        ("self-locking torque",),
        ("rated torque",),
    ),
    Word(
        "dependable torque",
        "What of a listed figure may be counted on: the rated torque, or where only stall or "
        "holding torque is listed, the share of it that counts for that class of motor.",
        (),
        ("times enough", "rated torque", "stall torque"),
    ),
    Word(
        "times enough",
        "Dependable torque of the motor divided by the hardest motor torque of any planned load. "
        "It is compared with the safety factor you want.",
        ("margin",),
        ("dependable torque", "safety factor"),
    ),
    Word(
        "safety factor",
        "How many times enough you want the motor to be. It is charged once, on the motor; "
        "nothing else in the calculation is padded.",
        ("factor of safety", "safety-factor"),
        ("times enough",),
    ),
    Word(
        "bad corner",
        "Everything unkind at once: hardest planned load, high friction, from rest, low supply. "
        "A motor has to start even then, without any safety factor.",
        ("corner", "motor corner"),
        ("times enough",),
    ),
    Word(
        "rest point",
        "Crank and link in one line: the tray is at an end and stands still for a moment. "
        "Harmless, and useful: weight on the tray cannot push the crank round there, so it holds "
        "with the motor off.",
        ("dead centre", "dead center", "dead point", "park position"),
        ("jam point",),
    ),
    Word(
        "jam point",
        "Link and arm in one line: the link only pulls at the pivot and the crank cannot pass. A "
        "good linkage stays well away from it.",
        ("toggle", "lock-up", "dead centre of the arm"),
        ("rest point", "link to arm"),
    ),
    Word(
        "link to arm",
        "The angle between link and arm, at its smallest anywhere in the turn. Square is best; "
        "at a small angle the link strains the pivot instead of turning the tray.",
        ("transmission angle", "link to arm angle", "link to upright", "rod to upright"),
        ("jam point",),
    ),
    Word(
        "load case",
        "Which eggs are in: full, empty, worst side on one tray, worst side on all, or as you "
        "give them. The worst side is searched, not guessed: of all ways to fill the rows, the "
        "one that is hardest at that point of the turn.",
        ("load", "loads", "load cases", "worst side"),
        ("mirror pairs", "planned"),
    ),
    Word(
        "planned",
        "A load the motor has to be ready for. If you promise to fill rows only in mirror pairs, "
        "one-sided loads are still computed and shown, but they do not decide.",
        ("not planned", "unplanned"),
        ("load case", "mirror pairs"),
    ),
    Word(
        "mirror pairs",
        "Filling and emptying a row on the left together with its mirror image on the right, so "
        "that the tray never gets one-sided.",
        ("in mirror pairs",),
        ("load case",),
    ),
    Word(
        "friction",
        "What pivots and pins resist. Nobody knows it well in a damp box, so every torque is "
        "shown at low, middle and high friction. Strength is judged at middle, starting at high, "
        "holding at low.",
        ("low friction", "middle friction", "high friction", "coefficient of friction"),
        ("bad corner",),
    ),
    Word(
        "better direction",
        "The way round for the crank that has the smaller worst peak over all planned loads. A "
        "motor that may start either way has to manage the worse one.",
        ("direction", "clockwise", "anticlockwise", "counterclockwise"),
        ("drawn from",),
    ),
    Word(
        "stage",
        "Anything between the gearmotor's shaft and the crank: chain, belt, gears, a friction "
        "roller. It multiplies torque, divides speed, and loses some of both.",
        ("gearing", "external stage", "chain", "belt"),
        ("gear ratio", "motor torque"),
    ),
    Word(
        "turning shaft",
        "The motor on the turner's own shaft, straight or through stages, without crank or link. "
        "It has no rest point: at the ends friction or the motor has to hold.",
        ("direct", "straight on the shaft", "direct drive"),
        ("stage", "rest point"),
    ),
    Word(
        "slot",
        "The straight opening that the crank pin runs in, instead of a link. One way back is "
        "quicker and harder than the other; a crank that reaches round the pivot would take the "
        "lever right round.",
        ("slotted link", "follower", "yoke"),
        ("time ratio", "rest point"),
    ),
    Word(
        "stroke",
        "How far a rod comes out of its actuator, or how far a grid slides from end to end.",
        ("travel", "extension"),
        ("end switch", "push and pull"),
    ),
    Word(
        "timer",
        "What starts a turn. A repeat-cycle timer has an on-time and an off-time of its own; a "
        "seconds timer keeps switching times of the day; a slot timer switches for a quarter of "
        "an hour at the least, too long to start one turn of a crank that goes round.",
        ("repeat-cycle timer", "seconds timer", "slot timer", "timer settings"),
        ("park switch", "end switch", "run-down"),
    ),
    Word(
        "run-down",
        "What a motor still turns after it is switched off. At a rest point it hardly moves an "
        "end; between end switches it adds to the turn.",
        ("runs on", "coasting", "overrun"),
        ("rest point", "end switch"),
    ),
    Word(
        "duty",
        "How long and how often a motor may run, by IEC 60034-1: S1 all day, S2 a few minutes and "
        "then cold again, S3 a share of every ten minutes. A short turn each hour is S2: the long "
        "pause does not make it S3.",
        ("duty type", "S1", "S2", "S3"),
        ("stall torque",),
    ),
    Word(
        "fuse",
        "A wire that melts before others do. It carries the turns and blows in a stall, if one "
        "fits between the two currents; it saves the wiring, and the motor only with a time-out "
        "beside it. Local codes come first.",
        ("stall time-out", "supply current", "fuses"),
        ("stall torque",),
    ),
    Word(
        "warm days",
        "In a warm room the heat of fan, motor and eggs has to leave through the walls. From "
        "their area and insulation follows the warmest room in which the box is still held with "
        "the heater off; fresh air helps and is not counted.",
        ("warm room", "insulation", "wall area", "fan power"),
        ("duty",),
    ),
    Word(
        "end switch",
        "A switch that stops the motor at one end and lets it run only the other way from there. "
        "An actuator needs two, its own or yours.",
        ("end switches", "limit switch", "limit switches"),
        ("park switch", "stroke"),
    ),
    Word(
        "push and pull",
        "The largest forces of a rod, going out and going in. Friction is added to the way it "
        "goes, so the two directions differ; the pins in its eyes have to hold both.",
        ("push", "pull"),
        ("stroke",),
    ),
    Word(
        "lead angle",
        "How steep the thread of a worm or screw winds. Below about five degrees most worms hold "
        "their load with the motor off; nobody should rely on it where things shake.",
        ("lead",),
        ("stage",),
    ),
    Word(
        "catch",
        "A part held fast by something in its way while the motor runs on. Near a rest point the "
        "crank has next to no lever, so the force grows until the weakest part gives.",
        ("if it catches", "stall", "blocked"),
        ("rest point", "jam point"),
    ),
    Word(
        "grid",
        "A frame of bars that slides over a floor and rolls the eggs that lie between its bars. "
        "Each gap is a cell. The stroke has to be half the way round an egg and the play of its "
        "cell: 68 mm and the play for half a turn of an egg 43.5 mm broad.",
        ("sliding grid", "cell", "cells", "sliding frame"),
        ("stroke", "play", "eggs roll", "bar height"),
    ),
    Word(
        "eggs roll",
        "An egg rolls before its bar only while the floor grips it. The back of the egg climbs "
        "along the bar and is rubbed down by it: the rougher the bar and the smoother the floor, "
        "the sooner the egg is dragged along without turning, or jams between bar and floor.",
        ("drag", "drags", "dragging", "eggs jam"),
        ("grid", "friction"),
    ),
    Word(
        "bar height",
        "Bars have to touch the eggs at half their height. Lower, they lift the egg and it climbs "
        "over them; higher, they press it down on the floor. A flat slat does for every size "
        "whose middle it covers, a round rod for one.",
        ("half egg", "half-egg bars"),
        ("grid",),
    ),
    Word(
        "grid stays down",
        "As eggs roll, they climb along the bars and lift the grid by as much as they are pressed "
        "on the floor. A light grid rides up unless its guides hold it from above.",
        ("lift", "hold down", "held down"),
        ("grid",),
    ),
    Word(
        "mesh floor",
        "Wires that lie along the bars have to be climbed one after the other. All eggs do it at "
        "once, which takes far more push than a board, and then drop behind the wire. Wires on "
        "top that run along the slide are as smooth as rails.",
        ("mesh", "wires", "wire mesh"),
        ("grid", "knock"),
    ),
    Word(
        "gear ratio",
        "Turns of the gearmotor's shaft for one turn of the crank. A chain from 12 to 24 teeth "
        "has 2.",
        ("ratio", "reduction"),
        ("stage",),
    ),
    Word(
        "time ratio",
        "How much longer the crank takes one way than back when it runs evenly. 1 means both "
        "turns take the same time.",
        ("quick return",),
        ("turn cycle",),
    ),
    Word(
        "knock",
        "A small blow where a force changes sign and the play in the pins is taken up the other "
        "way, usually just past level with top-heavy trays.",
        ("rattle", "slack"),
        ("play",),
    ),
    Word(
        "play",
        "How loose a pin sits in its hole. It lets the tray move a little by itself and takes "
        "that from the tilt.",
        ("slop", "backlash", "clearance of the pins"),
        ("knock",),
    ),
    Word(
        "park switch",
        "A switch that the crank itself opens at each end. The motor runs until the tray is "
        "over, whatever time that takes.",
        ("parking switch", "cam switch"),
        ("rest point",),
    ),
    Word(
        "verdict",
        "Fine: it works with everything you asked for. Marginal: it works, but something is "
        "below what was wanted, or something that matters is unknown. No: it does not work as it "
        "stands. What is unknown never makes a verdict better.",
        ("fine", "marginal", "no", "unknown"),
        ("times enough",),
    ),
    Word(
        "taken for granted",
        "What you did not say and was filled in with a usual value, each with where it comes "
        "from. One --set changes it.",
        ("default", "defaults", "assumed"),
        ("verdict",),
    ),
    Word(
        "lane",
        "The room between two rolling bars, with a row of eggs one behind the other. There is one "
        "lane fewer than there are bars; they count from the left.",
        ("lanes",),
        ("nest", "driven bar"),
    ),
    Word(
        "nest",
        "How an egg lies between two bars. The nest angle is counted at its middle, from straight "
        "down to a bar: the deeper it sits, the larger it is, and the harder the egg presses both "
        "bars apart.",
        ("nests",),
        ("lane",),
    ),
    Word(
        "driven bar",
        "The bar that the motor turns. Where bars turn each other by belts, every belt on the way "
        "to the last one takes its share, so the middle bar is kindest.",
        ("driving bar",),
        ("lane", "heavy side"),
    ),
    Word(
        "heavy side",
        "An egg is a little lopsided: its middle of mass lies beside the axis it turns on. Eggs "
        "laid down settle with the heavy side down, all in line, and lift it together when they "
        "are turned; shuffled ones are scattered and all but cancel.",
        ("heavy sides", "lopsided egg", "in line", "scattered"),
        ("driven bar",),
    ),
    Word(
        "cross stop",
        "A little wall across the lanes between one egg and the next. Eggs are thicker at one end "
        "and creep along turning bars, so each needs its own place.",
        ("cross stops", "stop spacing"),
        ("lane",),
    ),
    Word(
        "runner",
        "The arc of board that a rocking cradle stands on. The nearer the arc's middle is to the "
        "height of the eggs, the lighter the cradle turns; above it, it would fall over. It has to "
        "be wide enough from end to end that the cradle still stands on it at its steepest.",
        ("runners", "rocker", "rockers", "arc runner"),
        ("contact", "grip", "crossed straps"),
    ),
    Word(
        "contact",
        "Where the level runners touch the floor, or on fixed rollers the lowest point of the "
        "level arc. All places of a cradle and of what drives it are measured from there. Rolling, "
        "the contact walks to the side that goes down.",
        ("level contact", "contact point"),
        ("runner",),
    ),
    Word(
        "grip",
        "The friction that keeps runners rolling instead of sliding. A drive that pushes flat "
        "along the floor asks for much of it, one that pulls straight up and down for none.",
        ("slip", "slipping", "sliding runners"),
        ("runner", "crossed straps", "walking"),
    ),
    Word(
        "walking",
        "Pushed more to one side than to the other, a cradle creeps along its floor a little in "
        "every turn. Mark where the runners stand when level, and look once a week.",
        ("creep", "creeping", "runner creep"),
        ("crossed straps", "grip"),
    ),
    Word(
        "crossed straps",
        "Two straps under each runner. Each is fixed to one end of the arc, lies along it down to "
        "the contact, and goes on along the floor to a screw under the other end. They roll up and "
        "off as the cradle rocks, and let it neither slide nor walk.",
        ("straps", "strap", "crossed bands"),
        ("grip", "walking"),
    ),
    Word(
        "fixed rollers",
        "Two rollers that stay where they are, with the arc of a cradle lying on them. It turns "
        "about the arc's middle as a tray about a pivot, where nothing stands. It does not walk, "
        "and needs an arc that still lies on both rollers at its steepest.",
        ("arc on rollers", "virtual pivot"),
        ("runner",),
    ),
    *BUILD_WORDS,
)
