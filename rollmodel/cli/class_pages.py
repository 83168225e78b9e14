"""The pages of a class pack: which lessons, under which names, and the run that makes them."""

from pathlib import Path

from rollmodel.cli.common import Refusal, say


def lesson_files(folder: Path, numbers: list[int] | None) -> list[Path]:
    """The lessons' notebooks of these numbers; all when there is no list."""
    from rollmodel.course import lessons

    there = {one.number: folder / one.file for one in lessons(folder)}
    wanted = sorted(there if numbers is None else set(numbers))
    missing = ", ".join(str(number) for number in wanted if number not in there)
    if missing:
        known = ", ".join(map(str, there))
        raise Refusal(f"rollmodel pack: there is no lesson {missing}; there are: {known}")
    return [there[number] for number in wanted]


def names(part: str, lessons: list[Path]) -> list[str]:
    """Where the pages of these lessons lie in their folder."""
    return [f"{part}/{path.stem}.html".lstrip("/") for path in lessons]


def made(lessons: list[Path], family: str, code_word: str) -> tuple[dict, dict]:
    """Handouts and slides by their names; a line for each lesson that is done."""
    if not lessons:
        return {}, {}
    from rollmodel.handouts.making import HANDOUTS, SLIDES, lesson_pages

    say(f"Running {len(lessons)} lesson{'s' if len(lessons) > 1 else ''}, a few seconds each.")
    pages = []
    for path, both in zip(lessons, lesson_pages(lessons, family, code_word), strict=True):
        say(f"  {path.stem}")
        pages.append(both)
    return (
        dict(zip(names(HANDOUTS, lessons), (both[HANDOUTS] for both in pages), strict=True)),
        dict(zip(names("", lessons), (both[SLIDES] for both in pages), strict=True)),
    )
