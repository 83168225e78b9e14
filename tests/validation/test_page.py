"""The evidence page says what the package computes now, and every file says where its figures are from."""

from tests.validation import evidence, page


def test_page_is_up_to_date():
    assert page.PAGE.read_text(encoding="utf-8") == page.text(), (
        "tests/validation/README.md is stale: run python -m tests.validation.page"
    )


def test_every_file_names_its_source_and_how_the_figures_reached_us():
    for module in page.modules():
        words = module.__doc__.lower()
        assert any(kind in words for kind in evidence.KINDS), module.__name__
        assert module.SOURCE in page.collect(), module.__name__


def test_memory_is_never_the_only_check_of_a_source():
    for source, rows in page.collect().items():
        assert any(row.kind not in (evidence.MEMORY, evidence.COMMON_PRACTICE) for row in rows), source


def test_a_wrong_figure_fails():
    before = dict(evidence.RECORD)
    try:
        evidence.check("proof", "a figure that is off by one digit", "1.00", 1.01)
    except AssertionError as error:
        assert "1.01" in str(error)
    else:
        raise RuntimeError("check() let a wrong figure pass")
    finally:
        evidence.RECORD.clear()
        evidence.RECORD.update(before)
