"""Lesson 6, what the tyre makes of it: questions with a number."""

from rollmodel.car import GRAVITY, Tyre
from rollmodel.physics.tyre import falling_grip_peak, peak_side_force
from rollmodel.questions.records import Numeric, Step, Tolerance
from rollmodel.questions.roads import by, with_changed
from rollmodel.questions.shown import Given

GRIP, DROP, LOAD = Given("ratio", 0.01, 0.01), Given("grip drop"), Given("load", 50, 10)
FALLING = {"peak_grip": GRIP, "grip_drop": DROP}
SMALL_DIFFERENCE = Tolerance("a loss is a small difference of large forces: four figures in them leave two "
                             "or three in it", 0.02)
GRIP_TEXT = "A tyre's grip is {peak_grip} at no load and falls by {grip_drop} of load. "


def falling(stream) -> dict:
    """A falling-grip tyre, an axle's load on each wheel at rest, and what is transferred."""
    return {"peak_grip": stream.between(1.10, 1.50, 0.05), "grip_drop": stream.between(30e-6, 70e-6, 5e-6),
            "load": stream.between(2500, 4500, 100), "transfer": stream.between(800, 2000, 100)}


def uneven(stream) -> dict:
    """The same with a transfer that costs the pair enough to be seen in its sum."""
    return {**falling(stream), "grip_drop": stream.between(55e-6, 80e-6, 5e-6),
            "load": stream.between(2800, 3800, 100), "transfer": stream.between(1700, 2400, 100)}


def peak(n, load) -> float:
    return float(falling_grip_peak(load, n.peak_grip, n.grip_drop))


def pair(n, transfer=None) -> float:
    """Both tyres' best side forces together."""
    transfer = n.transfer if transfer is None else transfer
    return peak(n, n.load + transfer) + peak(n, n.load - transfer)


def loss(n, transfer=None) -> float:
    """What uneven load costs the pair."""
    return pair(n, 0.0) - pair(n, transfer)


def _pair_workings(n) -> dict:
    outside, inside = n.load + n.transfer, n.load - n.transfer
    return {"outside": (outside, "load"), "inside": (inside, "load"), "even": (pair(n, 0.0), "load"),
            "uneven": (pair(n), "load"), "force_outside": (peak(n, outside), "load"),
            "force_inside": (peak(n, inside), "load"), "grip_outside": (peak(n, outside) / outside, "ratio"),
            "grip_inside": (peak(n, inside) / inside, "ratio"), "half_loss": (loss(n) / 2, "load")}


one_tyre = Numeric(
    id="one-tyre", lesson=6, aim="Work out a tyre's best side force at a load.",
    level=1, minutes=3, pools=("exercise", "recall", "assessment"),
    text=GRIP_TEXT + "What is the largest side force at {load}?",
    hint="What is the grip at this load, not at no load?",
    process="Grip at this load = grip at no load - drop x load. Side force = grip x load.",
    worked=("Grip at {load}: {grip}.", "Side force: {grip} x {load} = {answer}."),
    given={**FALLING, "load": LOAD}, draw=falling, kind="load", key=lambda n: peak(n, n.load),
    workings=lambda n: {"grip": (peak(n, n.load) / n.load, "ratio")},
    roads=(by("grip falls left out", lambda n: n.peak_grip * n.load),
           with_changed("more load more grip", grip_drop=lambda drop: -drop),
           by("loss alone", lambda n: n.grip_drop * n.load**2)))

pair_force = Numeric(
    id="pair-force", lesson=6, aim="Add the best side forces of a pair of unevenly loaded tyres.",
    level=2, minutes=5, pools=("exercise", "assessment"),
    text=GRIP_TEXT + "At rest each of the two front tyres carries {load}. In the corner {transfer} goes from "
                     "the inside tyre to the outside tyre. What is the largest side force of the two "
                     "together?",
    hint="Work out each tyre at its own load.",
    process="Outside load = load + transfer, inside load = load - transfer. Grip and side force at each. Add "
            "the two.",
    worked=("Outside: {outside} at a grip of {grip_outside} gives {force_outside}.",
            "Inside: {inside} at a grip of {grip_inside} gives {force_inside}.", "Together: {answer}.",
            "Evenly loaded they would give {even}."),
    given={**FALLING, "load": LOAD, "transfer": LOAD}, draw=uneven, kind="load", key=pair,
    workings=_pair_workings,
    steps=(Step(name="outside", kind="load", text="What can the outside tyre give?",
                key=lambda n: peak(n, n.load + n.transfer),
                hint="Its load has gone up, so its grip has gone down.",
                process="Load + transfer. Grip at that load. Multiply.",
                worked="Outside: {outside} at a grip of {grip_outside} gives {answer}.",
                roads=(by("grip falls left out", lambda n: n.peak_grip * (n.load + n.transfer)),
                       by("inside for outside", lambda n: peak(n, n.load - n.transfer)))),),
    roads=(by("grip falls left out", lambda n: 2 * n.peak_grip * n.load),
           by("inside tyre nothing", lambda n: peak(n, n.load + n.transfer)),
           by("outside gains what inside loses", lambda n: pair(n, 0.0)),
           by("one tyre twice", lambda n: 2 * peak(n, n.load + n.transfer))))

pair_loss = Numeric(
    id="pair-loss", lesson=6, aim="Work out what uneven load costs a pair of tyres.",
    level=2, minutes=4, pools=("exercise", "recall", "assessment"), tolerance=SMALL_DIFFERENCE,
    text="A tyre's grip falls by {grip_drop} of load. Each tyre of an axle carries {load} at rest. "
         "{transfer} goes from the inside tyre to the outside tyre. How much side force does the pair lose "
         "against a pair that is loaded evenly?",
    hint="Work out both tyres, evenly and unevenly loaded, with letters. What is left over?",
    process="The loss is 2 x drop x transfer squared.",
    worked=("Each tyre is off its even load by {transfer}.",
            "Loss: 2 x {grip_drop} x {transfer} squared = {answer}. The load at rest has dropped out."),
    given={"grip_drop": DROP, "load": LOAD, "transfer": LOAD}, draw=falling, kind="load", key=loss,
    roads=(by("one tyre's loss", lambda n: loss(n) / 2),
           by("difference for transfer", lambda n: loss(n, 2 * n.transfer)),
           by("transfer not squared", lambda n: 2 * n.grip_drop * n.transfer * n.load)))

more_transfer = Numeric(
    id="more-transfer", lesson=6, aim="Say how the loss grows with the transfer.",
    level=1, minutes=2, pools=("exercise", "recall"), tolerance=SMALL_DIFFERENCE,
    text="With a transfer of {transfer} a pair of tyres loses {first_loss} of side force against even load. "
         "A stiffer bar raises the transfer to {more}. How much does the pair lose now?",
    hint="Does the loss go with the transfer, or faster?",
    process="The loss goes with the transfer squared: new over old, squared, times the old loss.",
    worked=("New transfer over old: {ratio}. Squared: {factor}.", "{first_loss} x {factor} = {answer}."),
    given={"transfer": LOAD, "more": LOAD},
    draw=lambda stream: {**falling(stream), "transfer": stream.between(800, 1200, 50),
                         "more": stream.between(1400, 2200, 50)},
    kind="load", key=lambda n: loss(n, n.more),
    workings=lambda n: {"first_loss": (loss(n), "load"), "ratio": (n.more / n.transfer, "ratio"),
                        "factor": ((n.more / n.transfer) ** 2, "ratio")},
    roads=(by("transfer not squared", lambda n: loss(n) * n.more / n.transfer),
           by("loss unchanged", lambda n: loss(n)),
           by("change alone", lambda n: loss(n, n.more - n.transfer))))


def _magic(n, load) -> float:
    return float(peak_side_force(Tyre(grip_scale=n.grip_scale), load))


def _chord(n) -> float:
    """Pair's force, the two read off the curve."""
    return _magic(n, n.load + n.transfer) + _magic(n, n.load - n.transfer)


chord = Numeric(
    id="chord", lesson=6, aim="Read a pair's loss off the chord of the grip-load curve.",
    level=2, minutes=4, pools=("exercise", "assessment"),
    tolerance=Tolerance("a hundred or so left over from forces of thousands, read to four figures", 0.05),
    text="A curve of best side force against load shows {force_inside} at {inside}, {force_middle} at {load} "
         "and {force_outside} at {outside}. The two tyres of an axle carry {inside} and {outside}. How much "
         "less side force do they give together than a pair with {load} on each?",
    hint="Draw the straight line between the two tyres' points. Where on it is the pair's average?",
    process="The average of the two lies on the chord, halfway. The gap up to the curve is what each tyre "
            "loses on average. There are two tyres.",
    worked=("Halfway along the chord: half of {force_inside} and {force_outside} together, {chord_middle}.",
            "The curve at {load}: {force_middle}. The gap: {gap}.", "Two tyres: {answer}."),
    given={"load": LOAD},
    draw=lambda stream: {"load": stream.between(2500, 4500, 100), "transfer": stream.between(1200, 2200, 100),
                         "grip_scale": stream.between(0.95, 1.20, 0.05)},
    kind="load", key=lambda n: 2 * _magic(n, n.load) - _chord(n),
    workings=lambda n: {
        "outside": (n.load + n.transfer, "load"), "inside": (n.load - n.transfer, "load"),
        "force_outside": (_magic(n, n.load + n.transfer), "load"),
        "force_middle": (_magic(n, n.load), "load"),
        "force_inside": (_magic(n, n.load - n.transfer), "load"), "chord_middle": (_chord(n) / 2, "load"),
        "gap": (_magic(n, n.load) - _chord(n) / 2, "load")},
    roads=(by("one tyre's loss", lambda n: _magic(n, n.load) - _chord(n) / 2),
           by("outside only", lambda n: _magic(n, n.load + n.transfer) - _magic(n, n.load)),
           by("chord read at outside",
              lambda n: _magic(n, n.load + n.transfer) - _magic(n, n.load - n.transfer))))

axle_grip = Numeric(
    id="axle-grip", lesson=6, aim="Turn a pair's side force into what the axle can hold.",
    level=2, minutes=5, pools=("exercise",),
    text=GRIP_TEXT + "At rest each front tyre carries {load}; {transfer} is transferred in the corner. With "
                     "both at their best, which lateral acceleration can the front axle hold?",
    hint="Side force of both tyres, over what the axle has to push round the corner.",
    process="Find the pair's side force. Divide by the axle's weight: that is the lateral acceleration in g.",
    worked=("Outside {force_outside}, inside {force_inside}: together {uneven}.",
            "The axle weighs 2 x {load}. Side force over weight: {answer}."),
    given={**FALLING, "load": LOAD, "transfer": LOAD}, draw=uneven, kind="lateral acceleration",
    key=lambda n: pair(n) / (2 * n.load) * GRAVITY, workings=_pair_workings,
    roads=(by("grip falls left out", lambda n: n.peak_grip * GRAVITY),
           by("outside gains what inside loses", lambda n: pair(n, 0.0) / (2 * n.load) * GRAVITY),
           by("per wheel for per axle", lambda n: pair(n) / n.load * GRAVITY),
           by("outside tyre's grip",
              lambda n: peak(n, n.load + n.transfer) / (n.load + n.transfer) * GRAVITY)))

QUESTIONS = (one_tyre, pair_force, pair_loss, more_transfer, chord, axle_grip)
