"""Every number of the car report against a second road that shares no code with the package.

Tolerances. Both roads solve the same equations, so they differ only by how finely the second one scans:
its bending energies are summed over 4000 slices (1e-7), its angles halved to 1e-12, its limits to 4e-10 g.
1e-5 leaves room for that and no more. The understeer gradient is taken over 0.002 g on both roads: where the
curve bends, at a lifting wheel most, its step decides the figure.
"""

import json

import pytest

from rollmodel import sheets
from rollmodel.cli import main
from rollmodel.reports.car import ENDS, car_values, read_car
from tests.unit.independent import G, SecondRoad
from tests.unit.independent_cases import CASES, changed, sheet

NEAR = 1e-5
# All-wheel drive, driven: the end that outlasts the other is asked what it could give beside an end already
# past its limit. The package takes that one at its best slip without drive, the second road with drive.
OUTLASTING = 3e-3


def compare(ours: dict, theirs: dict, loose=(), path=""):
    """Every number that the second road has, against ours."""
    for name, wanted in theirs.items():
        if isinstance(wanted, dict):
            compare(ours[name], wanted, loose, f"{path}{name}.")
        elif isinstance(wanted, float):
            near = OUTLASTING if name in loose else NEAR
            assert ours[name] == pytest.approx(wanted, rel=near, abs=1e-6), path + name
        else:
            assert ours[name] == wanted, path + name


@pytest.mark.parametrize("name", sorted(sheets.training_cars()))
def test_training_car(name, capsys):
    assert main(["car", name, "--json"]) == 0
    compare(json.loads(capsys.readouterr().out), SecondRoad(sheet(name)).report(G))


@pytest.mark.parametrize("name", sorted(CASES))
def test_changed_car(name):
    base, at, changes = CASES[name]
    tables = changed(base, changes)
    theirs = SecondRoad(tables).report(at * G)
    ours = car_values(read_car(sheets.from_values(tables), at * G))
    compare(ours, theirs)
    assert PROMISED.get(name, lambda report: True)(ours), "the case no longer shows what its name says"


PROMISED = {
    "front wheel up": lambda report: report["front"]["inside_wheel_lifted"],
    "a chassis that twists, rear wheel up": lambda report: report["rear"]["inside_wheel_lifted"],
    "on the bump stops": lambda report: report["front"]["on_bump_stop"] and report["rear"]["on_bump_stop"],
    "rolls over before it slides": lambda report: report["limit_g"] is None and report["limit_end"] is None,
    "slides below 0.3 g": lambda report: report["understeer_gradient_deg_per_g"] is None,
}


@pytest.mark.parametrize("name", ["coupe", "hatch", "saloon"])
def test_driven(name):
    """One car of each drive; the car's own limit is held tightly, the outlasting end's as said above."""
    theirs = SecondRoad(sheet(name), driven=True).report(0.6 * G)
    ours = car_values(read_car(sheets.training_car(name), 0.6 * G, driven=True))
    loose = [f"{end}_limit_g" for end in ENDS] + ["limit_g"] if name == "saloon" else []
    compare(ours, theirs, loose)


def test_the_second_road_is_not_blind():
    """A factor 2 in one bar must show: the comparison can fail."""
    tables = sheet("coupe")
    tables["front"]["bar"]["centre_length"] = "475 mm"
    theirs = SecondRoad(tables).report(G)
    with pytest.raises(AssertionError):
        compare(car_values(read_car(sheets.training_car("coupe"))), theirs)
