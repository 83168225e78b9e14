"""Lesson 5, where the load goes: choices, an order, an open question."""

from rollmodel.questions.bank.cars import ACCELERATION, car_of, corner_of, keeps_wheels_down, road_car
from rollmodel.questions.records import Choice, Criterion, Open, Option, Ordering, Sample, wrong
from rollmodel.questions.roads import by

STIFFER = 1.5  # a bar of half as much again


def stiffer(n, end: str, factor: float = STIFFER):
    """The corner with another bar at one end."""
    return corner_of(n, **{f"bar_{end}": factor * getattr(n, f"bar_{end}")})


def _who_gains(n, end: str) -> str:
    """What a stiffer bar does to the moments carried at the two ends, by the model."""
    before, after = corner_of(n), stiffer(n, end)
    own, other = (float(after.axle(e).roll_moment - before.axle(e).roll_moment)
                  for e in (end, "rear" if end == "front" else "front"))
    if abs(own + other) < 0.3 * abs(own):
        return "moves" if own > 0 > other else "less"
    return "adds" if own + other > 0 else "less"


def _moments(n, end: str) -> dict:
    before, after = corner_of(n), stiffer(n, end)
    rows = {}
    for when, corner in (("before", before), ("after", after)):
        rows |= {f"{e}_{when}": (corner.axle(e).load_transfer, "load") for e in ("front", "rear")}
        rows[f"both_{when}"] = (corner.front.load_transfer + corner.rear.load_transfer, "load")
    return rows | {"inside_before": (before.axle(end).inside, "load"),
                   "inside_after": (after.axle(end).inside, "load"),
                   "roll_before": (before.roll_angle, "angle"), "roll_after": (after.roll_angle, "angle")}


def _total(id: str, twin: str, end: str, other: str, pools) -> Choice:
    return Choice(
        id=id, twin=twin, lesson=5, aim="Say what a stiffer bar does to the load transfer of the whole car.",
        level=2, minutes=3, pools=pools,
        text=f"A stiffer {end} bar is fitted. The car goes through the same corner at the same speed, at "
             f"{{a}}. "
             "What happens to the load transfer?",
        hint="Which things set the load transfer of the whole car?",
        process="Mass, height of the centre of gravity, track and lateral acceleration have not changed. Ask "
                "who carries more of the same total now.",
        worked=(f"{end.capitalize()}: {{{end}_before}} before, {{{end}_after}} after.",
                f"{other.capitalize()}: {{{other}_before}} before, {{{other}_after}} after.",
                "Both together: {both_before} before, {both_after} after. The bar moves transfer, it hardly "
                "makes any."),
        given={"a": ACCELERATION}, draw=road_car, sound=keeps_wheels_down,
        workings=lambda n: _moments(n, end),
        key=lambda n: _who_gains(n, end),
        options=(Option("moves", f"More at the {end}, less at the {other}, the total hardly changes."),
                 wrong("adds", f"More at the {end}, the same at the {other}, so more in all.",
                       "only its own end"),
                 wrong("all more", "More at both ends: a stiffer car transfers more.",
                       "bar adds total transfer"),
                 wrong("less", "Less at both ends: the car rolls less.", "less roll is less transfer")))


stiffer_front = _total("class-stiffer-front", "class-stiffer-rear", "front", "rear", ("class", "recall"))
stiffer_rear = _total("class-stiffer-rear", "class-stiffer-front", "rear", "front", ("class",))


def _inside_load(n, end: str, factor: float) -> str:
    change = float(stiffer(n, end, factor).axle(end).inside - corner_of(n).axle(end).inside)
    return "less" if change < -1.0 else "more" if change > 1.0 else "same"


def _loads(n, end: str, factor: float) -> dict:
    return {"before": (corner_of(n).axle(end).inside, "load"),
            "after": (stiffer(n, end, factor).axle(end).inside, "load")}


inside_lighter = Choice(
    id="class-inside-lighter", twin="class-inside-heavier", lesson=5,
    aim="Say which way a bar pushes its own inside wheel.", level=2, minutes=3,
    pools=("class", "recall", "assessment"),
    text="A stiffer front bar is fitted. In the same corner, at {a}, what happens to the load on the inside "
         "front wheel?",
    hint="The body leans out. Which way does the inside end of the bar push its wheel?",
    process="The bar joins the outside wheel, which is pushed up, to the inside wheel. See what it does to "
            "the inside wheel, then what that does to its load.",
    worked=("Inside front wheel: {before} before, {after} after. The body rolls less, and yet this wheel is "
            "lighter.",),
    given={"a": ACCELERATION}, draw=road_car, sound=keeps_wheels_down,
    workings=lambda n: _loads(n, "front", STIFFER), key=lambda n: _inside_load(n, "front", STIFFER),
    options=(Option("less", "It gets less: the bar lifts the inside wheel harder."),
             wrong("more", "It gets more: the bar presses the inside wheel down and keeps the car flat.",
                   "bar loads inside wheel"),
             wrong("flat", "It gets more: the car rolls less, so less load moves across.",
                   "less roll is less transfer"),
             wrong("same", "It stays the same: mass, height and track are the same.", "balance by roll")))

inside_heavier = Choice(
    id="class-inside-heavier", twin="class-inside-lighter", lesson=5,
    aim="Say which way a bar pushes its own inside wheel.", level=2, minutes=2, pools=("class",),
    text="A softer rear bar is fitted. In the same corner, at {a}, what happens to the load on the inside "
         "rear wheel?",
    hint="Before, the bar lifted this wheel. What does a softer bar do?",
    process="Find which way the old bar pushed the inside rear wheel, then take some of that away.",
    worked=("Inside rear wheel: {before} before, {after} after. The body rolls more, and yet this wheel is "
            "heavier.",),
    given={"a": ACCELERATION}, draw=road_car, sound=keeps_wheels_down,
    workings=lambda n: _loads(n, "rear", 1 / STIFFER), key=lambda n: _inside_load(n, "rear", 1 / STIFFER),
    options=(Option("more", "It gets more: the bar lifts the inside wheel less."),
             wrong("less", "It gets less: the bar no longer presses the inside wheel down.",
                   "bar loads inside wheel"),
             wrong("leans", "It gets less: the car rolls more, so more load moves across.",
                   "less roll is less transfer"),
             wrong("same", "It stays the same: mass, height and track are the same.", "balance by roll")))


def _lifts(stream, end: str) -> dict:
    """A car that stands on three wheels: far more roll stiffness at one end, and less weight there."""
    other = "rear" if end == "front" else "front"
    share = stream.between(0.62, 0.66, 0.01)
    return {**road_car(stream), "front_share": share if end == "rear" else round(1 - share, 2),
            "a": stream.between(0.85, 1.0, 0.05) * 9.80665, f"bar_{end}": stream.between(24e3, 34e3, 1e3),
            f"bar_{other}": stream.between(1e3, 4e3, 1e3)}


def _one_wheel_up(n, end: str) -> bool:
    corner, other = corner_of(n), "rear" if end == "front" else "front"
    return bool(corner.axle(end).lifted and not corner.axle(other).lifted and not corner.rolls_over)


def _bar_at_lifted_end(n, end: str) -> str:
    before, after = corner_of(n), stiffer(n, end)
    change = float(after.axle(end).load_transfer - before.axle(end).load_transfer)
    return "nothing" if abs(change) < 1.0 else "more" if change > 0 else "down"


def _up(id: str, twin: str, end: str, other: str) -> Choice:
    return Choice(
        id=id, twin=twin, lesson=5, aim="Say what a bar still does at an end whose inside wheel is up.",
        level=3, minutes=3, pools=("class",),
        text=f"In a long corner at {{a}} the inside {end} wheel is already off the ground. What does a "
             f"stiffer {end} bar change in this corner?",
        hint="What is left to take from a wheel that is in the air?",
        process="The load transfer of that end is at its limit: all its load is on the outside wheel. See "
                "whether a bar can add to that.",
        worked=(f"Outside {end} wheel: {{outside}}, all that this end weighs. No bar can put more on it.",
                f"All further roll moment goes to the {other}, with the stiffer bar or without."),
        given={"a": ACCELERATION}, draw=lambda stream: _lifts(stream, end),
        sound=lambda n: _one_wheel_up(n, end),
        workings=lambda n: {"outside": (corner_of(n).axle(end).outside, "load")},
        key=lambda n: _bar_at_lifted_end(n, end),
        options=(Option("nothing", f"Nothing more: the {end} already has all the transfer it can have."),
                 wrong("more", f"It moves still more load to the outside {end} wheel.",
                       "lifted end still shares"),
                 wrong("down", f"It brings the inside {end} wheel back down.", "bar loads inside wheel"),
                 wrong("other", f"It takes load transfer off the {other}.", "lifted end still shares")))


rear_up = _up("class-rear-wheel-up", "class-front-wheel-up", "rear", "front")
front_up = _up("class-front-wheel-up", "class-rear-wheel-up", "front", "rear")

WHEELS = {"front_in": "front, inside", "front_out": "front, outside", "rear_in": "rear, inside",
          "rear_out": "rear, outside"}


def _wheel_loads(n, swapped: bool = False) -> dict[str, float]:
    corner = corner_of(n)
    sides = ("outside", "inside") if swapped else ("inside", "outside")
    return {f"{end}_{short}": float(getattr(corner.axle(end), side)) for end in ("front", "rear")
            for short, side in zip(("in", "out"), sides, strict=True)}


def _nearly_at_rest(n) -> dict[str, float]:
    """The order by axle weight alone, with the inside wheel a shade lighter."""
    return {f"{end}_{short}": car_of(n).axle_weight(end) * factor for end in ("front", "rear")
            for short, factor in (("in", 0.499), ("out", 0.501))}


four_loads = Ordering(
    id="four-loads", lesson=5, aim="Put the four wheel loads of a cornering car in order.",
    level=2, minutes=4, pools=("exercise", "assessment"),
    text="A car corners at {a}. Its front axle carries {front} and its rear axle {rear}. The front transfers "
         "{front_transfer} and the rear {rear_transfer}. Put the four wheels in order of their load, the "
         "lightest first.",
    hint="Start from the four loads at rest, then move the transfer.",
    process="Half of each axle's load on each wheel. Take the transfer from the inside wheel, add it to the "
            "outside wheel.",
    worked=("Front: inside {front_in}, outside {front_out}.", "Rear: inside {rear_in}, outside {rear_out}."),
    given={"a": ACCELERATION}, draw=road_car, sound=keeps_wheels_down, values=_wheel_loads, items=WHEELS,
    gap=0.03,
    workings=lambda n: {**{name: (load, "load") for name, load in _wheel_loads(n).items()},
                        **{end: (car_of(n).axle_weight(end), "load") for end in ("front", "rear")},
                        **{f"{end}_transfer": (corner_of(n).axle(end).load_transfer, "load")
                           for end in ("front", "rear")}},
    roads=(by("inside for outside", lambda n: _wheel_loads(n, swapped=True)),
           by("no transfer yet", _nearly_at_rest)))


def _hatch(stream) -> dict:
    """Front-heavy, its front carrying more of the load transfer than its rear."""
    return {**_lifts(stream, "rear"), "a": stream.between(0.95, 1.05, 0.05) * 9.80665,
            "bar_front": stream.between(6e3, 14e3, 1e3), "bar_rear": stream.between(14e3, 26e3, 1e3)}


def _front_carries_most(n) -> bool:
    corner = corner_of(n)
    return _one_wheel_up(n, "rear") and bool(corner.front.load_transfer > 1.1 * corner.rear.load_transfer)


def _hatch_figures(n) -> dict:
    before = corner_of(n)
    return {"front_before": (before.front.load_transfer, "load"),
            "rear_before": (before.rear.load_transfer, "load"),
            "stiffer_rear": (stiffer(n, "rear").rear.load_transfer, "load"),
            "weight": (car_of(n).axle_weight("rear") / 2, "load")}


three_wheels = Open(
    id="three-wheels", lesson=5, aim="Say which bar still works on a car that stands on three wheels.",
    level=3, minutes=8, pools=("exercise", "assessment"),
    text="A front-drive car lifts its inside rear wheel well before the middle of a corner at {a}. The "
         "driver wants less load transfer at the front there and asks for a stiffer rear bar. Is that the "
         "change to make? Give your reason.",
    hint="How much load transfer does the rear have already, and how much can it have at most?",
    process="Compare the rear transfer with half the rear axle's load. Then ask what a stiffer rear bar can "
            "add.",
    worked=("Half the rear axle's load is {weight}; the rear transfer is already {rear_before}.",
            "With a stiffer rear bar it is {stiffer_rear}: no more.",
            "The front has to carry all the rest, {front_before}, whatever the bars are. A lower centre of "
            "gravity, more track or less speed would change it."),
    given={"a": ACCELERATION}, draw=_hatch, sound=_front_carries_most, workings=_hatch_figures,
    rubric=(Criterion(1, "Says no: a stiffer rear bar does nothing more in the middle of this corner."),
            Criterion(2, "Says why: the inside rear wheel is up, the rear transfer is at half the axle's "
                         "load."),
            Criterion(1, "Says where the rest goes: all further roll moment is carried by the front."),
            Criterion(1, "Says what the stiffer bar would change: the wheel would lift sooner, before this "
                         "corner is reached; or names what would help.")),
    samples=(Sample("weak", 1, "No, the rear bar is already stiff enough.",
                    "Right answer, no reason from the loads."),
             Sample("fair", 3, "No. The inside rear is in the air, so it has no load left to move. A stiffer "
                               "bar can not take anything from it.",
                               "Why is there; not where the rest goes."),
             Sample("good", 5, "No. With the inside wheel up the rear has moved half its axle load across "
                               "and that is all "
                               "there is. From there the front takes every bit of extra roll moment, stiff "
                               "rear bar or "
                               "not. A stiffer rear bar would only lift the wheel sooner. Less height or "
                               "more track at "
                               "the front would help.", "All four points.")))

QUESTIONS = (stiffer_front, stiffer_rear, inside_lighter, inside_heavier, rear_up, front_up, four_loads,
             three_wheels)
