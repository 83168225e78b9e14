"""The shape of the package: which way the arrows point, what each part may import, how long files grow."""

import ast
import graphlib
import inspect
import re
import subprocess
import sys
import tomllib
from importlib import import_module
from importlib.metadata import packages_distributions
from pathlib import Path
from types import NoneType
from typing import get_args

import pytest

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "rollmodel"
PYTHON_FILES = sorted(PACKAGE.rglob("*.py"))
MODEL = ("units", "car", "physics", "sheets", "advice")

# Who may import whom. A part may always import itself, and the version number at the top.
ARROWS = {
    "rollmodel": (),
    "units": (),
    "car": (),
    "disk": (),
    "course": (),
    "physics": ("car",),
    "sheets": ("units", "car", "disk", "physics"),
    "advice": ("car", "physics"),
    "testday": ("disk", *MODEL),
    "reports": (*MODEL, "testday"),
    "figures": ("units", "car", "physics", "advice", "testday"),
    "questions": ("disk", *MODEL, "testday"),
    "doctor": ("course",),
    "panels": ("course", *MODEL, "testday", "reports", "figures", "questions"),
    "marking": ("units", "car", "disk", "physics", "sheets", "questions"),
    "handouts": ("course", "units", "panels"),
    "cli": (
        *("course", "disk", *MODEL, "testday", "reports"),
        *("figures", "questions", "panels", "handouts", "marking", "doctor"),
    ),
}
# A part may be several files: the tables of units, the words typed and how shown numbers add up stand beside
# the file that reads and shows them, what the records check about their numbers beside the records.
PART_OF_FILE = {"kinds": "units", "typed": "units", "adding_up": "units", "checked": "car", "__main__": "cli"}
# Where these libraries may be imported; the rest of the package does without them.
KEEPERS = {
    "pint": ("rollmodel/units.py",),
    "matplotlib": (
        "rollmodel/figures/",
        "rollmodel/panels/canvas.py",  # hands a drawn figure to a widget
        "rollmodel/panels/lettering.py",  # and these paint its texts
        "rollmodel/panels/typesetting.py",
        "rollmodel/doctor/try_picture.py",
    ),
    "PIL": ("rollmodel/panels/canvas.py",),
    "pandas": ("rollmodel/testday/", "rollmodel/marking/"),
    "statsmodels": ("rollmodel/testday/", "rollmodel/marking/"),
    "jinja2": ("rollmodel/marking/", "rollmodel/reports/", "rollmodel/handouts/"),
    "nbformat": ("rollmodel/marking/", "rollmodel/handouts/"),
    "nbconvert": ("rollmodel/handouts/",),
    "bs4": ("rollmodel/handouts/",),
    "latex2mathml": ("rollmodel/handouts/",),
    "ipywidgets": ("rollmodel/panels/",),
    "anywidget": ("rollmodel/panels/",),
    "traitlets": ("rollmodel/panels/", "rollmodel/handouts/"),
    "IPython": ("rollmodel/panels/", "rollmodel/handouts/"),
    "jupyterlab": ("rollmodel/cli/",),
}
LONGEST_FILE = 300  # lines
LONGER_FILES: dict[str, int] = {}  # file: lines it may have until it is divided; an entry may only shrink
TOP_LEVEL = {
    "README.md",
    "DEVELOPERS.md",
    "pyproject.toml",
    "lessons",
    "rollmodel",
    "tests",
    "exercises",
    "solutions",
}


def module_name(path: Path) -> str:
    """The dotted name under which a file is imported."""
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


MODULES = {module_name(path): path for path in PYTHON_FILES}


def imports(path: Path) -> list[str]:
    """Every module that a file imports, at its top or inside a function."""
    found = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            found += imported_from(node, path)
    return found


def imported_from(node: ast.ImportFrom, path: Path) -> list[str]:
    """The modules behind one `from ... import ...`: a submodule where there is one, else the module named."""
    base = node.module or ""
    if node.level:
        package = path.parent.relative_to(ROOT).parts
        base = ".".join((*package[: len(package) - node.level + 1], *base.split("."))).rstrip(".")
    whole = (f"{base}.{alias.name}" for alias in node.names)
    return [name if name in MODULES else base for name in whole]


def part(name: str) -> str:
    """The part of the package that a module belongs to."""
    names = name.split(".")
    return PART_OF_FILE.get(names[1], names[1]) if len(names) > 1 else "rollmodel"


def relative(path: Path) -> str:
    """A file's name as people say it."""
    return path.relative_to(ROOT).as_posix()


def is_ours(name: str) -> bool:
    return name.split(".")[0] == "rollmodel"


def test_every_part_is_known():
    assert {part(name) for name in MODULES} <= set(ARROWS)


def test_arrows_point_one_way():
    wrong = [
        f"{relative(path)} imports {name}"
        for path in PYTHON_FILES
        for name in filter(is_ours, imports(path))
        if part(name) not in ("rollmodel", part(module_name(path)), *ARROWS[part(module_name(path))])
    ]
    assert wrong == []


def test_no_circles_among_files():
    graph = {
        name: {other for other in imports(path) if is_ours(other) and other != name}
        for name, path in MODULES.items()
    }
    graphlib.TopologicalSorter(graph).prepare()


def test_outside_libraries_stay_in_their_place():
    wrong = [
        f"{relative(path)} imports {name}"
        for path in PYTHON_FILES
        for name in imports(path)
        if not relative(path).startswith(KEEPERS.get(name.split(".")[0], ""))
    ]
    assert wrong == []


def test_physics_needs_numpy_and_scipy_alone():
    outside = {
        name.split(".")[0]
        for path in PYTHON_FILES
        if part(module_name(path)) == "physics"
        for name in imports(path)
    }
    assert outside - set(sys.stdlib_module_names) <= {"numpy", "scipy", "rollmodel"}


def test_no_figure_uses_the_global_plotting_state():
    users = [
        relative(path)
        for path in PYTHON_FILES
        for name in imports(path)
        if "pyplot" in name or "pylab" in name
    ]
    assert users == []


LIGHT = ("units", "car", "disk", "sheets", "advice", "testday", "reports", "questions", "marking", "cli")


@pytest.mark.parametrize("parts", [("rollmodel",), ("physics",), LIGHT], ids="+".join)
def test_importing_the_model_brings_neither_plots_nor_widgets(parts):
    names = ", ".join(name for name in MODULES if part(name) in parts)
    check = f"import sys, {names}; print(*{{'matplotlib', 'ipywidgets', 'jupyterlab'}} & set(sys.modules))"
    answer = subprocess.run(
        [sys.executable, "-c", check], capture_output=True, text=True, timeout=60, check=True
    )
    assert answer.stdout.split() == []


def test_questions_load_the_test_day_only_when_it_is_asked():
    check = (
        "import sys; from rollmodel.questions import bank; bank.all_questions(); "
        "print('statsmodels' in sys.modules)"
    )
    answer = subprocess.run(
        [sys.executable, "-c", check], capture_output=True, text=True, timeout=60, check=True
    )
    assert answer.stdout.split() == ["False"]


def test_files_stay_short():
    lengths = {relative(path): len(path.read_text(encoding="utf-8").splitlines()) for path in PYTHON_FILES}
    too_long = {name: n for name, n in lengths.items() if n > LONGER_FILES.get(name, LONGEST_FILE)}
    assert too_long == {}
    assert all(lengths.get(name, 0) > LONGEST_FILE for name in LONGER_FILES), (
        "an exception that is not needed"
    )


def public_functions(part_name: str):
    """Every public function that a part defines, with its dotted name."""
    for name in sorted(name for name in MODULES if part(name) == part_name):
        for label, thing in vars(import_module(name)).items():
            if inspect.isfunction(thing) and thing.__module__ == name and not label.startswith("_"):
                yield f"{name}.{label}", thing


def takes_a_quantity(function) -> bool:
    """Whether a parameter has a unit: all but words, counts, and our records, whose fields say their own."""
    parameters = inspect.signature(function, eval_str=True).parameters.values()
    kinds = [kind for one in parameters for kind in (get_args(one.annotation) or (one.annotation,))]
    return any(not is_ours(kind.__module__) and kind not in (bool, int, str, NoneType) for kind in kinds)


def test_every_equation_says_its_units():
    silent = [
        name
        for name, function in public_functions("physics")
        if takes_a_quantity(function) and not re.search(r"\[[^\]\n]+\]", inspect.getdoc(function) or "")
    ]
    assert silent == [], "no unit in [brackets] in the docstring; [-] for a plain ratio"


def test_every_equation_has_a_docstring():
    assert [name for name, function in public_functions("physics") if not inspect.getdoc(function)] == []


def listed_parameters(text: str) -> set[str]:
    """The names that a docstring's list of parameters holds."""
    section = text.split("Parameters\n----------\n", 1)[1]
    names = re.findall(r"^([\w*, ]+?)(?: :.*)?$", section, re.MULTILINE)
    return {name.strip(" *") for line in names for name in line.split(",")}


def test_a_list_of_parameters_is_whole():
    missing = [
        f"{name}: {parameter}"
        for name, function in public_functions("physics")
        if "Parameters\n----------\n" in (inspect.getdoc(function) or "")
        for parameter in set(inspect.signature(function).parameters)
        - listed_parameters(inspect.getdoc(function))
    ]
    assert missing == []


def tracked_files() -> list[str]:
    """What git keeps; the test is about a checkout."""
    if not (ROOT / ".git").exists():
        pytest.skip("not a git checkout: there is no list of kept files to look at")
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=True)
    return listed.stdout.strip("\0").split("\0")


def test_top_level_holds_nothing_else():
    top = {name.split("/")[0] for name in tracked_files()}
    assert {name for name in top if not name.startswith(".")} <= TOP_LEVEL


def declared() -> set[str]:
    """The libraries that pyproject.toml asks for, with every extra."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    lines = sum(project["optional-dependencies"].values(), project["dependencies"])
    return {plain(re.split(r"[^\w.-]", line)[0]) for line in lines}


def plain(name: str) -> str:
    """A library's name as pip compares it."""
    return re.sub(r"[-_.]+", "-", name).lower()


def test_every_library_is_declared():
    folders = ("rollmodel", "tests", ".dev")
    files = [path for folder in folders for path in (ROOT / folder).rglob("*.py")]
    ours = {"rollmodel", "tests", *(path.stem for path in files), *sys.stdlib_module_names}
    used = {name.split(".")[0] for path in files for name in imports(path)} - ours - {""}
    homes = packages_distributions()
    undeclared = {name for name in used if not declared() & set(map(plain, homes.get(name, [name])))}
    assert undeclared == set()
