"""The advice on the page: what comes first, why, what else, and the numbers before and after."""

from __future__ import annotations

from html import escape

from rollmodel.advice import CAUTIONS, Choice, Effect, Reading, Thresholds
from rollmodel.advice.kept import every_held_with_open_differential, every_reading
from rollmodel.car import Car
from rollmodel.reports.choice import change_words, headline
from rollmodel.reports.choice_numbers import rows, shower
from rollmodel.units import show

G = "lateral acceleration"
WHERE = {"entry": "on the way in", "middle": "in the middle", "exit": "on the way out"}


def advice_lines(choice: Choice, family: str) -> list[tuple[str, list[str]]]:
    """Titles, each with its sentences: the advice, why, the second choice, what is left out."""
    tell = shower(family)
    why = [*choice.reasons, *(choice.first.reasons if choice.first else ())]
    parts = [("Why", [reason.sentence(tell) for reason in why])]
    if choice.second:
        parts.append(
            (
                f"Second choice: {change_words(choice.car, choice.second)}",
                [reason.sentence(tell) for reason in choice.second.reasons],
            )
        )
    if choice.left_out:
        parts.append(
            (
                "Left out",
                [
                    f"{left.end.capitalize()} {left.direction}: {left.reason.sentence(tell)}"
                    for left in choice.left_out
                ],
            )
        )
    return [(f"Advice for {choice.symptom} {WHERE[choice.phase]}: {headline(choice)}", []), *parts]


def advice_html(choice: Choice, family: str) -> str:
    """The advice, its headline first and strong."""
    (first, _), *parts = advice_lines(choice, family)
    return f"<strong>{escape(first)}</strong>" + "".join(
        f"<br><em>{escape(title)}</em>{listed(sentences)}" for title, sentences in parts
    )


def advice_plain(choice: Choice, family: str) -> str:
    """The same as text."""
    return "\n".join(
        line
        for title, sentences in advice_lines(choice, family)
        for line in (title, *(f"- {sentence}" for sentence in sentences))
    )


def listed(sentences) -> str:
    """Sentences as a list."""
    return "<ul>" + "".join(f"<li>{escape(sentence)}</li>" for sentence in sentences) + "</ul>"


def cautions() -> str:
    """The cautions that belong to every change on a car."""
    return f"<em>Before you pick up a spanner</em>{listed(CAUTIONS.values())}"


def numbers_html(before: Reading, now: Reading, family: str) -> str:
    """The setup before the change beside the setup now; the wheel loads are in the picture."""
    named = {
        "slope_at": show(before.slope_at, G, family),
        "near": show(before.near, G, family),
    }
    lines = "".join(
        f'<tr><th scope="row">{escape(title.format(**named))}</th><td>{escape(cell(before))}</td>'
        f"<td>{escape(cell(now))}</td></tr>"
        for title, cell in rows(family)
        if " wheel at " not in title
    )
    return f'<table><tr><td></td><th scope="col">before</th><th scope="col">now</th></tr>{lines}</table>'


def drive_costs(car: Car, pair: tuple, family: str) -> str:
    """What the force that holds the speed costs the car on a pair of holes, by how the drive is shared."""
    coasting, driven = (every_reading(car, on)[pair] for on in (False, True))
    alike = every_held_with_open_differential(car)[pair]
    before, after, least = (show(one.limit, G, family) for one in (coasting, driven, alike))
    if "rollover" in (coasting.limit_end, driven.limit_end):
        return f"With the force that holds the speed counted, the car still holds {after}."
    was, now = coasting.limit_end, driven.limit_end
    which = f"the {now} gives up first, " + ("as before" if was == now else f"no longer the {was}")
    falls = (
        f"the car still holds {after}."
        if before == after
        else f"the car's limit falls from {before}, coasting, to {after}: {which}."
    )
    shared = (
        "An open differential takes no more from it."
        if after == least
        else "That is with each driven tyre pushing as its grip allows. If your differential is open, both "
        f"wheels of an axle push alike, and the limit is {least}: the {alike.limit_end} gives up first."
    )
    return f"With the force that holds the speed counted, {falls} {shared}"


def same_way(effect: Effect, end: str, direction: str, family: str) -> str:
    """Whether the model bears out the rule for a change at one end, with both limits and the gap."""
    tell, felt = shower(family), Thresholds().limit_felt
    towards = 1 if (end == "front") == (direction == "softer") else -1
    moved = towards * (effect.after.lead - effect.before.lead)
    verdict = (
        "In numbers it does"
        if moved >= felt
        else "In numbers it hardly moves at all"
        if moved > -felt
        else "In numbers it moves the other way"
    )
    limits = [
        [tell(reading.held(each), f"{G} fine") for reading in (effect.before, effect.after)]
        for each in ("front", "rear")
    ]
    gaps = (tell((one.held("rear"), one.held("front")), f"{G} gap") for one in (effect.before, effect.after))
    both = " Both ends lose." * all(
        effect.after.held(each) < effect.before.held(each) for each in ("front", "rear")
    )
    return (
        f"{verdict}: front limit {' to '.join(limits[0])}, rear limit {' to '.join(limits[1])}; the gap "
        f"(front less rear) goes from {' to '.join(gaps)}.{both}"
    )
