"""Two threads of one kernel, as newer kernels use for controls: panels deal with one thing at a time."""

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Event, Lock

import ipywidgets as widgets

import rollmodel.panels
from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons.lesson_01 import AxlePanel
from rollmodel.panels.shown import Shown, button
from rollmodel.panels.turns import MadeInTurn, follow, in_turn

LONG, SHORT = 10.0, 0.2  # s; for what must happen, and for what must not


class Busy:
    """Work that lasts until it is let go, and counts how many do it at once."""

    def __init__(self):
        self.begun, self.go_on, self._lock = Event(), Event(), Lock()
        self.now = self.most = self.done = 0

    def __call__(self, *_):
        with self._lock:
            self.now += 1
            self.most = max(self.most, self.now)
        self.begun.set()
        assert self.go_on.wait(LONG)
        with self._lock:
            self.now -= 1
            self.done += 1


def both_at_once(work, first, second):
    """Start one thing, then the other in a second thread; how many were at work at once."""
    with ThreadPoolExecutor(2) as threads:
        one = threads.submit(first)
        assert work.begun.wait(LONG)
        work.begun.clear()
        other = threads.submit(second)
        met = work.begun.wait(SHORT)
        work.go_on.set()
        one.result(LONG), other.result(LONG)
    assert work.done == 2
    return 2 if met else work.most


def test_without_turns_the_two_do_meet():
    work = Busy()
    assert both_at_once(work, work, work) == 2


def test_a_control_waits_for_the_work_of_another():
    work, left, right = Busy(), widgets.IntSlider(), widgets.IntSlider()
    follow(left, work), follow(right, work)
    assert both_at_once(work, lambda: setattr(left, "value", 3), lambda: setattr(right, "value", 4)) == 1


def test_a_button_waits_for_the_work_of_a_control():
    work, slider = Busy(), widgets.IntSlider()
    follow(slider, work)
    pressed = button("Go", work)
    assert both_at_once(work, lambda: setattr(slider, "value", 3), pressed.click) == 1


def test_what_is_shown_is_made_in_turn():
    class Made(metaclass=MadeInTurn):
        def __init__(self, work):
            work()

    work = Busy()
    assert isinstance(Shown, MadeInTurn)
    assert both_at_once(work, lambda: Made(work), in_turn(work)) == 1


def test_who_has_the_turn_need_not_wait_for_itself():
    slider, other, heard = widgets.IntSlider(), widgets.IntSlider(), []
    follow(slider, lambda change: setattr(other, "value", change["new"]))
    follow(other, lambda change: heard.append(change["new"]))
    slider.value = 7
    assert heard == [7]


def test_a_panel_is_worked_out_by_one_thread_at_a_time(monkeypatch):
    panel, work = AxlePanel(Lesson("01")), Busy()
    panel.card.skip()
    compute = panel.compute
    monkeypatch.setattr(panel, "compute", lambda values: (work(), compute(values))[1])
    one, other = [row.slider for row in panel.rows.values() if hasattr(row, "slider")][:2]
    moved = both_at_once(
        work, lambda: setattr(one, "value", one.max), lambda: setattr(other, "value", other.max)
    )
    assert moved == 1 and panel.fault is None


def test_no_watch_on_a_widget_goes_past_the_turns():
    """Every control of the lessons is followed by `follow`; only it knows of the turns."""
    place = Path(rollmodel.panels.__file__).parent
    past = [
        path.name
        for path in place.rglob("*.py")
        if path.name != "turns.py" and any(word in path.read_text() for word in (".observe(", ".on_msg("))
    ]
    assert past == []
