"""Work that takes longer than a person waits: in a process of its own, with progress and cancel.

A job is named by what it works out, so that a page that is loaded again finds it, and two tabs
that ask for the same share it. Results are kept as files.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import multiprocessing
import threading
import time
from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import dataclass, field
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Any, Literal

from coldwright.web.folder import write_whole
from coldwright.web.stamp import code_stamp
from coldwright.web.work import serve

State = Literal["waiting", "working", "done", "faulty", "broken", "cancelled"]
MOST_KEPT = 300  # results of a folder
UNSEEN = 3.0  # seconds after which a watched job counts as left
MOST_REMEMBERED = 12  # results that need not be read again
ENDED = ("done", "faulty", "broken", "cancelled")


@dataclass
class Job:
    """One piece of work: its state, what it is doing, and what became of it."""

    key: str
    kind: str
    arguments: Mapping[str, Any]
    state: State = "waiting"
    doing: str = "waiting for its turn"
    share: float | None = None  # of the work, where it is known
    is_watched: bool = False  # wanted only as long as a page looks at it
    seen: float = field(default_factory=time.monotonic)
    faults: list[dict[str, Any]] = field(default_factory=list)

    @property
    def is_left(self) -> bool:
        """Whether the page that wanted it has gone."""
        return self.is_watched and time.monotonic() - self.seen > UNSEEN

    def as_data(self) -> dict[str, Any]:
        """What a page is told."""
        return {
            "key": self.key,
            "kind": self.kind,
            "state": self.state,
            "doing": self.doing,
            "share": self.share,
            "faults": self.faults,
        }


class Jobs:
    """One worker process and the queue before it."""

    def __init__(self, root: Path) -> None:
        """Keep results below the folder `root`, made when first needed."""
        self.root = root
        self._jobs: dict[str, Job] = {}
        self._remembered: OrderedDict[str, Any] = OrderedDict()
        self._queue: list[Job] = []
        self._change = threading.Condition()
        self._worker: _Worker | None = None
        self._working: Job | None = None
        self._closed = False
        self._thread: threading.Thread | None = None

    def key(self, kind: str, arguments: Mapping[str, Any]) -> str:
        """The name of a piece of work: the same for the same build, options and program."""
        told = json.dumps([code_stamp(), kind, arguments], sort_keys=True)
        return hashlib.sha256(told.encode("utf-8")).hexdigest()[:24]

    def start(
        self,
        kind: str,
        arguments: Mapping[str, Any],
        instead_of: str = "",
        *,
        is_watched: bool = False,
    ) -> Job:
        """Begin the work, unless it is done or under way already; `instead_of` is cancelled.

        What is `is_watched` makes room for other work once no page looks at it any more.
        """
        key = self.key(kind, arguments)
        if instead_of and instead_of != key:
            self.cancel(instead_of)
        if self.result(key) is not None:
            return Job(key, kind, arguments, "done", "")
        with self._change:
            job = self._jobs.get(key)
            if job is None or job.state in ENDED:
                for left in [each for each in self._jobs.values() if each.is_left]:
                    self.cancel(left.key)
                job = self._jobs[key] = Job(key, kind, arguments, is_watched=is_watched)
                self._queue.append(job)
                self._ensure_thread()
                self._change.notify_all()
            return job

    def look(self, key: str) -> Job | None:
        """The job `key`, where it is known or its result is kept."""
        job = self._jobs.get(key)
        if job is not None:
            job.seen = time.monotonic()
            return job
        return Job(key, "", {}, "done", "") if self.result(key) is not None else None

    def cancel(self, key: str) -> None:
        """Stop the job `key`, whether it waits or works; anything else is left alone."""
        with self._change:
            job = self._jobs.get(key)
            if job is None or job.state in ENDED:
                return
            job.state, job.doing = "cancelled", "stopped by hand"
            if job in self._queue:
                self._queue.remove(job)
            elif job is self._working and self._worker is not None:
                self._worker.stop()
            self._change.notify_all()

    def result(self, key: str) -> Any:  # noqa: ANN401 (any JSON value)
        """What the job `key` worked out, None when it has not."""
        if not key.isalnum():
            return None
        with self._change:
            if key not in self._remembered:
                try:
                    found = json.loads((self.root / f"{key}.json").read_text(encoding="utf-8"))
                except (OSError, ValueError):
                    return None
                self._remember(key, found)
            return self._remembered[key]

    def wait(self, job: Job) -> Job:
        """Return when `job` has ended."""
        with self._change:
            self._change.wait_for(lambda: job.state in ENDED or self._closed)
        return job

    def close(self) -> None:
        """Stop the worker and end."""
        with self._change:
            self._closed = True
            if self._worker is not None:
                self._worker.stop()
            self._change.notify_all()
        if self._thread is not None:
            self._thread.join(timeout=5.0)

    def _ensure_thread(self) -> None:
        if self._thread is None:
            self._thread = threading.Thread(target=self._run, name="jobs", daemon=True)
            self._thread.start()

    def _run(self) -> None:
        while True:
            with self._change:
                self._change.wait_for(lambda: self._queue or self._closed)
                if self._closed:
                    return
                job = self._working = self._queue.pop(0)
                job.state, job.doing = "working", "begins"
                if self._worker is None or not self._worker.lives:
                    self._worker = _Worker()
                worker = self._worker
            self._follow(job, worker)
            with self._change:
                self._working = None
                self._change.notify_all()

    def _follow(self, job: Job, worker: _Worker) -> None:
        """Hand `job` to the worker and take in what it says until it ends."""
        try:
            worker.connection.send((job.kind, dict(job.arguments)))
            while True:
                word, value = worker.connection.recv()
                if word == "progress":
                    job.doing, job.share = value
                    continue
                break
        except (EOFError, OSError):
            word, value = "broken", "its process ended"
        with self._change:
            if job.state == "cancelled":
                return
            if word == "done":
                self._keep(job.key, value)
                job.state, job.doing = "done", ""
            elif word == "faults":
                job.state, job.faults = "faulty", value
            else:
                job.state, job.doing = "broken", str(value)

    def _keep(self, key: str, value: Any) -> None:  # noqa: ANN401 (any JSON value)
        self._remember(key, value)
        # A folder that may not be written keeps the last few as long as the program runs.
        with contextlib.suppress(OSError):
            self.root.mkdir(parents=True, exist_ok=True)
            write_whole(self.root / f"{key}.json", json.dumps(value))
            kept = sorted(self.root.glob("*.json"), key=lambda path: path.stat().st_mtime)
            for path in kept[:-MOST_KEPT]:
                path.unlink(missing_ok=True)

    def _remember(self, key: str, value: Any) -> None:  # noqa: ANN401 (any JSON value)
        self._remembered[key] = value
        while len(self._remembered) > MOST_REMEMBERED:
            self._remembered.popitem(last=False)


class _Worker:
    """A process of ours that does one job after another, and a line to it."""

    def __init__(self) -> None:
        # A fresh interpreter: a fork would take our threads' locks with it.
        context = multiprocessing.get_context("spawn")
        self.connection: Connection
        self.connection, other = context.Pipe()
        self.process = context.Process(target=serve, args=(other,), daemon=True)
        self.process.start()
        other.close()

    @property
    def lives(self) -> bool:
        return self.process.is_alive()

    def stop(self) -> None:
        """End the process; whoever waits on the line finds it shut."""
        self.process.terminate()
        self.process.join(timeout=5.0)
