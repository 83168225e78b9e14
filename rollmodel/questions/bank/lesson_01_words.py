"""Lesson 1, a spring that works only in roll: choices, an order, an open question."""

from rollmodel.physics import axle
from rollmodel.questions.bank.lesson_01 import BOTH_RATES, RATE, corner
from rollmodel.questions.records import Choice, Criterion, Open, Option, Ordering, Sample, wrong
from rollmodel.questions.roads import by


def _bar_in_heave(n) -> str:
    extra = axle.heave_rate(n.spring_rate, n.bar_rate) - n.spring_rate
    return "nothing" if abs(extra) < 1e-9 * n.spring_rate else "once"


heave = Choice(
    id="class-ridge", lesson=1, aim="Say what a bar does when both wheels move together.",
    level=1, minutes=3, pools=("class", "recall"), twin="class-dip",
    text="Both front wheels ride over a ridge that runs straight across the road. The spring gives "
         "{spring_rate} at each wheel, the bar {bar_rate} with the other wheel held. What does the bar add "
         "at each wheel?",
    hint="Draw the bar from behind. Where do its two ends go?",
    process="See how far one end moves against the other. The bar can only push as far as it is twisted.",
    worked=("Both ends rise by the same amount. The bar turns in its bushings, does not twist, and adds "
            "nothing.",),
    given=BOTH_RATES, draw=corner,
    options=(Option("nothing", "Nothing: its two ends rise alike, so it does not twist."),
             wrong("once", "{bar_rate}, because each end is moved.", "bar stiffens heave"),
             wrong("twice", "{bar_share}, because both ends are moved.", "factor 2 taken twice"),
             wrong("eases", "It takes load off each wheel, because it lifts the wheels.",
                   "bar takes load off both")),
    key=_bar_in_heave, workings=lambda n: {"bar_share": (axle.roll_rate(0.0, n.bar_rate), "rate")})

dip = Choice(
    id="class-dip", lesson=1, aim="Say what a bar does when both wheels move together.",
    level=1, minutes=2, pools=("class",), twin="class-ridge",
    text="The driver brakes hard in a straight line and the nose goes down level. A stiffer front bar is "
         "fitted. How much less does the nose go down?",
    hint="Do both front wheels move the same way?",
    process="See how far one end of the bar moves against the other while the nose goes down level.",
    worked=("The nose goes down level, so both ends of the bar move alike. No bar changes that, stiff or "
            "soft.",),
    options=(Option("nothing", "Not at all: both ends of the bar move alike."),
             wrong("once", "A little less: the bar helps both springs.", "bar stiffens heave"),
             wrong("twice", "Much less: both ends of the bar push back.", "factor 2 taken twice"),
             wrong("more", "It goes down further: the bar pulls the wheels up.", "bar takes load off both")),
    draw=corner, key=_bar_in_heave)


def _far_wheel(n, left, right, watched) -> str:
    """What the load does at the wheel that is watched, by the model."""
    change = axle.wheel_loads(n.spring_rate, n.bar_rate, left, right)[watched]
    return "less" if change < 0 else "more" if change > 0 else "same"


kerb = Choice(
    id="class-kerb", lesson=1, aim="Say which way a bar pushes at the far wheel.",
    level=2, minutes=3, pools=("class",), twin="class-pothole",
    text="The left wheel rides up on a kerb. The right wheel stays where it is. What does the bar do to the "
         "load on the right wheel?",
    hint="The left end of the bar is lifted. Which way does the right end push its wheel?",
    process="A twisted bar pushes its two ends opposite ways. Find the way at the left, then turn it round.",
    worked=("The bar presses the left wheel down, so it lifts the right wheel by as much: the load there "
            "gets less.",),
    draw=corner,
    options=(Option("less", "It gets less: the bar lifts that end."),
             wrong("more", "It gets more: the bar shares the bump out between the wheels.", "sign"),
             wrong("same", "It stays the same: that wheel has not moved.", "bar reaches one wheel"),
             wrong("roll only", "It stays the same: a bar works only in a corner.", "bar left out")),
    key=lambda n: _far_wheel(n, n.travel, 0.0, 1))

pothole = Choice(
    id="class-pothole", lesson=1, aim="Say which way a bar pushes at the far wheel.",
    level=2, minutes=2, pools=("class",), twin="class-kerb",
    text="The right wheel drops into a pothole. The left wheel stays where it is. What does the bar do to "
         "the load on the left wheel?",
    hint="The right end of the bar goes down. Which way does the left end push its wheel?",
    process="A twisted bar pushes its two ends opposite ways. Find the way at the right, then turn it round.",
    worked=("The bar holds the right wheel up out of the hole, so it presses the left wheel down by as much: "
            "the load there gets more.",),
    draw=corner,
    options=(Option("more", "It gets more: the bar presses that end down."),
             wrong("less", "It gets less: the bar lifts both wheels.", "bar takes load off both"),
             wrong("same", "It stays the same: that wheel has not moved.", "bar reaches one wheel"),
             wrong("roll only", "It stays the same: a bar works only in a corner.", "bar left out")),
    key=lambda n: _far_wheel(n, 0.0, -n.travel, 0))

bench_to_roll = Choice(
    id="bench-to-roll", lesson=1, aim="Turn a bench figure with one end held into what each wheel feels in "
                                      "roll.",
    level=1, minutes=2, pools=("recall", "assessment"),
    text="With the right wheel held, the bar alone gives {bar_rate} at the left wheel. What does the bar "
         "alone give at each wheel in roll?",
    hint="In roll, how many ends move?",
    process="Compare the twist: one end moved by 10 mm, against one end up 10 mm and the other down 10 mm.",
    worked=("In roll the twist is twice as much for the same travel of each wheel, so each wheel feels 2 x "
            "{bar_rate} = {double}.",),
    given={"bar_rate": RATE}, draw=corner,
    options=(Option("double", "{double}: both ends move, so it twists twice as much."),
             wrong("once", "{once}: it is the same bar.", "held used in roll"),
             wrong("half", "{half}: the two wheels share it.", "factor 2 lost the other way"),
             wrong("four", "{four}: both ends move, and both push.", "factor 2 taken twice")),
    key=lambda n: {2: "double", 1: "once",
                   4: "four"}[round(float(axle.roll_rate(0.0, n.bar_rate) / n.bar_rate))],
    workings=lambda n: {"double": (axle.roll_rate(0.0, n.bar_rate), "rate"), "once": (n.bar_rate, "rate"),
                        "half": (n.bar_rate / 2, "rate"), "four": (4 * n.bar_rate, "rate")})


def _left_rates(n, in_heave=axle.heave_rate) -> dict[str, float]:
    """Rate at the left wheel in each of the four ways it can be moved."""
    return {"together": float(in_heave(n.spring_rate, n.bar_rate)),
            "free": float(axle.one_wheel_rate_other_free(n.spring_rate, n.bar_rate)),
            "held": float(axle.one_wheel_rate_other_held(n.spring_rate, n.bar_rate)),
            "apart": float(axle.roll_rate(n.spring_rate, n.bar_rate))}


four_ways = Ordering(
    id="four-ways", lesson=1,
    aim="Put four ways of moving an axle in order of the rate that one wheel feels.",
    level=2, minutes=3, pools=("exercise", "assessment"),
    text="The spring gives {spring_rate} at each wheel, the bar {bar_rate} with the other wheel held. Put "
         "these in order of the rate that the left wheel feels, the softest first.",
    hint="Ask of each: by how much does the bar twist when the left wheel moves 10 mm?",
    process="No twist is softest. The more the bar twists for the same travel of the left wheel, the stiffer "
            "it is.",
    worked=("Both together: no twist, {together}.", "Right wheel free to follow: a little twist, {free}.",
            "Right wheel held: more twist, {held}.", "Opposite ways: the most twist, {apart}."),
    given=BOTH_RATES, draw=corner,
    items={"together": "Both wheels rise together.",
           "free": "The left wheel rises, the right wheel keeps its load and may follow.",
           "held": "The left wheel rises, the right wheel is held.",
           "apart": "The left wheel rises and the right wheel falls by as much."},
    values=_left_rates,
    roads=(by("other wheel held", lambda n: {**_left_rates(n), "free": 1.01 * _left_rates(n)["held"]}),
           by("bar stiffens heave",
              lambda n: _left_rates(n, in_heave=lambda k, b: 1.01 * axle.roll_rate(k, b)))),
    workings=lambda n: {name: (value, "rate") for name, value in _left_rates(n).items()})

ruts = Open(
    id="ruts", lesson=1, aim="Choose a change for rough ground and give the reason.",
    level=3, minutes=8, pools=("exercise", "assessment"),
    text="A car has springs of {spring_rate} and a bar of {bar_rate} (other wheel held) at each front wheel. "
         "For one day it has to cross a field with deep ruts that put one wheel up while the other is down. "
         "You may fit softer springs, a stiffer bar, or take one link off the bar. Which change, and why?",
    hint="Which of the two makes a wheel lose load when the ground twists the axle?",
    process="Work out how much load one wheel loses when the wheels are pushed apart, with and without the "
            "bar.",
    worked=("Pushed {push} apart each way, each wheel's load changes by {with_bar} with the bar and by "
            "{without} without it.",
            "With the wheels moving together the bar makes no difference.",
            "Taking one link off takes away only what the bar costs on twisted ground."),
    given=BOTH_RATES, draw=corner,
    workings=lambda n: {"push": (0.02, "length"),
                        "with_bar": (axle.wheel_loads(n.spring_rate, n.bar_rate, 0.02, -0.02)[0], "load"),
                        "without": (axle.wheel_loads(n.spring_rate, 0.0, 0.02, -0.02)[0], "load")},
    rubric=(Criterion(1, "Names one change: take one link off."),
            Criterion(2, "Says that ruts twist the axle, and that a bar resists just that."),
            Criterion(1, "Says that a bar adds nothing when both wheels move together, so softer springs "
                         "give up more than is needed."),
            Criterion(1, "Says what it costs: more roll in corners, so drive accordingly and put it back. "
                         "The loose link must be tied clear or taken off.")),
    samples=(Sample("weak", 1, "Take the link off because it is softer then.",
                    "Right change. No word on twist, or on what stays the same."),
             Sample("fair", 3, "One link off. In the ruts one wheel is up and the other down, so the bar "
                               "twists and takes load off the low wheel. Without it both wheels stay on the "
                               "ground.",
                    "Change and twist are there. Nothing on heave, nothing on the cost."),
             Sample("good", 5, "Take one link off. The ruts push the wheels apart and the bar fights that "
                               "with twice its rate, so the low wheel loses load. Softer springs would help "
                               "too, but they also change what happens when both wheels move together, where "
                               "the bar does nothing. It will roll more in bends, so go slowly, tie the link "
                               "up and refit it afterwards.",
                    "All four points, with the factor 2.")))

QUESTIONS = (heave, dip, kerb, pothole, bench_to_roll, four_ways, ruts)
