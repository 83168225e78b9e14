"""The class pack: handouts that hold no answer, slides of one idea, nothing fetched, nothing lost."""

import re
import zipfile
from itertools import pairwise
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from rollmodel.cli import main
from rollmodel.cli.open_lessons import source_folder
from rollmodel.course import lessons
from rollmodel.disk import PlaceTaken
from rollmodel.handouts.making import HANDOUTS, SLIDES, lesson_pages
from rollmodel.handouts.pieces import LessonFailed
from rollmodel.handouts.prose import to_html
from rollmodel.handouts.slides import MOST
from rollmodel.handouts.telling import divided, predicted_states
from rollmodel.marking.placing import put_folder, put_zip
from rollmodel.panels.lessons.lesson_05 import LoadsPanel
from rollmodel.questions import class_question, right_answer
from rollmodel.questions.bank import all_questions
from rollmodel.questions.records import Open

FOLDER = source_folder() / "lessons"
FILES = [FOLDER / one.file for one in lessons(FOLDER)]
SHORTEST = 40  # characters of a text alternative that can hold a conclusion and a number
LEAST_CONTRAST = 4.5  # WCAG 2.2, 1.4.3, for text
LEAST_TYPE = 18  # pt on a slide
LEAVES = re.compile(r"@import|url\(\s*['\"]?(?!data:)|(?:https?:)?//", re.IGNORECASE)


@pytest.fixture(scope="module")
def soups(every_page):
    """Every page, read; by lesson and part."""
    return {
        (path.name, part): BeautifulSoup(text, "html.parser")
        for path, both in every_page.items()
        for part, text in both.items()
    }


def of(soups, part):
    return [soup for (_, which), soup in soups.items() if which == part]


def words(soup):
    """All that a page says, its text alternatives too."""
    said = [soup.get_text(" "), *(image["alt"] for image in soup.select("img"))]
    return " ".join(" ".join(said).split())


def test_there_is_a_page_of_each_kind_for_every_lesson(soups):
    assert len(soups) == 2 * len(FILES) >= 20
    assert all(soup.find(["h1"]) and len(words(soup)) > 2000 for soup in soups.values())


def test_nothing_leads_out_of_a_page(soups):
    """No address in any attribute, style or script but data: ones and places on the page itself."""
    for name, soup in soups.items():
        for tag in soup.find_all(True):
            for attribute, value in tag.attrs.items():
                if attribute in ("src", "href", "srcset", "poster", "action", "data", "background"):
                    assert str(value).startswith(("data:", "#")), (name, tag.name, str(value)[:60])
                elif attribute not in ("alt", "content", "aria-label"):
                    assert not LEAVES.search(str(value)), (name, tag.name, attribute)
        for tag in soup.find_all(["style", "script"]):
            assert not LEAVES.search(re.sub(r"^\s*//.*$", "", tag.string, flags=re.MULTILINE)), name
        policy = soup.find("meta", attrs={"http-equiv": "Content-Security-Policy"})["content"]
        assert policy.startswith("default-src 'none'; img-src data:;")


def test_every_picture_has_a_text_alternative(soups):
    for name, soup in soups.items():
        images = soup.find_all("img")
        assert images, name
        assert all(len(image["alt"]) >= SHORTEST and re.search(r"\d", image["alt"]) for image in images), name


def states(soup, chosen):
    """The names of the pictures' states, group by group, without what the controls say."""
    return [[image["alt"].split(" (")[0].partition(":")[0] for image in group.find_all("img")]
            for group in soup.select(chosen)]


def test_a_predicted_change_is_shown_before_and_after_and_else_the_start_first(soups):
    told = [(group.select_one("p.asked") is not None, names)
            for soup in of(soups, HANDOUTS)
            for group, names in zip(soup.select(".pictures"), states(soup, ".pictures"), strict=True)]
    predicted = [names for asked, names in told if asked]
    assert len(predicted) >= 16
    assert all(names[:2] == ["Before", "After"] and set(names[2:]) <= {"Also"} for names in predicted)
    others = [names for asked, names in told if not asked]
    assert ["Start", "Low", "High"] in others and all("Start" not in names[1:] for names in others)
    for soup in of(soups, HANDOUTS):
        alts = [image["alt"] for image in soup.select("img")]
        assert len(alts) == len(set(alts)), "a state is shown once"


def test_slides_show_the_pictures_of_the_handout_in_the_same_order(soups):
    for path in FILES:
        paper, slides = ([image["alt"] for image in soups[path.name, part].select("img")]
                         for part in (HANDOUTS, SLIDES))
        assert paper == slides, path.name


def test_before_and_after_are_the_ends_of_the_change_that_was_asked_about():
    """Lesson 5 asks about the front bar, while its strip moves the corner."""
    panel = LoadsPanel()
    (before, one), (after, other), *more = predicted_states(panel)
    assert (before, one) == ("Before", {"front": 1})
    assert (after, other) == ("After", {"front": panel.car.front.positions})
    assert [(name, list(changes)) for name, changes in more] == [("Also", ["corner"])] * 2


def test_no_deck_is_too_long_for_a_lesson_and_no_task_is_lost(soups):
    folded = 0
    for path in FILES:
        soup, paper = (soups[path.name, part] for part in (SLIDES, HANDOUTS))
        titles = [slide.find(["h1", "h2"]).get_text() for slide in soup.select(".slide")]
        assert len(titles) <= MOST, path.name
        tasks = [item.get_text() for item in paper.select(".keyboard li")]
        assert tasks and all(item in soup.get_text() for item in tasks)
        assert not set(tasks) & {item.get_text() for item in paper.select("main > ol li, main > ul li")}
        folded += titles.count("At the keyboard")
        assert ("At the keyboard" in titles) != ("Tasks" in titles), path.name
    assert folded >= 1


def test_paper_outside_its_keyboard_sheet_asks_for_no_control(soups):
    at_the_screen = re.compile(
        r"\bPress (the|it|Reset|Enter)\b|\b([Cc]lick|Tick|Scroll|[Bb]uttons?|box(es)?|cells?|switches)\b"
    )
    for name, soup in soups.items():
        if name[1] == HANDOUTS:
            found = soup.main.find_all(["p", "li"])
            blocks = [one for one in found if not one.find_parent(class_="keyboard")]
            said = [" ".join(one.get_text(" ").split()) for one in blocks]
            assert len(said) > 30
            assert [line for line in said if at_the_screen.search(line)] == [], name[0]


@pytest.mark.parametrize(
    "text, kinds",
    [
        ("**Tasks**\n\n1. One.\n2. Two.", ["Tasks"]),
        ("First.\n\n**Tasks.** Set it.\n\nLast.", ["Words", "Tasks", "Words"]),
        ("**Tasks** on it.\n\n1. One.\n\n**Task: your own.** Two.\n\n1. Three.", ["Tasks"] * 2),
        ("1. A list.\n\nTasks in a sentence.", ["Words"]),
    ],
)
def test_tasks_are_told_from_prose(text, kinds):
    pieces = list(divided(text, "A panel"))
    assert [type(one).__name__ for one in pieces] == kinds
    whole = " ".join(one.text for one in pieces)
    assert all(line in whole for line in re.findall(r"\d\. (.+)", text))


def test_formulas_are_set_in_the_page(soups):
    assert any(soup.find("math") for soup in soups.values())
    assert not any(re.search(r"\\(frac|varphi|text|Delta)|\$", words(soup)) for soup in soups.values())


def test_no_page_gives_an_answer_away(soups):
    """Worked lines, hints, sample answers and what stands behind a wrong option are in no page."""
    secret = {" ".join(line.split()) for one in all_questions() for line in secrets(one)}
    assert len(secret) > 200
    for name, soup in soups.items():
        said = words(soup)
        assert [line for line in secret if line in said] == [], name
        assert not re.search(r"\b[Rr]ight: \W*[A-D]\b", said), name


def secrets(question):
    lines = [*question.worked, question.hint]
    if isinstance(question, Open):
        lines += [sample.text for sample in question.samples]
    lines += [one.belief.why for one in getattr(question, "options", ()) if getattr(one, "belief", None)]
    return [line for line in lines if "{" not in line and len(line) > 30]


def test_the_twin_of_the_class_question_is_on_the_slides_alone(soups):
    for one, path in zip(lessons(FOLDER), FILES, strict=True):
        first, twin = class_question(one.number)
        paper, slides = (words(soups[path.name, part]) for part in (HANDOUTS, SLIDES))
        assert first.text in paper and twin.text not in paper
        assert first.text in slides and twin.text in slides
        assert all(f"{letter}. {text}" in paper for letter, text in first.options)
        marked = soups[path.name, HANDOUTS].select("section.asked .options li")
        assert len({str(item.attrs) for item in marked}) == 1, right_answer(first)


def test_a_prediction_stands_before_the_picture_that_answers_it(soups):
    for soup in of(soups, HANDOUTS):  # on a sheet of their own: nothing else of the lesson comes before them
        asked, first = soup.select("div.asked"), soup.select_one("main > section")
        assert asked and soup.select("section.first div.asked") == asked and first["class"] == ["first"]
        assert len(soup.select(".pictures p.asked")) == len(asked)
        assert ".first { break-after: page; }" in soup.find("style").string
    kinds = [[slide["class"][1] for slide in soup.select(".slide")] for soup in of(soups, SLIDES)]
    next_ones = [after for names in kinds for kind, after in pairwise(names) if kind == "predict"]
    assert len(next_ones) >= 10 and set(next_ones) == {"picture"}


def test_take_away_and_cautions_come_along(soups):
    for name, soup in soups.items():
        said = words(soup)
        assert "Take away" in said, name
        assert ("qualified inspection" in said) == bool(soup.select(".caution")), name
    assert sum(bool(soup.select(".caution")) for soup in of(soups, SLIDES)) >= 6


def colour_pairs(style):
    """Every colour of type with every ground of the same page."""
    names = dict(re.findall(r"(--\w+): (#[0-9a-f]{6})", style))
    value = r"(?:var\((--\w+)\)|(#[0-9a-fA-F]{6}))"
    inks, grounds = (
        {names[name] if name else direct for name, direct in re.findall(rf"(?<![\w-]){kind}: {value}", style)}
        for kind in ("color", "background")
    )
    return [(ink, ground) for ink in inks for ground in grounds]


def luminance(colour):
    """Relative luminance, WCAG 2.2."""
    parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return sum(weight * part for weight, part in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def test_type_stands_out_from_every_ground(soups):
    for part in (HANDOUTS, SLIDES):
        pairs = colour_pairs(of(soups, part)[0].style.string)
        assert len(pairs) >= 4
        for pair in pairs:
            light, dark = sorted(map(luminance, pair), reverse=True)
            assert (light + 0.05) / (dark + 0.05) >= LEAST_CONTRAST, pair


def test_type_on_slides_is_large(soups):
    """The root is 18 pt at the least, and no rule asks for less than that."""
    style = of(soups, SLIDES)[0].style.string
    sizes = re.findall(r"font-size: (.+?);", style)
    assert "max(18pt, min(3.7vh, 2.1vw))" in sizes and len(sizes) >= 6
    for size in sizes:
        number = re.search(r"(?:max\()?([\d.]+)(pt|rem|em)", size)
        assert float(number[1]) >= {"pt": LEAST_TYPE, "rem": 1.0, "em": 1.0}[number[2]], size


def test_a_code_word_and_units_reach_the_pages(every_page):
    path = FILES[1]
    other = next(lesson_pages([path], "US customary", "blue kestrel"))
    asked = [
        BeautifulSoup(text, "html.parser").select_one("ol.asked").get_text()
        for text in (every_page[path][HANDOUTS], other[HANDOUTS])
    ]
    assert asked[0] != asked[1]
    assert "lbf/in" in other[HANDOUTS] and "lbf/in" not in every_page[path][HANDOUTS]


def test_the_command_puts_each_part_in_its_place(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert main(["pack", "--lessons", "1"]) == 0
    name = FILES[0].stem
    found = sorted(path.relative_to(tmp_path).as_posix() for path in tmp_path.rglob("*") if path.is_file())
    assert found == [
        f"class-pack-slides/{name}.html",
        "class-pack/READ-ME-FIRST.txt",
        "class-pack/exercises/lesson-01.ipynb",
        f"class-pack/handouts/{name}.html",
    ]
    assert "class-pack-slides is for the projector" in capsys.readouterr().out


@pytest.mark.parametrize(
    "arguments, said",
    [
        (["--lessons", "1"], "is there already"),
        (["--lessons", "1", "--replace"], "no answers-red fox.json; move that elsewhere"),
        (["--only", "slides", "--lessons", "77"], "there is no lesson 77; there are: 1, 2"),
        (["--only", "posters"], "posters"),
        (["--code-word", "%", "--into", "new"], "code word: wanted 3 to 40"),
        (["--assessment", "--only", "slides"], "leave --only and --code-word out"),
    ],
)
def test_refusals_leave_everything_as_it_was(tmp_path, monkeypatch, capsys, arguments, said):
    monkeypatch.chdir(tmp_path)
    Path("class-pack").mkdir()
    Path("class-pack/answers-red fox.json").write_text("mine", encoding="utf-8")
    assert main(["pack", *arguments]) == 2
    assert said in capsys.readouterr().err
    assert [path.name for path in tmp_path.rglob("*")] == ["class-pack", "answers-red fox.json"]


@pytest.mark.parametrize("put, name", [(put_folder, "pack"), (put_zip, "pack.zip")])
def test_a_pack_is_replaced_only_when_asked_for(tmp_path, put, name):
    into = tmp_path / name
    put(into, {"a/one.txt": "old"})
    with pytest.raises(PlaceTaken, match="is there already"):
        put(into, {"a/one.txt": "new"})
    put(into, {"a/one.txt": "new"}, replace=True)
    text = zipfile.ZipFile(into).read("pack/a/one.txt").decode() if name.endswith("zip") else None
    assert (text or (into / "a" / "one.txt").read_text(encoding="utf-8")) == "new"
    assert [path.name for path in tmp_path.iterdir()] == [name]


def test_a_folder_with_something_else_in_it_is_not_replaced(tmp_path):
    put_folder(tmp_path / "pack", {"one.txt": "old"})
    (tmp_path / "pack" / "mine.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(PlaceTaken, match=r"no mine.txt; move that elsewhere"):
        put_folder(tmp_path / "pack", {"one.txt": "new"}, replace=True)
    assert (tmp_path / "pack" / "one.txt").read_text(encoding="utf-8") == "old"


def test_a_lesson_that_does_not_run_is_named(tmp_path):
    broken = tmp_path / FILES[0].name
    text = FILES[0].read_text(encoding="utf-8")
    broken.write_text(text.replace('"Recall(lesson)"', '"Recall(no_lesson)"'), encoding="utf-8")
    with pytest.raises(LessonFailed, match=rf"^{broken.name}: a cell does not run \(NameError: "):
        list(lesson_pages([broken]))


def test_prose_keeps_formulas_and_loses_links():
    made = to_html("$$k = \\frac{G\\,J}{L\\,a^2}$$\n\nSee [lesson 5](05-x.ipynb), with $h'$.")
    soup = BeautifulSoup(made, "html.parser")
    assert [one["display"] for one in soup.find_all("math")] == ["block", "inline"]
    primed = soup.find_all("math")[1]
    assert primed.get_text() == "h\u2032" and not primed.find("msup"), "a prime raised twice is a speck"
    assert soup.find("mfrac") and "See lesson 5, with" in soup.get_text() and not soup.find("a")
