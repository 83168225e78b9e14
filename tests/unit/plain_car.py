"""One plain invented car whose two ends differ, for tests that need a particular case."""

from dataclasses import replace

from rollmodel.car import Axle, Bar, Car, Tyre

FRONT = Axle(
    1.52,
    84.0,
    0.31,
    0.055,
    65e3,
    0.70,
    230e3,
    bar=Bar(0.026, 0.95, 0.62, (0.22, 0.20, 0.18), hole=2, wall=0.004),
)
REAR = Axle(
    1.50, 78.0, 0.30, 0.110, 58e3, 0.72, 240e3, bar=Bar(0.020, 0.92, 0.55, (0.24, 0.21, 0.18), hole=2)
)
CAR = Car("invented for the tests", "rear", 1290.0, 0.52, 2.48, 0.47, Tyre(grip_scale=1.15), FRONT, REAR)


def with_ends(car=CAR, front=None, rear=None, **more):
    """The car with some fields of each end changed."""
    return replace(
        car, front=replace(car.front, **(front or {})), rear=replace(car.rear, **(rear or {})), **more
    )
