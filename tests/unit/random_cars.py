"""Believable cars of every kind, drawn by hypothesis: SI numbers inside the ranges a car sheet accepts."""

import math

from hypothesis import reject
from hypothesis import strategies as st

from rollmodel.car import ARMS, DRIVES, Axle, Bar, Blade, Car, CarError, Tyre
from rollmodel.physics.roll import stands_up
from rollmodel.physics.stiffness import axle_stiffness


def numbers(low, high):
    return st.floats(low, high, allow_nan=False, allow_infinity=False)


def maybe(strategy):
    return st.none() | strategy


@st.composite
def bars(draw, arms=ARMS):
    kind, size, length = draw(st.sampled_from(arms)), draw(numbers(0.012, 0.040)), draw(numbers(0.4, 1.3))
    lever = draw(numbers(0.12, 0.35))
    given = {
        "wall": draw(maybe(numbers(0.05, 0.5).map(lambda part: part * size))),
        "support_spacing": draw(maybe(numbers(0.5, 1.0).map(lambda part: part * length))),
        "bushing_rate": draw(maybe(numbers(1e5, 1e7))),
        "link_rate": draw(maybe(numbers(1e5, 1e7))),
        "link_lean_at_arm": draw(numbers(-0.5, 0.5)),
        "link_lean_at_pickup": draw(numbers(-0.5, 0.5)),
        "arms": kind,
        "hole": draw(st.integers(1, 3)),
    }
    ratio = draw(numbers(0.2, 1.1))
    if kind == "blade":
        width = draw(numbers(0.015, 0.035))
        angles = (0.0, draw(numbers(0.2, 1.0)), math.pi / 2)
        blade = Blade(
            lever, width, width * draw(numbers(0.1, 0.8)), angles, draw(st.sampled_from(("free", "guided")))
        )
        return Bar(size, length, ratio, blade=blade, **given)
    holes = (lever, lever * 0.85, lever * 0.7)
    sweep = draw(numbers(1.0, 1.3))
    return Bar(
        size,
        length,
        ratio,
        holes,
        arm_lengths=tuple(sweep * hole for hole in holes),
        arm_sweep=draw(st.sampled_from(("outward", "inward"))),
        **given,
    )


axles = st.builds(
    Axle,
    track=numbers(1.1, 1.9),
    unsprung_mass=numbers(20.0, 150.0),
    unsprung_cg_height=numbers(0.2, 0.4),
    roll_centre_height=numbers(-0.08, 0.3),
    spring_rate=numbers(15e3, 250e3),
    spring_motion_ratio=numbers(0.4, 1.1),
    tyre_vertical_rate=maybe(numbers(120e3, 450e3)),
    bump_travel=maybe(numbers(0.02, 0.12)),
    bump_stop_rate=maybe(numbers(1e4, 5e5)),
    camber=maybe(numbers(-0.07, 0.02)),
    camber_recovery=maybe(numbers(-0.2, 1.0)),
    bar=maybe(bars()),
)
magic_tyres = st.builds(
    Tyre,
    curve=st.sampled_from(["magic formula 1987", "magic formula 2006"]),
    grip_scale=numbers(0.6, 1.6),
)
falling_tyres = st.builds(
    Tyre,
    curve=st.just("falling grip"),
    peak_grip=numbers(0.9, 1.8),
    grip_drop=numbers(0.0, 60e-6),
    cornering_stiffness=numbers(3e4, 1.5e5),
)


tyres = magic_tyres | falling_tyres
chassis_torsions = maybe(numbers(5e4, 2e6))


@st.composite
def cars(draw, chassis=chassis_torsions):
    """A car that can be made and that stands up; hypothesis draws again otherwise."""
    try:
        car = Car(
            "drawn",
            draw(st.sampled_from(DRIVES)),
            draw(numbers(400.0, 2200.0)),
            draw(numbers(0.35, 0.65)),
            draw(numbers(2.0, 3.2)),
            draw(numbers(0.25, 0.7)),
            draw(tyres),
            draw(axles),
            draw(axles),
            chassis_torsion=draw(chassis),
        )
    except CarError:
        reject()
    if not stands_up(car, axle_stiffness(car.front), axle_stiffness(car.rear)):
        reject()
    return car
