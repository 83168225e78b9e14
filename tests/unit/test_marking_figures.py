"""The figures of a class against hand counts, plain formulas and scipy; flags; answers in common."""

import math
from dataclasses import replace
from itertools import combinations

import numpy as np
import pandas as pd
import pytest
from scipy import stats

from rollmodel.marking import alike, figures, flags
from rollmodel.marking.alike import pairs_alike
from rollmodel.marking.class_report import class_report
from rollmodel.marking.outcome import Outcome, Row
from rollmodel.marking.paper import paper_of
from rollmodel.questions.misconceptions import every_misconception
from tests.unit.marking_class import chance_right, closed_questions

# Ten invented learners, four questions, the last worth two marks. Counted by hand below.
SHARES = pd.DataFrame(
    [
        [1, 1, 1, 1],
        [1, 1, 1, 1],
        [1, 1, 0, 1],
        [1, 0, 1, 0.5],
        [1, 1, 0, 0.5],
        [0, 1, 1, 0.5],
        [1, 0, 0, 0.5],
        [0, 0, 1, 0],
        [0, 0, 1, 0],
        [0, 0, 0, 0],
    ],
    columns=list("abcd"),
    dtype=float,
)
MOST = pd.Series({"a": 1.0, "b": 1.0, "c": 1.0, "d": 2.0})


def test_totals_and_facility_by_hand():
    assert figures.totals(SHARES, MOST).tolist() == [5, 5, 4, 3, 3, 3, 2, 1, 1, 0]
    assert figures.facility(SHARES).tolist() == [0.6, 0.5, 0.6, 0.5]


def test_ends_by_hand():
    """27 % of ten is 2.7: the best two whole and 0.7 of the third; the worst one, and 1.7 shared by two."""
    ends = figures.end_means(SHARES, figures.totals(SHARES, MOST))
    assert ends["upper"].tolist() == pytest.approx([1, 1, 2 / 2.7, 1])
    assert ends["lower"].tolist() == pytest.approx([0, 0, 1.7 / 2.7, 0])


def test_learners_level_at_the_edge_share_the_places_whatever_their_order():
    total = np.array([4.0, 3, 3, 3, 1, 1, 1, 0])
    weights = figures.upper_weights(total, 0.25)
    assert weights.tolist() == pytest.approx([1, 1 / 3, 1 / 3, 1 / 3, 0, 0, 0, 0])
    order = np.random.default_rng(1).permutation(8)
    assert figures.upper_weights(total[order], 0.25).tolist() == weights[order].tolist()
    assert figures.upper_weights(np.zeros(5), 0.27) == pytest.approx([0.27] * 5)


def test_item_rest_is_scipys_correlation_with_the_rest():
    found = figures.item_rest(SHARES, MOST)
    for name in SHARES:
        marks = SHARES * MOST
        rest = marks.drop(columns=name).sum(axis=1)
        assert found[name] == pytest.approx(stats.pearsonr(marks[name], rest).statistic, abs=1e-12)


def test_a_question_is_not_held_against_itself():
    """One question alone has no rest: no figure, where a correlation with the total would be 1."""
    assert math.isnan(figures.item_rest(SHARES[["a"]], MOST[["a"]])["a"])


def test_no_figure_where_all_did_alike_or_a_person_has_still_to_decide():
    shares = SHARES.assign(a=1.0, d=math.nan)
    found = figures.question_figures(shares, MOST)
    assert math.isnan(found.loc["a", "item_rest"]) and found.loc["a", "facility"] == 1
    assert found.loc["d"].isna().all()
    alone = stats.pearsonr(shares["b"], shares["c"]).statistic  # c is all that varies of b's rest
    assert found.loc["b", "item_rest"] == pytest.approx(alone)


def test_an_answer_that_cannot_be_marked_takes_its_learner_out_of_that_question_alone():
    """The first learner's answer to d is gone: d is as without that learner; totals are put in proportion."""
    shares = SHARES.copy()
    shares.loc[0, "d"] = math.nan
    found, without = figures.question_figures(shares, MOST), SHARES.drop(index=0)
    assert found["counted"].tolist() == [10, 10, 10, 9]
    assert found.loc["d", "facility"] == pytest.approx(without["d"].mean())
    assert found.loc["a", "facility"] == 0.6
    assert figures.totals(shares, MOST).tolist() == [5, 5, 4, 3, 3, 3, 2, 1, 1, 0]  # 3 of 3, so 5 of 5
    rest = without[["a", "b", "c"]].sum(axis=1)
    assert found.loc["d", "item_rest"] == pytest.approx(stats.pearsonr(without["d"], rest).statistic)
    assert not found.isna().any(axis=None)


def test_a_learner_of_whom_nothing_can_be_marked_changes_no_figure():
    strange = pd.DataFrame([[math.nan] * 4], columns=SHARES.columns, index=[10])
    both = figures.question_figures(pd.concat([SHARES, strange]), MOST)
    pd.testing.assert_frame_equal(both, figures.question_figures(SHARES, MOST))


def test_one_file_of_another_version_leaves_the_class_its_figures(monkeypatch):
    """A file with version 99 throughout, and an open answer that waits: the first blanks nothing."""
    monkeypatch.setattr("rollmodel.marking.class_report.pairs_alike", lambda rows: [])
    paper, rows = paper_of("invented", QUESTIONS), invented_rows(40, 1)
    number = len(QUESTIONS)
    other = replace(
        rows[0], shares=(math.nan,) * number, outcomes=(Outcome("other version"),) * number, waiting=number
    )
    waits = replace(
        rows[0], shares=(math.nan, *rows[0].shares[1:]), outcomes=(Outcome("noted"), *rows[0].outcomes[1:])
    )
    plain = class_report(paper, "assessment", rows, [])
    with_other = class_report(paper, "assessment", [*rows, other], [])
    assert [one.figures for one in with_other.questions] == [one.figures for one in plain.questions]
    waiting = class_report(paper, "assessment", [*rows, waits], []).questions
    assert math.isnan(waiting[0].figures["facility"]) and waiting[1].figures["facility"] >= 0


def test_biserial_relation_for_right_and_wrong():
    """Cut a normal leaning at any height: the correlation with it is phi(z)/sqrt(pq) of the biserial one."""
    stream = np.random.default_rng(3)
    leaning = stream.normal(size=400_000)
    other = 0.6 * leaning + 0.8 * stream.normal(size=leaning.size)
    for facility in (0.1, 0.5, 0.93):
        cut = (leaning > stats.norm.isf(facility)).astype(float)
        p = pd.Series([facility])
        ratio = flags._point_over_biserial(p, pd.Series([True]))[0]
        assert np.corrcoef(cut, other)[0, 1] == pytest.approx(0.6 * ratio, abs=0.006)


# Flags over many invented classes, on outcomes alone so that it is quick.

QUESTIONS = closed_questions(30)
BAD = QUESTIONS[7].id
ROADS = list(every_misconception())[:5]
PLANTED = {
    "as by a coin": lambda right: lambda stream, able: stream.random() < 0.5,
    "the able lose": lambda right: lambda stream, able: stream.random() > right(able),
}


def invented_rows(number, seed, planted=None, wrong_key=False):
    """Rows of a class; the planted question is answered by another law, or held against a wrong key."""
    stream = np.random.default_rng(seed)
    hardness = stream.uniform(-1.5, 1.2, len(QUESTIONS))
    return [_row(str(learner), stream, hardness, planted, wrong_key) for learner in range(number)]


def _row(name, stream, hardness, planted, wrong_key):
    ability = stream.normal()
    outcomes = []
    for question, hard in zip(QUESTIONS, hardness, strict=True):
        knows = stream.random() < chance_right(ability, hard)
        if question.id == BAD and planted:
            knows = planted(lambda able, hard=hard: chance_right(able, hard))(stream, ability)
        if question.id == BAD and wrong_key:
            outcomes.append(Outcome("road", ROADS[0]) if knows else Outcome("road", stream.choice(ROADS[1:])))
        else:
            outcomes.append(Outcome("right") if knows else Outcome("road", stream.choice(ROADS)))
    return Row(
        name,
        name,
        0.0,
        0.0,
        (),
        tuple(float(one.right) for one in outcomes),
        tuple(outcomes),
        *no_figures(outcomes),
    )


def no_figures(line):
    return (0,) * len(line), (0,) * len(line)


def flagged(rows, monkeypatch):
    monkeypatch.setattr("rollmodel.marking.class_report.pairs_alike", lambda rows: [])
    report = class_report(paper_of("invented", QUESTIONS), "assessment", rows, [])
    return {one.question.id for one in report.questions if one.reasons}


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("kind", [*PLANTED, "a wrong key"])
def test_two_hundred_learners_flag_the_planted_question_and_no_other(kind, seed, monkeypatch):
    rows = invented_rows(200, seed, PLANTED.get(kind), kind == "a wrong key")
    assert flagged(rows, monkeypatch) == {BAD}


def test_sound_papers_are_hardly_ever_flagged(monkeypatch):
    """By design less than one class in twenty for each sign; here at most 3 of 27 classes of three sizes."""
    false = sum(
        bool(flagged(invented_rows(number, seed), monkeypatch))
        for number in (30, 60, 200)
        for seed in range(9)
    )
    assert false <= 3


def test_thirty_learners_may_flag_and_twenty_nine_never_do(monkeypatch):
    rows = invented_rows(30, 1, PLANTED["the able lose"])
    assert flagged(rows, monkeypatch) == {BAD}
    assert flagged(rows[:29], monkeypatch) == set()


def test_nobody_right_is_a_reason_by_itself(monkeypatch):
    rows = invented_rows(200, 1, lambda right: lambda stream, able: False)
    assert flagged(rows, monkeypatch) == {BAD}


# Answers in common


def hand_rows(table):
    """Rows from letters: R right, - none, anything else a wrong answer of that name."""
    kinds = {"R": Outcome("right"), "-": Outcome("not answered")}
    rows = [[kinds.get(sign) or Outcome("road", sign) for sign in line] for line in table]
    return [
        Row(str(n), str(n), 0.0, 0.0, (), (), tuple(line), *no_figures(line)) for n, line in enumerate(rows)
    ]


def test_shared_wrong_answers_are_counted_pair_by_pair():
    """The counts by the sparse product are those of a plain look at every pair."""
    stream = np.random.default_rng(5)
    rows = hand_rows([stream.choice(list("R-abc"), 12) for _ in range(40)])
    wrong = [[one if one.wrong else None for one in row.outcomes] for row in rows]
    same = alike.incidence(wrong)
    shared = (same @ same.T).toarray()
    for i, j in combinations(range(40), 2):
        plainly = sum(a is not None and a == b for a, b in zip(wrong[i], wrong[j], strict=True))
        assert shared[i, j] == plainly


def test_a_copied_paper_stands_out_of_a_class():
    stream = np.random.default_rng(2)
    lines = [
        ["R" if stream.random() < 0.5 else stream.choice(list("abcde")) for _ in range(30)] for _ in range(60)
    ]
    lines[41] = lines[17].copy()
    listed = pairs_alike(hand_rows(lines))
    assert [(pair.one, pair.other, pair.what) for pair in listed] == [(17, 41, "wrong alike")]
    assert listed[0].shared == sum(sign != "R" for sign in lines[17])


def test_honest_classes_list_hardly_any_pair():
    listed = []
    for seed in range(10):
        stream = np.random.default_rng(seed)
        listed += pairs_alike(
            hand_rows(
                [
                    ["R" if stream.random() < 0.5 else stream.choice(list("abcde")) for _ in range(30)]
                    for _ in range(60)
                ]
            )
        )
    assert len(listed) <= 1  # one class in a hundred, by design


def test_pairs_in_different_blocks_are_found(monkeypatch):
    stream = np.random.default_rng(2)
    lines = [
        ["R" if stream.random() < 0.5 else stream.choice(list("abcde")) for _ in range(30)] for _ in range(60)
    ]
    lines[59] = lines[3].copy()
    whole = pairs_alike(hand_rows(lines))
    monkeypatch.setattr(alike, "PAIRS", 7 * 60)
    assert pairs_alike(hand_rows(lines)) == whole != []


def test_the_poisson_law_overstates_chance():
    """Against the exact law of a sum of unequal chances, worked out one question at a time."""
    stream = np.random.default_rng(7)
    for _ in range(50):
        chances = stream.uniform(0.02, 0.6, 15)
        exact = np.array([1.0])
        for chance in chances:
            exact = np.convolve(exact, [1 - chance, chance])
        for count in range(int(chances.sum()) + 2, 16):
            assert exact[count:].sum() <= stats.poisson.sf(count - 1, chances.sum()) + 1e-12


def figure_row(name, values):
    """A row of numeric answers: figure, numbers and whether it is right."""
    outcomes = tuple(Outcome("right" if right else "wrong", "", name) for _, _, right in values)
    figures, numbers, _ = zip(*values, strict=True)
    return Row(name, name, 0.0, 0.0, (), (), outcomes, figures, numbers)


def test_figures_taken_over_from_somebody_with_other_numbers():
    """Learner b typed a's figures under other numbers; c and d share numbers as well as slips: not meant."""
    stream = np.random.default_rng(4)
    rows = [
        figure_row(f"honest {n}", [(f"{stream.random():.6f}", f"{n}", True) for _ in range(8)])
        for n in range(20)
    ]
    a = [(f"{100 + q}", "numbers of a", True) for q in range(8)]
    b = [(figure, "numbers of b", False) for figure, _, _ in a]
    c = [(f"{300 + q}", "the same numbers", False) for q in range(8)]
    rows += [figure_row("a", a), figure_row("b", b), figure_row("c", c), figure_row("d", c)]
    listed = [pair for pair in pairs_alike(rows) if pair.what == "same figure"]
    assert [(rows[pair.one].name, rows[pair.other].name, pair.shared) for pair in listed] == [("a", "b", 8)]
