"""Lesson 5: where the load goes, by three paths, and what happens when a wheel lifts."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from rollmodel.car import GRAVITY
from rollmodel.figures import car_above, transfer_paths
from rollmodel.figures.car_above import CarScene
from rollmodel.figures.transfer_paths import BothEnds
from rollmodel.panels.controls import Slider
from rollmodel.panels.ends import ENDS, bar_controls, barred_end, setup
from rollmodel.panels.lesson import capital
from rollmodel.panels.panel import Panel
from rollmodel.panels.predicting import Prediction
from rollmodel.physics.balance import limits
from rollmodel.physics.corner import lift_acceleration, rollover_acceleration, settled_corner
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.sheets import training_car

MOST = 1.6 * GRAVITY  # no slider goes beyond this lateral acceleration
WORKING = 0.8  # of the car's limit: where sentences are worked out


@lru_cache(maxsize=8)  # every step of a slider asks again, and it takes longer than the step itself
def steepest(car) -> float:
    """The highest lateral acceleration to show: just short of rolling over with any hole in use."""
    holes = [(front or None, rear or None) for front in (range(1, car.front.positions + 1) or [0])
             for rear in (range(1, car.rear.positions + 1) or [0])]
    over = min(float(rollover_acceleration(car, axle_stiffness(car.front, f), axle_stiffness(car.rear, r)))
               for f, r in holes)
    return min(MOST, 0.98 * over)


@dataclass(frozen=True)
class Loads:
    """The same corner from above and by path."""

    above: CarScene
    paths: BothEnds


class LoadsPanel(Panel):
    """A settled corner: four wheel loads, and by which path the load moved."""

    name = "loads"
    title = "The car in a settled corner: four wheel loads, three paths"
    low, high = {"corner": 0.3 * GRAVITY}, {"corner": 1.1 * GRAVITY}

    @property
    def size(self):
        """Room for two pictures: one above the other, or side by side where the type is large."""
        width, height = self.look.size
        return (1.35 * width, 1.12 * height) if self.look.projector else (width, 1.6 * height)

    def controls(self):
        top = steepest(self.car)
        corner = Slider("corner", "Lateral "
                                  "acceleration", "lateral acceleration", 0.0, top, min(0.8 * GRAVITY, top),
                        steps=(0.02, 0.02))
        return [corner, *bar_controls(self.car)]

    def compute(self, values):
        stiff = setup(self.car, values)
        return Loads(car_above.in_corner(self.car, values.corner, *stiff),
                     transfer_paths.in_corner(self.car, values.corner, *stiff, self._room(), True))

    def _room(self):
        """One scale for every position of the slider."""
        return transfer_paths.in_corner(self.car, steepest(self.car)).room

    def draw(self, figure, loads):
        beside, stacked = ((0, 0.1, 0.51, 0.88), (0.51, 0, 0.49, 1)), ((0, 0.46, 1, 0.54), (0, 0, 1, 0.46))
        one, other = map(figure.add_axes, beside if self.look.projector else stacked)
        return {"above": car_above.draw(one, loads.above, self.look, self.family),
                "paths": transfer_paths.draw(other, loads.paths, self.look, self.family)}

    def update(self, artists, loads):
        car_above.update(artists["above"], loads.above)
        transfer_paths.update(artists["paths"], loads.paths)

    def describe(self, loads):
        return (car_above.describe(loads.above, self.family) + " "
                + transfer_paths.describe(loads.paths, self.family))

    def prediction(self):
        end = barred_end(self.car)
        if end is None:
            return None
        last = self.car.axle(end).positions
        return Prediction(
            question=f"The {end} bar goes from its softest place, 1, to its stiffest, {last}. The corner "
                     f"stays the same. "
                     f"What does the load on the inside {end} wheel do?",
            noun=f"load on the inside {end} wheel", kind="load",
            quantity=lambda loads: loads.above.inside[ENDS.index(end)],
            before={end: 1}, after={end: last}, same=10.0)

    def mark(self, artists, guess):
        above = self.compute(self.values).above
        car_above.mark(artists["above"], above, barred_end(self.car) or "front", guess)


def _soft_and_stiff(lesson):
    """The corner with one bar at its softest and at its stiffest, and which end's; None without holes."""
    car, end = lesson.car, barred_end(lesson.car)
    if end is None:
        return None
    at = WORKING * float(limits(car).lower)
    soft, stiff = (settled_corner(one, at, axle_stiffness(one.front), axle_stiffness(one.rear))
                   for one in (car.with_holes(**{end: hole}) for hole in (1, car.axle(end).positions)))
    return end, at, soft, stiff


def whole(lesson) -> str:
    """A bar shares the overturning moment out; it hardly changes the whole."""
    found = _soft_and_stiff(lesson)
    if found is None:
        return f"{capital(lesson.the_car)} has no bar with a second hole: 1 setting, and nothing to compare."
    end, at, soft, stiff = found
    rows = ["| | softest | stiffest |", "|---|---|---|"]
    for n, one in enumerate(ENDS):
        a, b = (lesson.show(car_above.of_corner(corner).shown(n, lesson.family)[2], "load")
                for corner in (soft, stiff))
        rows.append(f"| load moved at the {one} | {a} | {b} |")
    sums = [float(corner.front.roll_moment + corner.rear.roll_moment) for corner in (soft, stiff)]
    rows.append(f"| whole overturning moment | {lesson.show(sums[0], 'moment')} | "
                f"{lesson.show(sums[1], 'moment')} |")
    rolls = [lesson.show(float(corner.roll_angle), "angle") for corner in (soft, stiff)]
    rows.append(f"| body roll | {rolls[0]} | {rolls[1]} |")
    change = 100 * (sums[1] / sums[0] - 1)
    return (f"**{lesson.car.title}, {end} bar softest and stiffest, same corner at "
            f"{lesson.show(at, 'lateral acceleration')}"
            ".**\n\n" + "\n".join(rows) + f"\n\nThe whole changed by {change:+.1f} %, because the body leans "
                                          f"a little less. "
            "What changed is the *share* of each end.")


def inside_wheel(lesson) -> str:
    """The inside wheel at an end made stiffer loses load."""
    found = _soft_and_stiff(lesson)
    if found is None:
        return f"{capital(lesson.the_car)} has 1 setting only, so its inside wheels cannot be compared."
    end, at, soft, stiff = found
    other = "rear" if end == "front" else "front"
    own = [lesson.show(float(corner.axle(end).inside), "load") for corner in (soft, stiff)]
    far = [lesson.show(float(corner.axle(other).inside), "load") for corner in (soft, stiff)]
    up = [where for where, corner in (("softest", soft), ("stiffest", stiff))
          if bool(corner.axle(end).lifted)]
    lifted = f" (off the ground at the {' and '.join(up)})" if up else ""
    return (f"\"A stiffer bar presses the inside wheel onto the road.\" Look at {lesson.the_car} "
            f"in the same corner. With "
            f"the {end} bar "
            f"at its softest its inside {end} wheel carries {own[0]}; at its stiffest {own[1]}{lifted}. "
            f"The inside **{other}** wheel goes from {far[0]} to {far[1]}. The bar takes load off its own "
            f"inside wheel. "
            "The body is flatter, and the wheels of that axle are loaded *less* evenly. These are two "
            "different things.")


def lifted(lesson) -> str:
    """The hatch on three wheels: that end's bar has nothing more to do."""
    car = training_car("hatch")
    lift, limit = (float(x) / GRAVITY for x in (lift_acceleration(car, "rear"), limits(car).lower))
    corner = settled_corner(car, 0.95 * limit * GRAVITY)
    softer = settled_corner(car, 0.95 * limit * GRAVITY, axle_stiffness(car.front),
                            axle_stiffness(car.rear, car.rear.positions))
    before, after = (lesson.show(float(c.front.load_transfer), "load") for c in (corner, softer))
    return (f"**{car.title}.** Its stiff rear bar lifts the inside rear wheel at {lift:.2f} g. It can "
            f"corner at up to {limit:.2f} g. Once it is up, the rear has moved all the load that it can: "
            f"half its weight. Every further bit of the moment goes to the front. At {0.95 * limit:.2f} g "
            f"a rear bar in hole {car.rear.hole} leaves {before} of transfer at the front. In hole "
            f"{car.rear.positions}, the stiffest, {after}. "
            "Once a wheel is up, that end's bar has nothing left to say.")


def take_away(lesson) -> list[str]:
    """At most five lines."""
    car = lesson.car
    at = WORKING * float(limits(car).lower)
    corner = settled_corner(car, at)
    part = float((corner.front.elastic * corner.front.track + corner.rear.elastic * corner.rear.track)
                 / (corner.front.roll_moment + corner.rear.roll_moment))
    return ["Load moves by three paths: springs and bar, links (roll centre), unsprung mass.",
            f"Bars act on the first path alone. On {lesson.the_car} it carries {100 * part:.0f} % of the "
            f"whole.",
            "A bar hardly changes the whole. It decides how the ends **share** it.",
            "An end made stiffer takes more of it: its inside wheel gets lighter, its outside wheel heavier.",
            "With its inside wheel up, an end has nothing more to give. The other end takes the rest."]
