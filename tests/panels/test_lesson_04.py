"""Lesson 4's panels: roll by moment balance, gravity's share, and a car that does not stand up."""

import numpy as np
import pytest

from rollmodel.car import GRAVITY
from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons.lesson_04 import BalancePanel, LeanPanel, total_of
from rollmodel.panels.predicting import STAYS
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.roll import least_roll_stiffness
from rollmodel.sheets import training_cars
from tests.panels.panel_checks import check_panel

CARS = ("coupe", "gravel", "single-seater")  # the usual one, and those that roll most and least


@pytest.mark.parametrize("car", CARS)
@pytest.mark.parametrize("panel", [LeanPanel, BalancePanel])
def test_every_control(panel, car):
    check_panel(panel(Lesson("04", car)))


@pytest.mark.parametrize("car", training_cars())
def test_flatter_but_hardly_less_load_moved(car):
    """Every bar stiffest: the body rolls less, and to guess that the load moved stays is right."""
    panel = LeanPanel(Lesson("04", car))
    asked = panel.prediction()
    soft, stiff = (panel.compute(panel.start_values(**at)).numbers for at in (asked.before, asked.after))
    assert stiff.roll < 0.95 * soft.roll
    assert abs(stiff.total / soft.total - 1) < 0.04
    panel.card.direction.value = STAYS
    panel.card.commit()
    panel.set(**asked.after)
    assert "The direction is right" in panel.card.outcome.value


def test_load_moved_balances_the_corner():
    """Statics: track times load moved, summed, is mass x height x acceleration and the leaning weight."""
    panel = LeanPanel(Lesson("04"))
    at = 0.7 * GRAVITY
    moved = panel.compute(panel.start_values(corner=at)).numbers.moved
    car = panel.car
    carried = moved[0] * car.front.track + moved[1] * car.rear.track
    corner = settled_corner(car, at)
    ends = ((car.sprung_mass_at(end), car.axle(end).roll_centre_height, float(corner.axle(end).roll_angle))
            for end in ("front", "rear"))
    leaning = GRAVITY * sum(mass * (car.sprung_cg_height - centre) * roll for mass, centre, roll in ends)
    assert carried == pytest.approx(car.mass * at * car.cg_height + leaning, rel=1e-9)


@pytest.mark.parametrize("car", CARS)
def test_rest_is_where_the_lines_meet(car):
    """Moments at the point drawn: springs and bars against corner and leaning weight."""
    panel = BalancePanel(Lesson("04", car))
    for stiffness in (total_of(panel.car), 0.4 * total_of(panel.car)):
        balance = panel.compute(panel.start_values(stiffness=stiffness))
        tips = balance.side + balance.weight * balance.roll
        # A chassis that twists puts the two a little apart: the roll shown is that at the centre of gravity.
        assert balance.stiffness * balance.roll == pytest.approx(tips, rel=0.03)
        assert balance.stiffness * balance.without == pytest.approx(balance.side, rel=0.03)
        assert balance.roll > balance.without


def test_too_soft_a_car_does_not_stand_up():
    panel = BalancePanel(Lesson("04"))
    least = least_roll_stiffness(panel.car)
    soft, firm = (panel.compute(panel.start_values(stiffness=part * least)) for part in (0.95, 1.2))
    assert not soft.stands and firm.stands
    panel.set(stiffness=0.95 * least)
    assert panel.fault is None and "does not stand up" in panel.caption.value


def test_predicted_angle_stands_on_its_scale():
    panel = BalancePanel(Lesson("04"))
    panel.card.direction.value, panel.card.size.value = "It rises", "2 deg"
    panel.card.commit()
    line = panel._artists["guess"]
    assert line.get_visible() and line.get_xdata()[0] == pytest.approx(np.degrees(panel.card.guess_value()))
