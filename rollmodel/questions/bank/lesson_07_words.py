"""Lesson 7, which end gives up first: choices, an order, an open question."""

from itertools import pairwise

from rollmodel.car import GRAVITY
from rollmodel.questions.bank.cars import setups
from rollmodel.questions.bank.lesson_07 import car_limit, ends_differ, hold, two_ends
from rollmodel.questions.records import Choice, Criterion, Open, Option, Ordering, Sample, wrong
from rollmodel.questions.roads import by

UNDERSTEERS = ("coupe", "saloon")  # training cars whose front gives up first, with a free hole at each end
CARS = (*UNDERSTEERS, "single-seater")


def _with_free_hole(end: str, step: int):
    """A training car at holes from which one end can go one step stiffer (+1) or softer (-1)."""
    place = 0 if end == "front" else 1

    def draw(stream):
        car = stream.pick(UNDERSTEERS)
        pairs = [pair for pair, reading in setups(car).items() if reading.limit_end == "front"]
        free = [pair for pair in pairs if _moved(pair, place, step) in setups(car)]
        return {"car": car, "pair": stream.pick(free)}
    return draw


def _moved(pair: tuple, place: int, step: int) -> tuple:
    return tuple(hole + step * (i == place) for i, hole in enumerate(pair))


def readings_of(n, end: str, step: int) -> tuple:
    """What the model says before and after one step at one end."""
    after = _moved(n.pair, 0 if end == "front" else 1, step)
    return setups(n.car)[n.pair], setups(n.car)[after]


def _balance_moves(n, end: str, step: int) -> str:
    """Which end the change puts at a disadvantage."""
    before, after = readings_of(n, end, step)
    change = after.gap - before.gap
    return "worse" if change < -1e-4 * GRAVITY else "better" if change > 1e-4 * GRAVITY else "same"


def limit_rows(n, end: str, step: int) -> dict:
    """Both ends' limits before and after, in g to four decimals' worth of figures."""
    rows = {}
    for when, reading in zip(("before", "after"), readings_of(n, end, step), strict=True):
        rows |= {f"front_{when}": (reading.held("front"), "lateral acceleration"),
                 f"rear_{when}": (reading.held("rear"), "lateral acceleration"),
                 f"ahead_{when}": (abs(reading.gap), "lateral acceleration")}
    return rows


stiff_front = Choice(
    id="class-stiff-front", twin="class-stiff-rear", lesson=7,
    aim="Say what a stiffer bar at one end does to a car that understeers.", level=2, minutes=4,
    pools=("class", "recall", "assessment"),
    text="A car on firm springs understeers in the middle of a corner: its front gives up first. A stiffer "
         "front bar is fitted. What happens?",
    hint="What does the stiffer bar do to the two front tyres' loads, and what does uneven load cost a pair?",
    process="Follow the load: front transfer up, front tyres more uneven, front pair gives less. Then the "
            "rear.",
    worked=("For one of the college's cars: the rear's lead over the front goes from {ahead_before} to "
            "{ahead_after}.",
            "The front pair is loaded less evenly and gives less. It gives up sooner: more understeer."),
    draw=_with_free_hole("front", 1), workings=lambda n: limit_rows(n, "front", 1),
    key=lambda n: _balance_moves(n, "front", 1),
    options=(Option("worse",
                    "More understeer: the front tyres are loaded less evenly and give less together."),
             wrong("better", "Less understeer: a stiffer front grips more.", "stiff end grips"),
             wrong("flatter", "Less understeer: the car rolls less, so all four tyres do better.",
                   "balance by roll"),
             wrong("same", "No change in balance, only less roll.", "only its own end")))

stiff_rear = Choice(
    id="class-stiff-rear", twin="class-stiff-front", lesson=7,
    aim="Say what a stiffer bar at one end does to a car that understeers.", level=2, minutes=3,
    pools=("class",),
    text="The same sort of car understeers in the middle of a corner. This time a stiffer rear bar is "
         "fitted. What happens?",
    hint="The total hardly changes. What does the front no longer have to carry?",
    process="Follow the load: rear transfer up, front transfer down. Then what each pair gives.",
    worked=("For one of the college's cars: the rear's lead over the front goes from {ahead_before} to "
            "{ahead_after}.",
            "The front is loaded more evenly and gives more, the rear gives less: less understeer."),
    draw=_with_free_hole("rear", 1), workings=lambda n: limit_rows(n, "rear", 1),
    key=lambda n: _balance_moves(n, "rear", 1),
    options=(Option("better", "Less understeer: the front tyres are loaded more evenly and give more."),
             wrong("worse", "More understeer: a stiffer rear grips more and pushes the front on.",
                   "stiff end grips"),
             wrong("own end", "No change at the front: only the rear is stiffer.", "only its own end"),
             wrong("roll", "No change in balance, only less roll.", "balance by roll")))


def _limits(n) -> dict[str, float]:
    front, rear = hold(n, "front"), hold(n, "rear")
    return {"lower": min(front, rear), "higher": max(front, rear), "mean": (front + rear) / 2}


def _limit_key(n) -> str:
    values = _limits(n)
    return min(values, key=lambda name: abs(values[name] - car_limit(n)))


def _limit_rows(n) -> dict:
    return {**{name: (value, "lateral acceleration") for name, value in _limits(n).items()},
            "front": (hold(n, "front"), "lateral acceleration"),
            "rear": (hold(n, "rear"), "lateral acceleration")}


def _first_to_go(id: str, twin: str, end: str, pools, sort: str, opening: str) -> Choice:
    other = "rear" if end == "front" else "front"
    return Choice(
        id=id, twin=twin, lesson=7, aim="Name the car's limit and which end sets it.", level=1, minutes=2,
        pools=pools,
        text=opening + " What can the car hold, and what does it do there?",
        hint="What happens at the moment when the first end has no more to give?",
        process="Find the smaller of the two. That end slides first: the front wide is understeer, the rear "
                "out is oversteer.",
        worked=(f"The {end} gives up first, at {{lower}}. That is the car's limit, and it {sort}.",),
        draw=lambda stream: two_ends(stream, weak=end), workings=_limit_rows, key=_limit_key,
        sound=lambda n: ends_differ(n) and (hold(n, "front") < hold(n, "rear")) == (end == "front"),
        options=(Option("lower", f"{{lower}}, and it {sort}: the {end} gives up first."),
                 wrong("higher", f"{{higher}}: the {other} holds the car.", "higher limit is car's limit"),
                 wrong("mean", "{mean}: the better end helps the other.", "average limit"),
                 wrong("stiffness", "Nobody can say without the springs: the softer end gives up first.",
                       "limit by stiffness")))


front_first = _first_to_go(
    "class-front-first", "class-rear-first", "front", ("class", "recall"), "understeers",
    "A car's front tyres can hold {front} in a corner, its rear tyres {rear}.")
rear_first = _first_to_go(
    "class-rear-first", "class-front-first", "rear", ("class",), "oversteers",
    "After a change of bars the rear of a car is good for {rear} and the front for {front}.")

PLACES = ("one", "two", "three")


def _three_setups(stream) -> dict:
    car = stream.pick(CARS)
    chosen = stream.shuffled(list(setups(car)))[:3]
    return {"car": car, **{f"pair_{name}": pair for name, pair in zip(PLACES, chosen, strict=True)}}


def _gaps(n) -> dict[str, float]:
    return {name: setups(n.car)[getattr(n, f"pair_{name}")].gap for name in PLACES}


def _setup_rows(n) -> dict:
    rows = {}
    for name in PLACES:
        reading = setups(n.car)[getattr(n, f"pair_{name}")]
        rows |= {f"gap_{name}": (reading.gap, "lateral acceleration"),
                 f"share_{name}": (reading.front_share, "share")}
    return rows


def _far_enough(n) -> bool:
    gaps = sorted(_gaps(n).values())
    shares = sorted(share for share in (_setup_rows(n)[f"share_{name}"][0] for name in PLACES))
    return (min(b - a for a, b in pairwise(gaps)) > 0.002 * GRAVITY
            and min(b - a for a, b in pairwise(shares)) > 0.002)


setups_in_order = Ordering(
    id="setups-in-order", lesson=7, aim="Put setups in order of balance from their share of load transfer.",
    level=2, minutes=4, pools=("exercise", "assessment"),
    text="One of the college's cars is tried with three settings of its bars. Weight, tyres and height are "
         "the same. The model gives the front's share of the load transfer for each. Put them in order of "
         "how far the front's limit lies ahead of the rear's: the one that understeers most first, the one "
         "that oversteers most last.",
    hint="Which end loses grip when the front takes more of the transfer?",
    process="More transfer at the front costs the front and spares the rear. The largest front share "
            "understeers most.",
    worked=tuple(f"Front share {{share_{name}}}: front limit less rear limit {{gap_{name}}}."
                 for name in PLACES),
    draw=_three_setups, sound=_far_enough, values=_gaps, workings=_setup_rows, gap=0.0,
    items={name: f"{{share_{name}}} of the load transfer at the front" for name in PLACES},
    roads=(by("stiff end grips", lambda n: {name: -gap for name, gap in _gaps(n).items()}),))

push_in_the_middle = Open(
    id="push-in-the-middle", lesson=7, aim="Say which end gives up first and what one bar change would do.",
    level=3, minutes=8, pools=("exercise", "assessment"),
    text="On one of the college's cars the model gives a front limit of {front_before} and a rear limit of "
         "{rear_before}. The rear bar can go one hole stiffer. Which end gives up first now, and what would "
         "that one hole do? Follow the load to the tyres.",
    hint="Start from the smaller limit. Then say where the bar moves load transfer.",
    process="Name the end and the sort of slide. Then: rear transfer up, front transfer down; what each pair "
            "gives.",
    worked=("Front {front_before}, rear {rear_before}: the front gives up first, the car understeers.",
            "One hole stiffer at the rear: front {front_after}, rear {rear_after}.",
            "The lead of the rear goes from {ahead_before} to {ahead_after}."),
    draw=_with_free_hole("rear", 1), workings=lambda n: limit_rows(n, "rear", 1),
    rubric=(Criterion(1, "Says that the front gives up first, and that this is understeer."),
            Criterion(1, "Says that the stiffer rear bar moves load transfer from the front to the rear."),
            Criterion(2, "Says what the tyres make of it: front more even and gives more, rear less even and "
                         "gives less."),
            Criterion(1, "Ends with the balance: less understeer, a higher limit for the car as long as the "
                         "front is the first to go.")),
    samples=(Sample("weak", 1, "The front goes first so it understeers. Stiffer rear helps.",
                    "Names the end; no road from bar to tyre."),
             Sample("fair", 3, "Front first, understeer. The stiffer rear bar takes load transfer from the "
                               "front, so the "
                               "front tyres grip better.", "Half of the tyre step, no end on the balance."),
             Sample("good", 5, "The front gives up first: understeer. One hole stiffer at the rear moves "
                               "transfer to the "
                               "rear. The front pair is then loaded more evenly and gives more, the rear "
                               "pair less. The "
                               "two limits come closer, it understeers less, and as the front sets the limit "
                               "the car "
                               "holds a little more.", "All four points.")))

QUESTIONS = (stiff_front, stiff_rear, front_first, rear_first, setups_in_order, push_in_the_middle)
