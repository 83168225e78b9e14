"""What every test shares: reproducible draws, and a home of their own for what Jupyter writes."""

import json
import os
import tempfile
import uuid

import nbval.kernel
import pytest
from filelock import FileLock
from hypothesis import settings
from jupyter_client.manager import KernelManager
from traitlets import default

# The machine decides how long an example takes, not the code under test; the same draws everywhere let a
# failure be repeated. `--hypothesis-profile=explore` looks further.
settings.register_profile("repeatable", deadline=None, derandomize=True)
settings.register_profile("explore", deadline=None, max_examples=1000)
settings.load_profile("repeatable")


def pytest_configure(config):
    """Keep a developer's own start-up files and history out of every kernel that the tests start."""
    home = tempfile.TemporaryDirectory(prefix="rollmodel-tests-", ignore_cleanup_errors=True)
    config.add_cleanup(home.cleanup)
    os.environ["IPYTHONDIR"] = os.path.join(home.name, "ipython")
    if os.name == "posix":
        nbval.kernel.KernelManager = spoken_to_by_files(home.name)


def spoken_to_by_files(folder):
    """A manager of kernels that are spoken to by socket files.

    A kernel on ports is told numbers that were free a second before. With several processes that start
    kernels at once, one may find its number taken by then, and ends before its first cell.
    """

    class KernelsOnFiles(KernelManager):
        @default("transport")
        def _by_files(self):
            return "ipc"

        @default("ip")
        def _ip_default(self):
            return os.path.join(folder, uuid.uuid4().hex[:8])

    return KernelsOnFiles


@pytest.fixture(scope="session")
def every_page(tmp_path_factory):
    """Handout and slides of every lesson as HTML, by the lesson's path and the part's name.

    Made once for all processes of a run. Source of the way: "Making session-scoped fixtures execute only
    once" in the documentation of pytest-xdist.
    """
    from rollmodel.cli.open_lessons import source_folder
    from rollmodel.course import lessons
    from rollmodel.handouts.making import lesson_pages

    folder, base = source_folder() / "lessons", tmp_path_factory.getbasetemp()
    paths = [folder / one.file for one in lessons(folder)]
    kept = (base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "pages.json"
    with FileLock(f"{kept}.lock"):
        if not kept.exists():
            made = dict(zip((path.name for path in paths), lesson_pages(paths), strict=True))
            kept.write_text(json.dumps(made), encoding="utf-8")
    found = json.loads(kept.read_text(encoding="utf-8"))
    return {path: found[path.name] for path in paths}
