"""Lesson 10 as the learner meets it: by keyboard alone, picture and recommendation follow the link hole."""

import pytest

from rollmodel.advice import choose
from rollmodel.reports.choice import headline
from rollmodel.sheets import training_car

LESSON = "lessons/10-choosing-the-change.ipynb"
FOCUSED = """() => {
    const found = document.activeElement, style = getComputedStyle(found), label = found.closest('label');
    return {
        name: found.getAttribute('aria-label') || found.innerText || (label ? label.innerText : ''),
        ring: style.outlineStyle === 'solid' && parseFloat(style.outlineWidth) >= 2,
        ours: found.closest('.rm-root') !== null,
    };
}"""
PANEL = [
    "Front hole",
    "Front hole",
    "Front one hole softer",
    "Front one hole stiffer",
    "Rear hole",
    "Rear hole",
    "Rear one hole softer",
    "Rear one hole stiffer",
    "Lateral acceleration",
    "Lateral acceleration",
    "The driver says",
    "Where",
    "Reset",
]
HIDE = "Hide the advice until I commit"
ON_RESULT = "() => document.activeElement.matches('.rm-own-result .widget-html-content')"
CROOKED = """() => [...document.querySelectorAll(
        '.rm-root .widget-radio-box input, .rm-root .widget-checkbox input')].filter(box => {
    const words = document.createRange();
    words.selectNodeContents(box.closest('label'));
    const lines = [...words.getClientRects()].filter(one => one.width > 0 && one.height > 0);
    const own = box.getBoundingClientRect(), middle = (own.top + own.bottom) / 2;
    const top = Math.min(...lines.map(one => one.top)), bottom = Math.max(...lines.map(one => one.bottom));
    return own.width && Math.abs(middle - (top + bottom) / 2) > 3;
}).map(box => box.closest('label').innerText)"""
# What hides part of a ring of 5 px round a control: any box around it that cuts what sticks out.
CUT = """() => [...document.querySelectorAll(
        '.rm-root input[type=text], .rm-root select, .rm-root button')].filter(one => {
    const own = one.getBoundingClientRect();
    for (let box = one.parentElement; own.width && box && !box.matches('.jp-Cell'); box = box.parentElement) {
        const outer = box.getBoundingClientRect();
        if (getComputedStyle(box).overflowX !== 'visible' && (own.left - 5 < outer.left - 0.5
            || own.right + 5 > outer.right + 0.5 || own.top - 5 < outer.top - 0.5
            || own.bottom + 5 > outer.bottom + 0.5)) return true;
    }
    return false;
}).map(one => one.getAttribute('aria-label') || one.innerText || one.className)"""
# Where the focus is: the number of the active cell, and whether its own frame has the focus.
AT_CELL = """() => {
    const notebook = window.jupyterapp.shell.currentWidget.content;
    return [notebook.activeCellIndex, document.activeElement.matches('.jp-Cell')];
}"""
TABS = 150  # more than there are stops on the page


@pytest.fixture
def lesson(open_notebook):
    notebook = open_notebook(LESSON)
    notebook.run_all()
    return notebook


def advice(symptom="understeer", **holes):
    """What the model recommends for the coupe of the lesson, worked out in the test's own process."""
    car = training_car("coupe").with_holes(**holes)
    return f"Advice for {symptom} in the middle: {headline(choose(car, symptom))}"


def recommended(lesson):
    """What the panel recommends at this moment."""
    return lesson.page.locator(".rm-advice strong").first.inner_text()


def wait_for_advice(lesson, wanted):
    lesson.wait_for_change(lambda: recommended(lesson) == wanted, False)


def test_the_way_out_of_a_panel_presses_nothing_and_circles_boxes_and_lists_stand_well(lesson):
    """Then: circles and boxes level with their words, lists tall enough, room for a focus ring all round."""
    lesson.control("New numbers").focus()
    asked, (at, _) = lesson.text(), lesson.page.evaluate(AT_CELL)
    keys(lesson, "Shift+Enter")
    assert lesson.page.evaluate(AT_CELL) == [at + 1, True]
    lesson.control("New numbers").focus()
    keys(lesson, "Escape")
    assert lesson.page.evaluate(AT_CELL) == [at, True]
    lesson.settle()
    assert lesson.text() == asked
    lesson.control("It rises").focus()
    assert lesson.page.evaluate(CROOKED) == []
    heights = lesson.page.locator(".rm-root select").evaluate_all("all => all.map(one => one.offsetHeight)")
    assert heights and min(heights) >= 28
    assert lesson.page.evaluate(CUT) == []


def wait_for_focus(lesson, name):
    """The focus goes to a button once it is there; it may come after the words."""
    lesson.wait_for_change(lambda: lesson.page.evaluate(FOCUSED)["name"].strip() == name, False)


def tab_to(lesson, name, key="Tab"):
    """Press Tab, or Shift and Tab, up to the control of this name; the stops in our own part on the way."""
    stops = []
    for _ in range(TABS):
        lesson.page.keyboard.press(key)
        now = lesson.page.evaluate(FOCUSED)
        if now["ours"]:
            assert now["ring"], f"no ring around {now['name']!r}"
            stops.append(now["name"].strip())
        if now["name"].strip() == name:
            return stops
    raise AssertionError(f"Tab never came to {name!r}; it came to {stops}")


def keys(lesson, *names):
    for name in names:
        lesson.page.keyboard.press(name)


def test_moving_a_link_hole_changes_picture_and_recommendation(lesson):
    before, after = advice(), advice(rear=3)
    assert before != after
    lesson.wait_for_text("The advice waits until you have committed")
    lesson.press(HIDE, "Space")
    lesson.press("Rear hole")
    wait_for_advice(lesson, before)
    pictures = lesson.pictures()
    lesson.press("Rear hole", "ArrowRight")
    wait_for_advice(lesson, after)
    lesson.wait_for_change(lesson.pictures, pictures)
    assert lesson.errors_shown() == []


def test_past_the_last_hole_the_other_end_is_offered(lesson):
    lesson.press(HIDE, "Space")
    lesson.press("Rear hole", "End")
    wait_for_advice(lesson, advice(rear=3))
    lesson.press("Rear one hole stiffer", "Enter")
    lesson.wait_for_text(
        "Nothing left here: no stiffer rear position. What about the other end? By the rule, front softer"
    )


def test_keyboard_alone_completes_the_lesson(lesson):
    """From the first switch on nothing but keys: predict, move, read, commit to a change."""
    lesson.control("Units").focus()
    tab_to(lesson, "It rises")
    keys(lesson, "Space")
    tab_to(lesson, "By about, g")
    lesson.page.keyboard.type("0.01")
    tab_to(lesson, "Commit")
    keys(lesson, "Enter")
    lesson.wait_for_text("You said: it rises by about 0.010 g")
    wait_for_focus(lesson, "Predict again")
    stops = tab_to(lesson, "Reset")
    assert stops[stops.index("Front hole") :] == PANEL
    tab_to(lesson, HIDE)
    keys(lesson, "Space")
    tab_to(lesson, "Rear hole", "Shift+Tab")  # its box, and the slider before it
    keys(lesson, "Shift+Tab", "ArrowRight")
    wait_for_advice(lesson, advice(rear=3))
    lesson.wait_for_text("The direction is right")
    tab_to(lesson, "The driver says")
    lesson.page.keyboard.type("o")
    wait_for_advice(lesson, advice("oversteer", rear=3))
    tab_to(lesson, "Reset")
    keys(lesson, "Enter")
    wait_for_advice(lesson, advice())
    tab_to(lesson, "Front")
    keys(lesson, "ArrowDown")
    lesson.wait_for_change(lambda: lesson.control("Move it to").locator("option").count(), 1)
    tab_to(lesson, "Move it to")
    keys(lesson, "End")
    tab_to(lesson, "The front gains on the rear: away from understeer")
    keys(lesson, "Space")
    tab_to(lesson, "Commit to this change")
    keys(lesson, "Enter")
    lesson.wait_for_text("You said: rear bar stiffer, hole 2 to hole 3; the front gains on the rear.")
    lesson.wait_for_text("Your direction is right")
    lesson.wait_for_text("The advice has it as its first choice.")
    lesson.wait_for_change(lambda: lesson.page.evaluate(ON_RESULT), False)
    assert lesson.errors_shown() == []


def test_class_question_by_keyboard(lesson):
    open_questions = lesson.text().count("Not answered yet")
    lesson.control("Count hands (instructor)").focus()
    keys(lesson, "Shift+Tab", "Shift+Tab", "Space", "Tab", "Enter")
    lesson.wait_for_change(lambda: lesson.text().count("Not answered yet"), open_questions)
