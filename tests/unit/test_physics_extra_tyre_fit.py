"""Own-tyre fit: the normal equations by hand, another routine, a bootstrap, and what it refuses."""

import numpy as np
import pytest
from scipy.optimize import curve_fit

from rollmodel.car import CarError, Tyre
from rollmodel.physics.pair import largest_axle_force
from rollmodel.physics.tyre import magic_peak, peak_side_force
from rollmodel.physics.tyre_fit import fit_falling_grip

LOADS = np.array([1500.0, 2200, 3000, 3800, 4600, 5500])
TRUE = (1.35, 42e-6)


def noisy(seed=5, noise=0.01):
    scatter = np.random.default_rng(seed).normal(0, noise, LOADS.size)
    return TRUE[0] - TRUE[1] * LOADS + scatter


def test_points_on_a_line_give_the_line_back():
    fit = fit_falling_grip(LOADS, TRUE[0] - TRUE[1] * LOADS)
    assert (fit.peak_grip, fit.grip_drop) == pytest.approx(TRUE, rel=1e-12)
    assert fit.residuals == pytest.approx(np.zeros(6), abs=1e-12)
    assert fit.warnings == ()


def test_by_the_normal_equations_and_their_errors():
    """``(A^T A)^-1 A^T y`` with the covariance ``s^2 (A^T A)^-1``, loads in kN to keep it well behaved."""
    grips = noisy()
    design = np.column_stack([np.ones(6), -LOADS / 1000])
    inverse = np.linalg.inv(design.T @ design)
    line = inverse @ design.T @ grips
    scatter = np.sqrt(np.sum((grips - design @ line) ** 2) / 4)
    errors = scatter * np.sqrt(np.diag(inverse))
    fit = fit_falling_grip(LOADS, grips)
    assert (fit.peak_grip, 1000 * fit.grip_drop) == pytest.approx(tuple(line), rel=1e-10)
    assert (fit.peak_grip_error, 1000 * fit.grip_drop_error) == pytest.approx(tuple(errors), rel=1e-10)
    assert fit.scatter == pytest.approx(scatter, rel=1e-10)


def test_by_scipys_curve_fit_on_the_side_forces():
    """Another routine; forces weighted by load, so that it minimises the same grip residuals."""
    grips = noisy(9)
    found, covariance = curve_fit(lambda load, mu, k: (mu - k * load / 1000) * load, LOADS, grips * LOADS,
                                  p0=(1.0, 0.0), sigma=LOADS)
    fit = fit_falling_grip(LOADS, grips)
    # curve_fit stops at 1e-8 and differentiates by differences.
    assert (fit.peak_grip, 1000 * fit.grip_drop) == pytest.approx(tuple(found), rel=1e-5)
    assert (fit.peak_grip_error, 1000 * fit.grip_drop_error) == pytest.approx(
        tuple(np.sqrt(np.diag(covariance))), rel=1e-4)


def test_standard_errors_are_what_repeated_measuring_shows():
    fits = [fit_falling_grip(LOADS, noisy(seed)) for seed in range(1500)]
    spread = np.std([fit.grip_drop for fit in fits])
    claimed = np.sqrt(np.mean([fit.grip_drop_error**2 for fit in fits]))
    assert claimed == pytest.approx(spread, rel=0.06)  # 1500 repeats know a spread to 1.8 %; three of those
    held = np.mean([low <= TRUE[1] <= high for low, high in
                    (fit.interval(0.9)["grip_drop"] for fit in fits)])
    assert held == pytest.approx(0.90, abs=0.025)  # three times sqrt(0.9 * 0.1 / 1500)


def test_fit_to_the_1987_formula_gives_its_own_coefficients():
    """Its peak is ``a1 Fz^2 + a2 Fz``, so grip is exactly a straight line: a2/1000 and a1/1e6 per newton."""
    fit = fit_falling_grip(LOADS, magic_peak(LOADS) / LOADS)
    assert fit.peak_grip == pytest.approx(1.011, rel=1e-10)
    assert fit.grip_drop == pytest.approx(22.1e-6, rel=1e-10)


def test_the_tyre_that_comes_back_is_the_fitted_one():
    fit = fit_falling_grip(LOADS, noisy())
    tyre = fit.tyre(cornering_stiffness=60e3)
    assert isinstance(tyre, Tyre) and tyre.curve == "falling grip"
    assert peak_side_force(tyre, LOADS) == pytest.approx(fit.fitted * LOADS)
    assert fit.peak_force(4000.0) == pytest.approx((fit.peak_grip - fit.grip_drop * 4000) * 4000)
    # A pair at 4 +- 2 kN loses 2 k dF^2 against an even pair (closed form).
    loss = 2 * fit.peak_force(4000.0) - largest_axle_force(tyre, 6000.0, 2000.0)[0]
    assert loss == pytest.approx(2 * fit.grip_drop * 2000**2)
    assert fit.tyre(60e3, grip_scale=0.8).grip_scale == 0.8
    with pytest.raises(CarError, match="cornering_stiffness"):
        fit.tyre(cornering_stiffness=0.0)


def test_grip_that_does_not_fall_is_a_drop_of_nil():
    fit = fit_falling_grip(LOADS, np.full(6, 1.1))
    assert fit.grip_drop == pytest.approx(0, abs=1e-15) and fit.peak_grip == pytest.approx(1.1)
    assert fit.tyre(50e3).grip_drop == fit.grip_drop >= 0


@pytest.mark.parametrize("loads, grips, words", [
    ([2000, 4000], [1.2, 1.1], "only 2 points"),
    ([2000, 3000, 4000], [1.2, 1.16, 1.1], "only 3 points"),
    ([3000, 3200, 3400, 3600], [1.2, 1.19, 1.18, 1.17], "the loads lie close together (3000 to 3600 N)"),
    ([2000, 3000, 4000, 5000], [1.2, 1.1, 1.25, 1.15], "it may be nil"),
    ([2000, 3000, 4000, 5000], [4.2, 4.1, 4.0, 3.9], "grip outside 0.3 to 3"),
    ([2000, 3000, 4000, 5000], [1.2, 1.0, 0.8, 0.6], "above 4000 N the fitted peak force falls"),
])
def test_warnings_say_what_is_thin(loads, grips, words):
    fit = fit_falling_grip(loads, grips)
    assert any(words in warning for warning in fit.warnings), fit.warnings


def test_a_sound_set_of_points_gets_no_warning():
    assert fit_falling_grip(LOADS, noisy()).warnings == ()


def test_two_points_have_no_errors_to_show():
    fit = fit_falling_grip([2000, 4000], [1.2, 1.1])
    assert (fit.peak_grip, fit.grip_drop) == pytest.approx((1.3, 50e-6))
    assert all(np.isnan(x) for x in (fit.peak_grip_error, fit.grip_drop_error, fit.scatter))
    assert all(np.isnan(fit.interval()["grip_drop"]))


def test_loads_outside_the_points_are_named():
    fit = fit_falling_grip(LOADS, noisy())
    assert fit.outside_range([2000, 5000]) == []
    assert fit.outside_range([900.0, 6200.0]) == [
        "load of 900 N lies below the lowest point (1500 N); the line there is a guess",
        "load of 6200 N lies above the highest point (5500 N); the line there is a guess"]


@pytest.mark.parametrize("loads, grips, words", [
    ([2000], [1.2], "loads: wanted at least two points at different loads, given 1"),
    ([], [], "loads: wanted at least two points"),
    ([3000, 3000, 3000], [1.2, 1.1, 1.2], "loads: wanted at least two different loads, given 3000 N every"),
    ([2000, 4000], [1.2], "grips: wanted one for each of the 2 loads, given 1"),
    ([2000, np.nan, 4000], [1.2, 1.1, 1.1], "loads: wanted finite numbers above zero, given nan at point 2"),
    ([2000, 3000], [1.2, -1.1], "grips: wanted finite numbers above zero, given -1.1 at point 2"),
    ([2000, 3000, 4000], [1.0, 1.1, 1.2], "rises by 0.1 per kN"),
])
def test_refusals(loads, grips, words):
    with pytest.raises(CarError) as told:
        fit_falling_grip(loads, grips)
    assert words in str(told.value)
