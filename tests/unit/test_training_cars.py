"""What each training car is there to show, checked with the model."""

import math

import pytest

from rollmodel import sheets
from rollmodel.car import GRAVITY
from rollmodel.reports.car import car_values, read_car

CARS = sorted(sheets.training_cars())


class TestTrainingCars:
    """What each of them is there to show, checked with the model."""

    def limits(self, name, front=None, rear=None):
        values = car_values(read_car(sheets.training_car(name).with_holes(front, rear), 0.6 * GRAVITY))
        return values["front_limit_g"], values["rear_limit_g"], values

    def test_coupe_understeers_mildly_and_each_hole_moves_its_balance(self):
        front, rear, values = self.limits("coupe")
        assert 0 < rear - front < 0.03 and 0 < values["understeer_gradient_deg_per_g"] < 0.6
        assert values["front"]["holes"] == values["rear"]["holes"] == 3
        for hole, change in ((1, 1), (3, -1)):
            f, r, other = self.limits("coupe", front=hole)
            assert change * ((f - r) - (front - rear)) > 0.002
            step = other["understeer_gradient_deg_per_g"] - values["understeer_gradient_deg_per_g"]
            assert change * step < -0.02
            f, r, _ = self.limits("coupe", rear=hole)
            assert -change * ((f - r) - (front - rear)) > 0.002

    def test_hatch_lifts_its_inside_rear_wheel_within_the_tyres(self):
        *_, values = self.limits("hatch")
        assert values["rear"]["inside_wheel_lifts_at_g"] < values["limit_g"] - 0.05
        assert values["front"]["inside_wheel_lifts_at_g"] is None and values["drive"] == "front"

    def test_gravel_car_gains_front_grip_from_a_stiffer_front(self):
        fronts = [self.limits("gravel", front=hole)[0] for hole in (1, 2, 3)]
        assert fronts[1] - fronts[0] > 0.001 and fronts[2] - fronts[1] > 0.001
        assert self.limits("gravel")[2]["roll_gradient_deg_per_g"] > 5
        coupes = [self.limits("coupe", front=hole)[0] for hole in (1, 2, 3)]
        assert coupes[0] > coupes[1] > coupes[2], "on a car stiff enough the same step costs front grip"

    def test_single_seater_has_blades_at_both_ends_and_is_stiff(self):
        car = sheets.training_car("single-seater")
        assert car.front.bar.blade and car.rear.bar.blade
        assert self.limits("single-seater")[2]["roll_gradient_deg_per_g"] < 1

    def test_saloon_drives_all_wheels_and_rolls_like_a_road_car(self):
        *_, values = self.limits("saloon")
        assert values["drive"] == "all" and 2.5 < values["roll_gradient_deg_per_g"] < 7
        assert values["understeer_gradient_deg_per_g"] > 0

    @pytest.mark.parametrize("name", CARS)
    def test_masses_and_rates_hang_together(self, name):
        """Ride frequency of the sprung mass on its springs, 1 to 4.5 Hz road to race (common practice)."""
        car = sheets.training_car(name)
        for end in ("front", "rear"):
            axle = car.axle(end)
            rate = axle.spring_rate * axle.spring_motion_ratio**2
            assert 1.0 < math.sqrt(2 * rate / car.sprung_mass_at(end)) / (2 * math.pi) < 4.5
