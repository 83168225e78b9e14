"""The first page's tables: every training car, with the model's figures."""

from rollmodel.advice.kept import every_reading
from rollmodel.advice.numbers import hole_pair
from rollmodel.panels.index import cars_table
from rollmodel.sheets import training_car, training_cars
from rollmodel.units import show


def test_every_car_stands_in_the_table_with_its_limit_and_roll():
    rows = cars_table().splitlines()[2:]
    assert len(rows) == len(training_cars())
    for row, name in zip(rows, training_cars(), strict=True):
        car = training_car(name)
        fitted = every_reading(car)[hole_pair(car)]
        assert f"`{name}`" in row and car.title in row and "Invented" in row
        assert f"{fitted.limit_end}, at {show(fitted.limit, 'lateral acceleration')}" in row
        assert show(fitted.roll_gradient, "roll gradient") in row
