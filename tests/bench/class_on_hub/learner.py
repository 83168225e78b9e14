"""One simulated learner at a human pace: arrives, runs a lesson, drags sliders, thinks, answers, goes on."""

from __future__ import annotations

import asyncio
import json
import random
import re
import time
from dataclasses import dataclass, field

from tests.bench.class_on_hub.browser import Browser, Kernel

SLIDERS = ("FloatSliderModel", "IntSliderModel")
PICTURE = "ImageModel"
READING = 3.0  # s on average before the next cell is run
THINKING = 6.0  # s on average between two drags
TYPING = 8.0  # s on average for an answer
STEP = 0.08  # s between two positions of a slider while it is dragged
DRAG = (4, 12)  # positions in one drag
ANSWERING = 0.3  # chance that a question is answered after a drag
ANSWER = re.compile(r'work\.answer\("([^"]+)", ""\)')


@dataclass
class Diary:
    """What happened to one learner."""

    name: str
    lesson: int
    logged_in: float = 0.0  # s, each from the step before
    server_up: float = 0.0
    lesson_open: float = 0.0
    pictures: list[float] = field(default_factory=list)  # s from message to picture
    without_picture: int = 0
    answered: list[tuple[str, str]] = field(default_factory=list)
    failures: list[str] = field(default_factory=list)


class Learner:
    """Does a lesson until told to stop.

    Parameters
    ----------
    browser : Browser
    lesson : int
    seed : int
        Decides every pause and every choice.
    """

    def __init__(self, browser: Browser, lesson: int, seed: int):
        self.browser, self.diary = browser, Diary(browser.name, lesson)
        self.chance = random.Random(seed)
        self.models: dict[str, dict] = {}
        self.questions: list[str] = []

    @property
    def code_word(self) -> str:
        return f"word of {self.browser.name}"

    async def visit(self, arrives: float, ready: asyncio.Semaphore, stop: asyncio.Event) -> None:
        """The whole visit; what goes wrong is written down and ends it."""
        try:
            await asyncio.sleep(arrives)
            await self._come_in()
            ready.release()
            await self._work(stop)
        except Exception as error:
            self.diary.failures.append(f"{type(error).__name__}: {error}")
            ready.release()

    async def leave(self) -> None:
        """Close the pages."""
        for kernel in (getattr(self, "page", None), getattr(self, "exercises", None)):
            if kernel is not None:
                await kernel.close()

    async def _come_in(self):
        clock = time.perf_counter()
        await self.browser.log_in()
        self.diary.logged_in, clock = time.perf_counter() - clock, time.perf_counter()
        await self.browser.start_server()
        self.diary.server_up, clock = time.perf_counter() - clock, time.perf_counter()
        self.page = await self._open_lesson()
        self.diary.lesson_open = time.perf_counter() - clock
        self.exercises = await self._open_exercises()

    async def _open_lesson(self) -> Kernel:
        """Run the lesson's cells as a reader does, up to the last; open its controls."""
        path = await self._path_of_the_lesson()
        kernel = await self.browser.open(path)
        kernel.listeners.append(self._note)
        for code in code_cells(await self.browser.notebook(path)):
            await kernel.run(code)
            await self._pause(READING)
        for name, state in list(self.models.items()):
            if state.get("_model_name") == "ButtonModel" and state.get("description") == "Skip":
                await kernel.say(
                    "comm_msg", to_widget(name, {"method": "custom", "content": {"event": "click"}})
                )
        return kernel

    async def _path_of_the_lesson(self) -> str:
        _, answer = await self.browser.ask(f"{self.browser.home}/api/contents/lessons")
        names = [one["path"] for one in json.loads(answer)["content"]]
        return next(one for one in names if one.startswith(f"lessons/{self.diary.lesson:02d}-"))

    async def _open_exercises(self) -> Kernel:
        path = f"exercises/lesson-{self.diary.lesson:02d}.ipynb"
        first, *others = code_cells(await self.browser.notebook(path))
        kernel = await self.browser.open(path)
        await kernel.run(first.replace('start("example")', f'start("{self.code_word}")'))
        self.questions = [found[1] for code in others if (found := ANSWER.search(code))]
        return kernel

    def _note(self, message, buffers):
        """Keep the state of every widget, as the page does."""
        kind, content = message["msg_type"], message["content"]
        if kind == "comm_open":
            self.models[content["comm_id"]] = dict(content["data"].get("state", {}))
        elif kind == "comm_msg" and "state" in content["data"]:
            self.models.setdefault(content["comm_id"], {}).update(content["data"]["state"])

    async def _work(self, stop: asyncio.Event):
        while not stop.is_set():
            await self._pause(THINKING)
            await self._drag()
            if self.chance.random() < ANSWERING:
                await self._answer()

    async def _drag(self):
        """Move one slider over a few positions, no faster than a hand nor than the kernel takes them."""
        name, state = self.chance.choice(self._sliders())
        for value in self._positions(state):
            sent = time.perf_counter()
            update = {"method": "update", "state": {"value": value}, "buffer_paths": []}
            heard = await self.page.say("comm_msg", to_widget(name, update))
            came = [when for message, buffers, when in heard if self._is_picture(message, buffers)]
            if came:
                self.diary.pictures.append(came[-1] - sent)
            else:
                self.diary.without_picture += 1
            await asyncio.sleep(max(0.0, STEP - (time.perf_counter() - sent)))

    def _sliders(self):
        return [(name, state) for name, state in self.models.items()
                if state.get("_model_name") in SLIDERS and not state.get("disabled")]  # fmt: skip

    def _positions(self, state) -> list:
        """Neighbouring places of a slider, one way, from where it stands; the other way at an end."""
        step, low, high = state.get("step") or 1, state["min"], state["max"]
        count = self.chance.randint(*DRAG)
        way = self.chance.choice((-1, 1))
        places, at = [], state["value"]
        for _ in range(count):
            if not low <= at + way * step <= high:
                way = -way
            at = type(state["value"])(round(at + way * step, 9))
            places.append(at)
        return places

    def _is_picture(self, message, buffers) -> bool:
        content = message["content"]
        return (message["msg_type"] == "comm_msg"
                and self.models.get(content["comm_id"], {}).get("_model_name") == PICTURE
                and any(part.startswith(b"\x89PNG") for part in buffers))  # fmt: skip

    async def _answer(self):
        """Type an answer that nobody else types, and run its cell."""
        await self._pause(TYPING)
        question = self.chance.choice(self.questions)
        text = f"{self.chance.uniform(1, 99):.6f} N/mm"
        await self.exercises.run(f'work.answer("{question}", "{text}")')
        self.diary.answered.append((question, text))

    async def _pause(self, mean: float):
        """A pause as people make them: mostly shorter than the mean, now and then much longer."""
        await asyncio.sleep(min(self.chance.expovariate(1 / mean), 5 * mean))


def code_cells(notebook: dict) -> list[str]:
    return ["".join(one["source"]) for one in notebook["cells"] if one["cell_type"] == "code"]


def to_widget(name: str, data: dict) -> dict:
    return {"comm_id": name, "data": data}
