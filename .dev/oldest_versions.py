"""Print the oldest version of each library that pyproject.toml admits, as constraints for pip.

    python .dev/oldest_versions.py > /tmp/oldest.txt
    python3 -m venv /tmp/oldest && /tmp/oldest/bin/python -m pip install -c /tmp/oldest.txt -e ".[test]"
    /tmp/oldest/bin/python -m pytest -n 2 --dist loadfile
"""

import re
import tomllib
from pathlib import Path

PYPROJECT = Path(__file__).resolve().parent.parent / "pyproject.toml"

project = tomllib.loads(PYPROJECT.read_text(encoding="utf-8"))["project"]
for line in project["dependencies"] + project["optional-dependencies"]["test"]:
    print(re.sub(r">=(.+)$", r"==\1", line))
