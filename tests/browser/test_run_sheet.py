"""The run sheet comes out of the printer on one page, A4 and US Letter, in the longest case there is."""

import re
from dataclasses import replace

import pytest

from rollmodel.advice import choose
from rollmodel.reports.run_sheet import run_sheet
from rollmodel.sheets import training_car
from rollmodel.testday.plan import MOST_STEPS, Stop, make_plan


def page_of(name, family, **more):
    car = replace(training_car(name), title="A title as long as the page bears " * 20)
    choice = choose(car, "understeer")
    first = choice.first
    after = car.with_holes(
        **({first.end: first.to_hole} if first else {"rear": 2 if name == "gravel" else 1})
    )
    return make_plan(car, after, [], choice=choice if first else None, **more), family


def longest():
    """As many steps as there may be, both inside wheels lifting, words in place of counts."""
    plan, family = page_of("single-seater", "US customary", steering_ratio=12.0)
    steps = (plan.steps * 2)[:MOST_STEPS]
    lift = {"lift": (9.0, "lateral acceleration")}
    stops = (
        plan.stops[0],
        Stop("wheel-lifts", "front", lift),
        Stop("wheel-lifts", "rear", lift),
        *plan.stops[1:],
    )
    return replace(plan, steps=steps, stops=stops, runs=dict.fromkeys(plan.runs, None)), family


CASES = {
    "few steps": lambda: page_of("gravel", "metric"),
    "many steps": lambda: page_of("single-seater", "metric"),
    "a wheel that lifts": lambda: page_of("hatch", "US customary"),
    "longest": longest,
}


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("case", CASES)
def test_one_page(chromium, case, paper):
    page = chromium.new_page()
    page.set_content(run_sheet(*CASES[case]()))
    printed = page.pdf(format=paper)
    wide = page.evaluate("document.documentElement.scrollWidth > document.documentElement.clientWidth")
    page.close()
    assert len(re.findall(rb"/Type\s*/Page\b", printed)) == 1 and not wide
