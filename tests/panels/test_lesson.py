"""A lesson's switches reach everything in its notebook; the pace of cells; what is remembered."""

import time
from datetime import UTC, datetime
from types import SimpleNamespace

import pytest

from rollmodel.panels import Exercise, Lesson, pace, session
from rollmodel.panels.header import OWN_SHEET, Header
from rollmodel.panels.lesson import load
from rollmodel.questions import questions_for
from rollmodel.sheets import to_sheet
from tests.panels.conftest import make_car
from tests.panels.example_panel import example_panel_class

DATE = datetime(2026, 3, 1, 9, 30, tzinfo=UTC)


@pytest.fixture
def lesson(car):
    return Lesson("02", car)


def test_every_switch_reaches_every_part(lesson):
    header = Header(lesson)
    panels = [example_panel_class()(lesson), Exercise(lesson, questions_for(2, "exercise")[0].id)]
    header.units.value = "US customary"
    assert "lbf" in panels[0].caption.value and lesson.show(1290.0, "mass") == "2844 lb"
    header.projector.value = True
    assert all("rm-projector" in shown.widget._dom_classes for shown in (header, *panels))
    header.cars.value = "hatch"
    assert lesson.car == load("hatch") and panels[0].car is lesson.car


def test_units_and_projector_are_remembered_for_the_lesson(lesson, car):
    lesson.change(family="US customary", projector=True)
    again = Lesson("02", car)
    assert again.family == "US customary" and again.look.projector
    assert Lesson("03", car).family == "metric"


def test_prose_is_written_again(lesson, monkeypatch):
    written = []
    handle = SimpleNamespace(update=lambda bundle, raw: written.append(bundle["text/markdown"]))
    monkeypatch.setattr("rollmodel.panels.lesson.display", lambda *_, **__: handle)
    lesson.say(lambda now: f"The car has {now.show(now.car.mass, 'mass')}.")
    lesson.change(family="US customary")
    assert written == ["The car has 2844 lb."]


def test_a_car_that_leaves_nothing_to_say_gets_one_sentence(lesson, monkeypatch):
    def no_bar(now):
        if not now.car.front.bar:
            raise ValueError("this car has no bar")
        return "A bar."

    written = []
    handle = SimpleNamespace(update=lambda bundle, raw: written.append(bundle["text/markdown"]))
    monkeypatch.setattr("rollmodel.panels.lesson.display", lambda *_, **__: handle)
    lesson.say(no_bar)
    lesson.change(car=make_car(bar=None))
    lesson.change(car=make_car())
    assert written == ["*This car has no bar.*", "A bar."]


def test_a_take_away_has_at_most_five_lines(lesson, capsys):
    lesson.take_away(lambda now: ["one", "two"])
    with pytest.raises(TypeError, match="at most 5 lines, given 6"):
        lesson.take_away(lambda now: ["line"] * 6)


def own_sheet(header, path):
    header.cars.value = OWN_SHEET
    header.path.value = str(path)
    return header.message.value


def test_a_sheet_of_ones_own(lesson, tmp_path):
    sheet = tmp_path / "mine.toml"
    sheet.write_text(to_sheet(make_car("My car", spring_rate=50e3)), encoding="utf-8")
    header = Header(lesson)
    assert header.path.layout.display == "none"
    assert own_sheet(header, sheet) == "My car"
    assert lesson.car.title == "My car" and header.path.layout.display is None


@pytest.mark.parametrize(
    "typed", ["mine.toml", ' "mine.toml" ', "'mine.toml'", "cars/one.toml", '"cars/one.toml"']
)
def test_a_path_may_have_quotes_and_may_start_in_the_folder_above(lesson, tmp_path, monkeypatch, typed):
    (tmp_path / "cars").mkdir()
    (tmp_path / "lessons").mkdir()
    for path in (tmp_path / "lessons" / "mine.toml", tmp_path / "cars" / "one.toml"):
        path.write_text(to_sheet(make_car("My car", spring_rate=50e3)), encoding="utf-8")
    monkeypatch.chdir(tmp_path / "lessons")
    assert own_sheet(Header(lesson), typed) == "My car"


def test_the_folder_beside_the_notebook_comes_first(lesson, tmp_path, monkeypatch):
    (tmp_path / "lessons").mkdir()
    for folder, title in ((tmp_path, "Above"), (tmp_path / "lessons", "Here")):
        (folder / "mine.toml").write_text(to_sheet(make_car(title)), encoding="utf-8")
    monkeypatch.chdir(tmp_path / "lessons")
    assert own_sheet(Header(lesson), "mine.toml") == "Here"


def test_no_sheet_there_names_the_folders_and_not_what_was_typed(lesson, tmp_path, monkeypatch):
    (tmp_path / "lessons").mkdir()
    monkeypatch.chdir(tmp_path / "lessons")
    header = Header(lesson)
    assert "until a sheet is read" in own_sheet_asked(header)
    assert str(tmp_path / "lessons") in header.message.value
    said = own_sheet(header, '"mine.toml"')
    assert "no such file" in said and "meant" not in said
    assert f"looked up in the folder {tmp_path / 'lessons'}, and then in {tmp_path}." in said


def own_sheet_asked(header):
    header.cars.value = OWN_SHEET
    return header.message.value


def test_a_bad_sheet_says_every_fault_and_the_car_stays(lesson, tmp_path):
    sheet = tmp_path / "mine.toml"
    text = (
        to_sheet(make_car())
        .replace('mass = "1290', 'mas = "1290', 1)
        .replace('drive = "rear"', 'drive = "<b>"')
    )
    sheet.write_text(text, encoding="utf-8")
    said = own_sheet(Header(lesson), sheet)
    assert said.count("<li>") >= 2 and "The car stays: Harrow Lane test car." in said and "<b>" not in said
    assert lesson.car == make_car()


@pytest.mark.parametrize("path", ["", " ", "no such file.toml", "/", "\x00"])
def test_no_sheet_there_is_one_message(lesson, path):
    header = Header(lesson)
    own_sheet(header, "x")
    header.path.value = path
    assert header.message.value.count('role="alert"') == 1 and lesson.car == make_car()


def test_the_list_names_the_car_in_use(lesson):
    assert Header(Lesson("02", "saloon")).cars.value == "saloon"
    assert Header(lesson).cars.value is None


def test_a_second_run_of_the_first_cell_replaces_the_header(lesson, car):
    first = Header(lesson)
    Header(Lesson("02", car))
    assert first.widget.comm is None


@pytest.fixture
def cells(monkeypatch):
    """Runs pretend cells of 3 s: ``cells(when it was sent, seconds after the last one ended)``."""
    now, sent = [0.0], [0.0]
    monkeypatch.setattr(pace, "_cells", {"sent": 0.0, "ended": None, "one go": True})
    monkeypatch.setattr(pace.time, "time", lambda: now[0])
    monkeypatch.setattr(pace, "_sent", lambda: sent[0])

    def run(after, cell="a1"):
        sent[0] = now[0] + after
        now[0] = max(now[0], sent[0])  # a request that came while another cell ran waits for its end
        pace._started(SimpleNamespace(cell_id=cell))
        answer = pace.in_one_go()
        now[0] += 3.0
        pace._ended()
        return answer

    return run


def test_run_all_is_told_from_a_reader(cells):
    assert cells(0.0)
    assert cells(-3.0) and cells(-5.99)  # sent together with the one before
    assert not cells(1.5) and not cells(60.0)


def test_a_program_that_waits_for_each_answer_reads_nothing(cells):
    assert cells(0.0, None) and cells(0.02, None) and cells(0.1, None)
    assert not cells(1.5, None)


def test_a_hand_that_does_not_wait_for_a_slow_cell_is_a_hand(cells):
    assert cells(0.0)
    assert not cells(-2.0) and not cells(-2.5) and not cells(0.01)


def test_a_request_tells_when_it_was_sent(monkeypatch):
    """In a kernel the request's own date counts; elsewhere, the clock."""
    assert pace._sent() == pytest.approx(time.time(), abs=60)
    shell = SimpleNamespace(parent_header={"header": {"date": DATE}})
    monkeypatch.setattr("IPython.get_ipython", lambda: shell)
    assert pace._sent() == DATE.timestamp()


def test_watching_twice_registers_once():
    events = SimpleNamespace(callbacks={"pre_run_cell": [], "post_run_cell": []})
    events.register = lambda event, note: events.callbacks[event].append(note)
    for _ in range(2):
        pace.watch(SimpleNamespace(events=events))
    assert [len(notes) for notes in events.callbacks.values()] == [1, 1]


def test_forgetting_closes_what_is_live(lesson):
    header = Header(lesson)
    session.forget_all()
    assert header.widget.comm is None and session.remembered("02", "lesson") == {}
