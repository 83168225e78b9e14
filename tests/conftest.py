"""What every test shares: reproducible draws, and a home of their own for what Jupyter writes."""

import os
import tempfile

from hypothesis import settings

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
