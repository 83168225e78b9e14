"""Learning from runs: the sheet's least certain numbers, moved within what they may be off."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from scipy.optimize import least_squares

from rollmodel.car import Car, CarError
from rollmodel.sheets.faults import nearest
from rollmodel.testday.doubts import Doubt, moved
from rollmodel.testday.faults import DayError
from rollmodel.testday.measured import COVERAGE

MOST = 6  # numbers that are moved, unless they are named
MATTERS = 0.2  # standard errors that a number must be able to move some reading by
ALIKE = 0.95  # cosine between what two numbers do to the readings, from which they cannot be told apart
BADLY = 2.5  # standard errors that a reading may be off after the fit without a word
_AT_BOUND = 0.98  # part of the way to its bound


@dataclass(frozen=True)
class Observation:
    """One reading of the car to fit. SI."""

    name: str  # "roll gradient before"
    kind: str  # a key of units.KINDS
    value: float
    standard: float  # standard uncertainty


@dataclass(frozen=True)
class Learned:
    """One number of the sheet after the fit."""

    doubt: Doubt
    value: float  # SI
    uncertainty: float  # behind the plus-or-minus sign, SI; what the sheet said and the runs together leave
    at_bound: bool

    @property
    def moved(self) -> float:
        """How far it moved, [SI]."""
        return self.value - self.doubt.value

    @property
    def narrowed(self) -> float:
        """Part of its uncertainty that the runs took away, [-]."""
        return 1 - self.uncertainty / self.doubt.limit


@dataclass(frozen=True)
class Fit:
    """What the runs taught."""

    numbers: tuple[Learned, ...]
    observations: tuple[Observation, ...]
    before: tuple[float, ...]  # the sheet's prediction of each observation
    after: tuple[float, ...]  # the fitted car's
    alike: tuple[tuple[str, str], ...]  # pairs of numbers that the runs cannot tell apart
    told: int  # how many independent things about the numbers the runs tell
    held: int = 0  # numbers that are uncertain too and were held as if they were exact

    @property
    def off(self) -> tuple[float, ...]:
        """How far each reading is still off, in its standard errors."""
        return tuple(
            (seen.value - model) / seen.standard
            for seen, model in zip(self.observations, self.after, strict=True)
        )

    @property
    def unexplained(self) -> list[str]:
        """Readings that the numbers cannot be brought to within what they may be off."""
        return [seen.name for seen, off in zip(self.observations, self.off, strict=True) if abs(off) > BADLY]


def learn(
    car: Car,
    doubts: list[Doubt],
    observations: list[Observation],
    model: Callable[[Car], list[float]],
    names: list[str] | None = None,
) -> Fit:
    """Move a sheet's least certain numbers to fit some readings.

    Least squares of ``(seen - model) / u_seen`` for each reading and ``(x - x_sheet) / u_x`` for each number,
    every number held within what its plus-or-minus sign allows.

    Parameters
    ----------
    car : Car
        As the sheet has it.
    doubts : list of Doubt
        How well its numbers are known.
    observations : list of Observation
    model : callable
        From a car to its prediction of each observation, [SI].
    names : list of str, optional
        Numbers to move; those that can move the readings most when left out.

    Returns
    -------
    Fit

    Raises
    ------
    DayError
        A name that the sheet lacks; nothing that moves the readings.

    Notes
    -----
    A number that the readings say nothing of stays where it was. Uncertainty after the fit is that of the
    straight-line problem at the answer. Derived here; it is the usual combination of prior knowledge and new
    readings, with bounds.
    """
    chosen, slopes = _chosen(car, doubts, observations, model, names)
    seen = np.array([one.value for one in observations])
    standard = np.array([one.standard for one in observations])

    def misfit(steps):
        return np.concatenate([(np.array(model(_car(car, chosen, steps))) - seen) / standard, steps])

    found = least_squares(misfit, np.zeros(len(chosen)), bounds=(-COVERAGE, COVERAGE), diff_step=1e-3)
    influence = found.jac[: len(seen)]
    spread = np.sqrt(np.diag(np.linalg.inv(influence.T @ influence + np.eye(len(chosen)))))
    numbers = tuple(
        _learned(doubt, step, part) for doubt, step, part in zip(chosen, found.x, spread, strict=True)
    )
    return Fit(
        numbers,
        tuple(observations),
        tuple(model(car)),
        tuple(model(_car(car, chosen, found.x))),
        _alike(chosen, slopes),
        int(np.sum(np.linalg.svd(slopes, compute_uv=False) > 1)),
        len(doubts) - len(chosen),
    )


def _chosen(car, doubts, observations, model, names):
    """The numbers to move, and what one standard uncertainty of each does to the readings, in theirs."""
    wanted = doubts if names is None else [_named(doubts, name) for name in names]
    standard = np.array([one.standard for one in observations])
    slopes = np.array([_effect(car, doubt, model) / standard for doubt in wanted])
    size = np.linalg.norm(slopes, axis=1) if len(wanted) else np.array([])
    order = np.argsort(-size, kind="stable")
    keep = [i for i in order if size[i] > MATTERS][:MOST] if names is None else list(range(len(wanted)))
    if not keep:
        raise DayError(
            "nothing to learn: no number of the sheet, within what it may be off, moves these readings by "
            "more than they scatter"
        )
    return [wanted[i] for i in keep], slopes[keep].T


def _named(doubts: list[Doubt], name: str) -> Doubt:
    for doubt in doubts:
        if doubt.name == name:
            return doubt
    near = nearest(name, {doubt.name.replace(".", "_"): 1 for doubt in doubts})
    close = next((doubt.name for doubt in doubts if doubt.name.replace(".", "_") == near), None)
    if close:
        raise DayError(f'no number "{name[:60]}" in the sheet; "{close}" was meant?')
    raise DayError(
        f'no number "{name[:60]}" in the sheet that could be learned; there are '
        + ", ".join(doubt.name for doubt in doubts)
    )


def _effect(car: Car, doubt: Doubt, model) -> np.ndarray:
    """What a change by one standard uncertainty does to every prediction; half of both sides together."""
    ends = [np.array(model(_car(car, [doubt], [step]))) for step in (-1.0, 1.0)]
    return (ends[1] - ends[0]) / 2


def _car(car: Car, doubts, steps) -> Car:
    """The car with each number moved by so many of its standard uncertainties."""
    for doubt, step in zip(doubts, steps, strict=True):
        try:
            car = moved(car, doubt.name, float(step) * doubt.standard)
        except CarError:
            raise DayError(
                f"{doubt.words}: within ±{doubt.limit:.3g} (SI) it makes a car that cannot be; state a "
                "smaller uncertainty in the sheet"
            ) from None
    return car


def _learned(doubt: Doubt, step: float, spread: float) -> Learned:
    return Learned(
        doubt,
        doubt.value + step * doubt.standard,
        COVERAGE * spread * doubt.standard,
        bool(abs(step) > _AT_BOUND * COVERAGE),
    )


def _alike(chosen, slopes) -> tuple[tuple[str, str], ...]:
    """Pairs that move every reading in nearly the same proportion, the rest too small to be seen."""
    pairs = combinations(range(len(chosen)), 2)
    return tuple((chosen[i].name, chosen[j].name) for i, j in pairs if _same_way(slopes[:, i], slopes[:, j]))


def _same_way(one, other) -> bool:
    """Whether two effects on the readings, in their standard errors, differ by less than one of those."""
    small, large = sorted((one, other), key=np.linalg.norm)
    size, along = np.linalg.norm(small), small @ large / np.linalg.norm(large)
    return bool(size > MATTERS and abs(along) > ALIKE * size and np.sqrt(max(size**2 - along**2, 0.0)) < 1)
