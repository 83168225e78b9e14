"""The boxes of the guided entry, step by step, with what to do at each."""

from __future__ import annotations

from dataclasses import dataclass

from rollmodel.sheets.schema import Field
from rollmodel.testday.readings import TABLES


@dataclass(frozen=True)
class Line:
    """One box: a field of one table of the readings."""

    table: str
    name: str
    words: str

    @property
    def field(self) -> Field:
        """What the box takes."""
        return next(one for one in TABLES[self.table] if one.name == self.name)

    @property
    def key(self) -> str:
        """ "front.spring.wheel"."""
        return f"{self.table}.{self.name}"


@dataclass(frozen=True)
class Step:
    """One job of the day and its boxes."""

    name: str
    title: str
    guide: str
    lines: tuple[Line, ...]

    @property
    def tables(self) -> list[str]:
        """The tables that the boxes fill."""
        return list(dict.fromkeys(line.table for line in self.lines))


def _jacking(end: str, number: int) -> Step:
    lines = [
        Line(f"{end}.{part}", name, words.format(end=end.capitalize(), part=part))
        for part in ("spring", "link")
        for name, words in (
            ("wheel", "{end} wheel height at each step, for the {part}"),
            ("part", "{end} {part}'s travel at the same steps"),
            ("reading", "{end} {part} steps, each reading right to plus or minus"),
        )
    ]
    return Step(
        f"{end} jacking",
        f"{number}. Motion ratios, {end}",
        f"Bar unhooked, damper off, the car on its stands, nobody under it. Jack one {end} wheel in steps "
        "of 10 mm about ride "
        "height. At each step read the wheel's height, the spring's length and the end of the link. Any zero "
        "will do. The slope of the line is the motion ratio; how far the steps lie off it is its scatter. "
        "Hands out of the linkage while the jack moves.",
        tuple(lines),
    )


def _bench() -> Step:
    lines = [
        Line(f"{end}.bar", name, f"{end.capitalize()} bar: {words}")
        for end in ("front", "rear")
        for name, words in (
            ("hole", "hole on the bench, from the softest"),
            ("load", "loads hung on one link"),
            ("deflection", "deflections of that link"),
            ("reading", "each deflection right to plus or minus"),
        )
    ]
    return Step(
        "bench",
        "5. Bar rate on the bench",
        "Bar in its own bushings and links. Hold one link, hang loads on the other, read how far it goes. "
        "That is the rate with one end held; in roll each link feels twice as much.",
        tuple(lines),
    )


STEPS = (
    Step(
        "weights",
        "1. Corner weights",
        "Level floor, driver aboard, half fuel, brakes off, bar unhooked on one side. Roll the "
        "car to and fro, "
        "let it settle, read all four pads. Do that three times: the scatter is part of the answer.",
        (
            *(
                Line("corner_weights", name, f"{name.replace('_', ' ').capitalize()} pad")
                for name in ("front_left", "front_right", "rear_left", "rear_right")
            ),
            Line("corner_weights", "scale", "Each pad right to plus or minus"),
        ),
    ),
    Step(
        "height",
        "2. Height of the centre of gravity",
        "Suspension locked with solid struts, tank full or empty, brakes off. Raise one end on a "
        "level support rated for it, never on a jack, nobody under it. Lay chocks a finger's width from the "
        "wheels that stay "
        "down: they catch the car and do not push. Read both pads there. Little load moves, so the "
        "uncertainty is large.",
        (
            Line("cg_height", "raised", "End that is raised, front or rear"),
            Line("cg_height", "lift", "Lifts of its support"),
            Line("cg_height", "load", "Load at each lift, both pads that stay down"),
            Line("cg_height", "wheelbase", "Wheelbase"),
            Line("cg_height", "front_wheel_radius", "Front wheel radius, loaded"),
            Line("cg_height", "rear_wheel_radius", "Rear wheel radius, loaded"),
            Line("cg_height", "tape", "Each length right to plus or minus"),
            Line("cg_height", "scale", "Each axle load right to plus or minus"),
        ),
    ),
    _jacking("front", 3),
    _jacking("rear", 4),
    _bench(),
    Step(
        "given",
        "6. As given, and what it all means",
        "The roll centres come from a drawing of the pick-up points, the tracks from a tape. Say "
        "how well you "
        "know each, behind a plus-or-minus sign. Then read what all of it means for the car, and what to "
        "measure better first.",
        tuple(
            Line(end, name, f"{end.capitalize()} {words}")
            for end in ("front", "rear")
            for name, words in (("roll_centre_height", "roll centre height"), ("track", "track"))
        ),
    ),
)
LINES = {line.key: line for step in STEPS for line in step.lines}
