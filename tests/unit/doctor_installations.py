"""Installations of this package to break: environments made of links to this one's libraries."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import sysconfig
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
LIBRARIES = Path(sysconfig.get_path("purelib"))
OURS = "rollmodel-"


@dataclass(frozen=True)
class Installation:
    """An environment with this checkout installed in it."""

    home: Path

    @property
    def python(self) -> str:
        return str(self.home / ("Scripts/python.exe" if os.name == "nt" else "bin/python"))

    @property
    def libraries(self) -> Path:
        layout = f"python{sys.version_info[0]}.{sys.version_info[1]}"
        return self.home / ("Lib" if os.name == "nt" else f"lib/{layout}") / "site-packages"

    @property
    def jupyter(self) -> Path:
        return self.home / "share" / "jupyter"

    def doctor(self, *arguments, **variables) -> subprocess.CompletedProcess:
        """What the command says in this environment."""
        return self.run("-m", "rollmodel", "doctor", *arguments, **variables)

    def ask(self, code: str, **variables) -> str:
        """What a piece of Python prints in this environment."""
        return self.run("-c", code, **variables).stdout.strip()

    def run(self, *arguments, **variables) -> subprocess.CompletedProcess:
        outside = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
        return subprocess.run(
            [self.python, *map(str, arguments)],
            cwd=self.home,
            env=outside | {name: str(value) for name, value in variables.items()},
            capture_output=True,
            text=True,
            timeout=240,
        )


def install(home: Path, without=(), bare: bool = False) -> Installation:
    """Make an environment.

    Parameters
    ----------
    home : Path
        Where; made.
    without : sequence of str
        Libraries to leave out, by their file or folder and what tells their version.
    bare : bool
        Leave all libraries out.
    """
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", str(home)], check=True, timeout=120)
    made = Installation(home)
    for path in LIBRARIES.iterdir():
        if not _left_out(path.name, without, bare):
            (made.libraries / path.name).symlink_to(path)
    (made.libraries / "rollmodel-checkout.pth").write_text(str(ROOT))
    shutil.copytree(Path(sys.prefix) / "share" / "jupyter", made.jupyter)  # links out of it are not served
    return made


def _left_out(name: str, without, bare: bool) -> bool:
    ours = name.startswith(OURS)
    plain = name.lower().replace("-", "_")
    makes_links = name.endswith(".pth") or name.startswith(("_editable", "__pycache__"))
    return makes_links or (bare and not ours) or any(_belongs(plain, one) for one in without)


def _belongs(name: str, library: str) -> bool:
    """Whether a file or folder is a library itself or the record of its version."""
    return (
        name == library
        or (name.startswith(f"{library}_") or name.startswith(f"{library}-"))
        and name.endswith("info")
    )
