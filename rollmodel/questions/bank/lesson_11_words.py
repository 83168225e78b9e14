"""Lesson 11, did it work: choices with reasons."""

from rollmodel.questions.bank import test_day
from rollmodel.questions.bank.test_day import DEG_PER_G
from rollmodel.questions.records import Choice, Option, wrong
from rollmodel.questions.shown import Given

COUNT, TIME, GRADIENT = Given("ratio", 1, 1), Given("time", 0.1, 0.1), Given("roll gradient", 0.01, 0.01)
INSIDE = 0.85  # part of the half interval that a change stays below, so that it is plainly inside
CLEAR = 1.25  # and that a change reaches to be plainly outside


def of_one_each(n) -> float:
    """Half the interval of one reading before and one after, the scatter known from earlier ones."""
    return test_day.half_interval(n.scatter, 1, round(n.earlier) - 1)


def _fell(n) -> float:
    """The change that two single readings show."""
    return n.after - n.before


def _one_each(id, twin, pools, text, hint, worked, given, draw, kind, options) -> Choice:
    """One reading before, one after: a fall that is plainly inside what comes up with nothing changed."""
    return Choice(
        id=id,
        twin=twin,
        lesson=11,
        aim="Say what one reading before and one after can prove.",
        level=2,
        minutes=4,
        pools=pools,
        text=text,
        hint=hint,
        process="Half the interval of a difference of two single readings: t x scatter x the root of 2. "
        "Is the difference larger than that?",
        worked=("With nothing changed, two such readings differ by up to {half}, 19 times in 20.", *worked),
        given=given,
        draw=draw,
        sound=lambda n: _fell(n) < 0 and abs(_fell(n)) < INSIDE * of_one_each(n),
        workings=lambda n: {"half": (of_one_each(n), kind), "fell": (-_fell(n), kind)},
        key=lambda n: test_day.verdict(_fell(n), of_one_each(n), _fell(n)),
        options=options,
    )


NOTHING = "Nothing changed: the difference is no larger than the scatter."


def _laps(stream) -> dict:
    lap = stream.between(62.0, 95.0, 0.1)
    return {
        "earlier": stream.between(8, 12, 1),
        "scatter": stream.between(0.3, 0.6, 0.1),
        "before": lap,
        "after": round(lap - stream.between(0.2, 0.9, 0.1), 1),
    }


quicker_lap = _one_each(
    "class-quicker-lap",
    "class-one-run-each",
    ("class", "recall", "assessment"),
    "In {earlier} earlier laps with nothing changed a driver's times scattered by {scatter} (standard "
    "deviation). Then one bar is changed. The lap before took {before}, the lap after {after}. Did the "
    "change work?",
    "How far apart are two laps of this driver when nobody has touched the car?",
    (
        "The lap was {fell} quicker: that is inside, so it proves nothing either way.",
        "A lap also holds the driver, tyres, fuel and track. A bar moves roll and steer: compare those at "
        "the same lateral acceleration, over several runs.",
    ),
    {"earlier": COUNT, "scatter": TIME, "before": TIME, "after": TIME},
    _laps,
    "time",
    (
        Option("not resolved", "Nobody can say yet: so large a difference comes up with nothing changed."),
        wrong("quicker", "Yes: the lap was quicker, so the change worked.", "quicker lap"),
        wrong("nothing", f"No. {NOTHING}", "not seen taken as not there"),
        wrong("feel", "Yes, if the driver feels it too: lap and feel agree.", "feel as proof"),
    ),
)


def _two_runs(stream) -> dict:
    before = stream.between(2.4, 4.2, 0.01)
    return {
        "earlier": stream.between(8, 12, 1),
        "scatter": stream.between(0.06, 0.12, 0.01) * DEG_PER_G,
        "before": before * DEG_PER_G,
        "after": (before - stream.between(0.05, 0.25, 0.01)) * DEG_PER_G,
    }


one_run_each = _one_each(
    "class-one-run-each",
    "class-quicker-lap",
    ("class",),
    "In {earlier} earlier runs with nothing changed the roll gradient of a car scattered by {scatter} "
    "(standard deviation). Then the rear bar goes one hole stiffer; the roll gradient should fall. One run "
    "before gave {before}, one run after {after}. Did the change work?",
    "How far apart are two runs of this car when nobody has touched it?",
    (
        "It fell by {fell}: that is inside, so these two runs prove nothing either way.",
        "Drive each way round at least three times, before and again after: the means scatter less.",
    ),
    {"earlier": COUNT, "scatter": GRADIENT, "before": GRADIENT, "after": GRADIENT},
    _two_runs,
    "roll gradient",
    (
        Option("not resolved", "Nobody can say yet: each way at least three runs, before and again after."),
        wrong("quicker", "Yes: the figure moved the way it should, so the change worked.", "quicker lap"),
        wrong("nothing", f"No. {NOTHING}", "not seen taken as not there"),
        wrong(
            "enough",
            "Yes: one run before and one after, with nothing else changed, are enough.",
            "one run each",
        ),
    ),
)


def of_the_runs(n) -> float:
    """Half the interval that ``n.runs`` each way round, before and again after, give."""
    each = 2 * round(n.runs)
    return test_day.half_interval(n.scatter, each, 2 * each - 4)


def measured(stream, low: float, high: float) -> dict:
    """A bar change, what was predicted of it, and a measured change drawn between two bounds, deg/g."""
    return {
        "runs": stream.between(3, 5, 1),
        "scatter": stream.between(0.06, 0.12, 0.01) * DEG_PER_G,
        "predicted": -stream.between(0.06, 0.20, 0.01) * DEG_PER_G,
        "value": stream.between(low, high, 0.01) * DEG_PER_G,
    }


def ends(n) -> tuple[float, float]:
    """Both ends of the interval, as they are written down."""
    half = of_the_runs(n)
    return tuple(GRADIENT.on_step(n.value + side * half, "metric") for side in (-1, 1))


def _read(id, twin, pools, quantity, text, hint, worked, bounds, sound, options) -> Choice:
    """The verdict on an interval."""
    shown = Given(quantity, 0.01, 0.01)
    return Choice(
        id=id,
        twin=twin,
        lesson=11,
        aim="Give the verdict on a measured change.",
        level=2,
        minutes=4,
        pools=pools,
        text=text,
        hint=hint,
        process="Look at the whole interval: is zero inside it? If not, which side of zero is it on, and "
        "which side was predicted?",
        worked=worked,
        given={"runs": COUNT, "predicted": shown, "value": shown},
        draw=lambda stream: measured(stream, *bounds),
        sound=sound,
        workings=lambda n: {"low": (ends(n)[0], quantity), "high": (ends(n)[1], quantity)},
        key=lambda n: test_day.verdict(n.value, of_the_runs(n), n.predicted),
        options=options,
    )


nought_inside = _read(
    "class-nought-inside",
    "class-opposite",
    ("class", "recall", "assessment"),
    "roll gradient",
    "The rear bar goes one hole stiffer. The sheet predicts that the roll gradient changes by {predicted}. "
    "With {runs} runs each way round, before and again after, it changed by {value}. The interval of that "
    "change reaches from {low} to {high}. What do you write down?",
    "Which changes are inside the interval? Is zero one of them, and is the prediction?",
    (
        "From {low} to {high}: zero is inside, and so is the predicted {predicted}. The runs fit both.",
        "Not resolved. More runs or less scatter narrow the interval; then the verdict may come.",
    ),
    (-0.14, -0.02),
    lambda n: abs(n.value) < INSIDE * of_the_runs(n) and abs(n.value - n.predicted) < INSIDE * of_the_runs(n),
    (
        Option("not resolved", "Not resolved: it may be as predicted, and it may be nothing."),
        wrong("nothing", "The change did nothing: zero lies inside.", "not seen taken as not there"),
        wrong("seen", "Seen: the figure itself moved the predicted way.", "middle for interval"),
        wrong("unlike", "Opposite to prediction: it is not the predicted figure.", "unlike for opposite"),
    ),
)

opposite = _read(
    "class-opposite",
    "class-nought-inside",
    ("class",),
    "understeer gradient",
    "The front bar goes one hole softer. The sheet predicts that the understeer gradient changes by "
    "{predicted}. {runs} runs each way round before, and as many after, show a change of {value}. Its "
    "interval reaches from {low} to {high}. What do you write down, and do?",
    "On which side of zero is the whole interval? On which side was it predicted?",
    (
        "From {low} to {high}: all of it lies above zero, and {predicted} was predicted. That is opposite.",
        "First see whether the runs are the right way round, the link went to the right hole and the signs "
        "are right. Drive the first setup once more. Only then look at the sheet and the model.",
    ),
    (0.08, 0.30),
    lambda n: n.value > CLEAR * of_the_runs(n),
    (
        Option("opposite to prediction", "Opposite to prediction: check the runs, the hole and the signs."),
        wrong("model", "The model is wrong: its figures are not to be used.", "model blamed first"),
        wrong("seen", "Seen: zero is outside, so the change did its work.", "side not looked at"),
        wrong("nothing", "Not resolved: what cannot be true counts as nothing.", "unwelcome put aside"),
    ),
)

QUESTIONS = (quicker_lap, one_run_each, nought_inside, opposite)
