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


def tab_to(lesson, name):
    """Press Tab until the focus stands on the control of this name; the stops in our own part on the way."""
    stops = []
    for _ in range(TABS):
        lesson.page.keyboard.press("Tab")
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
    lesson.press("Rear hole")
    wait_for_advice(lesson, before)
    pictures = lesson.pictures()
    lesson.press("Rear hole", "ArrowRight")
    wait_for_advice(lesson, after)
    lesson.wait_for_change(lesson.pictures, pictures)
    assert lesson.errors_shown() == []


def test_past_the_last_hole_the_other_end_is_offered(lesson):
    lesson.press("Rear hole", "End")
    wait_for_advice(lesson, advice(rear=3))
    lesson.press("Rear one hole stiffer", "Enter")
    lesson.wait_for_text(
        "Nothing left here: no stiffer rear position. What about the other end? Front softer"
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
    stops = tab_to(lesson, "Reset")
    assert stops[stops.index("Front hole") :] == PANEL
    keys(lesson, *["Shift+Tab"] * (len(PANEL) - 1 - PANEL.index("Rear hole")), "ArrowRight")
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
    assert lesson.errors_shown() == []


def test_class_question_by_keyboard(lesson):
    lesson.control("Count hands (instructor)").focus()
    keys(lesson, "Shift+Tab", "Shift+Tab", "Space", "Tab", "Enter")
    lesson.wait_for_change(
        lambda: lesson.text().count("Not answered yet"), lesson.text().count("Not answered yet")
    )
