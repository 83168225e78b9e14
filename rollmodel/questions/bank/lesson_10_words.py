"""Lesson 10, choosing the change: choices, an order of work, open questions."""

from rollmodel.car import GRAVITY
from rollmodel.questions.bank.cars import setups, verdict_on
from rollmodel.questions.records import Choice, Criterion, Open, Option, Ordering, Sample, wrong
from rollmodel.questions.roads import by

PLAIN = {"understeer": ("coupe", "saloon"), "oversteer": ("single-seater",)}  # cars on which the rule holds
STEPS = {"front softer": (-1, 0), "front stiffer": (1, 0), "rear softer": (0, -1), "rear stiffer": (0, 1)}
ONE_CAR = ("On one of the college's cars the front's share of the load transfer goes from {share_before} to "
           "{share_after}, and the lead of the better end from {lead_before} to {lead_after}.")
CURE = {"understeer": 1, "oversteer": -1}  # sign of the front's gain over the rear that is wanted


def at(pair: tuple, step: str) -> tuple:
    return tuple(hole + move for hole, move in zip(pair, STEPS[step], strict=True))


def gain(n, step: str) -> float:
    """By how much one step closes the gap between the ends, in the sense that the driver wants."""
    return CURE[n.symptom] * (setups(n.car)[at(n.pair, step)].gap - setups(n.car)[n.pair].gap)


def _complaint(symptom: str, free: tuple[str, ...], stuck: tuple[str, ...] = ()):
    """A training car with that symptom, with these steps free and those not."""
    def draw(stream):
        car = stream.pick(PLAIN[symptom])
        pairs = [pair for pair, reading in setups(car).items() if CURE[symptom] * reading.gap < 0
                 and all(at(pair, step) in setups(car) for step in free)
                 and not any(at(pair, step) in setups(car) for step in stuck)]
        return {"car": car, "pair": stream.pick(pairs), "symptom": symptom}
    return draw


def cured_by(n, *steps: str) -> str:
    """The one of these steps that helps, by the model."""
    return max(steps, key=lambda step: gain(n, step))


def _sound(n, right: str, *others: str) -> bool:
    """One step helps by enough to tell, the others do not."""
    return gain(n, right) > 5e-4 * GRAVITY and all(gain(n, step) < 0 for step in others)


def rows(n, step: str) -> dict:
    """Both limits before and after one step, and the front's share."""
    found = {}
    for when, pair in (("before", n.pair), ("after", at(n.pair, step))):
        reading = setups(n.car)[pair]
        found |= {f"front_{when}": (reading.held("front"), "lateral acceleration"),
                  f"rear_{when}": (reading.held("rear"), "lateral acceleration"),
                  f"lead_{when}": (abs(reading.gap), "lateral acceleration"),
                  f"share_{when}": (reading.front_share, "share")}
    return found


cure_understeer = Choice(
    id="class-cure-understeer", twin="class-cure-oversteer", lesson=10,
    aim="Choose a bar change for the middle of a corner.", level=2, minutes=4,
    pools=("class", "recall", "assessment"),
    text="A car on firm springs understeers in the middle of a long corner. All four wheels are on the "
         "ground. There are free holes at both ends. Which change do you try?",
    hint="Which end is short of grip? What would load its tyres more evenly?",
    process="The front is short. Take load transfer off it: softer front or stiffer rear. One end at a time.",
    worked=("The front is short of grip. A stiffer rear bar takes load transfer off the front.",
            ONE_CAR),
    draw=_complaint("understeer", ("rear stiffer", "front stiffer", "rear softer")),
    workings=lambda n: rows(n, "rear stiffer"),
    sound=lambda n: _sound(n, "rear stiffer", "front stiffer", "rear softer"),
    key=lambda n: cured_by(n, "rear stiffer", "front stiffer", "rear softer"),
    options=(Option("rear stiffer", "Rear bar one hole stiffer: the rear takes load transfer off the front."),
             wrong("front stiffer", "Front bar one hole stiffer: the front gets more grip.",
                   "stiff end grips"),
             wrong("rear softer", "Rear bar one hole softer: the rear follows better.", "wrong direction"),
             wrong("both", "Front softer and rear stiffer together: it works twice as well.",
                   "both ends at once")))

cure_oversteer = Choice(
    id="class-cure-oversteer", twin="class-cure-understeer", lesson=10,
    aim="Choose a bar change for the middle of a corner.", level=2, minutes=3, pools=("class",),
    text="Another car on firm springs oversteers in the middle of a long corner. All four wheels are on the "
         "ground. There are free holes at both ends. Which change do you try?",
    hint="Which end is short of grip? What would load its tyres more evenly?",
    process="The rear is short. Take load transfer off it: softer rear or stiffer front. One end at a time.",
    worked=("The rear is short of grip. A softer rear bar loads its tyres more evenly.",
            ONE_CAR),
    draw=_complaint("oversteer", tuple(STEPS)), workings=lambda n: rows(n, "rear softer"),
    sound=lambda n: _sound(n, "rear softer", "front softer", "rear stiffer"),
    key=lambda n: cured_by(n, "rear softer", "front softer", "rear stiffer"),
    options=(Option("rear softer", "Rear bar one hole softer: its tyres are loaded more evenly."),
             wrong("rear stiffer", "Rear bar one hole stiffer: the rear gets more grip.", "stiff end grips"),
             wrong("front softer", "Front bar one hole softer: the front no longer turns in so hard.",
                   "wrong direction"),
             wrong("both", "Rear softer and front stiffer together: it works twice as well.",
                   "both ends at once")))


def _nothing_left(id, twin, text, stuck, right, others, pools, options) -> Choice:
    return Choice(
        id=id, twin=twin, lesson=10, aim="Find the other end's change when one end has no hole left.",
        level=2, minutes=3, pools=pools, text=text,
        hint="Nothing is left at that end. What is the mirror of it at the other end?",
        process="Stiffer at one end does what softer at the other end does: it moves load transfer the same "
                "way.",
        worked=("Nothing is left at that end. The mirror of it: " + right + ".",
                ONE_CAR),
        draw=_complaint("understeer", (right, *others), (stuck,)), workings=lambda n: rows(n, right),
        sound=lambda n: _sound(n, right, *others), key=lambda n: cured_by(n, right, *others), options=options)


full_stiff = _nothing_left(
    "class-full-stiff", "class-full-soft",
    "A car on firm springs understeers in the middle of a corner. Its rear bar is in the stiffest hole "
    "already. What now?", "rear stiffer", "front softer", ("rear softer",), ("class", "recall"),
    (Option("front softer", "Front bar one hole softer."),
     wrong("no hole", "Rear bar one hole stiffer still.", "no hole left"),
     wrong("rear softer", "Rear bar back to soft, and start again.", "wrong direction"),
     wrong("dampers", "Stiffer dampers at the front: they take over from the bar.", "dampers in the middle")))

full_soft = _nothing_left(
    "class-full-soft", "class-full-stiff",
    "A car on firm springs understeers in the middle of a corner. Its front bar is in the softest hole "
    "already. What now?", "front softer", "rear stiffer", ("front stiffer",), ("class",),
    (Option("rear stiffer", "Rear bar one hole stiffer."),
     wrong("no hole", "Front bar one hole softer still.", "no hole left"),
     wrong("front stiffer", "Front bar back to stiff, and start again.", "wrong direction"),
     wrong("dampers", "Softer dampers at the front: they take over from the bar.", "dampers in the middle")))


def _advised(n) -> str:
    verdict = verdict_on(n.car, n.symptom, n.when)
    return {"dampers first": "dampers", "change a bar": "bar"}.get(verdict, verdict)


def _moving(id: str, twin: str, symptom: str, when: str, words: str, pools, cars) -> Choice:
    return Choice(
        id=id, twin=twin, lesson=10, aim="Tell a damper's job from a bar's.", level=2, minutes=3, pools=pools,
        text=f"A car is well balanced in the middle of a corner. {words} What do you look at first?",
        hint="Is the body still moving at that moment, or has it settled?",
        process="While the body rolls, dampers carry part of the load transfer. When it is settled they "
                "carry none.",
        worked=("The body is still moving, so the dampers have their part in the load transfer. A bar change "
                "would upset the middle of the corner, which is good.",),
        draw=lambda stream: {"car": stream.pick(cars), "symptom": symptom, "when": when},
        key=_advised,
        options=(Option("dampers", "The dampers: the body is still moving there."),
                 wrong("bar", "The bars: they set the balance in every part of the corner.", "bar for entry"),
                 wrong("both ends", "Both bars one hole stiffer: the car takes its set sooner.",
                       "both ends at once"),
                 wrong("speed", "Nothing: the driver has to slow down.", "works on a belief")))


entry = _moving("class-entry", "class-exit", "understeer", "entry",
                "It runs wide only while the driver turns in.", ("class", "recall"), ("coupe", "saloon"))
leaving = _moving("class-exit", "class-entry", "oversteer", "exit",
                  "Its tail steps out only while the car comes upright again on the way out, on the throttle "
                  "or off it.", ("class",), ("hatch", "saloon"))

WORK = {"baseline": "Drive it as it is and write down figures.",
        "choose": "Choose one change and write down what it "
        "should do.", "safe": "Support the car, move both links of that bar, torque them to the maker's "
                              "figure.",
        "travel": "Check links and bar for clearance through full travel.",
        "again": "Drive the same corner again, at the same pressures.",
        "compare": "Compare with what was predicted."}

order_of_work = Ordering(
    id="order-of-work", lesson=10, aim="Put the work of one change in order.", level=1, minutes=3,
    pools=("exercise", "assessment"),
    text="Put the work of one bar change in order, from first to last.",
    hint="What must you know before you change anything, and what must be checked before the car moves?",
    process="Measure, think, change, check, measure, compare.",
    worked=("Measure before: without a figure nobody can say what the change did.",
            "Predict, then change one thing at one end, both sides alike. Check before the car moves. "
            "Measure again and compare."),
    items=WORK, values=lambda n: {name: float(place) for place, name in enumerate(WORK, 1)}, gap=0.0,
    # common practice
    roads=(by("measure skipped",
              lambda n: _order("choose", "safe", "travel", "baseline", "again", "compare")),
           by("safety skipped", lambda n: _order("baseline", "choose", "safe", "again", "travel", "compare")),
           by("works on a belief",
              lambda n: _order("baseline", "safe", "travel", "choose", "again", "compare"))))


def _order(*names: str) -> dict[str, float]:
    return {name: float(place) for place, name in enumerate(names, 1)}


which_change = Open(
    id="which-change", lesson=10, aim="Choose a change, give the reason, and say how to know whether it "
                                      "worked.",
    level=3, minutes=10, pools=("exercise", "assessment"),
    text="A driver reports understeer in the middle of a long corner. The model of the car gives a front "
         "limit of {front_before} and a rear limit of {rear_before}. At the rear a stiffer hole is free, at "
         "the front a softer one. Which change do you make, and why? How will you know whether it worked?",
    hint="Name the end that is short. Say what loads its tyres more evenly.",
    process="One change at one end; the road from bar to load to tyre to limit; what to measure before and "
            "after.",
    worked=("Rear one hole stiffer: front {front_after}, rear {rear_after}; the rear's lead goes from "
            "{lead_before} to {lead_after}.",
            "The front's share of the load transfer goes from {share_before} to {share_after}.",
            "Front one hole softer moves the balance the same way, at the price of more roll."),
    draw=_complaint("understeer", ("rear stiffer", "front softer")),
    workings=lambda n: rows(n, "rear stiffer"),
    sound=lambda n: _sound(n, "rear stiffer"),
    rubric=(Criterion(1, "One change at one end, in the right direction: front softer or rear stiffer."),
            Criterion(2, "The reason from loads and tyres: transfer moves from front to rear, the front pair "
                         "is loaded more evenly and gives more."),
            Criterion(1, "Says what it costs or why this end: more roll with a softer front, or less load "
                         "left on the inside rear wheel and less drive with a stiffer rear."),
            Criterion(1, "Says how to know: the same corner or a constant-radius run before and after, steer "
                         "or lateral acceleration measured, nothing else changed."),
            Criterion(1, "Names a caution: support, torque, clearance through full travel, closed course.")),
    samples=(Sample("weak", 1, "Stiffer rear bar because that is what you do for understeer.",
                    "Right direction; a rule in place of a reason."),
             Sample("fair", 4, "Rear one hole stiffer. It takes load transfer from the front so the front "
                               "tyres share their "
                               "load better and grip more. I would do the same corner before and after and "
                               "see if it "
                               "pushes less.", "Direction, reason, a test. No cost and no caution."),
             Sample("good", 6, "Rear one hole stiffer, nothing else. Total transfer stays about the same, "
                               "the rear takes more of it and the front less. The front pair is loaded more "
                               "evenly and gives more, so the limit that comes first goes up. It costs load "
                               "on the inside rear wheel, so I would watch traction. Before and after: "
                               "constant radius, same pressures, steer angle at the same lateral "
                               "acceleration. Car on stands, links torqued, full travel checked first.",
                    "All five points.")))

QUESTIONS = (cure_understeer, cure_oversteer, full_stiff, full_soft, entry, leaving, order_of_work,
             which_change)
