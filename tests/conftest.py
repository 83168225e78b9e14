"""What every test shares: reproducible draws, and a home of their own for what Jupyter writes."""

import os
import tempfile
import uuid

import nbval.kernel
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
