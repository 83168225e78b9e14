"""A car typed into the form from blank by keyboard alone, two slips mended, saved, and opened in a lesson."""

from rollmodel.reports.car_line import car_line
from rollmodel.sheets import read

CAR = {
    "Name of the car": "My own car",
    "Driven wheels": ("ArrowDown", "ArrowDown"),
    "Mass": "1010",
    "Front weight share": "58",
    "Wheelbase": "2.41",
    "Centre of gravity height": "0.47",
    "Front track": "57.5 in",
    "Rear track": "1.45",
    "Front unsprung mass": "72",
    "Rear unsprung mass": "70 kg",
    "Front unsprung mass height": "290",
    "Rear unsprung mass height": "290",
    "Front roll centre height": "40 ± 15",
    "Rear roll centre height": "120",
    "Front spring rate": "38 lb/in",
    "Rear spring rate": "45",
    "Front spring motion ratio": "0.92",
    "Rear spring motion ratio": "0.85",
    "Front anti-roll bar": ("ArrowDown", "ArrowDown"),
    "Rear anti-roll bar": ("ArrowDown",),
    "Front bar diameter": "22",
    "Front bar length between the arms": "860",
    "Front bar arms": ("ArrowDown", "ArrowDown"),
    "Front link holes": "230, 200",
    "Front place in use": "1",
    "Front link motion ratio": "0.6",
}
SLIPS = {
    "Centre of gravity height": ('"0.47 m" was meant?', "470 mm"),
    "Front spring rate": ("lbf/in was meant", "38 N/mm"),
}
NAME = """() => {
    const now = document.activeElement;
    const named = now.labels && now.labels.length ? now.labels[0] : now;
    return now.getAttribute('aria-label') || named.innerText;
}"""
BESIDE = """() => {
    const now = document.activeElement;
    return (now.getAttribute('aria-describedby') || '').split(' ')
        .map(id => (document.getElementById(id) || {innerText: ''}).innerText).join(' ');
}"""
STOPS = 120  # more than there are between the first box and the last


def focused(notebook):
    return notebook.page.evaluate(NAME).strip()


def tab_to(notebook, *names):
    """Press Tab until the focus stands on one of these controls; which one."""
    for _ in range(STOPS):
        notebook.page.keyboard.press("Tab")
        if focused(notebook) in names:
            return focused(notebook)
    raise AssertionError(f"Tab never came to any of {names}")


def enter(notebook, what):
    """Type a text, or press keys in a list."""
    if isinstance(what, str):
        notebook.page.keyboard.type(what)
    for key in () if isinstance(what, str) else what:
        notebook.page.keyboard.press(key)


def mend(notebook, name):
    """Back to a box that was refused: the sheet's words belong to it, and go when it is mended."""
    words, better = SLIPS[name]
    notebook.wait_for_text(words)
    notebook.page.keyboard.press("Shift+Tab")
    while focused(notebook) != name:
        notebook.page.keyboard.press("Shift+Tab")
    assert words in notebook.page.evaluate(BESIDE)
    notebook.page.keyboard.press("ControlOrMeta+a")
    enter(notebook, better)
    notebook.page.keyboard.press("Enter")
    notebook.wait_for_change(lambda: words in notebook.text(), True)


def test_a_car_from_blank_by_keyboard_saved_and_opened_in_a_lesson(open_notebook, lab):
    notebook = open_notebook("lessons/index.ipynb")
    notebook.run_all()
    notebook.control("Units").focus()
    left = dict(CAR)
    while left:
        name = tab_to(notebook, *left)
        enter(notebook, left.pop(name))
        if name in SLIPS:
            notebook.page.keyboard.press("Enter")
            mend(notebook, name)
        if name == "Rear anti-roll bar":
            notebook.wait_for_change(lambda: "Front link holes" in notebook.text(), False)
    tab_to(notebook, "Save as")
    notebook.wait_for_text("Nothing is missing, nothing is refused.")
    tab_to(notebook, "Save the sheet")
    notebook.page.keyboard.press("Enter")
    notebook.wait_for_text("Saved: my-own-car.toml")
    car = read(lab.folder / "lessons" / "my-own-car.toml")
    assert (car.drive, car.mass, car.front.bar.hole, car.rear.bar) == ("rear", 1010, 1, None)
    notebook.wait_for_text(car_line(car))
    assert notebook.errors_shown() == []
    lesson = open_notebook("lessons/05-where-the-load-goes.ipynb")
    lesson.run_all()
    lesson.press("Car", "End")
    lesson.page.locator(".rm-path input").wait_for()
    lesson.control("Path of your own car sheet").fill("my-own-car.toml")
    lesson.press("Path of your own car sheet", "Enter")
    lesson.wait_for_change(lambda: lesson.text().count("My own car") > 1, False)
    assert lesson.errors_shown() == []
