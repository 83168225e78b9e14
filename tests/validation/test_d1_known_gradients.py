"""Known gradients recovered from simulated constant-radius runs

ISO 4138 (Passenger cars - Steady-state circular driving behaviour - Open-loop test methods), constant
radius: steps of lateral acceleration of at most 0.5 m/s^2, both ways round, at least three repetitions. That
each step is held for about 3 s is from memory. The standard gives the method; none of its figures is checked.

Computed by a second route: rows are simulated with noise from gradients that are known, and go through the
same search for steady stretches and the same fits as a file. A 95 % interval must hold the true figure in 95
of 100 draws, neither fewer (too sure) nor many more (too timid). The draws are the same at every run. The
means are put in and got back.
"""

import functools

from rollmodel.testday.compare import compare
from rollmodel.testday.gradients import gradient
from tests.unit.testday_cases import DEG_PER_G, ROLL, STEER, setup
from tests.validation.evidence import ROUND_TRIP, SECOND_ROUTE, check

SOURCE = "D1"
DRAWS = 500
BECAUSE = "three standard deviations of a count of 500 draws at 95 %: 3 sqrt(0.95 x 0.05 / 500) = 0.029"
QUANTITIES = {"roll gradient": ROLL, "understeer gradient": STEER}
CHANGE = -0.1 * DEG_PER_G


@functools.cache
def drawn(seed):
    return setup(seed=seed)


@functools.cache
def drawn_after(seed):
    return setup(ROLL + CHANGE, STEER + CHANGE, seed=DRAWS + seed, name="after")


@functools.cache
def gradients(quantity):
    """Kept: the evidence page asks for them too."""
    return [gradient(drawn(seed), quantity) for seed in range(DRAWS)]


@functools.cache
def changes(quantity):
    return [compare(drawn(seed), drawn_after(seed), quantity) for seed in range(DRAWS)]


def part_held(intervals, true):
    return sum(one.low <= true <= one.high for one in intervals) / DRAWS


def test_the_interval_of_a_gradient_holds_the_true_one():
    for quantity, true in QUANTITIES.items():
        held = part_held(gradients(quantity), true)
        check(
            SOURCE,
            f"part of {DRAWS} draws whose interval holds the true {quantity}",
            "0.95",
            held,
            "",
            SECOND_ROUTE,
            0.029,
            BECAUSE,
        )


def test_the_interval_of_a_difference_holds_the_true_one():
    for quantity in QUANTITIES:
        check(
            SOURCE,
            f"part of {DRAWS} draws whose interval holds the true change of the {quantity}",
            "0.95",
            part_held(changes(quantity), CHANGE),
            "",
            SECOND_ROUTE,
            0.029,
            BECAUSE,
        )


def test_the_mean_of_the_draws_is_the_true_gradient():
    for quantity, true in QUANTITIES.items():
        mean = sum(one.value for one in gradients(quantity)) / DRAWS
        check(
            SOURCE,
            f"mean {quantity} of {DRAWS} draws",
            f"{true / DEG_PER_G:.2f}",
            mean / DEG_PER_G,
            "deg/g",
            ROUND_TRIP,
        )
