"""A settled corner and two tyres worked out again, in plain sums and with scipy's root finders.

Only the records of the car are the package's; no function of `rollmodel.physics` is used, so that two roads
meet in the tests. Rigid chassis, no bump stops. The inside wheel may lift: moments are then balanced with
that end's moment held. Bars have rigid arms: ``G J / (L a^2)`` at one link, the other held.

The car is invented for the tests; its ends differ in everything, tracks too.
"""

import math
from types import SimpleNamespace

import numpy as np
from scipy.optimize import brentq, minimize_scalar

from rollmodel.car import Axle, Bar, Car, Tyre

G = 9.80665  # m/s^2
DEG = math.pi / 180
ENDS = ("front", "rear")


def invented_car(tyre=None, drive="rear", **more) -> Car:
    """Heavier in front, wider in front; a tube in front and a solid bar behind, camber at both ends."""
    bars = [
        Bar(0.026, 0.92, 0.62, (0.21,), wall=0.004, arms="rigid"),
        Bar(0.019, 0.88, 0.55, (0.23,), arms="rigid"),
    ]
    front = Axle(1.52, 86.0, 0.30, 0.05, 58e3, 0.74, 240e3, camber=-0.03, camber_recovery=0.6, bar=bars[0])
    rear = Axle(1.44, 78.0, 0.29, 0.10, 52e3, 0.70, 230e3, camber=-0.02, camber_recovery=0.75, bar=bars[1])
    return Car("plain", drive, 1280.0, 0.54, 2.48, 0.49, tyre or Tyre(), front, rear, **more)


def falling_grip() -> Tyre:
    """Grip that falls with load in a straight line; invented."""
    return Tyre("falling grip", 1.0, 1.45, 45e-6, 62e3)


def roll_stiffness(axle) -> float:
    """Springs, bar and tyres of an axle, [N*m/rad]."""
    rate = axle.spring_rate * axle.spring_motion_ratio**2
    if axle.bar:
        bar, inner = axle.bar, axle.bar.outer_diameter - 2 * (axle.bar.wall or axle.bar.outer_diameter / 2)
        polar = math.pi / 32 * (bar.outer_diameter**4 - inner**4)
        held = bar.shear_modulus * polar / (bar.centre_length * bar.holes[0] ** 2)
        rate += 2 * held * bar.link_motion_ratio**2
    if axle.tyre_vertical_rate:
        rate = 1 / (1 / rate + 1 / axle.tyre_vertical_rate)
    return rate * axle.track**2 / 2


def masses(car):
    """Whole and sprung mass at each end [kg], and the height of the sprung mass [m]."""
    whole = {"front": car.mass * car.front_weight_share, "rear": car.mass * (1 - car.front_weight_share)}
    sprung = {end: whole[end] - car.axle(end).unsprung_mass for end in ENDS}
    below = sum(car.axle(end).unsprung_mass * car.axle(end).unsprung_cg_height for end in ENDS)
    return whole, sprung, (car.mass * car.cg_height - below) / sum(sprung.values())


def settled(car, a, stiffness=None):
    """Roll [rad], and inside and outside load of each end [N]; None where the car rolls over."""
    whole, sprung, height = masses(car)
    stiff = stiffness or {end: roll_stiffness(car.axle(end)) for end in ENDS}
    push = sum(sprung[end] * (height - car.axle(end).roll_centre_height) for end in ENDS)
    other = {end: a * (sprung[end] * car.axle(end).roll_centre_height
                       + car.axle(end).unsprung_mass * car.axle(end).unsprung_cg_height)
             for end in ENDS}  # fmt: skip
    caps = {end: car.axle(end).track * whole[end] * G / 2 - other[end] for end in ENDS}

    def left(roll):
        return push * (a + G * roll) - sum(min(stiff[end] * roll, caps[end]) for end in ENDS)

    tops = sorted(caps[end] / stiff[end] for end in ENDS)
    if left(tops[1]) > 0:  # past the second lift nothing holds the body
        return None
    roll = brentq(left, 0.0, tops[1], xtol=1e-15, rtol=1e-14)
    gains = {end: (min(stiff[end] * roll, caps[end]) + other[end]) / car.axle(end).track for end in ENDS}
    half = {end: whole[end] * G / 2 for end in ENDS}
    return SimpleNamespace(
        roll=roll,
        gains=gains,
        inside={end: half[end] - gains[end] for end in ENDS},
        outside={end: half[end] + gains[end] for end in ENDS},
    )


def peak(tyre, load):
    """Largest side force of an upright tyre, [N]."""
    if tyre.curve == "falling grip":
        return (tyre.peak_grip - tyre.grip_drop * load) * load
    return (-22.1 * load / 1e3 + 1011) * load / 1e3


def side_force(tyre, slip, load, lean):
    """The 1987 formula with its camber terms, or Fiala's brush on falling grip; slip and lean in rad, [N]."""
    if load < 1e-6:
        return 0.0
    top = peak(tyre, load)
    if tyre.curve == "falling grip":
        part = min(tyre.cornering_stiffness * math.tan(slip) / (3 * top), 1.0)
        return top * (3 * part - 3 * part**2 + part**3)
    kn, slip, lean = load / 1e3, slip / DEG, lean / DEG
    b = 1078 * math.sin(1.82 * math.atan(0.208 * kn)) / (1.30 * top) * (1 - 0.022 * abs(lean))
    e = -0.354 * kn + 0.707
    x = b * (slip + 0.028 * lean)
    return top * math.sin(1.30 * math.atan(x - e * (x - math.atan(x)))) + 14.8 * kn * lean


def leans(axle, roll):
    """Of the outside and the inside wheel, into the corner, [rad]."""
    out = (1 - axle.camber_recovery) * roll
    return -axle.camber - out, axle.camber - out


def axle_force(car, end, corner):
    """Side force of both tyres of an end as a function of slip, [N]."""
    out, into = leans(car.axle(end), corner.roll)
    return lambda slip: (
        side_force(car.tyre, slip, corner.outside[end], out)
        + side_force(car.tyre, slip, corner.inside[end], into)
    )


def top_of(force):
    """Largest value of a force over slip, and where; from a scan, then Brent's parabolas."""
    scan = np.linspace(0.5, 45, 90) * DEG
    best = scan[int(np.argmax([force(slip) for slip in scan]))]
    found = minimize_scalar(lambda slip: -force(slip), bounds=(best - DEG, best + DEG), method="bounded",
                            options={"xatol": 1e-10})  # fmt: skip
    return -found.fun, found.x


def slip_for(force, need):
    """Slip on the rising side at which a force is reached, [rad]."""
    return brentq(lambda slip: force(slip) - need, -0.2 * DEG, top_of(force)[1], xtol=1e-14, rtol=1e-13)
