"""The factor 2, a negative check

A published exercise (author and title not recorded): a bar of 2200 N*m/rad over its whole twist, lever 0.28
m, link motion ratio 0.85, track 1.60 m. It arrives at 25951 N*m/rad of roll stiffness by putting a rate that
belongs to the *relative* travel of the two links into K t^2/2.

The wrong figure, 25951, is published as an error: the package shows the slip that gives it, and that is no
agreement. The right one, k (MR t/a)^2 = 51902, is computed from published inputs. The
course's own question on the chain from bar to axle, given the exercise's numbers, must arrive at the right
one and, where a learner types the wrong one, name the slip behind it.
"""

import math
from types import SimpleNamespace

from rollmodel.physics.bar import link_rates_one_end_held
from rollmodel.physics.stiffness import axle_stiffness, roll_stiffness
from rollmodel.questions.bank.lesson_03_chain import whole_chain
from rollmodel.questions.checking import check as mark
from rollmodel.questions.feedback import feedback
from rollmodel.questions.posed import Posed
from tests.validation.build import axle, round_bar
from tests.validation.evidence import COMPUTED, ERROR, check

SOURCE = "L5"
LEVER, LENGTH, TORSIONAL_RATE = 0.28, 1.0, 2200.0
DIAMETER = 0.024
SHEAR_MODULUS = (
    TORSIONAL_RATE * LENGTH / (math.pi / 32 * DIAMETER**4)
)  # any bar of that torsional rate will do
AXLE = axle(1.60, bar=round_bar(DIAMETER, LENGTH, LEVER, link_motion_ratio=0.85, shear_modulus=SHEAR_MODULUS))


def test_right():
    assert math.isclose(link_rates_one_end_held(AXLE.bar)[0] * LEVER**2, TORSIONAL_RATE)
    check(
        SOURCE,
        "bar's roll stiffness, k (MR t/a)^2",
        "51902",
        axle_stiffness(AXLE).bar_roll,
        "N*m/rad",
        COMPUTED,
    )


def test_the_mistake_is_the_rate_with_one_end_held():
    wrong = roll_stiffness(axle_stiffness(AXLE).bar_wheel_rate, AXLE.track)
    check(
        SOURCE,
        "the exercise's slip: K t^2/2 on the rate with one end held",
        "25951",
        wrong,
        "N*m/rad",
        ERROR,
    )
    assert math.isclose(axle_stiffness(AXLE).bar_roll, 2 * wrong)


def posed():
    """The exercise as the course asks it: no springs, and the bar's rate at one link with the other held."""
    numbers = SimpleNamespace(
        spring_rate=0.0,
        spring_ratio=1.0,
        bar_rate=TORSIONAL_RATE / LEVER**2,
        bar_ratio=0.85,
        track=AXLE.track,
    )
    return Posed(whole_chain, numbers, "metric", "L5", "validation", {})


def test_the_courses_question_arrives_at_the_right_figure():
    check(SOURCE, "the course's question on these numbers", "51902", posed().key, "N*m/rad", COMPUTED)
    assert mark(posed(), "51902 N*m/rad").status == "right"


def test_the_marking_names_the_slip_behind_the_published_figure():
    walked = {belief.id: answer for belief, answer in posed().wrong_answers}
    check(
        SOURCE,
        "the wrong road that the marking knows: the rate with one end held, used in roll",
        "25951",
        walked["held used in roll"],
        "N*m/rad",
        ERROR,
    )
    verdict = mark(posed(), "25951 N*m/rad")
    assert (verdict.status, verdict.right) == ("road", False)
    assert verdict.belief.id == "held used in roll" and verdict.belief.name in verdict.message
    assert "each end feels 2 k_b, not k_b" in str(feedback(posed(), verdict, 2))


def test_other_figures_are_not_taken_for_that_slip():
    """Twice the right figure is another slip, one from nowhere is none; in N*m/deg it is the same one."""
    for typed, belief in (
        ("103804 N*m/rad", "half left out"),
        ("35000 N*m/rad", None),
        ("452.9 N*m/deg", "held used in roll"),
    ):
        verdict = mark(posed(), typed)
        assert not verdict.right and (verdict.belief and verdict.belief.id) == belief, typed
