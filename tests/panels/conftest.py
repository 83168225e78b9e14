"""A car of the college for the panels' tests, and a kernel that remembers nothing."""

import pytest

from rollmodel.car import Axle, Bar, Car, Damper, Tyre
from rollmodel.panels import session


def make_car(title="Harrow Lane test car", **changes):
    """A rear-drive car on three-hole bars; invented for the tests."""
    bar = Bar(
        outer_diameter=0.026,
        wall=0.004,
        centre_length=0.95,
        link_motion_ratio=0.62,
        holes=(0.22, 0.20, 0.18),
        hole=2,
    )
    axle = {
        "track": 1.52,
        "unsprung_mass": 84.0,
        "unsprung_cg_height": 0.31,
        "spring_rate": 65e3,
        "spring_motion_ratio": 0.70,
        "tyre_vertical_rate": 230e3,
        "damper": Damper(4500.0, 0.70),
        "bar": bar,
    }
    return Car(
        title,
        "rear",
        1290.0,
        0.52,
        2.48,
        0.47,
        Tyre(grip_scale=1.15),
        front=Axle(roll_centre_height=0.055, **axle | changes),
        rear=Axle(roll_centre_height=0.09, **axle),
    )


@pytest.fixture
def car():
    return make_car()


@pytest.fixture(autouse=True)
def nothing_remembered():
    session.forget_all()
    yield
    session.forget_all()
