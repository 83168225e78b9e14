"""What was found, in words, and what a class of another size would need by it."""

from __future__ import annotations

import json
import os
import platform
import statistics
from dataclasses import dataclass, field
from pathlib import Path

LARGE_CLASS = 200
SPARE = 2.0  # processors for a class are not planned to be busy more than half the time: drags come in bursts
COMING_IN = {"log in": "logged_in", "server started": "server_up", "lesson run, with reading": "lesson_open"}


@dataclass(frozen=True)
class Hub:
    """A running hub."""

    process: int
    address: str
    password: str


@dataclass
class Found:
    """Everything that was measured; ``before`` and ``after`` frame the time when all were at work."""

    learners: list
    before: tuple
    after: tuple
    in_after: float  # s until the last had opened lesson and exercises
    load: tuple = ()  # the machine's load before anything was started
    lost: list[str] = field(default_factory=list)

    @property
    def diaries(self) -> list:
        return [one.diary for one in self.learners]

    @property
    def seconds(self) -> float:
        """How long all were at work, [s]."""
        return self.after[1] - self.before[1]

    def processors(self, both) -> float:
        """Mean number of processors busy between the two times, ``both`` picking the programs."""
        return (both(self.after[0]).seconds - both(self.before[0]).seconds) / self.seconds


def lost_answers(learners, homes: Path) -> list[str]:
    """Answers that were given and are not in the learner's file, and such as nobody gave."""
    lost = []
    for one in learners:
        given = one.diary.answered
        path = (
            homes / one.diary.name / "exercises" / f"answers-{one.code_word.replace(' ', '_')}-practice.json"
        )
        rows = json.loads(path.read_text(encoding="utf-8"))["answers"] if path.is_file() else []
        kept = [(row["question"], row["text"]) for row in rows]
        lost += [
            f"{one.diary.name}: {answer} is not in {path.name}" for answer in given if answer not in kept
        ]
        lost += [f"{one.diary.name}: {answer} was never given" for answer in kept if answer not in given]
    return lost


def failures(found: Found) -> int:
    """How many things went wrong."""
    return len(found.lost) + sum(len(one.failures) + one.without_picture for one in found.diaries)


def text(found: Found, args) -> str:
    """The report."""
    return "\n".join([*_machine(found, args), "", *_pictures(found), "", *_use(found), "", *_outcome(found)])


def _machine(found: Found, args) -> list[str]:
    memory = os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES")
    return [
        f"{args.learners} learners at work for {found.seconds / 60:.1f} minutes, lessons "
        f"{', '.join(map(str, args.lessons))}; the learners are simulated on the same machine.",
        f"Machine: {os.cpu_count()} processors, {memory / 1e9:.0f} GB, {platform.platform()}, "
        f"Python {platform.python_version()}.",
        f"Load of the machine before the start: {' '.join(f'{one:.1f}' for one in found.load)}; "
        f"at the end: {' '.join(f'{one:.1f}' for one in os.getloadavg())}.",
    ]


def _pictures(found: Found) -> list[str]:
    lines = ["From a slider's message to its picture, ms        steps   median      p95  largest"]
    by_lesson = {one.lesson: [] for one in found.diaries}
    for one in found.diaries:
        by_lesson[one.lesson] += one.pictures
    rows = [(f"lesson {number}", times) for number, times in sorted(by_lesson.items())]
    rows.append(("all", [time for _, times in rows for time in times]))
    for name, times in rows:
        if times:
            lines.append(f"  {name:<44}{len(times):>9}{1e3 * statistics.median(times):>9.0f}"
                         f"{1e3 * share(times, 0.95):>9.0f}{1e3 * max(times):>9.0f}")  # fmt: skip
    for words, name in COMING_IN.items():
        times = [getattr(one, name) for one in found.diaries]
        middle, late = statistics.median(times), share(times, 0.95)
        lines.append(f"  {words + ', s':<44}{len(times):>9}{middle:>9.1f}{late:>9.1f}{max(times):>9.1f}")
    return lines


def share(times: list[float], part: float) -> float:
    """The time below which so large a part of them lies."""
    return sorted(times)[min(int(part * len(times)), len(times) - 1)]


def _use(found: Found) -> list[str]:
    learners, hub = found.after[0]
    each = list(learners.values())
    parted, resident = ([getattr(one, name) / 1e6 for one in each] for name in ("shared_out", "resident"))
    busy = sum(found.processors(lambda use, name=name: use[0][name]) for name in learners)
    middle = found.processors(lambda use: use[1])
    kernels = statistics.mean(one.programs for one in each) - 1
    return [
        f"Memory of one learner (a server, {kernels:.0f} kernels): {statistics.mean(parted):.0f} MB with "
        f"what is shared parted (PSS), at most {max(parted):.0f}; "
        f"{statistics.mean(resident):.0f} MB resident (RSS).",
        f"Memory of hub and proxy: {hub.shared_out / 1e6:.0f} MB (PSS).",
        f"Processors busy: learners {busy:.2f}, that is {busy / len(each):.3f} each; "
        f"hub and proxy {middle:.2f}.",
        f"All were in after {found.in_after:.0f} s.",
        *_large_class(statistics.mean(parted), statistics.mean(resident), busy / len(each)),
    ]


def _large_class(parted: float, resident: float, busy: float) -> list[str]:
    """What a larger class needs; megabytes and processors are those of one learner."""
    count = LARGE_CLASS
    return [
        f"By these figures a class of {count} needs {count * parted / 1e3:.0f} GB of memory on one machine, "
        f"{count * resident / 1e3:.0f} GB",
        f"on many that share nothing, and {SPARE * count * busy:.0f} processors, busy half the time at most. "
        "JupyterHub carries that with a",
        "spawner that starts each learner's server on a machine of a cluster, in place of the one used here.",
    ]


def _outcome(found: Found) -> list[str]:
    diaries = found.diaries
    answers = sum(len(one.answered) for one in diaries)
    words = [f"  {one.name}: {failure}" for one in diaries for failure in one.failures]
    words += [f"  {one}" for one in found.lost]
    return [
        f"Answers given: {answers}; lost: {len(found.lost)}. Slider steps without a picture: "
        f"{sum(one.without_picture for one in diaries)}. "
        f"Learners who could not go on: {sum(bool(one.failures) for one in diaries)}.",
        f"Failures in all: {failures(found)}.",
        *words[:20],
    ]
