"""Every lesson, cell by cell, with odd cars of somebody's own: sheets on disk, as a learner has them."""

import re
from html import unescape
from pathlib import Path

import nbformat
import pytest

import rollmodel.panels as panels
from rollmodel.panels import Panel
from rollmodel.panels.header import Header
from rollmodel.panels.lesson import Lesson
from rollmodel.units import FAMILIES
from tests.panels.panel_checks import check_shown, ends, press

LESSONS = sorted((Path(__file__).parents[2] / "lessons").glob("[0-9][0-9]-*.ipynb"))

END = """
[{end}]
track = "{track}"
unsprung_mass = "{mass}"
unsprung_cg_height = "{height}"
roll_centre_height = "{centre}"
spring_rate = "{spring}"
spring_motion_ratio = {ratio}
"""
ONE_FRONT_BAR_US = (
    """
title = "Bob's <b>old</b> *hatch*"
drive = "front"
mass = "2150 lb ± 20 lb"
front_weight_share = "62 %"
wheelbase = "95.5 in"
cg_height = "20.5 in ± 1 in"
chassis_torsion = "4000 lbf*ft/deg"
[tyre]
curve = "magic formula 2006"
"""
    + END.format(
        end="front",
        track="56 in",
        mass="150 lb",
        height="11 in",
        centre="-1.5 in",
        spring="160 lbf/in",
        ratio=0.95,
    )
    + """
[front.bar]
outer_diameter = "0.75 in"
centre_length = "34 in"
arms = "rigid"
holes = ["9 in"]
link_motion_ratio = 0.5
"""
    + END.format(
        end="rear",
        track="55 in",
        mass="130 lb",
        height="11 in",
        centre="7 in",
        spring="240 lbf/in",
        ratio=0.7,
    )
)
BLADES_AND_SWEPT_ARMS = (
    """
title = "Shed special"
drive = "all"
mass = "640 kg"
front_weight_share = "44 %"
wheelbase = "2.3 m"
cg_height = "330 mm"
[tyre]
curve = "falling grip"
peak_grip = 1.6
grip_drop_per_kN = 0.05
cornering_stiffness = "900 N/deg"
"""
    + END.format(
        end="front",
        track="1.35 m",
        mass="44 kg",
        height="270 mm",
        centre="20 mm",
        spring="40 N/mm",
        ratio=0.8,
    )
    + """
[front.bar]
outer_diameter = "16 mm"
wall = "2 mm"
centre_length = "300 mm"
arms = "blade"
hole = 1
link_motion_ratio = 0.5
[front.bar.blade]
length = "130 mm"
width = "20 mm"
thickness = "4 mm"
angles = ["0 deg", "90 deg"]
tip = "guided"
"""
    + END.format(
        end="rear",
        track="1.30 m",
        mass="50 kg",
        height="275 mm",
        centre="45 mm",
        spring="55 N/mm",
        ratio=0.75,
    )
    + """
bump_travel = "40 mm"
bump_stop_rate = "80 N/mm"
[rear.bar]
outer_diameter = "18 mm"
centre_length = "800 mm"
support_spacing = "600 mm"
arms = "same section"
holes = ["240 mm", "220 mm", "200 mm", "180 mm", "160 mm"]
arm_length = "260 mm"
hole = 5
link_motion_ratio = 0.7
bushing_rate = "900 N/mm"
"""
)
NO_BAR_AT_ALL = re.sub(r"\[front\.bar\]\n(.+\n)+", "", ONE_FRONT_BAR_US).replace(
    "Bob's <b>old</b> *hatch*", "Barless"
)
RATES_ALONE = (
    BLADES_AND_SWEPT_ARMS.replace("Shed special", "Bench special")
    .partition("[front.bar]")[0]
    + """
[front.bar]
rates = ["30 N/mm ± 2 N/mm", "41.5 N/mm", "55 N/mm"]
hole = 2
link_motion_ratio = 0.5
"""
    + END.format(
        end="rear",
        track="1.30 m",
        mass="50 kg",
        height="275 mm",
        centre="45 mm",
        spring="55 N/mm",
        ratio=0.75,
    )
    + """
[rear.bar]
rates = ["24 N/mm", "32 N/mm"]
hole = 1
link_motion_ratio = 0.7
link_lean_at_arm = "10 deg"
"""
)
RATES_AND_SIZES = RATES_ALONE.partition("[rear.bar]")[0].replace("Bench special", "Half known") + (
    "[rear.bar]" + BLADES_AND_SWEPT_ARMS.partition("[rear.bar]")[2]
)
DAMPERS = "".join(f'[{end}.damper]\nrate = "3000 N*s/m"\nmotion_ratio = 0.8\n' for end in ("front", "rear"))
CARS = {
    "front bar alone, US": ONE_FRONT_BAR_US,
    "blades, swept arms": BLADES_AND_SWEPT_ARMS,
    "no bar": NO_BAR_AT_ALL,
    "bars known by their rates": RATES_ALONE + DAMPERS,
    "one bar known by its rates": RATES_AND_SIZES + DAMPERS,
}


STANDS_IN = {
    "Bob's b old /b hatch": (7, 8, 11),
    "Shed special": (8,),
    "Barless": (2, 3, 7, 8, 11),
    "Bench special": (2,),
    "Half known": (),
}  # by title: lessons


@pytest.fixture
def run(tmp_path, monkeypatch):
    """Runs the code cells of a notebook with a sheet in place of its car; returns its lesson."""

    def with_car(notebook, sheet):
        (tmp_path / "mine.toml").write_text(sheet, encoding="utf-8")
        monkeypatch.chdir(tmp_path)
        made = []
        monkeypatch.setattr(panels, "start", lambda name: made.append(Lesson(name, "mine.toml")) or made[0])
        cells = [
            cell.source for cell in nbformat.read(notebook, as_version=4).cells if cell.cell_type == "code"
        ]
        names = {}
        for cell in cells:
            exec(compile(cell, notebook.name, "exec"), names)
        return made[0]

    return with_car


@pytest.mark.parametrize("notebook", LESSONS, ids=lambda path: path.stem[:2])
@pytest.mark.parametrize("sheet", CARS.values(), ids=CARS)
def test_a_lesson_runs_with_a_sheet_of_ones_own(run, notebook, sheet, capsys):
    lesson = run(notebook, sheet)
    said = capsys.readouterr().out
    assert lesson.stand_in or lesson.number == 2 or lesson.car.title in said, (
        "it speaks of this car, or says not"
    )
    assert lesson.stand_in in unescape(Header(lesson).message.value)
    assert not re.search(r"\bnan\b|\binf\b|<b>|\*hatch", said)
    assert bool(lesson.stand_in) == (lesson.number in STANDS_IN[lesson.car.title]), lesson.stand_in
    shown = [one for one in lesson._shown if isinstance(one, Panel)]
    assert shown and all(one.fault is None for one in shown)
    lesson.change(family=FAMILIES[sheet == ONE_FRONT_BAR_US])
    for panel in shown if not lesson.stand_in else ():  # training cars have tests of their own
        every_end(panel)


def every_end(panel):
    """Each control at both ends: no refusal; in the end picture and words that belong together."""
    for row in list(panel.rows.values()):
        panel.reset()
        for value in (ends(row.control)[0], ends(row.control)[-1]):
            press(row, value)
            assert panel.fault is None, (type(panel).__name__, row.control.name, value, panel.fault)
    check_shown(panel)
