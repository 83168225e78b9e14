"""Cars for questions on loads and balance, drawn within what road and track cars have."""

from __future__ import annotations

from functools import lru_cache
from itertools import product
from types import SimpleNamespace

from rollmodel.advice.choosing import choose
from rollmodel.advice.numbers import Reading, readings
from rollmodel.car import Axle, Car, Tyre
from rollmodel.physics.corner import SettledCorner, settled_corner
from rollmodel.physics.stiffness import axle_stiffness_for
from rollmodel.questions.bank import in_time, test_day
from rollmodel.questions.shown import Given
from rollmodel.sheets import training_car

HEIGHT, TRACK, MASS, RATE = Given("length", 5, 0.2), Given("long length"), Given("mass"), Given("rate")
ACCELERATION = Given("lateral acceleration", 0.05, 0.05)

CAR = {"mass": Given("mass", 10, 20), "front_share": Given("share", 1, 1), "cg_height": HEIGHT,
       "track_front": TRACK, "track_rear": TRACK, "roll_centre_front": HEIGHT, "roll_centre_rear": HEIGHT,
       "unsprung_front": MASS, "unsprung_rear": MASS, "wheel_height": HEIGHT,
       "spring_front": RATE, "spring_rear": RATE, "bar_front": RATE, "bar_rear": RATE, "a": ACCELERATION}


def road_car(stream) -> dict:
    """Numbers of a car between a family saloon and a club racer; bar rates with the other wheel held."""
    track = stream.between(1.42, 1.58, 0.01)
    return {"mass": stream.between(950, 1450, 10), "front_share": stream.between(0.46, 0.60, 0.01),
            "cg_height": stream.between(0.430, 0.530, 0.005),
            "track_front": track, "track_rear": round(track - stream.between(0.0, 0.03, 0.01), 3),
            "roll_centre_front": stream.between(0.040, 0.080, 0.005),
            "roll_centre_rear": stream.between(0.090, 0.150, 0.005),
            "unsprung_front": stream.between(70, 100, 1), "unsprung_rear": stream.between(70, 100, 1),
            "wheel_height": stream.between(0.290, 0.320, 0.005),
            "spring_front": stream.between(18e3, 30e3, 1e3), "spring_rear": stream.between(18e3, 30e3, 1e3),
            "bar_front": stream.between(5e3, 14e3, 1e3), "bar_rear": stream.between(2e3, 9e3, 1e3),
            "a": stream.between(0.5, 0.8, 0.05) * 9.80665}


def soft_car(stream) -> dict:
    """A taller car on softer springs, whose lean can be seen in the load transfer."""
    return {**road_car(stream), "cg_height": stream.between(0.54, 0.62, 0.01),
            "spring_front": stream.between(14e3, 18e3, 1e3), "spring_rear": stream.between(14e3, 18e3, 1e3),
            "bar_front": stream.between(2e3, 5e3, 1e3), "bar_rear": stream.between(1e3, 3e3, 1e3),
            "a": stream.between(0.4, 0.6, 0.05) * 9.80665}


def car_of(n: SimpleNamespace, tyre: Tyre | None = None) -> Car:
    """The car with such numbers; wheel rates taken as springs at the wheel, tyres rigid in the vertical."""
    ends = {end: Axle(track=getattr(n, f"track_{end}"), unsprung_mass=getattr(n, f"unsprung_{end}"),
                      unsprung_cg_height=n.wheel_height, roll_centre_height=getattr(n, f"roll_centre_{end}"),
                      spring_rate=getattr(n, f"spring_{end}"), spring_motion_ratio=1.0)
            for end in ("front", "rear")}
    return Car("a car made up for a question", "rear", n.mass, n.front_share, 2.5, n.cg_height,
               tyre or Tyre(), **ends)


def stiffness_of(n: SimpleNamespace, car: Car) -> list:
    """Front and rear stiffness with the bars; in roll each wheel feels twice the rate with one end held."""
    return [axle_stiffness_for(car.axle(end), 2 * getattr(n, f"bar_{end}")) for end in ("front", "rear")]


def corner_of(n: SimpleNamespace, **changes) -> SettledCorner:
    """The settled corner at ``n.a``, with some numbers changed."""
    return _corner(tuple(sorted({**vars(n), **changes}.items())))


@lru_cache(maxsize=64)
def _corner(items: tuple) -> SettledCorner:
    """Worked out once for the few that a question asks about in a row."""
    n = SimpleNamespace(**dict(items))
    car = car_of(n)
    return settled_corner(car, n.a, *stiffness_of(n, car))


@lru_cache(maxsize=32)
def verdict_on(name: str, symptom: str, when: str) -> str:
    """What the advice comes to for a training car as it stands."""
    return choose(training_car(name), symptom, when).verdict


def forget() -> None:
    """Work everything out afresh from here on; for a model that was changed while it ran."""
    _corner.cache_clear()
    setups.cache_clear()
    verdict_on.cache_clear()
    in_time.history.cache_clear()
    test_day.forget()


def keeps_wheels_down(n: SimpleNamespace) -> bool:
    """All four wheels on the ground, the inside ones with load to spare."""
    corner = corner_of(n)
    return all(float(corner.axle(end).inside) > 150.0 for end in ("front", "rear"))


@lru_cache(maxsize=8)
def setups(name: str) -> dict[tuple[int, int], Reading]:
    """What the model says of every pair of holes of a training car, front and rear, in one solve."""
    car = training_car(name)
    pairs = list(product(range(1, car.front.positions + 1), range(1, car.rear.positions + 1)))
    return dict(zip(pairs, readings(car, pairs), strict=True))
