"""The evidence page says what the package computes now, and every file says where its figures are from."""

import pytest

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


@pytest.fixture
def scratch_record():
    before = dict(evidence.RECORD)
    yield
    evidence.RECORD.clear()
    evidence.RECORD.update(before)


def test_a_wrong_figure_fails(scratch_record):
    with pytest.raises(AssertionError, match="1.01"):
        evidence.check("proof", "a figure that is off by one digit", "1.00", 1.01)


@pytest.mark.parametrize("said, ours", [("inside", 7.01), ("below", 4.0), ("above", 3.99)])
def test_a_number_that_does_not_lie_where_the_page_says_fails(scratch_record, said, ours):
    with pytest.raises(AssertionError, match="4 to 7, not"):
        evidence.check_range("proof", "range", "4", "7", ours, "", evidence.MEMORY, said, "a reason")


def test_a_number_outside_its_range_needs_a_reason(scratch_record):
    with pytest.raises(AssertionError, match="reason"):
        evidence.check_range("proof", "range", "4", "7", 8.0, "", evidence.MEMORY, "above")


def test_typed_numbers_are_not_counted_as_computed():
    rows = [row for of_source in page.collect().values() for row in of_source]
    computed = sum(row.kind not in (evidence.TYPED, evidence.INVENTED) for row in rows)
    assert f"{len(rows)} rows" in page.text() and f"In {computed} of them ours is computed" in page.text()
