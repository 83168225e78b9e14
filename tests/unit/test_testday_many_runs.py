"""Outliers among many runs: the same as one fit of everything, and in a time that grows with the points."""

import time
from dataclasses import replace

import numpy as np
import pytest
from statsmodels.regression.linear_model import OLS

from rollmodel.testday.outliers import UNLIKELY, _chances, outliers
from tests.unit.testday_cases import STEER, plain_run, setup


def test_points_are_those_of_one_fit_of_every_line_and_the_shared_bend():
    """Second road: the library's fit of all columns at once, and its own studentised residuals."""
    base = setup()
    spoiled = base.runs[2].roll.copy()
    spoiled[4] += 0.01  # rad, far beyond the scatter
    found = replace(base, runs=(*base.runs[:2], replace(base.runs[2], roll=spoiled), *base.runs[3:]))
    sizes = np.array([run.points for run in found.runs])
    accel = np.concatenate([run.lateral_acceleration for run in found.runs])
    own = (np.repeat(np.arange(len(sizes)), sizes)[:, None] == np.arange(len(sizes))).astype(float)
    scaled = (accel - accel.mean()) / np.ptp(accel)
    design = np.column_stack([own, own * scaled[:, None], scaled**2, scaled**3, scaled**4])
    fit = OLS(np.concatenate([run.roll for run in found.runs]), design).fit()
    first = np.concatenate(([0], np.cumsum(sizes)[:-1]))
    away, unlikely = _chances(found, "roll", accel, sizes, first)
    assert away == pytest.approx(fit.resid, abs=1e-12)  # rad; both in doubles
    table = fit.outlier_test(method="bonf")
    assert unlikely.tolist() == np.flatnonzero(table[:, 2] < UNLIKELY).tolist() != []


def test_many_short_runs_take_no_longer_than_their_points():
    draw = np.random.default_rng(1)
    runs = tuple(
        replace(
            plain_run(1 - 2 * (i % 2), STEER, count=13, name=f"run {i}"), steer=draw.normal(0.1, 0.001, 13)
        )
        for i in range(2000)
    )
    start = time.perf_counter()
    outliers(replace(setup(), runs=runs), "understeer gradient")
    assert time.perf_counter() - start < 5  # s; 0.3 where it was written, hours with one column a run
