"""Lesson 11: did it work, in sentences with the lesson's own car. Each panel has its own file."""

from rollmodel.advice import CAUTIONS, hole_pair
from rollmodel.advice.kept import every_reading
from rollmodel.panels.lesson import capital
from rollmodel.panels.lessons.lesson_11_learn import LearnPanel, LogPanel
from rollmodel.panels.lessons.lesson_11_links import LinksPanel
from rollmodel.panels.lessons.lesson_11_measure import MeasurePanel
from rollmodel.panels.lessons.lesson_11_plan import PlanPanel
from rollmodel.panels.lessons.lesson_11_runs import RunsPanel
from rollmodel.panels.test_day import move_of, tested, tested_known, tested_title
from rollmodel.physics.balance import limits
from rollmodel.reports.run_sheet import change_between
from rollmodel.reports.runs import number, pair
from rollmodel.testday.compare import NOT_RESOLVED, OPPOSITE, SEEN
from rollmodel.testday.lap import SCATTER as LAP_SCATTER
from rollmodel.testday.lap import chance_of_quicker, circle_time
from rollmodel.testday.links import diagonal_gain
from rollmodel.testday.plan import SCATTER, clearer
from rollmodel.testday.power import WANTED, chance_of_seeing, runs_needed, smallest_change
from rollmodel.testday.run_file import radius_text
from rollmodel.testday.trial import RADIUS, day_plan, expected_of
from rollmodel.testday.wishes import made
from rollmodel.units import label, show

__all__ = [
    "LearnPanel",
    "LinksPanel",
    "LogPanel",
    "MeasurePanel",
    "PlanPanel",
    "RunsPanel",
    "belief",
    "cautions",
    "nil_preload",
    "runs_and_change",
    "take_away",
    "three_words",
    "what_should_be_seen",
]
ROLL, STEER = "roll gradient", "understeer gradient"
COUNTS = (2, 3, 4, 6, 8)  # runs each way round in the table
ONE_MM, FINEST = 0.001, 0.01  # m; s, the finest that a stopwatch shows


def _after(lesson):
    return made(tested(lesson), *move_of(lesson))


def _expected(lesson, quantity):
    """What the sheet says of one gradient before and after."""
    return expected_of(tested(lesson), _after(lesson), tested_known(lesson).doubts)[quantity]


def _clearer(lesson):
    """The gradient whose change stands out more, its change and one run's scatter."""
    asked = clearer(expected_of(tested(lesson), _after(lesson), tested_known(lesson).doubts))
    return asked, _expected(lesson, asked).change, SCATTER[asked]


def _per_cent(chance: float) -> str:
    return "over 99%" if chance > 0.99 else f"{chance:.0%}"


def _unit(value: float, quantity: str, sign: bool = False) -> str:
    return f"{number(value, quantity, sign)} {label(quantity)}"


def what_should_be_seen(lesson) -> str:
    """The change, what it should do to both gradients, and how well the sheet knows that."""
    rows = []
    for quantity in (ROLL, STEER):
        one = _expected(lesson, quantity)
        rows.append(
            f"| {quantity}, {label(quantity)} | {pair(one.before, one.uncertainty, quantity)} "
            f"| {pair(one.after, one.uncertainty, quantity)} "
            f"| {pair(one.change, one.uncertainty_of_change, quantity, True)} |"
        )
    return "\n".join(
        [
            f"**{change_between(tested(lesson), _after(lesson))}** By the sheet of {tested_title(lesson)}:",
            "",
            "| | before | after | change |",
            "|:--|--:|--:|--:|",
            *rows,
            "",
            _what_drops_out(lesson),
            "",
            _two_slopes(lesson),
        ]
    )


def _what_drops_out(lesson) -> str:
    """Why a change has a smaller plus-or-minus than the gradients that it comes from."""
    one = _expected(lesson, ROLL)
    gradient, change = (
        abs(doubt / size)
        for doubt, size in ((one.uncertainty, one.before), (one.uncertainty_of_change, one.change))
    )
    return (
        f"Look at the numbers behind the signs. The {ROLL} itself may be off by "
        f"{_unit(one.uncertainty, ROLL)}, its **change** by only {_unit(one.uncertainty_of_change, ROLL)}: "
        "what the sheet does not know is mostly the same before and after, and drops out. A change is small, "
        f"though. Of itself, the gradient is known to {gradient:.0%} and the change to {change:.0%}. "
        "(Changes are worked out before rounding; the last digit may differ by one.)"
    )


def _two_slopes(lesson) -> str:
    """Why the understeer gradient at 0.3 g, of part 1, is not the slope of the runs."""
    near = every_reading(tested(lesson))[hole_pair(tested(lesson))].gradient
    over, plan = _expected(lesson, STEER).before, day_plan(tested(lesson), _after(lesson))
    low, high = (show(end, "lateral acceleration", decimals=2) for end in (plan.lowest, plan.highest))
    return (
        f"Why is the {STEER} of part 1 another number? The steer's curve **bends**. At 0.3 g this sheet's "
        f"slope is {_unit(near, STEER)}. Over all that is driven, {low} to {high}, a straight line through "
        f"the same curve has {_unit(over, STEER)}. Both are right. The runs below measure the second, with "
        "an interval."
    )


def runs_and_change(lesson) -> str:
    """The smallest change that so many runs show, beside the change that is looked for."""
    asked, change, scatter = _clearer(lesson)
    rows = [
        f"| {count} | {_unit(smallest_change(scatter, count), asked)} "
        f"| {_per_cent(chance_of_seeing(change, scatter, count))} |"
        for count in COUNTS
    ]
    needed = runs_needed(change, scatter)
    enough = (
        f"{needed} runs each way are enough for {WANTED:.0%}."
        if needed
        else "No number of runs that anybody drives in a day is enough: look for a larger change."
    )
    return "\n".join(
        [
            f"The change of the {asked} that is looked for: **{_unit(change, asked, True)}**. One "
            f"run's slope scatters by about {_unit(scatter, asked)} (a starting figure of our own).",
            "",
            f"| runs each way, before and again after | smallest change seen {WANTED:.0%} of the time "
            "| chance of seeing this one |",
            "|--:|--:|--:|",
            *rows,
            "",
            enough,
        ]
    )


def nil_preload(lesson) -> str:
    """How nil preload is found, and what one millimetre does to the diagonal of this car."""
    ends = [end for end in ("front", "rear") if tested(lesson).axle(end).bar]
    told = " and ".join(
        f"{show(abs(diagonal_gain(tested(lesson), end, ONE_MM)), 'mass', lesson.family, 1)} at the {end}"
        for end in ends
    )
    return "\n".join(
        [
            f"On {tested_title(lesson)} a link that is {lesson.show(ONE_MM, 'length')} off moves the "
            f"diagonal by {told}.",
            "",
            "1. Driver aboard, fuel as it will be run, tyres at pressure, level pads. Roll the "
            "car to and fro; let it "
            "settle.",
            "2. Unhook one link: driver out while the bolt is drawn, the link reached from outside, from a "
            "pit or on a rated lift. **Nobody goes under a car on pads.** Driver in again, settle it, read "
            "all four pads. This is the car without the bar.",
            "3. Turn the link until its bolt goes in **by hand**. Hook it up.",
            "4. Read again. Front left and rear right together must show what they showed before. If not, "
            "divide the difference by the figure above: by so many times "
            f"{lesson.show(ONE_MM, 'length')} the link is still off.",
        ]
    )


def three_words(lesson) -> str:
    """What each verdict says, and what to do then."""
    few, many = COUNTS[1], COUNTS[-1]
    asked, change, scatter = _clearer(lesson)
    chances = [_per_cent(chance_of_seeing(change, scatter, count)) for count in (few, many)]
    return "\n".join(
        [
            f"- **{SEEN.capitalize()}.** The interval of the change leaves out zero, on the predicted side.",
            f"- **{NOT_RESOLVED.capitalize()}.** The interval holds zero. That is no proof that "
            "nothing changed. With "
            f"{few} runs each way the change of the {asked} is seen {chances[0]} of the time, with "
            f"{many} runs {chances[1]}.",
            f"- **{OPPOSITE.capitalize()}.** The interval lies on the other side of zero. Suspect "
            "the files, the hole, "
            "the end of the car, the tyres, in that order; then the sheet.",
        ]
    )


def belief(lesson) -> str:
    """A quicker lap against steady runs, in chances."""
    before, later = (
        circle_time(float(limits(car, driven=True).lower), RADIUS) for car in (tested(lesson), _after(lesson))
    )
    rows = [
        f"| {words} | {100 * chance_of_quicker(gain):.0f} |"
        for words, gain in (("nothing at all", 0.0), *_worth(before - later))
    ]
    asked, change, scatter = _clearer(lesson)
    needed = runs_needed(change, scatter)
    runs = needed or COUNTS[-1]
    return "\n".join(
        [
            f"Take one lap of the circle, radius {radius_text(RADIUS, lesson.family)}, at the "
            "limit, with the drive that holds the speed. By the model "
            f"{tested_title(lesson)} needs {_seconds(before)} before the change and "
            f"{_seconds(later)} after it. A "
            f"driver's laps scatter by about {show(LAP_SCATTER, 'time', decimals=1)} (a starting "
            "figure of our own). "
            "Now drive one lap before and one after:",
            "",
            "| what the change really does | days of 100 on which the lap after is quicker |",
            "|:--|--:|",
            *rows,
            "",
            f"A change that does **nothing** comes out quicker on half of the days. {runs} steady runs "
            f"each way show the change of the {asked} "
            f"{_per_cent(chance_of_seeing(change, scatter, runs))} of the time"
            + (
                ", and say how large it is."
                if needed
                else ": too small a change for one day. But the interval then says so. A lap time never does."
            ),
        ]
    )


def _worth(gain: float):
    """What the model says of the lap, and the opposite, in words and in seconds."""
    if abs(gain) < FINEST:
        return [(f"what the model says: less than {_seconds(FINEST)} either way", gain)]
    words = ("quicker", "slower") if gain > 0 else ("slower", "quicker")
    return [
        (f"what the model says: {_seconds(abs(gain))} {words[0]}", gain),
        (f"the opposite: {_seconds(abs(gain))} {words[1]}", -gain),
    ]


def _seconds(time: float) -> str:
    return show(time, "time", decimals=2)


def cautions(lesson) -> str:
    """Before the car is raised, unhooked or driven."""
    more = (
        "A car on scales with one end raised can roll away. Chock the wheels. Use a support rated for it, "
        "never a jack. Nobody is under the car or in line with it.",
        "A link under preload jumps when its bolt comes out. Take the load off first; keep "
        "fingers out of the eye.",
        "On the circle the driver may stop for any reason or none. Nobody stands on the circle or outside "
        "it, where a sliding car goes.",
    )
    return "\n".join(
        [
            f"**{len(CAUTIONS) + len(more)} cautions before you pick up a spanner or drive**",
            "",
            *(f"- {sentence}" for sentence in (*CAUTIONS.values(), *more)),
        ]
    )


def take_away(lesson) -> list[str]:
    """At most five lines."""
    asked, change, scatter = _clearer(lesson)
    needed = runs_needed(change, scatter)
    count = f"{needed} runs each way" if needed else "more runs than anybody drives in a day"
    return [
        "A reading without its plus-or-minus is half a reading. Measure first what brings most of the doubt.",
        "Set the links for nil preload on the pads: only the diagonal shows a wrong link.",
        f"Write down what you expect before you drive. {capital(tested_title(lesson))}, "
        f"first choice: {asked} "
        f"{_unit(change, asked, True)}, which takes {count} to show.",
        "Read the difference with its interval: seen, not resolved, or opposite. Not resolved is "
        "not nothing.",
        "A quicker lap proves nothing, and runs teach only what they can tell apart. Keep a log.",
    ]
