"""A class on one server with JupyterHub: each learner's own lessons, server, kernels and answers.

DEVELOPERS.md says how to start it and what it needs. What may be set from outside:

ROLLMODEL_CLASS           folder of the class; made when missing          ~/rollmodel-class
ROLLMODEL_CLASS_PASSWORD  the class's password, 8 characters or more      (must be set)
ROLLMODEL_CLASS_ADDRESS   where it is served                              http://127.0.0.1:8000
ROLLMODEL_CLASS_PROXY     the program configurable-http-proxy             found on the PATH

Who may log in stands in ``learners.txt`` in the class's folder, one name a line. All servers run as the one
who started the hub: a learner with the skill to look can read another's files. Where that matters, as in an
assessment, give each an account of the system and JupyterHub's spawner for them, "local", in place of
"simple"; that is not tested here.
"""

import os
import shutil
import subprocess
import sys
from pathlib import Path
from urllib.parse import urlsplit

from rollmodel.cli import open_lessons as lessons

PLACE = Path(os.environ.get("ROLLMODEL_CLASS", "~/rollmodel-class")).expanduser().resolve()
ADDRESS = os.environ.get("ROLLMODEL_CLASS_ADDRESS", "http://127.0.0.1:8000")
PORT = urlsplit(ADDRESS).port or 8000
IDLE_KERNEL, IDLE_SERVER = 3600, 7200  # s; what nobody uses gives its memory back, the answers are in files
THREADS = "1"  # a lesson's sums are small; threads of twenty kernels would only wait for each other
HUB = PLACE / "hub"
PICTURES = HUB / "matplotlib"  # one list of the fonts for all, made before the first learner comes

for folder in (PLACE / "homes", PICTURES):
    folder.mkdir(parents=True, exist_ok=True)
subprocess.run(
    [sys.executable, "-c", "import matplotlib.font_manager"], env=os.environ | {"MPLCONFIGDIR": str(PICTURES)}
)


def names() -> set[str]:
    """Who may log in."""
    learners = PLACE / "learners.txt"
    lines = learners.read_text(encoding="utf-8").split("\n") if learners.is_file() else []
    return {line.strip() for line in lines if line.strip()}


def give_lessons(spawner) -> None:
    """Lessons and exercises into the learner's own folder; a file already there is never replaced."""
    lessons.copy_missing(lessons.source_folder(), PLACE / "homes" / spawner.user.name)


c = get_config()  # noqa: F821  JupyterHub puts this name there
c.JupyterHub.bind_url = ADDRESS
c.JupyterHub.hub_port = PORT + 1
c.JupyterHub.db_url = f"sqlite:///{HUB / 'hub.sqlite'}"
c.JupyterHub.cookie_secret_file = str(HUB / "cookie_secret")
c.JupyterHub.concurrent_spawn_limit = 0  # a class comes in at once; over a limit it would meet error pages
c.ConfigurableHTTPProxy.api_url = f"http://127.0.0.1:{PORT + 2}"
c.ConfigurableHTTPProxy.pid_file = str(HUB / "proxy.pid")
c.ConfigurableHTTPProxy.command = [
    os.environ.get("ROLLMODEL_CLASS_PROXY")
    or shutil.which("configurable-http-proxy")
    or "configurable-http-proxy"
]

c.JupyterHub.authenticator_class = "shared-password"
c.SharedPasswordAuthenticator.user_password = os.environ["ROLLMODEL_CLASS_PASSWORD"]
c.Authenticator.allowed_users = names()

c.JupyterHub.spawner_class = "simple"
c.SimpleLocalProcessSpawner.home_dir_template = str(PLACE / "homes" / "{username}")
c.Spawner.pre_spawn_hook = give_lessons
c.Spawner.default_url = "/lab/tree/lessons/index.ipynb"
c.Spawner.start_timeout = c.Spawner.http_timeout = 180
c.Spawner.environment = {
    "OPENBLAS_NUM_THREADS": THREADS,
    "OMP_NUM_THREADS": THREADS,
    "MPLCONFIGDIR": str(PICTURES),
    "JUPYTER_CONFIG_PATH": str(lessons.QUIET_DEFAULTS),
}
c.Spawner.args = [
    *lessons.OFFLINE,
    lessons.PROMPT_PICTURES,
    *lessons.encrypted_kernels(),
    f"--MappingKernelManager.cull_idle_timeout={IDLE_KERNEL}",
    f"--ServerApp.shutdown_no_activity_timeout={IDLE_SERVER}",
    *(["--allow-root"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []),
]
