"""What a kernel remembers between runs of the same cell: control values, predictions, live panels."""

_VALUES: dict[tuple, dict] = {}
_LIVE: dict[tuple, object] = {}


def remembered(*key) -> dict:
    """The dict kept under a key such as (lesson, panel); empty the first time. Change it in place."""
    return _VALUES.setdefault(key, {})


def replace_live(key, new) -> None:
    """Make ``new`` the one live widget under a key; an older one from the same cell is closed."""
    old = _LIVE.get(key)
    if old is not None and old is not new:
        old.close()
    _LIVE[key] = new


def of_another_run(lesson) -> bool:
    """Whether something on the page belongs to an earlier run of this lesson's first cell."""
    return any(name == lesson.name and live.lesson is not lesson for (name, _), live in _LIVE.items())


def forget_all() -> None:
    """As in a fresh kernel; for tests."""
    for live in _LIVE.values():
        live.close()
    _LIVE.clear()
    _VALUES.clear()
