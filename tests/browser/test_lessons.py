"""Every lesson in a real JupyterLab, run once: each control moves, all has a name, all can be seen.

The page fails at its end on any console error and any request to another machine.
"""

import pytest
from axe_playwright_python.sync_playwright import Axe

from lab_harness import ROOT, watch
from lab_measures import LAY_OUT, THEMES, room, sticks_out, too_faint, too_small, wear
from lab_page import LabPage

LESSONS = sorted(path.relative_to(ROOT).as_posix() for path in (ROOT / "lessons").glob("*.ipynb"))
DESK = {"width": 1366, "height": 768}
WINDOWS = {"200 % zoom": (683, 384), "320 px": (320, 568)}  # 683 is half of the desk's width
SMALLEST = 15.0  # pt of a picture's type on the projector at the desk's size; the widest pictures have 15.3
IN_ONE_WINDOW = (  # picture and sliders, on the projector at the desk's size
    "The link moves less than the wheel, and pushes with less leverage",
    "Where the body comes to rest",
    "The car in a settled corner: four wheel loads, three paths",
    "Two tyres, one slip angle",
    "The steer that the car asks for, before and after",
    "Every pair of holes: what the car holds, and which end gives up first",
)
PANELS = ".jp-Notebook .rm-root"
CONTROLS = ".noUi-handle, input, select, button"
REACHED = """all => all.filter(one => one.offsetParent).map(one => {
    one.focus();
    const box = one.getBoundingClientRect();
    return [box.left, box.right];
})"""
LIVE = f"{PANELS} :is({{}}):not([disabled])"


@pytest.fixture(scope="module", params=LESSONS)
def lesson(request, lab, chromium):
    """A lesson, run from top to bottom; the tests below share its page."""
    complaints, page = [], chromium.new_page(viewport=DESK)
    watch(page, complaints)
    notebook = LabPage(page).open(lab, request.param)
    notebook.run_all()
    page.evaluate(LAY_OUT)
    yield notebook
    page.close()
    lab.end_kernels()
    assert complaints == []


def visible(lesson, kind):
    """The visible controls of a kind that are in use."""
    return [one for one in lesson.page.locator(LIVE.format(kind)).all() if one.is_visible()]


@pytest.fixture
def no_error(lesson):
    """Nothing red on the page, before and after."""
    assert lesson.errors_shown() == []
    yield
    lesson.settle()
    assert lesson.errors_shown() == []


def test_every_slider_goes_from_its_least_to_its_most(lesson, no_error):
    for handle in lesson.sliders():
        values = []
        for key in ("Home", "End"):
            handle.press(key)
            values.append(standing(handle))
        assert values[0] < values[1], "a slider that does not go from its least to its most"


def test_every_box_beside_a_slider_takes_a_value_and_gives_back_what_is_none(lesson, no_error):
    for row in lesson.page.locator(f"{PANELS} .rm-row:has(.noUi-handle)").all():
        box, handle = row.locator("input[type=text]"), row.locator(".noUi-handle")
        if not (box.is_visible() and box.is_enabled()):
            continue
        least = end(lesson, handle, box, "Home")
        at_least = standing(handle)
        end(lesson, handle, box, "End")
        type_into(box, least)
        lesson.wait_for_change(lambda at=handle, low=at_least: standing(at) == low, False)
        kept = box.input_value()
        type_into(box, "stiff")
        message = row.locator("xpath=..").locator("[role=alert]")
        message.wait_for()
        assert "wanted" in message.inner_text() and box.input_value() == kept


def standing(handle):
    """Where a slider stands, which the page says to one decimal."""
    return float(handle.get_attribute("aria-valuenow"))


def end(lesson, handle, box, key):
    """Send a slider to one end, wait until the box beside it has followed; what the box says then."""
    handle.press(key)
    at = standing(handle)
    lesson.wait_for_change(lambda: abs(float(box.input_value()) - at) < 0.0501, False)
    return box.input_value()


def still_there(control):
    """Whether a control is in use yet: one before it may have put it away."""
    return control.is_visible() and control.is_enabled()


def press(lesson, control, key):
    """Press a key there and wait until the kernel has dealt with it."""
    control.press(key)
    lesson.settle()


def type_into(box, text):
    box.fill(text)
    box.press("Enter")


def test_every_list_tick_and_circle_follows_the_keyboard(lesson, no_error):
    for listed in filter(still_there, visible(lesson, "select")):
        for key, place in (("End", -1), ("Home", 0)):
            press(lesson, listed, key)
            chosen = listed.evaluate("list => [list.selectedIndex, list.options.length]")
            assert chosen[0] == range(chosen[1])[place]
    for found in filter(still_there, visible(lesson, "input[type=checkbox]")):
        tick = found.element_handle()  # this very one: another that goes out of use would shift the count
        before = tick.is_checked()
        for _ in range(2):
            press(lesson, tick, "Space")
        lesson.page.wait_for_timeout(300)  # until what it put away is put away, and is not pressed next
        name = tick.evaluate("tick => tick.closest('.jupyter-widgets').innerText")
        assert tick.is_checked() == before, f"two presses of the space bar did not bring {name!r} back"
        assert tick.evaluate("tick => tick === document.activeElement"), "the focus went astray"
    lesson.page.wait_for_timeout(500)  # until what a tick hid is hidden
    for found in filter(still_there, visible(lesson, "input[type=radio]")):
        circle = found.element_handle()
        press(lesson, circle, "Space")
        lesson.wait_for_change(circle.is_checked, False)


def test_every_button_of_a_panel_follows_the_keyboard(lesson, no_error):
    for button in visible(lesson, ".rm-controls button"):
        press(lesson, button, "Enter")
    lesson.wait_for_change(lambda: lesson.page.locator(".rm-stale").count() == 0, False)


@pytest.mark.parametrize("theme", THEMES)
def test_names_roles_and_contrast(lesson, theme):
    """By axe-core's rules, and once more the contrast from the style alone."""
    wear(lesson.page, theme)
    lesson.page.evaluate(LAY_OUT)
    if lesson.page.locator(PANELS).count():
        found = Axe().run(lesson.page, PANELS).response["violations"]
        assert [(rule["id"], node["html"][:200]) for rule in found for node in rule["nodes"]] == []
        assert too_faint(lesson.page) == []


def test_on_the_projector_all_can_be_seen_in_the_dark_too(lesson):
    tick = lesson.page.get_by_label("Projector", exact=True)
    if tick.count():
        press(lesson, tick, "Space")
        lesson.page.wait_for_selector(f"{PANELS}:not(.rm-projector)", state="detached")
        faint, out, small = too_faint(lesson.page), sticks_out(lesson.page, **DESK), too_small(lesson.page)
        seen = room(lesson.page)
        press(lesson, tick, "Space")  # the page as it was, for the next test
        assert faint == [] and out == [] and small == []
        # The type of a projector's picture is 18 pt before the page makes the picture smaller.
        assert [one for one in seen if 18 * one["share"] < SMALLEST] == []
        tall = {one["panel"] for one in seen if one["wanted"] > one["high"]}
        assert not tall & set(IN_ONE_WINDOW), tall
        lesson.page.wait_for_selector(f"{PANELS}.rm-projector", state="detached")
        assert too_small(lesson.page) != [], "the switch is off, and its large type stays"


@pytest.mark.parametrize("window", WINDOWS)
def test_nothing_is_cut_off_and_every_control_can_be_reached(lesson, window):
    wide, high = WINDOWS[window]
    assert sticks_out(lesson.page, wide, high) == []
    reached = lesson.page.locator(LIVE.format(CONTROLS)).evaluate_all(REACHED)
    assert all(left >= 0 and right <= wide for left, right in reached)
