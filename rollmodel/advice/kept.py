"""Answers that are asked for again and again while somebody moves a hole back and forth, worked out once."""

from functools import lru_cache
from itertools import product

from rollmodel.advice.choosing import Choice, choose
from rollmodel.advice.numbers import Reading, hole_pair, readings, stiffness_at
from rollmodel.advice.with_drive import Held
from rollmodel.car import Car
from rollmodel.physics.balance import limits


@lru_cache(maxsize=32)
def every_reading(car: Car, driven: bool = False) -> dict[tuple, Reading]:
    """What the model says of every pair of holes, in one solve; the pair in use comes first.

    Keys are (front hole, rear hole), None at an end without a bar. Loads and steer are compared at
    the stated part of the limit of the pair in use.
    """
    ends = [range(1, axle.positions + 1) if axle.positions else (None,) for axle in (car.front, car.rear)]
    fitted = hole_pair(car)
    pairs = [fitted, *(pair for pair in product(*ends) if pair != fitted)]
    return dict(zip(pairs, readings(car, pairs, driven), strict=True))


@lru_cache(maxsize=32)
def every_held_with_open_differential(car: Car) -> dict[tuple, Held]:
    """What each end holds on every pair of holes, both wheels of a driven axle alike; keys as above."""
    pairs = list(every_reading(car))
    found = limits(car, *stiffness_at(car, pairs), driven=True, open_differential=True)
    return {pair: Held.of(found, i) for i, pair in enumerate(pairs)}


@lru_cache(maxsize=512)
def kept_choice(car: Car, symptom: str, when: str) -> Choice:
    """As ``choose`` with the figures that it starts from."""
    return choose(car, symptom, when)
