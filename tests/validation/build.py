"""Short ways to build the records that published cases describe."""

from rollmodel.car import Axle, Bar, Car, Tyre
from rollmodel.physics.stiffness import AxleStiffness, axle_stiffness_for


def axle(
    track,
    roll_centre_height=0.0,
    unsprung_mass=1e-6,
    unsprung_cg_height=0.3,
    spring_rate=20e3,
    spring_motion_ratio=1.0,
    bar=None,
    **more,
) -> Axle:
    """An axle from the few numbers that a published case gives; SI."""
    return Axle(
        track,
        unsprung_mass,
        unsprung_cg_height,
        roll_centre_height,
        spring_rate,
        spring_motion_ratio,
        bar=bar,
        **more,
    )


def car(front: Axle, rear: Axle, sprung_mass, sprung_front_share, sprung_cg_height, wheelbase=2.5) -> Car:
    """A car from its **sprung** mass, share and height: the whole car's are worked out from them."""
    ends = (front, rear)
    mass = sprung_mass + sum(end.unsprung_mass for end in ends)
    front_mass = sprung_front_share * sprung_mass + front.unsprung_mass
    height = (
        sprung_mass * sprung_cg_height + sum(end.unsprung_mass * end.unsprung_cg_height for end in ends)
    ) / mass
    return Car("published case", "rear", mass, front_mass / mass, wheelbase, height, Tyre(), front, rear)


def stiffness(end: Axle, roll_stiffness) -> AxleStiffness:
    """The axle with a bar that makes up its roll stiffness [N*m/rad] to the one a source gives."""
    springs = axle_stiffness_for(end, 0.0).spring_roll
    return axle_stiffness_for(end, 2 * (roll_stiffness - springs) / end.track**2)


def round_bar(
    outer_diameter, centre_length, lever, wall=None, arms="rigid", link_motion_ratio=1.0, **more
) -> Bar:
    """A bar with one hole; SI."""
    return Bar(outer_diameter, centre_length, link_motion_ratio, (lever,), wall=wall, arms=arms, **more)
