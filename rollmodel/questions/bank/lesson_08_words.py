"""Lesson 8, when in the corner: choices, an order, an open question."""

from rollmodel.questions.bank.in_time import CARS, TIMES, damper_part, moved
from rollmodel.questions.records import Choice, Criterion, Open, Option, Ordering, Sample, wrong
from rollmodel.questions.roads import by

SEEN = 5.0  # N; a change below this is none
CHANGES = {"damper": {"dampers": 0.5}, "bar": {"holes": -1}, "stiffer": {"dampers": 2.0}, "bumps": {}}


def _corner(stream) -> dict:
    return {"car": stream.pick(CARS), "time": stream.pick(TIMES)}


def _whole(value: float) -> float:
    """Size in whole newtons: what is left of the swing after the corner has settled is none."""
    return float(round(abs(value)))


def _cure_on_entry(end: str):
    """The change that takes load off an end on the way in and leaves the middle alone, by the model."""
    def key(n) -> str:
        effects = {name: moved(n.car, n.time, end, **change) for name, change in CHANGES.items()}
        return next(name for name, effect in effects.items()
                    if effect["way in"] < -SEEN and abs(effect["middle"]) < 0.1 * abs(effect["way in"]))
    return key


def _cure_rows(end: str):
    def rows(n) -> dict:
        damper, bar = (moved(n.car, n.time, end, **CHANGES[name]) for name in ("damper", "bar"))
        return {f"{name}_{phase.replace(' ', '_')}": (_whole(effect[phase]), "load")
                for name, effect in (("damper", damper), ("bar", bar)) for phase in ("way in", "middle")}
    return rows


def _entry(id: str, twin: str, end: str, pools, symptom: str) -> Choice:
    return Choice(
        id=id, twin=twin, lesson=8, aim="Choose what to change for a fault on the way in.", level=2,
        minutes=4, pools=pools,
        text="A car is well balanced in the middle of the corner. On the way in, while the body is still "
             f"taking its set, {symptom}. What is changed first?",
        hint="Which parts push only while the body moves? And at which end is there too much load transfer "
             "just then?",
        process="The middle is good: leave what works in the middle. On the way in the dampers carry load "
                "at their own end. Take some of it off the end that slides.",
        worked=(f"On one of the college's cars: {end} dampers half as stiff take {{damper_way_in}} off the "
                f"{end} on the way in, and nothing to speak of in the middle.",
                f"The {end} bar one hole softer takes {{bar_way_in}} off on the way in, but {{bar_middle}} "
                "in the middle, where all was well."),
        draw=_corner, key=_cure_on_entry(end), workings=_cure_rows(end),
        options=(Option("damper", f"Softer {end} dampers in roll."),
                 wrong("bar", f"A softer {end} bar: it takes load transfer off the {end}.", "bar for entry"),
                 wrong("stiffer", f"Stiffer {end} dampers: they hold the {end} up.",
                       "stiffer damper at the sliding end"),
                 wrong("bumps", "No damper and no bar: dampers are for bumps, and the bars are right.",
                       "dampers only for bumps")))


push_on_entry = _entry("class-push-on-entry", "class-loose-on-entry", "front",
                       ("class", "recall", "assessment"), "the front pushes wide")
loose_on_entry = _entry("class-loose-on-entry", "class-push-on-entry", "rear", ("class",),
                        "the rear comes round")


def _direction(phase: str):
    """What stiffer front dampers do to the front's load transfer in a phase, by the model."""
    def key(n) -> str:
        change = moved(n.car, n.time, "front", dampers=2.0)[phase]
        return "same" if abs(change) < SEEN / 5 else "more" if change > 0 else "less"
    return key


def _direction_rows(n) -> dict:
    effect = moved(n.car, n.time, "front", dampers=2.0)
    return {phase.replace(" ", "_"): (_whole(value), "load") for phase, value in effect.items()}


def _stiff_dampers(id, twin, phase, pools, text, options) -> Choice:
    return Choice(
        id=id, twin=twin, lesson=8, aim="Say when dampers carry load transfer, and which way.", level=1,
        minutes=3, pools=pools, text=text,
        hint="Is the body moving at that moment? If so, which way?",
        process="A damper resists movement. Rolling in it adds at its own end, at rest it does nothing, "
                "rolling back it takes away.",
        worked=("On one of the college's cars: {way_in} more at the front on the way in, {middle} in the "
                "middle, {way_out} less on the way out.",),
        draw=_corner, key=_direction(phase), workings=_direction_rows, options=options)


in_the_middle = _stiff_dampers(
    "class-dampers-middle", "class-dampers-way-out", "middle", ("class", "recall"),
    "The front dampers are made twice as stiff; nothing else is changed. What becomes of the front's load "
    "transfer in the middle of a long, steady corner?",
    (Option("same", "It stays: the body is not moving, so the dampers carry nothing."),
     wrong("more", "More: stiffer dampers hold the front up, like a stiffer bar.", "dampers in the middle"),
     wrong("less", "Less: the car rolls less, so less load moves.", "less roll is less transfer")))
on_the_way_out = _stiff_dampers(
    "class-dampers-way-out", "class-dampers-middle", "way out", ("class",),
    "The front dampers are made twice as stiff; nothing else is changed. What becomes of the front's load "
    "transfer while the corner is let go and the body rolls back?",
    (Option("less", "Less than before: rolling back, the dampers push the other way."),
     wrong("more", "More than before, just as on the way in.", "damper keeps its sign"),
     wrong("same", "No change: dampers work on bumps.", "dampers only for bumps")))


def _added_by_dampers(n) -> dict[str, float]:
    return moved(n.car, n.time, "front", dampers=2.0)


def _added_by_bar(n) -> dict[str, float]:
    """A hole stiffer: a hole softer with the other sign, for the car stands on its last one."""
    return {phase: -value for phase, value in moved(n.car, n.time, "front", holes=-1).items()}


def _same_sign_in_and_out(n) -> dict[str, float]:
    """As if dampers added on the way out too; in and out are alike then, in named last."""
    return {phase: abs(value) * (1.01 if phase == "way in" else 1.0)
            for phase, value in _added_by_dampers(n).items()}


three_moments = Ordering(
    id="three-moments", lesson=8, aim="Put the phases of a corner in order of what dampers do in them.",
    level=2, minutes=4, pools=("exercise", "assessment"),
    text="The front dampers of one of the college's cars are made stiffer. Put three moments in order of "
         "what that adds to the front's load transfer, the smallest first. Less than before counts as "
         "smaller than no change.",
    hint="At which moment does the body roll in, stand still, roll back?",
    process="Rolling back the dampers take away, standing still they do nothing, rolling in they add.",
    worked=("Way out: {way_out} taken away.", "Middle: {middle}.", "Way in: {way_in} added."),
    draw=_corner, values=_added_by_dampers, workings=_direction_rows, gap=0.0,
    items={"way in": "on the way in, when the body rolls fastest",
           "middle": "in the settled middle",
           "way out": "on the way out, when the body rolls back fastest"},
    roads=(by("damper keeps its sign", _same_sign_in_and_out), by("dampers in the middle", _added_by_bar)))


def _open_rows(n) -> dict:
    part = damper_part(n.car, n.time, "front")
    return {"dampers_in": (_whole(part["way in"]), "load"),
            "dampers_middle": (_whole(part["middle"]), "load"), **_cure_rows("front")(n)}


entry_only = Open(
    id="entry-only", lesson=8, aim="Choose a change for a fault on the way in, and say why.",
    level=3, minutes=8, pools=("exercise", "assessment"),
    text="The driver of one of the college's cars is happy in the middle of the corner. On the way in the "
         "front pushes wide. By the model the front dampers carry {dampers_in} when the body rolls fastest, "
         "and {dampers_middle} in the middle. Somebody wants to take the front bar one hole softer. Do you "
         "agree? Say what you would change first, and why.",
    hint="What would the softer bar do in the middle?",
    process="Say when each works: the bar by roll angle, the dampers by roll speed. Then choose what leaves "
            "the middle alone.",
    worked=("Front bar one hole softer: {bar_way_in} off the front on the way in, and {bar_middle} in the "
            "middle.",
            "Front dampers half as stiff: {damper_way_in} off on the way in, {damper_middle} in the middle.",
            "So: softer front dampers in roll, a step at a time, then measure."),
    draw=_corner, workings=_open_rows,
    rubric=(Criterion(1, "Chooses softer front dampers (or stiffer rear ones) and not the bar."),
            Criterion(2, "Says why: a bar follows roll angle and works most in the middle; dampers follow "
                         "roll speed and do nothing there."),
            Criterion(1, "Says what it does on the way in: less load transfer at the front, a front pair "
                         "more evenly loaded."),
            Criterion(1, "One change at a time, then measure; or names what it does on the way out.")),
    samples=(Sample("weak", 1, "I would soften the front dampers because it is on entry.",
                    "The right change, no reason from roll angle and speed."),
             Sample("fair", 3, "No. The bar works in the middle, where the car is fine. Softer front "
                               "dampers, since dampers only work while it is rolling.",
                    "Change and reason; no road to the tyres, no test."),
             Sample("good", 5, "No. The bar goes with the roll angle, so a softer one takes most off in the "
                               "middle, which was right. The dampers go with the roll speed and carry "
                               "nothing in the middle. Softer front dampers take load transfer off the front "
                               "while it rolls in, so the front pair is loaded more evenly and gives more. "
                               "One step, then measure, and ask about the "
                               "way out: there it works the other way.", "All four points.")))

QUESTIONS = (push_on_entry, loose_on_entry, in_the_middle, on_the_way_out, three_moments, entry_only)
