"""A class pack in a real browser with the network off: read, shown by keys, printed."""

import re

import pytest

from rollmodel.cli.open_lessons import source_folder
from rollmodel.handouts.making import HANDOUTS, SLIDES

EVERY = [path.name[:2] for path in sorted((source_folder() / "lessons").glob("[01]*.ipynb"))]
# The longest words beside pictures of every shape: tall, low and wide; a table and a list that are divided.
LESSONS = ("05", "10")

CUT_OFF = """() => slides.map((slide, number) => {
    show(number);
    return [slide.scrollHeight - slide.clientHeight, slide.scrollWidth - slide.clientWidth];
}).filter(([down, across]) => down > 0 || across > 0)"""
PICTURES = """() => [...document.images].map((image) => {
    const box = image.getBoundingClientRect();
    return [image.naturalWidth, box.width, box.height / box.width * image.naturalWidth / image.naturalHeight];
})"""


@pytest.fixture(scope="module")
def pack(every_page, tmp_path_factory):
    """Every lesson's pages, as files."""
    folder = tmp_path_factory.mktemp("pack")
    for path, both in every_page.items():
        for part, text in both.items():
            (folder / f"{path.stem[:2]}-{part}.html").write_text(text, encoding="utf-8")
    return folder


@pytest.fixture
def page(chromium):
    """A window without a network; it fails on any message and on any request but for the page itself."""
    context = chromium.new_context(viewport={"width": 1366, "height": 768}, offline=True)
    page, asked, said = context.new_page(), [], []
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    yield page
    context.close()
    outside = [url for url in asked if not url.startswith("data:")]
    assert len(outside) == 1 and outside[0].startswith("file:") and said == []


def pages_of(printed):
    return len(re.findall(rb"/Type\s*/Page\b", printed))


@pytest.mark.parametrize("number", LESSONS)
def test_a_handout_reads_and_prints(pack, page, number):
    page.goto((pack / f"{number}-{HANDOUTS}.html").as_uri())
    wide = page.evaluate("document.documentElement.scrollWidth > document.documentElement.clientWidth")
    pictures = page.evaluate(PICTURES)
    assert not wide and pictures and all(shown > 250 for _, shown, _ in pictures)
    page.emulate_media(media="print")
    page.set_viewport_size({"width": 680, "height": 1009})  # what A4 leaves inside its margins
    assert all(250 < shown <= 680 and ratio == pytest.approx(1, abs=0.03)
               for _, shown, ratio in page.evaluate(PICTURES))
    assert 2 <= pages_of(page.pdf(prefer_css_page_size=True)) <= 12


@pytest.mark.parametrize("number", EVERY)
def test_no_slide_is_cut_off_and_each_prints_on_a_page(pack, page, number):
    page.goto((pack / f"{number}-{SLIDES}.html").as_uri())
    count = page.locator(".slide").count()
    for size in ((1366, 768), (1920, 1080), (1280, 800)):
        page.set_viewport_size({"width": size[0], "height": size[1]})
        assert page.evaluate(CUT_OFF) == [], size
    assert pages_of(page.pdf(prefer_css_page_size=True)) == count >= 14
    page.emulate_media(media="print")
    assert all(
        shown > 400 and ratio == pytest.approx(1, abs=0.03) for _, shown, ratio in page.evaluate(PICTURES)
    )


def test_slides_go_by_keys_and_come_back_where_they_were(pack, page):
    page.goto((pack / f"05-{SLIDES}.html").as_uri())
    last = page.locator(".slide").count()
    shown = lambda: page.locator(".slide:visible").get_attribute("id")  # noqa: E731
    for key, number in (
        ("ArrowRight", 2), ("PageDown", 3), (" ", 4), ("ArrowDown", 5), ("ArrowLeft", 4), ("PageUp", 3),
        ("ArrowUp", 2), ("End", last), ("ArrowRight", last), ("Home", 1), ("ArrowLeft", 1),
    ):
        page.keyboard.press(key)
        assert shown() == f"slide-{number}", key
    page.get_by_role("button", name="On").click()
    assert shown() == "slide-2" and page.url.endswith("#slide-2")
    page.evaluate("show(6)")
    assert page.evaluate("document.activeElement.id") == shown() == "slide-7"


def test_without_scripts_slides_are_one_long_page(pack, chromium):
    context = chromium.new_context(java_script_enabled=False, offline=True)
    page = context.new_page()
    page.goto((pack / f"05-{SLIDES}.html").as_uri())
    assert page.locator(".slide:visible").count() == page.locator(".slide").count() >= 20
    assert not page.locator("nav").is_visible()
    context.close()
