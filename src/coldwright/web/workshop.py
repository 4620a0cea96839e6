"""What the routes share: the folder, the steps, the jobs, and quick answers kept for a while."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from coldwright.build import Build
from coldwright.errors import Fault, InputError
from coldwright.verdict.glance import glance
from coldwright.web.board import Asked, Board, open_board
from coldwright.web.drafts import Drafts
from coldwright.web.folder import Folder
from coldwright.web.jobs import Job, Jobs

MOST_GLANCES = 64
CASE_CHARTS = ("pressure-enthalpy", "tubes", "watts", "resistances")


@dataclass(frozen=True)
class Figures:
    """What is known of a board: figures by the report's keys, or the faults that forbid them."""

    data: Mapping[str, Any] | None
    is_full: bool
    faults: tuple[Fault, ...] = ()


class Overtaken(Exception):
    """A newer request of the same tab waits; this one need not be answered."""


class Workshop:
    """One folder at work."""

    def __init__(self, root: Path) -> None:
        """Open the folder `root`."""
        self.folder = Folder(root)
        self.drafts = Drafts(self.folder.hidden / "steps")
        self.jobs = Jobs(self.folder.hidden / "results")
        self._glances: OrderedDict[tuple[str, str | None], Figures] = OrderedDict()
        self._glancing = threading.Lock()
        self._newest: dict[str, int] = {}

    def board(self, name: str, asked: Asked) -> Board:
        """The board that an address asks for; see `open_board`."""
        return open_board(self.folder, self.drafts, name, asked)

    def arguments(self, board: Board) -> dict[str, Any]:
        """What a job about a board is told."""
        return {"text": board.text, "revision": board.revision, "system": board.system}

    def chart_arguments(self, board: Board, charts: tuple[str, ...]) -> dict[str, Any]:
        """What a job that draws some charts of a board is told."""
        return {**self.arguments(board), "charts": list(charts)}

    def drawn(self, board: Board, wanted: tuple[str, ...]) -> tuple[str, list[dict[str, Any]]]:
        """Those of the case's charts that are `wanted` and drawn, and the key of their job."""
        key = self.jobs.key("charts", self.chart_arguments(board, CASE_CHARTS))
        charts = self.jobs.result(key) if wanted else None
        return key, [each for each in charts or () if each["chart"] in wanted]

    def report(self, board: Board) -> dict[str, Any] | None:
        """The full report, where it has been worked out."""
        found: dict[str, Any] | None = self.jobs.result(
            self.jobs.key("assess", self.arguments(board))
        )
        return found

    def job(self, kind: str, arguments: Mapping[str, Any]) -> Job | None:
        """The job with these arguments, where it is known."""
        return self.jobs.look(self.jobs.key(kind, arguments))

    def known(self, board: Board) -> Figures:
        """Figures that need no more work: the full report, else a quick answer kept."""
        if board.build is None:
            return Figures(None, False, board.read.faults)
        full = self.report(board)
        if full is not None:
            return Figures(full, True)
        kept = self._glances.get((board.text, board.revision))
        return kept or Figures(None, False)

    def quick(self, board: Board, tab: str = "", turn: int = 0) -> Figures:
        """Figures at once: kept ones, else the quick answer.

        One answer is worked out at a time; a request that was overtaken by a newer one of its
        `tab` while it waited raises Overtaken.
        """
        known = self.known(board)
        build = board.build
        if build is None or known.data is not None or known.faults:
            return known
        if tab:
            self._newest[tab] = max(turn, self._newest.get(tab, 0))
        with self._glancing:
            if tab and turn < self._newest[tab]:
                raise Overtaken
            key = (board.text, board.revision)
            if key not in self._glances:
                self._glances[key] = _glance(build)
                while len(self._glances) > MOST_GLANCES:
                    self._glances.popitem(last=False)
            return self._glances[key]


def _glance(build: Build) -> Figures:
    try:
        return Figures(glance(build), False)
    except InputError as error:
        return Figures(None, False, error.faults)
