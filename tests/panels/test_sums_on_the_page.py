"""Sums and changes that a learner can check on the page add up, to the last digit that is printed."""

import re
from dataclasses import replace
from importlib import import_module

import numpy as np
import pytest
from scipy.optimize import brentq

from rollmodel.adding_up import as_shown, parts_as_shown
from rollmodel.advice.kept import every_reading, kept_choice
from rollmodel.car import GRAVITY
from rollmodel.figures import before_after, car_above, transfer_paths
from rollmodel.figures.change import limits_of
from rollmodel.panels.ends import barred_end
from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons import lesson_06, lesson_10
from rollmodel.panels.lessons.lesson_05 import LoadsPanel
from rollmodel.panels.lessons.lesson_06 import PairsPanel, SlipPanel
from rollmodel.panels.lessons.lesson_07 import TyresPanel
from rollmodel.physics.balance import limits
from rollmodel.physics.corner import settled_corner
from rollmodel.reports.choice_numbers import rows, shower
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
    tyres = ("outside tyre |", "inside tyre |", "both |")
    (out_load, out_force, gains), (in_load, in_force, loses), (load, force, loss) = (
        [numbers(cell) for cell in row(text, words)] for words in tyres
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
        for beside in (False, True):
            at = 9.80665 * hundredth / 100
            both = transfer_paths.in_corner(training_car(car), at, beside_wheels=beside)
            text = transfer_paths.describe(both, family)
            for end in transfer_paths.ENDS:
                whole, *parts = numbers(re.search(rf"{end} (-?\d.*?\))", text)[1])
                assert sum(parts) == whole, (hundredth, end)
                true = [to_display(part, "load", family) for part in both.end(end).parts]
                assert all(abs(one - other) < 1.0 for one, other in zip(parts, true, strict=True))


@pytest.mark.parametrize("car, family", EVERY)
def test_one_load_transfer_is_one_number_on_lesson_5_s_screen(car, family):
    """From above, by path and in both sentences; the table has the change that its inside wheel has."""
    panel = LoadsPanel(Lesson("05", car))
    for hundredth in range(10, 110, 5):
        at = 9.80665 * hundredth / 100
        above = car_above.in_corner(panel.car, at)
        paths = transfer_paths.in_corner(panel.car, at, beside_wheels=True)
        told = numbers(re.search(r": (.*?) move from", car_above.describe(above, family))[1])
        by_path = transfer_paths.describe(paths, family)
        found = [re.search(rf"{end} (-?\d.*?\()", by_path)[1] for end in transfer_paths.ENDS]
        assert told == [numbers(text)[0] for text in found]
    for n, end in enumerate(transfer_paths.ENDS):
        drawn = (panel._artists["above"]["moved"][n], panel._artists["paths"][f"{end} words"])
        assert len({numbers(text.get_text())[0] for text in drawn}) == 1
    table, inside = (said("05", name, car, family) for name in ("whole", "inside_wheel"))
    ends = re.findall(r"inside \*{0,2}(front|rear)\*{0,2} wheel (?:carries|goes)", inside)
    pairs = re.findall(r"(?:carries|goes from) (\d+) .*?(?:stiffest|to) (\d+) ", inside)
    assert len(ends) == 2
    for end, loads in zip(ends, pairs, strict=True):
        moved = [numbers(cell)[0] for cell in row(table, f"load moved at the {end} |")]
        assert moved[1] - moved[0] == float(loads[0]) - float(loads[1]), end


@pytest.mark.parametrize("car, family", EVERY)
def test_a_pair_s_side_force_is_one_number_in_lesson_6(car, family):
    """In the table, under the picture, in the take-away and where the bar is moved from this very hole."""
    lesson = Lesson("06", training_car(car).with_holes(**{barred_end(training_car(car)): 1}))
    lesson.family = family
    end, panel = barred_end(lesson.car), PairsPanel(lesson)
    table = row(lesson_06.belief(lesson), "| both |")
    (even, most), loss = numbers(table[1]), -numbers(table[2])[0]
    told = panel.describe(panel.compute(panel.values))
    caption = re.search(rf"the {end} pair at .*? loses (.*? of .*?)[,.] ?", told)
    assert numbers(caption[1]) == [loss, even]
    assert numbers(lesson_06.take_away(lesson)[3].split("limit:")[1]) == [loss, even]
    assert numbers(lesson_06.by_the_bar(lesson).split(f"{end.capitalize()} pair:")[1])[0] == most


@pytest.mark.parametrize("car, family", EVERY)
def test_two_tyres_at_one_slip_angle_add_up_in_picture_and_words(car, family):
    lesson = Lesson("06", car)
    lesson.family = family
    panel = SlipPanel(lesson)
    for degrees in np.arange(0.5, 15, 0.5):
        panel.set(slip=float(np.radians(degrees)))
        told = panel.describe(panel.compute(panel.values))
        outside, inside, both = map(float, re.search(
            r"push ([\d.]+) .*? and ([\d.]+) .*?together ([\d.]+) ", told).groups())  # fmt: skip
        assert outside + inside == both, told
        drawn = numbers(panel._artists["sum"].get_text().split(":")[1])
        assert drawn == [outside, inside, both]


@pytest.mark.parametrize("car, family", EVERY)
def test_what_a_car_gains_or_loses_is_the_difference_of_the_two_limits_beside_it(car, family):
    """Under the picture of lesson 7, for each setting of either bar."""
    lesson = Lesson("07", car)
    lesson.family = family
    panel = TyresPanel(lesson)
    for end in ("front", "rear"):
        for hole in range(1, panel.adjustable.axle(end).positions + 1):
            told = panel.describe(panel.compute(panel.start_values(**{end: hole})))
            moved = re.search(r"The car (gains|loses) ([\d.]+) ", told)
            if moved:
                before, after = (float(one) for one in re.findall(r"first, at ([\d.]+) ", told)[:2])
                change = float(moved[2]) * (1 if moved[1] == "gains" else -1)
                assert after - before == pytest.approx(change, abs=1e-9), told


def test_parts_of_a_whole_keep_their_sum_and_are_hardly_touched():
    for parts in ((534.45, 62.4, 50.4), (0.5, 0.5), (-3.3, 10.4, 0.0), (1.0, 2.0, 3.0)):
        shown = parts_as_shown(parts, "load")
        assert sum(shown) == pytest.approx(as_shown(sum(parts), "load"), abs=1e-9)
        assert all(abs(one - other) < 1.0 for one, other in zip(shown, parts, strict=True))


@pytest.mark.parametrize("car, family", EVERY)
def test_limits_and_the_difference_beside_them(car, family):
    """Lesson 10's caption, every pair of holes, coasting and driven: the gain is that of the limits shown."""
    for driven in (False, True):
        every = every_reading(training_car(car), driven)
        fitted = next(iter(every.values()))
        for now in every.values():
            text = before_after.describe(limits_of(fitted, now, every.values()), family)
            held = [float(one) for one in re.findall(r"at ([\d.]+) g", text)]
            if "nothing has changed" in text:
                continue
            found = re.search(r"The car (gains|loses) ([\d.]+) g", text)
            gain = float(found[2]) * (1 if found[1] == "gains" else -1) if found else 0.0
            assert held[1] - held[0] == pytest.approx(gain, abs=1e-9), text
            for front, rear in re.findall(r"\(front ([\d.]+) g and rear ([\d.]+) g\)", text):
                assert front != rear, text


@pytest.mark.parametrize("car", training_cars())
def test_the_gap_of_the_advice_and_of_the_table_is_that_of_the_limits_beside_it(car):
    every = every_reading(training_car(car))
    table = dict(rows())
    for reading in every.values():
        front, rear, gap = (float(table[words](reading)) for words in
                            ("Front limit, g", "Rear limit, g", "Gap: front limit less rear, g"))  # fmt: skip
        assert front - rear == pytest.approx(gap, abs=1e-9)
        tell = shower()
        assert float(tell(reading.rear_and_front, "lateral acceleration gap").split()[0]) == gap
    for symptom in ("understeer", "oversteer"):
        choice = kept_choice(training_car(car), symptom, "middle")
        said = {reason.code: reason.sentence(shower()) for reason in choice.reasons}
        if "drive-turns-it" in said and "drive-and-change" in said:
            front, rear = re.findall(r"front ([\d.]+) g, rear ([\d.]+) g", said["drive-turns-it"])[1]
            gap = re.search(r"\(front less rear\) from ([-+\d.]+) g", said["drive-and-change"])[1]
            assert float(front) - float(rear) == pytest.approx(float(gap), abs=1e-9)


def with_even_ends(gap):
    """The coupe with its weight placed so that the front holds so much more than the rear, coasting, [g]."""

    def off(share):
        held = limits(replace(training_car("coupe"), front_weight_share=share))
        return float(held.gap) / GRAVITY - gap

    return replace(training_car("coupe"), front_weight_share=brentq(off, 0.45, 0.6, xtol=1e-9))


@pytest.mark.parametrize("gap", [0.0004, -0.0007])
def test_two_limits_that_would_print_alike_are_told_to_the_digit_of_their_gap(gap):
    lesson = Lesson("10", with_even_ends(gap))
    front, rear = re.search(r"front can hold ([\d.]+) g, the rear ([\d.]+) g",
                            lesson_10.where_it_stands(lesson)).groups()  # fmt: skip
    assert front != rear and len(front) == len(rear) == len("1.0000")
    assert float(front) - float(rear) == pytest.approx(gap, abs=1.1e-4)
    was = re.search(r"without drive it was the \w+, by ([\d.]+) g|where it was ([\d.]+) g",
                    lesson_10.with_drive(lesson))  # fmt: skip
    assert float(was[1] or was[2]) == pytest.approx(abs(float(front) - float(rear)), abs=1e-9)
    words = lesson_10.ChangePanel(lesson).caption.value
    assert f"(front {front} g and rear {rear} g)" in words


@pytest.mark.parametrize("car", training_cars())
def test_what_the_drive_costs_adds_up_on_the_page(car):
    """Front, rear and gap as the driven verdict prints them, and with an open differential."""
    text = lesson_10.with_drive(Lesson("10", car))
    front, rear = re.search(r"counted the front can hold ([\d.]+) g, the rear ([\d.]+) g", text).groups()
    by = re.search(r"gives up first, by ([\d.]+) g", text)[1]
    assert abs(float(front) - float(rear)) == pytest.approx(float(by), abs=1e-9)
    held = {"front": float(front), "rear": float(rear)}
    alike = text.split("If yours is open, ")[1].split("\n")[0]
    held |= {end: float(one) for end, one in re.findall(r"the (\w+) can hold ([\d.]+) g", alike)}
    by = float(re.search(r"gives up first, by ([\d.]+) g", alike)[1])
    assert abs(held["front"] - held["rear"]) == pytest.approx(by, abs=1e-9)
