"""Names for files that every system takes."""

from __future__ import annotations

import re
from pathlib import Path

from rollmodel.typed import quoted

_DEVICES = re.compile(r"(con|prn|aux|nul|conin\$|conout\$|(com|lpt)[0-9¹²³])\s*(\..*)?", re.IGNORECASE)


def refused_name(path: Path) -> str:
    """Why some system would refuse a file of this name, and the mend; empty where all take it.

    A sheet is handed on, so what one system takes and another refuses is refused everywhere.

    Examples
    --------
    >>> refused_name(Path("cars/my-car.toml"))
    ''
    >>> refused_name(Path("nul.toml"))
    '"nul.toml" is the name of a device on Windows, not of a file; give another name, such as my-nul.toml'
    """
    for part in path.parts[bool(path.anchor):]:
        bad = sorted({sign for sign in part if sign in '<>:"|?*\\'})
        if bad:
            folders = "; / stands between folders" if "\\" in bad else ""
            return (f"wanted a name without {' '.join(bad)}, given {quoted(part)}; Windows keeps no file of "
                    f"that name: take letters, figures and - instead{folders}")
        if _DEVICES.fullmatch(part):
            return (f"{quoted(part)} is the name of a device on Windows, not of a file; give another name, "
                    f"such as my-{part}")
        if part not in (".", "..") and any(one.endswith((".", " ")) for one in (part, Path(part).stem)):
            return (f"wanted a name that ends in a letter or a figure, given {quoted(part)}; leave out the "
                    "point or the gap at its end")
    return ""
