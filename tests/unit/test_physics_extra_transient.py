"""Roll against time, held against exact second-order answers, another library and brute force."""

from dataclasses import replace

import control
import numpy as np
import pytest
from scipy.integrate import quad
from scipy.linalg import expm

from rollmodel.car import GRAVITY, CarError, Damper
from rollmodel.physics.build_up import BuildUp
from rollmodel.physics.corner import lift_acceleration, settled_corner
from rollmodel.physics.dampers import ENDS, damper_roll_rate
from rollmodel.physics.roll import roll_moments_per_acceleration
from rollmodel.physics.roll_mode import estimated_roll_inertia, natural_frequency, overshoot, roll_mode
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.physics.transient import NotFollowed, roll_against_time
from tests.unit.physics_extra_car import a_bar, a_car, an_axle, rigid_tyres

STEP = BuildUp(3.0, rise_time=0.0, hold_time=4.0, release_time=0.0, settle_time=0.0)
CORNER = BuildUp(6.0, rise_time=0.35, hold_time=3.0, release_time=0.5, settle_time=2.0)

# The integrator is asked for seven digits; five are left over a few seconds of swinging.
INTEGRATED = 2e-6


def plain_car(**changes):
    """Rigid tyres and chassis: the textbook's one equation of second order."""
    return rigid_tyres(a_car(chassis_torsion=None, **changes))


def with_damping_ratio(ratio):
    """Damper rates scaled until the plain car has the damping ratio asked for."""
    car = plain_car()
    scale = ratio / roll_mode(car).damping_ratio
    ends = {end: replace(car.axle(end), damper=Damper(scale * car.axle(end).damper.rate,
                                                      car.axle(end).damper.motion_ratio)) for end in ENDS}
    return replace(car, **ends)


def across(car):
    """Both axles' dampers across the suspension, [N*m*s/rad]."""
    return sum(damper_roll_rate(car.axle(end)) for end in ENDS)


def textbook_step(car, push, time):
    """``phi = phi_s (1 - e^(-z w t) (cos w_d t + z / sqrt(1 - z^2) sin w_d t))``."""
    mode = roll_mode(car)
    z, w = mode.damping_ratio, 2 * np.pi * mode.natural_frequency
    damped = w * np.sqrt(1 - z**2)
    swing = np.cos(damped * time) + z / np.sqrt(1 - z**2) * np.sin(damped * time)
    return push / mode.net_stiffness * (1 - np.exp(-z * w * time) * swing)


@pytest.mark.parametrize("ratio, percent", [(0.1, 72.9), (0.2, 52.7), (0.3, 37.2), (0.5, 16.3), (0.7, 4.6)])
def test_step_overshoots_as_any_controls_text_says(ratio, percent):
    history = roll_against_time(with_damping_ratio(ratio), STEP, step=0.001)
    settled = textbook_step(with_damping_ratio(ratio), sum(
        roll_moments_per_acceleration(with_damping_ratio(ratio))) * STEP.peak, 1e3)
    reached = 100 * (history.roll_angle.max() / settled - 1)
    assert reached == pytest.approx(percent, abs=0.05)  # half the last printed digit
    assert 100 * float(overshoot(ratio)) == pytest.approx(percent, abs=0.05)


def test_step_matches_the_exact_solution():
    car = plain_car()
    history = roll_against_time(car, STEP)
    exact = textbook_step(car, sum(roll_moments_per_acceleration(car)) * STEP.peak, history.time)
    assert history.roll_angle == pytest.approx(exact, abs=INTEGRATED * exact.max())


def test_ramp_matches_the_control_library():
    car, build_up = plain_car(), replace(CORNER, shape="linear")
    mode, push = roll_mode(car), sum(roll_moments_per_acceleration(car))
    history = roll_against_time(car, build_up)
    system = control.tf([push], [mode.inertia, across(car), mode.net_stiffness])
    answer = control.forced_response(system, history.time, build_up.at(history.time))
    # Exact for input that is straight between instants, as this ramp is: its kinks fall on instants.
    theirs = np.asarray(answer.outputs)
    assert history.roll_angle == pytest.approx(theirs, abs=INTEGRATED * theirs.max())


@pytest.mark.parametrize("when", [0.2, 0.6, 1.1, 3.6, 4.4])
def test_smooth_corner_matches_the_convolution_integral(when):
    """``phi(t) = integral of h(t - s) m_s h' a_y(s) ds`` with the impulse response ``h``."""
    car = plain_car()
    mode, push = roll_mode(car), sum(roll_moments_per_acceleration(car))
    z, w = mode.damping_ratio, 2 * np.pi * mode.natural_frequency
    damped = w * np.sqrt(1 - z**2)

    def inside(s):
        return (push * CORNER.at(s) / (mode.inertia * damped)
                * np.exp(-z * w * (when - s)) * np.sin(damped * (when - s)))

    kinks = [t for pair in CORNER.pieces for t in pair if 0 < t < when]
    exact = quad(inside, 0, when, points=sorted(set(kinks)), epsabs=1e-12, limit=200)[0]
    history = roll_against_time(car, CORNER)
    # Between two instants 5 ms apart a straight line is within 1e-5 of the curve's height.
    assert np.interp(when, history.time, history.roll_angle) == pytest.approx(exact, abs=1e-5 * 0.05)


def test_dampers_behind_tyres_match_the_third_order_model():
    """Tyre and suspension each with a roll angle of their own, solved by matrix exponential."""
    car = a_car(chassis_torsion=None)
    inertia, moment = estimated_roll_inertia(car), sum(roll_moments_per_acceleration(car))
    matrix = np.zeros((5, 5))  # body angle, body rate, front and rear suspension angle, a_y (constant)
    matrix[0, 1] = 1
    matrix[1, 0], matrix[1, 4] = GRAVITY * moment / inertia, moment / inertia
    for i, end in enumerate(ENDS, start=2):
        stiff, c = axle_stiffness(car.axle(end)), damper_roll_rate(car.axle(end))
        matrix[1, 0] -= stiff.tyre_roll / inertia
        matrix[1, i] = stiff.tyre_roll / inertia
        matrix[i, 0], matrix[i, i] = stiff.tyre_roll / c, -(stiff.tyre_roll + stiff.suspension_roll) / c
    values = np.linalg.eigvals(matrix)
    swing = values[np.argmax(values.imag)]
    mode = roll_mode(car)
    assert mode.damping_ratio == pytest.approx(-swing.real / abs(swing), rel=1e-9)
    assert mode.swing_frequency == pytest.approx(swing.imag / (2 * np.pi), rel=1e-9)
    history = roll_against_time(car, replace(STEP, hold_time=1.5))
    brute = np.array([expm(matrix * t) @ [0, 0, 0, 0, STEP.peak] for t in history.time[:-1:20]])
    assert history.roll_angle[:-1:20] == pytest.approx(brute[:, 0], abs=INTEGRATED * brute[:, 0].max())
    for i, end in enumerate(ENDS, start=2):  # the dampers' own load: their rate times the suspension's speed
        speed = brute @ matrix[i]
        theirs = damper_roll_rate(car.axle(end)) * speed / car.axle(end).track
        ours = history.axle(end).dampers[:-1:20]
        assert ours == pytest.approx(theirs, abs=1e-4 * np.abs(theirs).max())  # a small difference of two


def test_leaving_the_tyre_out_of_the_damping_would_show():
    """It is no refinement: with rigid tyres this car's damping ratio is a good deal higher."""
    car = a_car(chassis_torsion=None)
    assert roll_mode(rigid_tyres(car)).damping_ratio > 1.2 * roll_mode(car).damping_ratio


def test_rigid_tyres_are_the_limit_of_hard_ones():
    """Two different equations of motion, one answer."""
    hard = a_car(front={"tyre_vertical_rate": 3e8}, rear={"tyre_vertical_rate": 3e8})
    ours, theirs = (roll_against_time(car, CORNER) for car in (hard, rigid_tyres(hard)))
    for end in ENDS:  # 3e8 N/m against some 5e4 of the suspension: two parts in ten thousand
        for part in ("elastic", "dampers"):
            a, b = (getattr(history.axle(end), part) for history in (ours, theirs))
            assert a == pytest.approx(b, abs=2e-3 * np.abs(b).max())


@pytest.mark.parametrize("rate", [5.0, 60.0])
def test_hardly_any_damping_is_followed_as_well(rate):
    """Behind a tyre a weak damper makes the equations stiff; the energy still adds up: the swing goes on."""
    weak = {"damper": Damper(rate, 0.7)}
    car = a_car(front=weak, rear=weak, chassis_torsion=None)
    history = roll_against_time(car, replace(STEP, peak=1.0, hold_time=1.0))
    still = sum(roll_moments_per_acceleration(car)) / roll_mode(car).net_stiffness
    assert history.roll_angle.max() == pytest.approx(2 * still, rel=0.02)


def test_energy_in_is_energy_stored_and_lost():
    """``d/dt (I phi'^2 / 2 + K phi^2 / 2) = m_s h' a_y phi' - C phi'^2``, summed by Simpson's rule."""
    from scipy.integrate import cumulative_simpson
    car = plain_car()
    mode, push = roll_mode(car), sum(roll_moments_per_acceleration(car))
    history = roll_against_time(car, CORNER, step=0.001)
    rate, angle = history.roll_rate, history.roll_angle
    stored = mode.inertia * rate**2 / 2 + mode.net_stiffness * angle**2 / 2
    power = push * history.lateral_acceleration * rate - across(car) * rate**2
    summed = cumulative_simpson(power, x=history.time, initial=0)
    assert stored == pytest.approx(summed, abs=1e-4 * stored.max())  # Simpson across a_y's kinks


@pytest.mark.parametrize("torsion", [None, 4.5e5])
@pytest.mark.parametrize("peak", [3.0, 8.0])
def test_moments_balance_at_every_instant(torsion, peak):
    """By way of the ground: all tyre loads against all weight and inertia, roll taken from the result."""
    car = a_car(chassis_torsion=torsion)
    history = roll_against_time(car, replace(CORNER, peak=peak))
    ground = sum((history.axle(end).outside - history.axle(end).inside) / 2 * car.axle(end).track
                 for end in ENDS)
    leans = sum(GRAVITY * m * history.axle(end).roll_angle
                for end, m in zip(ENDS, roll_moments_per_acceleration(car), strict=True))
    whole = car.mass * history.lateral_acceleration * car.cg_height + leans - history.inertia_moment
    assert ground == pytest.approx(whole, abs=1e-8 * car.mass * GRAVITY)  # rounding only


def test_inertia_moment_is_the_second_difference_of_roll():
    car = plain_car()
    history = roll_against_time(car, CORNER, step=0.001)
    twice = np.gradient(np.gradient(history.roll_angle, history.time), history.time)
    inertia = roll_mode(car).inertia * twice
    middle = slice(50, 300)  # inside the rise, away from a_y's kinks
    assert history.inertia_moment[middle] == pytest.approx(
        inertia[middle], abs=2e-3 * np.max(np.abs(inertia)))  # central differences over 1 ms


@pytest.mark.parametrize("torsion", [None, 4.5e5, 5e4])
@pytest.mark.parametrize("car_of", [
    lambda **k: a_car(**k),
    lambda **k: a_car(rear={"bump_travel": 0.02, "bump_stop_rate": 60e3}, **k),
    lambda **k: a_car(rear={"spring_rate": 220e3}, cg_height=0.67, **k),
], ids=["all four down", "on a bump stop", "inside rear up"])
def test_settled_middle_is_the_settled_corner(car_of, torsion):
    car = car_of(chassis_torsion=torsion)
    history = roll_against_time(car, BuildUp(8.5, 0.4, 10.0, 0.4, 0.0))
    settled = settled_corner(car, 8.5)
    for end in ENDS:
        ours, theirs = history.axle(end), settled.axle(end)
        assert ours.load_transfer[history.middle] == pytest.approx(theirs.load_transfer, rel=2e-4)
        assert ours.elastic[history.middle] == pytest.approx(theirs.elastic, rel=2e-4)
        assert ours.lifted[history.middle] == theirs.lifted
    # 10 s leave e^(-z w t): below 1e-6 with four wheels down, about 1e-4 with the rear wheel up.


def test_the_cases_above_are_what_they_say():
    raised = a_car(rear={"spring_rate": 220e3}, cg_height=0.67)
    assert lift_acceleration(raised, "rear") < 8.5 < lift_acceleration(a_car(), "rear")
    stopped = a_car(rear={"bump_travel": 0.02, "bump_stop_rate": 60e3})
    assert settled_corner(stopped, 8.5).rear.on_stop


def test_dampers_carry_load_on_the_way_in_and_out_and_none_in_the_middle():
    history = roll_against_time(a_car(), CORNER)
    for end in ENDS:
        share = history.damper_share(end)
        entry, exit_ = history.time < 0.35, history.time > CORNER.release_starts
        assert share[entry].max() > 0.10
        assert share[exit_].min() < -0.08
        assert abs(share[history.middle]) < 2e-3


def test_quicker_turn_in_gives_the_dampers_more():
    largest = [roll_against_time(a_car(), replace(CORNER, rise_time=t)).front.dampers.max()
               for t in (0.2, 0.4, 0.8, 1.6)]
    assert largest == sorted(largest, reverse=True)
    # A slow rise settles as it goes: dampers then carry C a_y'/K, which falls with 1/time.
    slow = [roll_against_time(a_car(), replace(CORNER, rise_time=t, shape="linear")).front.dampers
            [int(0.9 * t / 0.005)] for t in (4.0, 8.0)]
    assert slow[0] / slow[1] == pytest.approx(2, rel=0.01)  # what is left of the first swing


def test_a_bar_moves_the_middle_and_a_damper_moves_only_the_ends():
    stiff = replace(CORNER, hold_time=5.0)
    plain = roll_against_time(a_car(), stiff)
    bar = roll_against_time(a_car().with_holes(front=3), stiff)
    damper = roll_against_time(a_car(front={"damper": Damper(6500.0, 0.72)}), stiff)
    assert bar.front_share[plain.middle] - plain.front_share[plain.middle] > 0.005
    assert damper.front_share[plain.middle] == pytest.approx(plain.front_share[plain.middle], abs=1e-5)
    assert damper.front_share[40] - plain.front_share[40] > 0.01  # 0.2 s in


def test_no_wheel_load_is_negative_when_a_wheel_lifts():
    car = a_car(rear={"spring_rate": 220e3}, cg_height=0.67)
    history = roll_against_time(car, BuildUp(9.0, 0.2, 2.0, 0.2))
    assert history.rear.lifted.any() and not history.front.lifted.all()
    for end in ENDS:
        axle = history.axle(end)
        assert axle.inside.min() >= 0 and axle.outside.min() >= 0
        assert axle.inside + axle.outside == pytest.approx(car.axle_weight(end))


def test_a_hard_release_can_lift_the_other_wheel_and_no_further():
    """Thrown back by its springs, hardly damped, the body takes the load off the wheel that was outside."""
    weak = {"damper": Damper(300.0, 0.7), "roll_centre_height": 0.0, "bar": a_bar(outer_diameter=0.035)}
    car = a_car(front=weak, rear={"damper": Damper(300.0, 0.7)}, cg_height=0.62, chassis_torsion=None)
    history = roll_against_time(car, BuildUp(9.0, 0.4, 2.5, 0.0, 2.0))
    after = history.time > history.build_up.release_starts
    half = car.axle_weight("front") / 2
    assert history.front.load_transfer[after].min() == pytest.approx(-half, rel=1e-9)
    assert history.front.outside[after].min() == pytest.approx(0, abs=1e-6)
    assert history.front.lifted[after].any()


def test_a_chassis_that_twists_matches_the_two_equations_by_matrix_exponential():
    """Front and rear roll as two unknowns, inertia shared as the sprung mass is; rigid tyres."""
    car = rigid_tyres(a_car(chassis_torsion=4e4, front_weight_share=0.6, roll_inertia=450.0,
                            rear={"unsprung_mass": 120.0}))
    matrix = np.zeros((5, 5))  # front and rear angle, front and rear rate, a_y (constant)
    matrix[0, 2] = matrix[1, 3] = 1
    for i, (end, moment) in enumerate(zip(ENDS, roll_moments_per_acceleration(car), strict=True)):
        inertia = 450.0 * car.sprung_mass_at(end) / (car.sprung_mass_at("front") + car.sprung_mass_at("rear"))
        matrix[2 + i, i] = (GRAVITY * moment - axle_stiffness(car.axle(end)).suspension_roll - 4e4) / inertia
        matrix[2 + i, 1 - i] = 4e4 / inertia
        matrix[2 + i, 2 + i] = -damper_roll_rate(car.axle(end)) / inertia
        matrix[2 + i, 4] = moment / inertia
    history = roll_against_time(car, replace(STEP, hold_time=1.0))
    brute = np.array([expm(matrix * t) @ [0, 0, 0, 0, STEP.peak] for t in history.time[::10]])
    for i, end in enumerate(ENDS):
        ours = history.axle(end).roll_angle[::10]
        assert ours[:-1] == pytest.approx(brute[:-1, i], abs=INTEGRATED * np.abs(brute[:, i]).max())


def test_gyration_estimate_covers_the_published_sets():
    """Inputs from `commonroad-vehicle-models` (BSD-3), parameter sets 1 to 3; figures worked out here."""
    from vehiclemodels.vehicle_parameters import setup_vehicle_parameters
    ratios = []
    for number in (1, 2, 3):
        p = setup_vehicle_parameters(number)
        ratios.append(np.sqrt(p.I_Phi_s / p.m_s) / ((p.T_f + p.T_r) / 2))
    assert np.round(ratios, 3) == pytest.approx([0.336, 0.337, 0.387])
    car = a_car(chassis_torsion=None)
    ours = roll_mode(car).natural_frequency
    arm = estimated_roll_inertia(car) / car.sprung_mass - (0.35 * 1.48) ** 2
    for ratio in ratios:
        inertia = car.sprung_mass * ((ratio * 1.48) ** 2 + arm)
        theirs = natural_frequency(roll_mode(car).net_stiffness, inertia)
        assert ours == pytest.approx(theirs, rel=0.07)  # the 7 % that the docstring states


def test_estimated_inertia_takes_the_mean_of_both_tracks():
    """By hand: 1290 kg less 162 kg; twenty centimetres more track at either end count alike."""
    narrow = a_car(front={"track": 1.4}, rear={"track": 1.4}, chassis_torsion=None)
    by_front, by_rear = (a_car(front={"track": front}, rear={"track": rear}, chassis_torsion=None)
                         for front, rear in ((1.6, 1.4), (1.4, 1.6)))
    radius_of = {1.4: 0.49, 1.5: 0.525}  # 0.35 of the track
    assert estimated_roll_inertia(by_front) == pytest.approx(estimated_roll_inertia(by_rear), rel=1e-12)
    assert estimated_roll_inertia(by_front) - estimated_roll_inertia(narrow) == pytest.approx(
        1128.0 * (radius_of[1.5] ** 2 - radius_of[1.4] ** 2))


def with_damper(rate):
    return {"damper": Damper(rate, 0.7)}


@pytest.mark.parametrize("changes", [
    {"front": with_damper(1e-8)},  # a tyre and a spring with next to nothing between them
    {"roll_inertia": 1e-6, "chassis_torsion": 5e6},
])
def test_what_moves_too_fast_is_refused_and_soon(changes):
    with pytest.raises(NotFollowed, match="can be followed in time"):
        roll_against_time(a_car(**changes), CORNER)


@pytest.mark.parametrize("changes", [{"chassis_torsion": 1e9}, {"chassis_torsion": 1e12}])
def test_a_chassis_as_good_as_rigid_is_taken_as_rigid(changes):
    soft, rigid = (roll_against_time(a_car(chassis_torsion=one), CORNER)
                   for one in (changes["chassis_torsion"], None))
    assert np.array_equal(soft.roll_angle, rigid.roll_angle)
    # The settled corner counts the twist: to one part in the thousand at which it is left out.
    settled = settled_corner(a_car(**changes), CORNER.peak)
    ours = soft.front.load_transfer[soft.middle]
    assert ours == pytest.approx(float(settled.front.load_transfer), rel=1e-3)


def test_the_firmest_dampers_that_a_sheet_takes_are_followed():
    """A hundred times the usual damping without a tyre to give: stiff equations, once beyond two minutes."""
    firm = {**with_damper(60e3), "tyre_vertical_rate": None}
    history = roll_against_time(a_car(front=firm, rear=firm, roll_inertia=80.0), CORNER)
    assert 0 < history.roll_angle.max() < float(settled_corner(a_car(front=firm, rear=firm), 6.0).roll_angle)


@pytest.mark.parametrize("step", [0, -1, np.nan, np.inf, "a", None, 2.0, 1e-9])
def test_a_step_that_is_none_is_refused(step):
    with pytest.raises(CarError, match="step: wanted at least .* and at most"):
        roll_against_time(a_car(), CORNER, step=step)


def test_a_corner_shorter_than_the_step_is_refused():
    with pytest.raises(CarError, match="half the time until the corner is let go; given 0.005"):
        roll_against_time(a_car(), BuildUp(6.0, 0.0, 1e-6, 0.0))


def test_own_inertia_is_used_when_given():
    car = a_car(chassis_torsion=None, roll_inertia=500.0)
    assert not roll_mode(car).inertia_is_estimated and roll_mode(car).inertia == 500.0
    assert roll_mode(a_car()).inertia_is_estimated


def test_mode_of_many_setups_at_once():
    car = a_car()
    rates = np.linspace(0, 60e3, 7)
    together = roll_mode(car, replace(axle_stiffness(car.front), bar_wheel_rate_in_roll=rates))
    for i, rate in enumerate(rates):
        alone = roll_mode(car, replace(axle_stiffness(car.front), bar_wheel_rate_in_roll=rate))
        assert together.natural_frequency[i] == alone.natural_frequency
        assert together.damping_ratio[i] == alone.damping_ratio
    assert np.all(np.diff(together.natural_frequency) > 0) and np.all(np.diff(together.damping_ratio) < 0)


def test_missing_dampers_are_named_together():
    car = a_car(front={"damper": None}, rear={"damper": None})
    for ask in (roll_mode, lambda car: roll_against_time(car, CORNER)):
        with pytest.raises(CarError) as told:
            ask(car)
        assert told.value.faults == [
            f"[{end}.damper] rate: wanted a damper at this end, given none; "
            "add the table with its rate and motion_ratio" for end in ENDS]
    with pytest.raises(CarError, match="damper"):
        damper_roll_rate(an_axle(damper=None))


def test_a_car_that_rolls_over_is_refused_with_the_figure():
    with pytest.raises(CarError, match=r"given 1\.63 g at which it rolls over after \d\.\d\d s; settled, "
                                       r"it stands up to 1\.\d+ g"):
        roll_against_time(a_car(cg_height=0.62), BuildUp(16.0, 0.2, 20.0, 0.2))


def test_a_car_that_does_not_stand_up_is_refused():
    soft = {"spring_rate": 3e3, "bar": None}
    with pytest.raises(CarError, match="does not stand up"):
        roll_mode(a_car(front=soft, rear=soft))


@pytest.mark.parametrize("change, field", [
    ({"peak": 0.0}, "peak"), ({"peak": np.nan}, "peak"), ({"hold_time": 0.0}, "hold_time"),
    ({"rise_time": -1.0}, "rise_time"), ({"release_time": np.inf}, "release_time"),
    ({"shape": "round"}, "shape")])
def test_unusable_build_ups_are_refused_by_field(change, field):
    with pytest.raises(CarError, match=f"^{field}: wanted"):
        replace(CORNER, **change)


def test_build_up_rises_holds_and_goes():
    for shape in ("smooth", "linear"):
        corner = replace(CORNER, shape=shape)
        assert corner.at([0.0, corner.rise_time, corner.release_starts, corner.release_ends, 9.0]) \
            == pytest.approx([0, 6, 6, 0, 0], abs=1e-12)
        rise = corner.at(np.linspace(0, corner.rise_time, 50))
        assert np.all(np.diff(rise) > 0)
    assert STEP.at([-0.1, 0.0, 3.999, 4.0]) == pytest.approx([0, 3, 3, 0])
