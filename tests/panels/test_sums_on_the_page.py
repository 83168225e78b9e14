"""Sums and changes that a learner can check on the page add up, to the last digit that is printed."""

import re
from importlib import import_module

import pytest

from rollmodel.figures import car_above, transfer_paths
from rollmodel.figures.adding_up import as_shown, parts_as_shown
from rollmodel.panels.lesson import Lesson
from rollmodel.physics.corner import settled_corner
from rollmodel.sheets import training_car, training_cars
from rollmodel.units import FAMILIES, to_display

EVERY = [(car, family) for car in training_cars() for family in FAMILIES]


def said(number, name, car, family):
    lesson = Lesson(number, car)
    lesson.family = family
    return getattr(import_module(f"rollmodel.panels.lessons.lesson_{number}"), name)(lesson)


def numbers(text):
    found = re.findall(r"(?<![\w.])[-+−]?\d+(?:\.\d+)?", text.replace("*", ""))
    return [float(one.replace("−", "-")) for one in found]


def row(text, words):
    """The cells after the words of one line of a table."""
    line = next(line for line in text.splitlines() if words in line)
    return line.split(words, 1)[1].strip(" |").split(" | ")


@pytest.mark.parametrize("car, family", EVERY)
def test_wheels_of_an_axle(car, family):
    text = said("07", "chain", car, family)
    names = ("moves from the inside to the outside wheel", "inside wheel carries", "outside wheel carries")
    for cells in zip(*(row(text, words) for words in names), strict=True):
        moved, inside, outside = (numbers(cell) for cell in cells)
        # An unchanged load is printed once.
        moved, inside, outside = ([one[0], one[-1]] for one in (moved, inside, outside))
        assert inside[0] + outside[0] == inside[1] + outside[1]
        assert moved[1] - moved[0] == inside[0] - inside[1] == outside[1] - outside[0]
        assert abs((outside[0] - inside[0]) / 2 - moved[0]) <= 0.5  # an odd load has no whole half


@pytest.mark.parametrize("car, family", EVERY)
def test_causes_of_grip_and_limits(car, family):
    for cell in row(said("07", "chain", car, family), "change of the pair's most side force"):
        load, lean, whole = numbers(cell)
        assert load + lean == whole
    for line in said("07", "every_car", car, family).splitlines()[2:]:
        front, rear, gap = (numbers(cell) for cell in line.strip("|").split("|")[2:5])
        for place in (0, -1):
            assert front[place] - rear[place] == pytest.approx(gap[place], abs=1e-9)


@pytest.mark.parametrize("car, family", EVERY)
def test_two_tyres_and_their_pair(car, family):
    text = said("06", "belief", car, family)
    (out_load, out_force, gains), (in_load, in_force, loses), (load, force, loss) = (
        [numbers(cell) for cell in row(text, words)] for words in ("outside tyre |", "inside tyre |", "both |")
    )
    for one, other, both in ((out_load, in_load, load), (out_force, in_force, force), (gains, loses, loss)):
        assert [a + b for a, b in zip(one, other, strict=True)] == both
    for force_, change in ((out_force, gains), (in_force, loses), (force, loss)):
        assert force_[1] - force_[0] == change[0]


@pytest.mark.parametrize("car, family", EVERY)
def test_springs_bars_and_axles(car, family):
    text = said("01", "three_ways", car, family)
    spring, bar = (float(one) for one in re.findall(r"gives ([\d.]+) ", text))
    found = [numbers(cell)[0] for cell in (row(text, words)[0] for words in
                                           ("(heave) |", "other held |", "(roll) |"))]  # fmt: skip
    assert found == pytest.approx([spring, spring + bar, spring + 2 * bar], abs=1e-9)
    text = said("03", "chain", car, family)
    parts = [numbers(cell)[0] for cell in row(text, "roll stiffness |")]
    assert sum(parts) == float(re.search(r"Together (\d+)", text)[1])
    front, rear, both = map(float, re.search(r"front (\d+).*rear (\d+).*together (\d+)",
                                             said("04", "gradient", car, family)).groups())  # fmt: skip
    assert front + rear == both and f" {both:.0f} " in said("04", "stands_up", car, family)
    moved = [row(said("04", "belief", car, family), f"moved {where} |") for where in
             ("at the front", "at the rear")]  # fmt: skip
    whole = row(said("04", "belief", car, family), "moved in all** |")
    for place in (0, 1):
        assert sum(numbers(cells[place])[0] for cells in moved) == numbers(whole[place])[0]


@pytest.mark.parametrize("family", FAMILIES)
def test_changes_are_those_of_the_numbers_beside_them(family):
    for line in said("09", "belief", "coupe", family).splitlines()[2:4]:
        before, after, change = (numbers(cell)[0] for cell in line.strip("|").split("|")[2:5])
        assert after - before == pytest.approx(change, abs=1e-9)


def test_the_picture_prints_the_loads_of_the_table():
    """Rounded so that they add up, and nowhere further than a newton from the load itself."""
    car = training_car("coupe")
    for hundredth in range(5, 100):
        scene = car_above.in_corner(car, 9.80665 * hundredth / 100)
        corner = settled_corner(car, scene.lateral_acceleration)
        for n, end in enumerate(car_above.ENDS):
            axle, shown = corner.axle(end), scene.shown(n, "metric")
            true = (axle.inside, axle.outside, axle.load_transfer)
            assert all(abs(float(a) - b) <= 1.0 for a, b in zip(true, shown, strict=True))


@pytest.mark.parametrize("car, family", EVERY)
def test_the_three_paths_add_up_to_the_load_that_moves(car, family):
    """In the words under lesson 5's picture, at every lateral acceleration; none a whole unit off itself."""
    for hundredth in range(10, 110, 5):
        both = transfer_paths.in_corner(training_car(car), 9.80665 * hundredth / 100)
        text = transfer_paths.describe(both, family)
        for end in transfer_paths.ENDS:
            whole, *parts = numbers(re.search(rf"{end} (-?\d.*?\))", text)[1])
            assert sum(parts) == whole, (hundredth, end)
            true = [to_display(part, "load", family) for part in both.end(end).parts]
            assert all(abs(one - other) < 1.0 for one, other in zip(parts, true, strict=True))


def test_parts_of_a_whole_keep_their_sum_and_are_hardly_touched():
    for parts in ((534.45, 62.4, 50.4), (0.5, 0.5), (-3.3, 10.4, 0.0), (1.0, 2.0, 3.0)):
        shown = parts_as_shown(parts, "load")
        assert sum(shown) == pytest.approx(as_shown(sum(parts), "load"), abs=1e-9)
        assert all(abs(one - other) < 1.0 for one, other in zip(shown, parts, strict=True))
