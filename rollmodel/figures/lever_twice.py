"""Why the motion ratio counts twice: an arm with a link part of the way along and the wheel at its end."""

from __future__ import annotations

from dataclasses import dataclass

from rollmodel.figures import guess, marks
from rollmodel.physics.stiffness import wheel_rate
from rollmodel.units import label, show, to_display


@dataclass(frozen=True)
class Lever:
    """A wheel moved by hand, and the link that moves with it."""

    motion_ratio: float  # link travel over wheel travel
    travel: float  # of the wheel, m
    rate: float  # at the link, N/m
    most_travel: float  # that the picture has room for, m
    most_rate: float  # where the scale of rates ends, N/m

    @property
    def link_travel(self) -> float:
        """Of the link, [m]."""
        return self.motion_ratio * self.travel

    @property
    def link_force(self) -> float:
        """With which the link is pushed back, [N]."""
        return self.rate * self.link_travel

    @property
    def wheel_rate(self) -> float:
        """At the wheel, [N/m]."""
        return float(wheel_rate(self.rate, self.motion_ratio))

    @property
    def wheel_force(self) -> float:
        """What the wheel feels of it, [N]."""
        return self.wheel_rate * self.travel


# Sheet units.
WIDE, PIVOT, REST, LONG = 32.0, -13.0, 7.0, 23.0
WHEEL_WIDE, WHEEL_HIGH, HIGHEST = 2.4, 6.0, 4.4
LINK_TOP, FORCE_LONG = 15.2, 6.0
ROWS = (22.6, 20.6, 18.4)


def draw(figure, lever: Lever, look, family="metric") -> marks.Drawing:
    """Lay out the arm on the left and the scale of rates on the right; both scales stay."""
    drawing = marks.start(figure.add_axes((0, 0, 0.71, 1)), look, family)
    gauge = figure.add_axes((0.71, 0, 0.29, 1))
    marks.frame(gauge, look, left=4.6, right=0.8, bottom=1.6, top=1.4)
    marks.scales(gauge, look, "", f"rate at the wheel ({label('rate', family)})")
    gauge.set(xlim=(0, 1), ylim=(0, to_display(lever.most_rate, "rate", family)), xticks=[])
    gauge.locator_params(axis="y", nbins=6)
    drawing.fixed["gauge"] = gauge
    _add_arm(drawing)
    _add_gauge(drawing, gauge)
    update(drawing, lever)
    return drawing


def _add_arm(drawing):
    ax, look, parts = drawing.ax, drawing.look, drawing.parts
    marks.sheet(ax, WIDE)
    marks.stroke(ax, look, thickness=0.5, linestyle=(0, (4, 3)), x=[PIVOT, PIVOT + LONG], y=[REST, REST],
                 zorder=1, color=marks.GREY)
    marks.dots(ax, look, x=[PIVOT], y=[REST], zorder=4)
    marks.words(ax, look, PIVOT, REST - 1.6, "pivot", small=True)
    parts["wheel"] = marks.face(ax, look, thickness=0.8, zorder=2)
    parts["arm"] = marks.stroke(ax, look, thickness=1.6, zorder=3)
    parts["link"] = marks.stroke(ax, look, "bar", 1.4, linestyle="-", marker="o",
                                 markersize=2.6 * look.line_width, zorder=3.5)
    parts["link travel"] = marks.arrow(ax, look, "bar", zorder=4)
    parts["wheel travel"] = marks.arrow(ax, look, zorder=4)
    parts["link force"] = marks.arrow(ax, look, "bar", 1.6)
    parts["wheel force"] = marks.arrow(ax, look, thickness=1.6)
    parts["link word"] = marks.words(ax, look, y=LINK_TOP + 1.1, text="link, to the bar", role="bar",
                                     small=True)
    parts["guess beyond"] = marks.words(ax, look, WIDE / 2 - 0.2, 1.6, role="guess", small=True, ha="right",
                                        visible=False)
    parts["wheel word"] = marks.words(ax, look, PIVOT + LONG - 2.4, REST - 1.6, "wheel", small=True)
    left = -WIDE / 2 + 0.4
    for name, y in zip(("travel row", "force row", "rate row"), ROWS, strict=True):
        parts[name] = marks.words(ax, look, left, y, ha="left",
                                  fontweight="bold" if name == "rate row" else "normal")


def _add_gauge(drawing, gauge):
    look, parts = drawing.look, drawing.parts
    parts["filled"] = marks.face(gauge, look, marks.tint(look.colours["bar"], 0.35), zorder=2)
    parts["at link"] = marks.stroke(gauge, look, thickness=0.6, zorder=2.5)
    parts["once"] = marks.stroke(gauge, look, thickness=0.6, linestyle=(0, (4, 2)), zorder=2.5)
    parts["guess"] = marks.stroke(gauge, look, "guess", zorder=2.6, visible=False)
    for name, words in (("at link", "at the link"), ("once", "× MR once"), ("twice", "× MR twice")):
        parts[f"{name} word"] = marks.words(gauge, look, 0.5, text=words, small=True)
    parts["guess word"] = marks.words(gauge, look, 0.5, role="guess", text="your guess", small=True,
                                      visible=False)


def update(drawing: marks.Drawing, lever: Lever) -> None:
    """Move arm, arrows and scale to another ratio, travel or rate."""
    up = HIGHEST * lever.travel / lever.most_travel
    end, link = PIVOT + LONG, PIVOT + lever.motion_ratio * LONG
    link_up = lever.motion_ratio * up
    wheel_at = end + WHEEL_WIDE / 2
    drawing["arm"].set_data([PIVOT, end], [REST, REST + up])
    drawing["wheel"].set_xy(marks.box(wheel_at, REST + up, WHEEL_WIDE, WHEEL_HIGH))
    drawing["link"].set_data([link, link], [REST + link_up, LINK_TOP])
    drawing["link word"].set_x(min(link, 8.0))
    marks.point(drawing["link travel"], (link - 0.9, REST), (link - 0.9, REST + link_up), 0.2)
    beside = end + WHEEL_WIDE + 0.9
    marks.point(drawing["wheel travel"], (beside, REST), (beside, REST + up), 0.2)
    _forces(drawing, lever, link, link_up, wheel_at, up)
    _rows(drawing, lever)
    _fill_gauge(drawing, lever)


def _forces(drawing, lever, link, link_up, wheel_at, up):
    """The link is pushed down, and the road pushes the wheel up; one scale for both."""
    long = FORCE_LONG / (lever.most_rate * lever.most_travel)
    high = LINK_TOP - 0.3
    marks.point(drawing["link force"], (link + 0.9, high), (link + 0.9, high - long * lever.link_force), 0.05)
    foot = REST + up - WHEEL_HIGH / 2 - 0.2
    marks.point(drawing["wheel force"], (wheel_at, foot - long * lever.wheel_force), (wheel_at, foot), 0.05)


def _rows(drawing, lever):
    family, ratio = drawing.family, f"{lever.motion_ratio:.2f}"
    travel, link_travel = (show(value, "length", family) for value in (lever.travel, lever.link_travel))
    force, wheel_force = (show(value, "load", family) for value in (lever.link_force, lever.wheel_force))
    rate, at_wheel = (show(value, "rate", family) for value in (lever.rate, lever.wheel_rate))
    drawing["travel row"].set_text(f"travel: {travel} × {ratio} = {link_travel}")
    drawing["force row"].set_text(f"force: {force} × {ratio} = {wheel_force}")
    drawing["rate row"].set_text(f"rate: {rate.split()[0]} × {ratio} × {ratio} = {at_wheel}")


def _fill_gauge(drawing, lever):
    gauge = drawing.fixed["gauge"]
    at_link, once, twice = (to_display(value, "rate", drawing.family)
                            for value in (lever.rate, lever.motion_ratio * lever.rate, lever.wheel_rate))
    drawing["filled"].set_xy(marks.box(0.5, twice / 2, 0.8, twice))
    for name, level in (("at link", at_link), ("once", once)):
        drawing[name].set_data([0.04, 0.96], [level, level])
    step = marks.up(gauge, 0.9 * drawing.look.small)
    drawing.fixed.update({"at link": at_link, "step": step})
    marks.say(drawing["at link word"], "at the link", y=at_link + step)
    marks.say(drawing["once word"], "× MR once", y=once - step,
              visible=bool(min(at_link - once, once - twice) > 0.8 * step and once > 4 * step))
    inside = twice > 2.4 * step
    marks.say(drawing["twice word"], "× MR twice", y=twice - step if inside else twice + step,
              visible=bool(once - twice > 2.2 * step or inside))


def mark(drawing: marks.Drawing, rate: float | None) -> None:
    """Draw a predicted rate at the wheel as a level line on the scale, [N/m]; None hides it."""
    for name in ("guess", "guess word", "guess beyond"):
        drawing[name].set_visible(rate is not None)
    if rate is not None:
        gauge = drawing.fixed["gauge"]
        where = guess.place(to_display(rate, "rate", drawing.family), gauge.get_ylim())
        guess.level(drawing["guess"], where, 0, 1)
        near = abs(where.at - drawing.fixed["at link"]) < 2 * drawing.fixed["step"]
        below = -1 if near else 1  # clear of the other names
        marks.say(drawing["guess word"], guess.PLAIN, y=where.at + below * drawing.fixed["step"],
                  visible=not where.beyond)
        marks.say(drawing["guess beyond"], guess.words(where, rate, "rate", drawing.family),
                  visible=where.beyond)


def describe(lever: Lever, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    travel, link_travel = (show(value, "length", family) for value in (lever.travel, lever.link_travel))
    force, wheel_force = (show(value, "load", family) for value in (lever.link_force, lever.wheel_force))
    rate, at_wheel = (show(value, "rate", family) for value in (lever.rate, lever.wheel_rate))
    once = show(lever.motion_ratio * lever.rate, "rate", family)
    return (f"Motion ratio {lever.motion_ratio:.2f}: the wheel moves {travel} and the link {link_travel}. "
            f"The link is "
            f"pushed with {force}, of which the wheel feels {wheel_force}. So {rate} at the link is "
            f"{at_wheel} at the "
            f"wheel; taking the ratio once would say {once}.")
