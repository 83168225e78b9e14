"""Lesson 3's panels: motion ratio squared, track squared, tyres in series, each by a closed formula."""

import math

import numpy as np
import pytest

from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons.lesson_03 import ChainPanel, LeverPanel, belief
from rollmodel.sheets import training_car, training_cars
from tests.panels.panel_checks import check_panel

CARS = ("coupe", "saloon", "single-seater")  # plain holes, a swept arm with leaning links, blades
# Track, tyre, spring and both ratios, as on its sheet.
BENCH_FIGURES_OF_THE_COUPE = (1.52, 230e3, 65e3, 0.70, 0.62)


@pytest.mark.parametrize("car", CARS)
@pytest.mark.parametrize("panel", [LeverPanel, ChainPanel])
def test_every_control(panel, car):
    check_panel(panel(Lesson("03", car)), moves_limits=panel is ChainPanel)


def test_ratio_comes_in_once_for_travel_and_once_for_force():
    panel = LeverPanel(Lesson("03"))
    lever = panel.compute(panel.start_values(ratio=0.5, travel=0.040, rate=100e3))
    assert lever.link_travel == pytest.approx(0.020)
    assert lever.link_force == pytest.approx(2000.0)
    assert lever.wheel_force == pytest.approx(1000.0)  # half of the link's force
    assert lever.wheel_rate == pytest.approx(25e3)  # a quarter of the link's rate


def test_energy_agrees():
    """A spring stores the same work whichever end it is looked at from."""
    panel = LeverPanel(Lesson("03"))
    lever = panel.compute(panel.start_values(ratio=0.7, travel=0.025))
    assert lever.rate * lever.link_travel**2 == pytest.approx(lever.wheel_rate * lever.travel**2)


def test_roll_stiffness_by_a_turned_axle():
    """One degree moves each wheel by t/2 times the angle; the moment of both forces is the stiffness."""
    track, tyre, spring, spring_ratio, link_ratio = BENCH_FIGURES_OF_THE_COUPE
    panel = ChainPanel(Lesson("03"))
    stiff = panel.compute(panel.start_values()).stiff
    up = track / 2 * math.radians(1)
    spring_force = spring * spring_ratio * (spring_ratio * up)
    assert spring_force * track == pytest.approx(float(stiff.spring_roll) * math.radians(1))
    bar_force = float(stiff.bar_wheel_rate_in_roll) * up
    both = (spring_force + bar_force) * track / math.radians(1)
    assert both == pytest.approx(float(stiff.suspension_roll))
    on_tyres = 1 / (1 / both + 1 / (tyre * track**2 / 2))
    assert float(stiff.total_roll) == pytest.approx(on_tyres)
    half = panel.compute(panel.start_values(ratio=link_ratio / 2)).stiff
    assert float(half.bar_roll) == pytest.approx(float(stiff.bar_roll) / 4)


def test_track_counts_twice():
    panel = ChainPanel(Lesson("03"))
    own, wider = (panel.compute(panel.start_values(track=t)).stiff for t in (1.50, 1.65))
    assert float(wider.suspension_roll / own.suspension_roll) == pytest.approx(1.21)


@pytest.mark.parametrize("car", training_cars())
@pytest.mark.parametrize("control, row", [("hole", "bar"), ("ratio", "bar"), ("spring", "spring"),
                                          ("track", "suspension")])
def test_what_is_stiffer_reaches_further_though_the_scale_moves(car, control, row):
    """The scale gives way to stiff axles, so lengths are compared; and nothing leaves the scale."""
    panel = ChainPanel(Lesson("03", training_car(car)))
    found = next(one for one in panel.controls() if one.name == control)
    stiff = panel.start_values(ratio=1.0, spring=next(one for one in panel.controls()
                                                      if one.name == "spring").high)
    for around in ({}, vars(stiff)):
        at = range(1, len(found.places) + 1) if control == "hole" else np.linspace(found.low, found.high, 40)
        chains = [panel.compute(panel.start_values(**{**around, control: one})) for one in at]
        reach = np.array([float(getattr(one.stiff, f"{row}_roll")) / one.reach for one in chains])
        whole = np.array([float(one.stiff.suspension_roll) / one.reach for one in chains])
        assert np.all(np.diff(reach) > 0) and np.all(np.diff(whole) > 0) and whole.max() < 1 / 1.19


def test_a_scale_that_has_moved_says_so_and_the_lesson_s_tasks_leave_it():
    panel = ChainPanel(Lesson("03"))
    start, said = panel.start_values(), "the scale now reaches further"
    tasks = ({"track": 1.15 * start.track}, {"ratio": start.ratio / 2}, {"hole": 3, "tyre": 600e3},
             {"spring": 1.6 * start.spring})
    for task in ({}, *tasks):
        panel.reset()
        panel.set(**task)
        assert said not in panel._artists.ax.get_xlabel()
    panel.set(ratio=1.0)
    assert said in panel._artists.ax.get_xlabel()
    panel.lesson.change(projector=True)
    assert said in panel._artists.ax.get_xlabel()
    panel.canvas.figure.draw_without_rendering()
    words, whole = panel._artists.ax.xaxis.label.get_window_extent(), panel.canvas.figure.bbox
    assert words.x0 >= whole.x0 and words.x1 <= whole.x1
    panel.reset()
    assert said not in panel._artists.ax.get_xlabel()


def test_prediction_stands_on_the_scale():
    panel = LeverPanel(Lesson("03"))
    panel.card.direction.value, panel.card.size.value = "It falls", "65 N/mm"
    panel.card.commit()
    line = panel._artists["guess"]
    assert line.get_visible() and line.get_ydata()[0] == pytest.approx(panel.card.guess_value() / 1000)


def test_belief_states_both_answers():
    assert "50.0 N/mm" in belief(Lesson("03")) and "80.7 N/mm" in belief(Lesson("03"))
