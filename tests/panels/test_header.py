"""The first cell run again: what follows its switches, and what says that it does not."""

from rollmodel.panels import header
from rollmodel.panels.lessons.lesson_01 import AxlePanel


def test_the_first_cell_run_again_alone_says_that_panels_below_stay_behind():
    AxlePanel(header.start("01"))
    again = header.start("01")
    switches = next(one for one in again._shown if isinstance(one, header.Header))
    assert header.APART in switches.notice.value
    AxlePanel(again)  # its cell, run again
    assert switches.notice.value == ""


def test_a_first_run_says_nothing_of_the_kind():
    first = header.start("01")
    switches = next(one for one in first._shown if isinstance(one, header.Header))
    AxlePanel(first)
    assert switches.notice.value == ""
