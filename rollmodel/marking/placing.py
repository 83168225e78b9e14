"""Put a pack in its place, as a folder or as one packed file: whole or not at all."""

from __future__ import annotations

import zipfile
from collections.abc import Collection, Mapping
from contextlib import suppress
from pathlib import Path

from rollmodel.disk import PlaceTaken, check_free, naming, whole_or_not

LONG_AGO = (1980, 1, 1, 0, 0, 0)  # in a packed file, so that one content makes one file, byte for byte
NAMED = 3  # strange files that a refusal names


def check_place(into: Path, files: Collection[str], replace: bool = False) -> None:
    """Refuse a name that is taken; or, to be replaced, a folder that holds what the new one does not.

    Raises
    ------
    PlaceTaken
    """
    if not replace:
        check_free(into)
    elif into.is_symlink() or (into.exists() and into.is_dir() == (into.suffix == ".zip")):
        raise PlaceTaken(f"{into} is no such pack and is not replaced; give another name with --into")
    strange = _strangers(into, files) if into.is_dir() else []
    if strange:
        more = f" and {len(strange) - NAMED} more" if len(strange) > NAMED else ""
        raise PlaceTaken(
            f"{into} is not replaced, for the new one has no {', '.join(strange[:NAMED])}{more}; move that "
            "elsewhere first, or give another name with --into"
        )


def _strangers(folder: Path, files: Collection[str]) -> list[str]:
    """What lies in a folder and is none of these files."""
    there = (path for path in folder.rglob("*") if path.is_symlink() or not path.is_dir())
    return sorted({path.relative_to(folder).as_posix() for path in there} - set(files))


def put_folder(into: Path, files: Mapping[str, str], replace: bool = False) -> None:
    """A folder of texts, by their paths below it.

    Raises
    ------
    PlaceTaken, OSError
    """
    check_place(into, files, replace)
    with whole_or_not(into, replace) as place:
        for name, text in files.items():
            (place / name).parent.mkdir(exist_ok=True)
            (place / name).write_text(text, encoding="utf-8", newline="\n")


def put_zip(into: Path, files: Mapping[str, str], replace: bool = False) -> None:
    """The same as one packed file, made beside its place and put there in one step."""
    check_place(into, files, replace)
    into.parent.mkdir(parents=True, exist_ok=True)
    part = into.with_name(f".{into.name}.part")
    try:
        with naming(into):
            part.touch()
        with zipfile.ZipFile(part, "w", zipfile.ZIP_DEFLATED) as packed:
            for name, text in files.items():
                entry = zipfile.ZipInfo(f"{into.stem}/{name}", LONG_AGO)
                entry.compress_type, entry.external_attr = zipfile.ZIP_DEFLATED, 0o644 << 16
                packed.writestr(entry, text.encode())
        part.replace(into)
    finally:
        with suppress(OSError):
            part.unlink()
