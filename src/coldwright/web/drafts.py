"""Every step at the board, kept beside the builds: nothing typed is lost, each step can be undone.

A step is a whole text with the step it came from. Its name follows from both, so a page's address
says exactly what it shows: two tabs stand at two steps, and a reload changes nothing.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import re
import threading
import time
from dataclasses import asdict, dataclass
from pathlib import Path

from coldwright.web.folder import version_of, write_whole

MOST_KEPT = 400  # steps of one build
NAME = re.compile(r"^[0-9a-f]{12}$")


@dataclass(frozen=True)
class Step:
    """One text of a build: where it came from, when, and what was done."""

    name: str
    parent: str  # empty: the file as it was read
    text: str
    when: float
    what: str


class Drafts:
    """The steps of all builds of a folder."""

    def __init__(self, root: Path) -> None:
        """Keep the steps below the folder `root`, made when first needed."""
        self.root = root
        self._lock = threading.RLock()
        self._known: dict[str, dict[str, Step]] = {}

    def step(self, build: str, name: str) -> Step | None:
        """The step `name` of `build`; None when it is not kept."""
        if not NAME.match(name):
            return None
        with self._lock:
            steps = self._steps(build)
            if name not in steps:  # another program may have made it since
                steps.update(_read(self._folder(build), f"{name}.json"))
            return steps.get(name)

    def begin(self, build: str, text: str) -> Step:
        """The step that is the file's own `text`."""
        name = version_of(text)
        return self.step(build, name) or self._keep(
            build, Step(name, "", text, time.time(), "as in the file")
        )

    def put(self, build: str, parent: Step, text: str, what: str, tip: str = "") -> Step:
        """A step from `parent` to `text`, in place of `tip` where that was the same one half typed.

        No change is no step.
        """
        with self._lock:
            if text == parent.text:
                return parent
            name = hashlib.sha256(f"{parent.name}\n{text}".encode()).hexdigest()[:12]
            step = self._keep(build, Step(name, parent.name, text, time.time(), what))
            old = self.step(build, tip)
            if old is not None and old.name != name and old.parent == parent.name:
                self._drop_leaf(build, tip)
            return step

    def before(self, build: str, step: Step) -> Step | None:
        """The step that undoing `step` leads back to."""
        return self.step(build, step.parent) if step.parent else None

    def after(self, build: str, step: Step) -> Step | None:
        """The step that was last made from `step`."""
        made = [each for each in self._steps(build).values() if each.parent == step.name]
        return max(made, key=lambda each: each.when) if made else None

    def unsaved(self, build: str) -> Step | None:
        """The newest step of `build` that never was its file's text."""
        steps = self._steps(build)
        found = [each for each in steps.values() if version_of(each.text) not in steps]
        return max(found, key=lambda each: each.when) if found else None

    def root_of(self, build: str, step: Step) -> Step:
        """The step that `step` goes back to: the file's text from which it was begun."""
        while (parent := self.before(build, step)) is not None:
            step = parent
        return step

    def _folder(self, build: str) -> Path:
        return self.root / version_of(build)

    def _steps(self, build: str) -> dict[str, Step]:
        with self._lock:
            if build not in self._known:
                self._known[build] = dict(_read(self._folder(build)))
            return self._known[build]

    def _keep(self, build: str, step: Step) -> Step:
        with self._lock:
            steps = self._steps(build)
            steps[step.name] = step
            folder = self._folder(build)
            # A folder that may not be written keeps the steps as long as the program runs.
            with contextlib.suppress(OSError):
                folder.mkdir(parents=True, exist_ok=True)
                write_whole(folder / f"{step.name}.json", json.dumps(asdict(step)))
            while len(steps) > MOST_KEPT:
                self._drop(build, min(steps, key=lambda name: steps[name].when))
            return step

    def _drop_leaf(self, build: str, name: str) -> None:
        if not any(each.parent == name for each in self._steps(build).values()):
            self._drop(build, name)

    def _drop(self, build: str, name: str) -> None:
        self._steps(build).pop(name, None)
        with contextlib.suppress(OSError):
            (self._folder(build) / f"{name}.json").unlink(missing_ok=True)


def _read(folder: Path, names: str = "*.json") -> list[tuple[str, Step]]:
    """The steps kept in `folder`; a file that is none is passed over."""
    found = []
    for path in folder.glob(names) if folder.is_dir() else ():
        try:
            data = json.loads(path.read_text(encoding="utf-8"))
            step = Step(**data)
        except (OSError, ValueError, TypeError):
            continue
        if step.name == path.stem:
            found.append((step.name, step))
    return found
