"""The form below the runs: files of the learner's own to read, and the simulated ones to take along."""

from __future__ import annotations

from html import escape

import ipywidgets as widgets

from rollmodel.panels.shown import button, row, text
from rollmodel.panels.test_day import tested_known
from rollmodel.panels.typed_line import TypedLine, alert
from rollmodel.testday.faults import DayError
from rollmodel.testday.known import save_new
from rollmodel.testday.sample import sample_csv
from rollmodel.testday.trial import RADIUS, driven
from rollmodel.testday.wishes import read_files

BOXES = {
    "before": ("CSV file of the runs before", "path of the file"),
    "after": ("CSV file of the runs after", "path of the file"),
    "radius": ("Radius, where the files do not say", "such as 30 m"),
    "steering ratio": ("Steering ratio, where steer is the steering wheel's", "such as 15"),
}


class FilesForm:
    """Paths of two files; what is wrong with them is said below."""

    def __init__(self, panel):
        self.panel = panel
        self.boxes = {
            key: TypedLine(f"file {key}", words, self._typed, hint) for key, (words, hint) in BOXES.items()
        }
        for key, line in self.boxes.items():
            line.put(panel.kept.get("boxes", {}).get(key, ""))
        self.name = TypedLine(
            "run name", "Save the simulated runs under the name", lambda *_: None, "such as monday"
        )
        self.back = button("Back to the simulated day", lambda *_: panel.show_own(None))
        self.reply = text(css="rm-reply")
        self.widget = widgets.VBox(
            [
                text(
                    "<strong>Your own runs.</strong> Two CSV files, one row a reading, the units "
                    "in the header: "
                    "<code>time [s], speed [km/h], steer [deg], roll [deg]</code>, and a column "
                    "<code>direction</code> or the sign for left and right. The change above is "
                    "the one looked for."
                ),
                row(*(line.widget for line in self.boxes.values()), css="rm-form"),
                row(button("Read my files", self.read), self.back),
                row(self.name.widget, button("Save both as CSV", self.save), css="rm-form"),
                self.reply,
            ]
        )
        self.widget.add_class("rm-card")

    def names(self) -> dict:
        """Attributes for assistive technology."""
        names = {".rm-reply .widget-html-content": {"aria-live": "polite"}}
        for line in [*self.boxes.values(), self.name]:
            names |= line.names()
        return names

    def follow(self) -> None:
        """The way back is there while own files are shown."""
        self.back.layout.display = None if self.panel.own else "none"

    def read(self, *_) -> None:
        """Read both files, or say every fault in place; the picture stays, an older verdict does not."""
        panel = self.panel
        try:
            typed = {key: line.box.value for key, line in self.boxes.items()}
            read = read_files(tested_known(panel.lesson), panel.cars[1], typed, panel.family)
        except (DayError, ValueError, OSError) as fault:
            panel.no_verdict()
            self.reply.value = alert(fault)
            return
        panel.show_own(read)
        self.reply.value = escape(
            f"Read: {read.files[0]} and {read.files[1]}. The picture and the words are theirs; the "
            "controls of the simulated day rest."
        )

    def save(self, *_) -> None:
        """Both simulated files, for `rollmodel runs` or for this form; none is written over."""
        panel = self.panel
        try:
            name = self.name.box.value.strip().removesuffix(".csv")
            if not name:
                raise DayError("wanted a name for the files, such as monday")
            day = panel._day(panel.values)
            paths = [
                save_new(f"{name}-{when}", sample_csv(car, rows, RADIUS, panel.family), ".csv")
                for (when, rows), car in zip(driven(day).items(), (day.before, day.after), strict=True)
            ]
        except (DayError, ValueError, OSError) as fault:
            self.reply.value = alert(fault)
            return
        self.reply.value = escape(f"Saved {paths[0]} and {paths[1]}: simulated runs, and both files say so.")

    def _typed(self, key, words):
        self.panel.kept.setdefault("boxes", {})[key.removeprefix("file ")] = words
