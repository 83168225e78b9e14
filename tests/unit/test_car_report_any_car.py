"""Cars drawn over the whole believable range: a report or one message, no negative load, no nan."""

import json
import math
import random
import warnings

import pytest

from rollmodel import sheets
from rollmodel.physics.roll import roll_moments_per_acceleration
from rollmodel.reports.car import RollsOver, car_values, read_car
from rollmodel.reports.car_table import WIDTH, car_table
from rollmodel.sheets.schema import TABLES
from rollmodel.units import FAMILIES, label, to_display
from tests.unit.independent import G, SecondRoad
from tests.unit.test_car_report_two_roads import compare

LEFT_OUT = ("support_spacing", "arm_length", "angle_from", "lever", "peak_grip", "grip_drop_per_kN", "holes",
            "rates")


def drawn(rng, field, family):
    """A value anywhere in a field's range, as text."""
    if field.words:
        return rng.choice(field.words)
    low, high = field.range
    value = math.exp(rng.uniform(math.log(low), math.log(high))) if low > 0 else rng.uniform(low, high)
    if field.kind == "ratio":
        return value
    unit = label(field.kind, family).replace("·", "*").replace("²", "^2")
    return f"{to_display(value, field.kind, family):.9g} {unit}"


def table(rng, key, family):
    return {
        field.name: drawn(rng, field, family)
        for field in TABLES[key]
        if field.kind not in ("text", "whole number")
        and field.name not in LEFT_OUT
        and (field.required or rng.random() < 0.5)
    }


def length(rng, low, high, family):
    return f"{to_display(rng.uniform(low, high), 'length', family):.9g} {label('length', family)}"


def bar(rng, family):
    found, count = table(rng, "bar", family), rng.randint(1, 4)
    found["hole"] = rng.randint(1, count)
    if found["arms"] == "blade":
        found["blade"] = table(rng, "blade", family)
        found["blade"]["angles"] = [
            f"{angle:.6f} deg" for angle in sorted(rng.uniform(0, 90) for _ in range(count))
        ]
    else:
        levers = sorted((rng.uniform(0.05, 0.5) for _ in range(count)), reverse=True)
        found["holes"] = [f"{to_display(a, 'length', family):.9g} {label('length', family)}" for a in levers]
    return found


def any_car(seed):
    """The tables of a car of that seed; it may well be one that is refused."""
    rng = random.Random(seed)
    family = rng.choice(FAMILIES)
    tables = table(rng, "", family)
    tables["tyre"] = {**table(rng, "tyre", family), "curve": "magic formula 1987"}
    tables["tyre"].pop("cornering_stiffness", None)
    if rng.random() < 0.4:
        tables["tyre"] = {
            "curve": "falling grip",
            "peak_grip": rng.uniform(0.5, 3),
            "grip_drop_per_kN": rng.uniform(0, 0.05),
            "cornering_stiffness": "1500 N/deg",
        }
    for end in ("front", "rear"):
        tables[end] = table(rng, "axle", family)
        tables[end]["unsprung_mass"] = f"{rng.uniform(8, 60):.6g} kg"
        tables[end]["bump_travel"] = length(rng, 0.01, 0.3, family)
        if rng.random() < 0.7:
            tables[end]["bar"] = bar(rng, family)
    return tables, rng.choice((0.1, 0.3, 0.6, 1.0)) * G, rng.random() < 0.3, family


def car_of(seed):
    """A car, or None where the sheet is refused."""
    try:
        return sheets.from_values(any_car(seed)[0])
    except sheets.SheetError:
        return None


@pytest.mark.parametrize("first", range(0, 240, 40))
def test_any_car_gives_a_report_or_one_message(first):
    reported = 0
    for seed in range(first, first + 40):
        _, a, driven, family = any_car(seed)
        car = car_of(seed)
        if car is None:
            continue
        with warnings.catch_warnings():
            warnings.simplefilter("error")  # a warning of numpy would reach the user's screen
            try:
                reading = read_car(car, a, driven)
            except RollsOver:
                continue
            text = car_table(reading, family)
        values = json.loads(json.dumps(car_values(reading), allow_nan=False))
        assert all(values[end]["inside_wheel_load_N"] >= 0 for end in ("front", "rear"))
        assert max(map(len, text.splitlines())) <= WIDTH
        reported += 1
    assert reported >= 5, "the draw has become too wild to test anything"


def compared(seed):
    """Whether the car of a seed is one for the second road; if so, the two agree or this fails."""
    tables, a, _, _ = any_car(seed)
    car = car_of(seed)
    if car is None or min(roll_moments_per_acceleration(car)) <= 0:
        return False  # refused, or a body that leans into the corner, which the second road does not follow
    try:
        reading = read_car(car, a)
    except RollsOver:
        assert SecondRoad(tables).angles(a) is None
        return False
    theirs = SecondRoad(tables).report(a)
    theirs.pop("roll_gradient_deg_per_g")  # taken there from a roll in which a stop may be met already
    compare(car_values(reading), theirs)
    return True


@pytest.mark.parametrize("first", range(1000, 1012, 6))
def test_any_car_by_the_second_road(first):
    """Few, for the second road is slow; more were drawn when it was written."""
    assert sum(compared(seed) for seed in range(first, first + 6)) >= 3
