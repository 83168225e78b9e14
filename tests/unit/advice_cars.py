"""Cars built to hit one branch of the advice each. Invented, every number."""

import math
from dataclasses import replace

from rollmodel.advice import effect_of
from rollmodel.car import Axle, Bar, Blade, Car, Damper, Tyre

SHEAR, POLAR, CENTRE, LINK = 79.3e9, math.pi / 32 * 0.022**4, 0.9, 0.35
GRIPPY = Tyre(curve="falling grip", peak_grip=1.3, grip_drop=4e-5, cornering_stiffness=80e3)
FORMULA = Tyre(grip_scale=1.0)
NM_PER_DEG = 180 / math.pi


def bar(*wheel_rates_in_roll, hole=1):
    """A bar whose holes give these rates at the wheel in roll (2 k_b), N/m, softest first; rigid arms."""
    holes = tuple(LINK * math.sqrt(2 * SHEAR * POLAR / (CENTRE * rate)) for rate in wheel_rates_in_roll)
    return Bar(0.022, CENTRE, LINK, holes, hole, arms="rigid")


def axle(spring=30e3, bar=None, **other):
    """One end; spring rate at the wheel."""
    plain = Axle(track=1.5, unsprung_mass=80.0, unsprung_cg_height=0.30, roll_centre_height=0.05,
                 spring_rate=spring, spring_motion_ratio=1.0, damper=Damper(3000.0, 1.0), bar=bar)
    return replace(plain, **other)


def car(front=None, rear=None, **other):
    """A plain rear-drive car that rolls 2.5 deg/g; its front gives up first by a hair."""
    three = axle(bar=bar(16e3, 22e3, 28e3, hole=2))
    plain = Car(title="test car", drive="rear", mass=1200.0, front_weight_share=0.52, wheelbase=2.5,
                cg_height=0.50, tyre=GRIPPY, front=front or three, rear=rear or three)
    return replace(plain, **other)


def inward():
    """A car whose sprung mass lies under its roll axis; so it leans into the corner."""
    end = axle(bar=bar(16e3, 22e3, 28e3, hole=2), roll_centre_height=0.6)
    return car(end, end, cg_height=0.30)


def mirrored(car):
    """The car turned round: its front axle at the back."""
    drives = {"front": "rear", "rear": "front", "all": "all"}
    return replace(
        car,
        front=car.rear,
        rear=car.front,
        front_weight_share=1 - car.front_weight_share,
        drive=drives[car.drive],
    )


def heavy_nose(**other):
    """Front-limited, 2.9 deg/g; three stiffer holes at the rear, one softer and one stiffer in front."""
    return replace(
        car(
            front=axle(bar=bar(16e3, 22e3, 28e3, hole=2)),
            rear=axle(bar=bar(8e3, 12e3, 16e3, 20e3)),
            front_weight_share=0.56,
        ),
        **other,
    )


def on_stop(travel=0.010, stop=80e3):
    """The plain car on a front bump stop that it meets early in the corner; no rate: not in the sheet."""
    three = axle(bar=bar(16e3, 22e3, 28e3, hole=2))
    return car(front=replace(three, bump_travel=travel, bump_stop_rate=stop))


def meets_it_when_softer():
    """Bump travel of that car's front that the fitted hole leaves free and the softer one uses up, m."""
    low, high = (
        effect.end("front").bump_travel_at_limit
        for effect in (effect_of(car(), front_hole=1).before, effect_of(car(), front_hole=1).after)
    )
    return (low + high) / 2


def stiff():
    """The same on stiff springs: 1.5 deg/g."""
    nose = heavy_nose()
    return replace(
        nose, front=replace(nose.front, spring_rate=70e3), rear=replace(nose.rear, spring_rate=70e3)
    )


def lifting_hatch():
    """Front-drive, light and stiff at the rear: its inside rear wheel is up at the limit."""
    return car(
        front=axle(25e3, bar(6e3, 9e3, 12e3, hole=2)),
        rear=axle(45e3, bar(20e3, 40e3, 60e3, hole=2)),
        front_weight_share=0.62,
        cg_height=0.52,
        drive="front",
    )


def tail_up():
    """Its inside rear wheel is up at the limit, and the soft hole brings it down."""
    return replace(lifting_hatch(), front_weight_share=0.5, rear=axle(45e3, bar(2e3, 40e3, hole=2)))


def gravel():
    """Far too soft on tarmac, 6 deg/g, and its linkage gives back little camber: both ends want stiffness."""
    end = {"camber_recovery": 0.2}
    return car(
        front=axle(18e3, bar(4e3, 8e3, 12e3, hole=2), **end),
        rear=axle(17e3, bar(4e3, 8e3, 12e3, hole=2), **end),
        tyre=replace(FORMULA, grip_scale=0.9),
        cg_height=0.55,
        drive="all",
    )


def struts_and_beam():
    """Soft struts in front that lean with the body, a beam at the rear that does not: the rule turns."""
    return car(
        front=axle(13e3, bar(2e3, 8e3, 20e3, hole=2), camber_recovery=-0.1),
        rear=axle(13e3, bar(4e3, 8e3, hole=2), camber_recovery=1.0),
        tyre=replace(FORMULA, grip_scale=0.8),
        front_weight_share=0.55,
        cg_height=0.5,
    )


def single_seater():
    """Light, stiff, blades on both bars, a tyre that minds uneven load."""

    def blades(hole):
        strip = Blade(0.12, 0.020, 0.005, tuple(math.radians(a) for a in (0, 30, 60, 90)))
        return Bar(0.020, 0.35, 0.6, (), hole, wall=0.003, arms="blade", blade=strip)

    end = {"unsprung_mass": 40.0, "roll_centre_height": 0.03, "unsprung_cg_height": 0.27}
    return car(
        front=axle(80e3, blades(3), **end),
        rear=axle(78e3, blades(2), **end),
        mass=540.0,
        front_weight_share=0.46,
        cg_height=0.31,
        tyre=Tyre(curve="falling grip", peak_grip=1.7, grip_drop=9e-5, cornering_stiffness=60e3),
    )


def featherweight():
    """So light that the 1987 formula hardly minds uneven load."""
    end = {"unsprung_mass": 40.0, "track": 1.4}
    three = bar(10e3, 20e3, 30e3, hole=2)
    return car(
        front=axle(60e3, three, **end),
        rear=axle(60e3, three, **end),
        mass=520.0,
        front_weight_share=0.44,
        cg_height=0.30,
        tyre=FORMULA,
    )


def tall():
    """Rolls over before its tyres slide."""
    end = axle(90e3, bar(16e3, 22e3), track=1.3)
    return car(front=end, rear=end, cg_height=0.95)


def nearly_over():
    """Slides at 1.06 g; with the softer front bar it would roll over first."""
    return car(front=axle(20e3, bar(1e3, 60e3, hole=2)), rear=axle(20e3, bar(10e3, 20e3)), cg_height=0.644)


def costly():
    """Its tail is up, so a softer front bar only adds roll: both ends lose to camber, the rear more."""
    return car(
        front=axle(28e3, bar(10e3, 60e3, hole=2), camber_recovery=0.7),
        rear=axle(120e3, bar(9e3), camber_recovery=-0.2, track=1.4),
        mass=660.0,
        front_weight_share=0.57,
        cg_height=0.57,
        tyre=replace(FORMULA, grip_scale=1.29),
    )


def nose_up():
    """Its inside front wheel is up at the limit: a stiffer rear bar takes roll away, and both ends gain."""
    return car(
        front=axle(120e3, bar(9e3), camber_recovery=-0.3, track=1.4),
        rear=axle(40e3, bar(10e3, 60e3), camber_recovery=1.0),
        mass=660.0,
        front_weight_share=0.43,
        cg_height=0.57,
        tyre=replace(FORMULA, grip_scale=1.29),
    )
