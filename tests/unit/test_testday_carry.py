"""Uncertainty carried to the results: against draws, by hand, and what is to be improved first."""

import numpy as np
import pytest

from rollmodel.car import GRAVITY
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.roll import roll_gradient
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.sheets import training_car, training_cars
from rollmodel.testday.carry import RESULTS, carry
from rollmodel.testday.doubts import Doubt, doubts_of, moved, value_of

CAR = training_car("coupe")


def quick(car):
    """Two results that cost next to nothing to work out."""
    gradient = roll_gradient(car, axle_stiffness(car.front), axle_stiffness(car.rear))
    return {
        "roll gradient": float(gradient),
        "front share": float(settled_corner(car, 0.5 * GRAVITY).front_share),
    }


def test_the_carried_uncertainty_is_that_of_draws():
    doubts, draw = doubts_of(CAR), np.random.default_rng(2)
    found = {one.name: one for one in carry(CAR, doubts, quick)}
    results = []
    for _ in range(500):
        car = CAR
        for doubt in doubts:
            car = moved(car, doubt.name, doubt.standard * draw.normal())
        results.append(list(quick(car).values()))
    for name, column in zip(quick(CAR), np.transpose(results), strict=True):
        assert found[name].uncertainty == pytest.approx(
            2 * column.std(), rel=0.12
        )  # 500 draws: 3 % each way, curves


def test_one_number_alone_by_hand():
    doubt = Doubt("cg_height", CAR.cg_height, 0.02, True)
    one = carry(CAR, [doubt], quick)[0]
    high, low = (quick(moved(CAR, "cg_height", change))["roll gradient"] for change in (0.01, -0.01))
    assert one.uncertainty == pytest.approx(high - low) and one.shares == {"cg_height": pytest.approx(1.0)}
    assert one.first == "cg_height" and one.left_without("cg_height") == pytest.approx(0.0, abs=1e-12)


def test_shares_add_up_and_the_first_is_the_one_whose_better_knowledge_helps_most():
    doubts = doubts_of(CAR)
    for one in carry(CAR, doubts, quick):
        assert sum(one.shares.values()) == pytest.approx(1.0)
        rest = {
            other.name: carry(CAR, [d for d in doubts if d.name != other.name], quick)
            for other in doubts
            if other.name in (one.first, list(one.shares)[1])
        }
        left = {
            name: next(o for o in found if o.name == one.name).uncertainty for name, found in rest.items()
        }
        assert left[one.first] <= min(left.values()) + 1e-15
        assert left[one.first] == pytest.approx(one.left_without(one.first), rel=1e-6)


def test_the_sheets_own_figures_go_before_the_usual_ones():
    usual = {doubt.name: doubt for doubt in doubts_of(CAR)}
    stated = {
        doubt.name: doubt
        for doubt in doubts_of(
            CAR, {"cg_height": 0.005, "front.bar.shear_modulus": 1.586e9, "front.bar.outer_diameter": 1e-4}
        )
    }
    assert (usual["cg_height"].limit, usual["cg_height"].stated) == (0.025, False)
    assert (stated["cg_height"].limit, stated["cg_height"].stated) == (0.005, True)
    assert stated["front.bar.rate"].limit == pytest.approx(0.02) and stated["front.bar.rate"].stated
    assert stated["front.bar.outer_diameter"].limit == 1e-4 and "front.bar.outer_diameter" not in usual


@pytest.mark.parametrize("name", sorted(training_cars()))
def test_every_doubt_of_every_training_car_moves_its_number_alone_and_reads_well(name):
    car = training_car(name)
    for doubt in doubts_of(car, {"front.bar.outer_diameter": 1e-4, "rear.bar.holes": 1e-3}):
        other = moved(car, doubt.name, doubt.standard)
        assert other != car and moved(car, doubt.name, 0.0) == car
        if not doubt.name.endswith("bar.rate"):
            assert value_of(other, doubt.name) - value_of(car, doubt.name) == pytest.approx(doubt.standard)
        assert doubt.limit > 0 and "_" not in doubt.words and "." not in doubt.words


@pytest.mark.parametrize("name", ["hatch", "single-seater"])
def test_a_whole_car_is_carried_to_every_result(name):
    car = training_car(name)
    found = carry(car, doubts_of(car))
    assert [one.name for one in found] == list(RESULTS)
    assert all(0 < one.uncertainty < 2 and one.shares for one in found)
