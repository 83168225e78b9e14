"""The run sheet: one page of HTML to print and take to the test day. Nothing in it comes from outside."""

from __future__ import annotations

from jinja2 import Environment, PackageLoader, StrictUndefined

from rollmodel.advice import CAUTIONS
from rollmodel.car import Car
from rollmodel.reports.choice import place
from rollmodel.reports.choice_numbers import shower
from rollmodel.testday.plan import HOLD, STEP, RunPlan, Stop
from rollmodel.testday.power import MOST_RUNS, WANTED
from rollmodel.testday.run_file import radius_text
from rollmodel.units import label, show, to_display

LONGEST_TITLE = 90  # characters; a longer one would need a second page
_GRADIENTS = ("roll gradient", "understeer gradient")
STOPS = {
    "top-step": (
        "{top} is reached: eight tenths of what the sheet lets this car hold with drive, before or after, "
        "rounded down to a step."
    ),
    "wheel-lifts": (
        "By the sheet the inside {end} wheel lifts at {lift}. If it lifts sooner, stop and check the sheet."
    ),
    "roll-off": (
        "Roll, as the mean of left and right, off this page by more than {off} and {floor}: find out why "
        "before going on. One way alone holds the sensor's zero."
    ),
    "tail": "The car wants less steer as speed rises and the tail moves: that was the last step.",
    "driver": "The driver is uneasy, for any reason or none. No reason is asked for.",
    "car": "A smell, a noise, a leak, a light, a loose part, tyres hotter than their maker allows.",
    "course": "Anybody on the course, or beside it where a sliding car goes; rain, a change of wind, oil or "
              "gravel on the circle.",
}


def run_sheet(plan: RunPlan, family: str = "metric") -> str:
    """The page as HTML, whole in itself.

    Parameters
    ----------
    plan : RunPlan
    family : str
        One of ``units.FAMILIES``.

    Notes
    -----
    Text from the sheet is escaped. No script, no picture, no font, no address.
    """
    page = Environment(
        loader=PackageLoader("rollmodel", "reports"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    ).get_template("run_sheet.html")
    return page.render(**sheet_values(plan, family))


def sheet_values(plan: RunPlan, family: str = "metric") -> dict:
    """All that stands on the page, as text."""
    return {
        "title": shortened(plan.before.title),
        "paper": "A4" if family == "metric" else "letter",
        "baseline": ", ".join(_fitted(plan.before, end) for end in ("front", "rear")),
        "change": change(plan),
        "why": _why(plan, family),
        "radius": radius_text(plan.radius, family),
        "speed_unit": label("speed", family),
        "steer_where": "road wheel" if plan.steering_ratio is None else "steering wheel",
        "steps": [_step(step, plan, family) for step in plan.steps],
        "seen": seen(plan),
        "runs": runs_sentence(plan),
        "scatter": scatter_sentence(plan),
        "repetitions": plan.runs_each_way,
        "method": method(plan),
        "stops": [stop_sentence(stop, family) for stop in plan.stops],
        "note_lines": _note_lines(plan),
        "cautions": list(CAUTIONS.values()),
    }


def _note_lines(plan: RunPlan) -> int:
    """Lines for notes: what the steps and the stop rules leave of a page."""
    lifts = sum(stop.code == "wheel-lifts" for stop in plan.stops)
    return 1 if len(plan.steps) > 16 or lifts else 3


def shortened(title: str) -> str:
    """A title in one line."""
    line = " ".join(title.split())
    return line if len(line) <= LONGEST_TITLE else line[: LONGEST_TITLE - 1].rstrip() + "…"


def _fitted(car: Car, end: str) -> str:
    axle = car.axle(end)
    if axle.bar is None:
        return f"no {end} bar"
    return f"{end} {place(car, end, axle.hole)} of {axle.positions}"


def change(plan: RunPlan) -> str:
    """The change in words, ``Rear bar stiffer: hole 2 to hole 3.``"""
    return change_between(plan.before, plan.after)


def change_between(before: Car, after: Car) -> str:
    """What differs between a car and the same after one change of hole."""
    end = next(end for end in ("front", "rear") if before.axle(end).hole != after.axle(end).hole)
    old, new = before.axle(end).hole, after.axle(end).hole
    direction = "stiffer" if new > old else "softer"
    return f"{end.capitalize()} bar {direction}: {place(before, end, old)} to {place(before, end, new)}."


def _why(plan: RunPlan, family: str) -> str:
    if plan.choice is None:
        return "Chosen by hand."
    first = plan.choice.reasons[0].sentence(shower(family))
    return f"For {plan.choice.symptom} in the middle of the corner. {first}"


def _step(step, plan: RunPlan, family: str) -> dict:
    ratio = plan.steering_ratio or 1.0
    places = 2 if plan.steering_ratio is None else 1
    return {
        "accel": f"{to_display(step.lateral_acceleration, 'lateral acceleration'):.2f}",
        "speed": f"{to_display(step.speed, 'speed', family):.1f}",
        "roll": [f"{to_display(roll, 'angle'):.2f}" for roll in step.roll],
        "steer": [f"{to_display(ratio * steer, 'angle'):.{places}f}" for steer in step.steer],
    }


def seen(plan: RunPlan) -> list[dict]:
    """What should be seen: each quantity before, after, and its change with its uncertainty."""
    top = show(plan.steps[-1].lateral_acceleration, "lateral acceleration", decimals=2)
    rows = [
        ("Roll gradient", "roll gradient", "roll gradient", 1.0, 3),
        ("Understeer gradient", "understeer gradient", "understeer gradient", 1.0, 3),
        (f"Roll at {top}", "roll", "angle", 1.0, 2),
        (
            f"Steer at {top}, beyond what the circle asks for",
            "steer",
            "angle",
            plan.steering_ratio or 1.0,
            2 if plan.steering_ratio is None else 1,
        ),
    ]
    return [
        _seen(words, plan.expected[name], kind, factor, places)
        for words, name, kind, factor, places in rows
        if name in plan.expected
    ]


def _seen(words: str, one, kind: str, factor: float, places: int) -> dict:
    def number(value, sign=""):
        return f"{factor * to_display(value, kind):{sign}.{places}f}"

    return {
        "words": words,
        "unit": label(kind),
        "before": number(one.before),
        "after": number(one.after),
        "known": number(one.uncertainty),
        "change": " ± ".join((number(one.change, "+"), number(one.uncertainty_of_change))),
    }


def runs_sentence(plan: RunPlan) -> str:
    """How many runs show what."""
    counts = {quantity: plan.runs.get(quantity) for quantity in _GRADIENTS}
    told = (
        f"{quantity}: {f'{count} runs' if count else f'not even {MOST_RUNS} runs'}"
        for quantity, count in counts.items()
    )
    return (
        f"Runs each way round, before and again after, that show the change {WANTED:.0%} of the time: "
        f"{'; '.join(told)}."
    )


def scatter_sentence(plan: RunPlan) -> str:
    """What the count of runs rests on."""
    told = " and ".join(f"{to_display(plan.scatter[quantity], quantity):.3f}" for quantity in _GRADIENTS)
    return (
        f"Counted for a scatter of one run's slope of {told} {label('roll gradient')} (roll, understeer). "
        "Your own scatter stands in the report of your runs."
    )


def method(plan: RunPlan) -> str:
    """How each run is driven."""
    apart = plan.steps[1].lateral_acceleration - plan.steps[0].lateral_acceleration
    wide = f"; this page has no room for the steps of {STEP} m/s² that the standard asks for" * (
        apart > 1.01 * STEP
    )
    return (
        f"Constant radius after ISO 4138: hold each speed steady for {HOLD:g} s or more (check it in the "
        f"standard), from the lowest to the highest{wide}. Left and right in turn. Same driver, fuel, "
        "tyres and pressures."
    )


def stop_sentence(stop: Stop, family: str = "metric") -> str:
    """One reason to stop, in a sentence."""
    numbers = {
        name: show(
            value, kind, family, 0 if kind == "share" else 2 if kind == "lateral acceleration" else None
        )
        for name, (value, kind) in stop.numbers.items()
    }
    return STOPS[stop.code].format(end=stop.end, **numbers)
