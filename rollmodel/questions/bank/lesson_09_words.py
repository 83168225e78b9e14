"""Lesson 9, too soft and too stiff: choices and an open question."""

from types import SimpleNamespace

from rollmodel.car import GRAVITY
from rollmodel.questions.bank.cars import setups
from rollmodel.questions.bank.lesson_09 import crossing, leaning
from rollmodel.questions.records import Choice, Criterion, Open, Option, Ordering, Sample, wrong
from rollmodel.questions.roads import by

SOFT, FIRM = ("gravel",), ("coupe", "saloon")
TELLS = 2e-4 * GRAVITY  # a smaller move of a limit is none
WHY = (
    "On one such car the front's limit, {front_before}, moves by {front_move}. The rear's moves by "
    "{rear_move}."
)


def one_stiffer(cars: tuple):
    """A training car whose front bar has a stiffer hole free."""

    def draw(stream):
        car = stream.pick(cars)
        pairs = [pair for pair in setups(car) if (pair[0] + 1, pair[1]) in setups(car)]
        return {"car": car, "pair": stream.pick(pairs)}

    return draw


def before_and_after(n) -> tuple:
    found = setups(n.car)
    return found[n.pair], found[n.pair[0] + 1, n.pair[1]]


def own_gain(n) -> float:
    """By how much the front's own limit rises, [m/s^2]."""
    before, after = before_and_after(n)
    return after.held("front") - before.held("front")


def balance_gain(n) -> float:
    """By how much the front gains on the rear, [m/s^2]."""
    before, after = before_and_after(n)
    return after.lead - before.lead


def rows(n) -> dict:
    before, after = before_and_after(n)
    numbers = {
        f"{end}_{when}": (reading.held(end), "lateral acceleration")
        for end in ("front", "rear")
        for when, reading in (("before", before), ("after", after))
    }
    for end in ("front", "rear"):
        numbers[f"{end}_move"] = (after.held(end) - before.held(end), "lateral acceleration")
    return {**numbers, "roll": (before.roll_gradient, "roll gradient")}


def _more_or_less(n) -> str:
    gain = own_gain(n)
    return "same" if abs(gain) < TELLS else "more" if gain > 0 else "less"


def _front_stiffer(id, twin, cars, right, pools, text, process, options) -> Choice:
    return Choice(
        id=id,
        twin=twin,
        lesson=9,
        aim="Say what a stiffer bar does to the grip of its own end.",
        level=2,
        minutes=4,
        pools=pools,
        text=text,
        hint="Two things happen at that end. Which of them is the larger on this car?",
        process=process,
        worked=(process, WHY),
        draw=one_stiffer(cars),
        workings=rows,
        sound=lambda n: _more_or_less(n) == right and balance_gain(n) < -TELLS,
        key=_more_or_less,
        options=options,
    )


soft_front = _front_stiffer(
    "class-soft-front",
    "class-firm-front",
    SOFT,
    "more",
    ("class", "recall", "assessment"),
    "A car on long, soft springs rolls {roll}, and its linkage gives back little of it. All four wheels "
    "stay on the "
    "ground. The front bar goes one hole stiffer. What does the front axle itself hold then?",
    "So soft a car loses more to leaning tyres than to uneven load. Less roll wins back more than the "
    "transfer costs.",
    (
        Option("more", "More: its tyres lean less, and that is worth more here than even load."),
        wrong(
            "less",
            "Less: it takes more of the load transfer, and nothing else counts.",
            "firm rule on a soft car",
        ),
        wrong(
            "same",
            "The same: a bar changes how far the body rolls, not what tyres give.",
            "bar for roll alone",
        ),
        wrong("cured", "More, so the car now understeers less than before.", "own grip for balance"),
    ),
)

firm_front = _front_stiffer(
    "class-firm-front",
    "class-soft-front",
    FIRM,
    "less",
    ("class",),
    "A car on firm springs rolls {roll}, and its linkage gives back about half of it. All four wheels "
    "stay on the "
    "ground. The front bar goes one hole stiffer. What does the front axle itself hold then?",
    "So firm a car has little lean left to win back. The uneven load costs more.",
    (
        Option(
            "less", "Less: its two tyres share their load less evenly, and there is little lean to win back."
        ),
        wrong(
            "more", "More: the body is flatter, so the tyres stand better on the road.", "flatter grips more"
        ),
        wrong(
            "same",
            "The same: a bar changes how far the body rolls, not what tyres give.",
            "bar for roll alone",
        ),
        wrong("always", "More: a stiffer end always grips better.", "stiff end grips"),
    ),
)

soft_first = Open(
    id="soft-first",
    lesson=9,
    aim="Choose what comes first on a car that is too soft, and give the reason.",
    level=3,
    minutes=10,
    pools=("exercise", "assessment"),
    text="A car on long, soft springs rolls {roll}. Its front gives up first, at {front_before}; the rear "
    "would hold "
    "{rear_before}. The driver says understeer and wants the front bar softened. What do you answer, and "
    "what do "
    "you do first? How would you know that it worked?",
    hint="What would a softer front do to the front's own grip on such a car?",
    process="Two effects at the front, which one wins here; what comes first; then balance; then measure.",
    worked=(
        "On this car one hole stiffer at the front takes the front's limit from {front_before} to "
        "{front_after}: "
        "softer would cost it grip.",
        "First raise the roll stiffness of the whole car. Then balance it with one bar, and measure.",
    ),
    draw=one_stiffer(SOFT),
    workings=rows,
    sound=lambda n: own_gain(n) > TELLS,
    rubric=(
        Criterion(
            1, "Does not just soften the front; says that on so soft a car this costs the front grip."
        ),
        Criterion(
            2,
            "Gives both effects: less lean wins grip back, more load transfer costs some; the lean is the "
            "larger here.",
        ),
        Criterion(1, "Raises the roll stiffness of the whole car first: springs, or both bars."),
        Criterion(1, "Then balances with one bar at one end, one change at a time."),
        Criterion(
            1,
            "Says how to know: the same corner or a constant radius before and after, and a caution on "
            "springs or on a raised car.",
        ),
    ),
    samples=(
        Sample(
            "weak",
            1,
            "Put both bars up a hole. Soft cars always understeer.",
            "The right first step; a rule in place of a reason.",
        ),
        Sample(
            "fair",
            3,
            "I would not soften it. The car rolls so much that the tyres lean over. Fit stiffer springs "
            "front and rear first.",
            "Right answer and right first step; one effect, no test.",
        ),
        Sample(
            "good",
            6,
            "No. A softer front would let it roll more, the front tyres lean further and lose more than "
            "the more even load gives back, because this car is very soft. First stiffer springs at both "
            "ends or both bars up, with the maker's compressor and the car on stands. Then one bar at one "
            "end for the balance. I would run a constant radius before and after each step.",
            "All points.",
        ),
    ),
)

LINKAGES = {
    "little": (0.2, "A linkage that gives back 20 % of the roll."),
    "half": (0.5, "A linkage that gives back 50 % of the roll."),
    "much": (0.8, "A linkage that gives back 80 % of the roll."),
}


def turns(n) -> dict[str, float]:
    """Where a stiffer end stops gaining grip, with each linkage."""
    return {
        name: crossing(SimpleNamespace(**{**vars(n), "recovered": part}))
        for name, (part, _) in LINKAGES.items()
    }


three_linkages = Ordering(
    id="three-linkages",
    lesson=9,
    aim="Say what the linkage has to do with too soft and too stiff.",
    level=2,
    minutes=4,
    pools=("exercise", "assessment"),
    text="Three cars are alike but for the front linkage. A stiffer front bar gains the front grip as "
    "long as the rear "
    "is softer than some roll stiffness. Put the three in order of that roll stiffness, the lowest first.",
    hint="How much lean is there to win back with each of them?",
    process="The more of the roll the linkage gives back, the less lean there is to win back by rolling "
    "less.",
    worked=(
        "Little lean left, little to win: with the linkage that gives back most, a stiffer front soon "
        "costs grip.",
    ),
    items={name: text for name, (_, text) in LINKAGES.items()},
    draw=lambda stream: {
        **leaning(stream),
        "grip_drop": stream.between(20e-6, 35e-6, 1e-6),
        "track": stream.between(1.42, 1.60, 0.01),
        "transfer": stream.between(1300, 2400, 50),
    },
    values=turns,
    roads=(
        by(
            "recovered part for the part left",
            lambda n: {name: -place for name, place in turns(n).items()},
        ),
    ),
)

QUESTIONS = (soft_front, firm_front, three_linkages, soft_first)
