"""What the worker process does: assess a build, run its day, draw its charts."""

from __future__ import annotations

import re
import signal
from collections.abc import Callable, Mapping
from multiprocessing.connection import Connection
from typing import TYPE_CHECKING, Any

from coldwright.errors import InputError

if TYPE_CHECKING:
    from coldwright.sheet.figure import Figure, Undrawn
    from coldwright.verdict import Assessment

Progress = Callable[[str], None]
SHARE = re.compile(r"(\d+) %")
MOST_REMEMBERED = 3


def serve(line: Connection) -> None:
    """Do one job after another until the line is shut."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl+C is the server's, which then ends us
    while True:
        try:
            kind, arguments = line.recv()
        except (EOFError, OSError):
            return

        def progress(text: str) -> None:
            share = SHARE.search(text)
            line.send(("progress", (text, int(share[1]) / 100.0 if share else None)))

        try:
            answer: tuple[str, Any] = ("done", WORK[kind](arguments, progress))
        except InputError as error:
            rows = [vars(fault) for fault in error.faults]
            answer = ("faults", rows)
        except Exception as fault:  # noqa: BLE001 (the worker's outer edge)
            answer = ("broken", f"{type(fault).__name__}: {fault}")
        line.send(answer)


_assessed: dict[str, Assessment] = {}


def assessment_of(arguments: Mapping[str, Any], progress: Progress) -> Assessment:
    """The assessment of the build text at a revision; the last few are remembered."""
    from coldwright.build import loads  # noqa: PLC0415 (slow to import)
    from coldwright.verdict import assess  # noqa: PLC0415

    key = repr(sorted((name, arguments.get(name)) for name in ("text", "revision", "system")))
    if key not in _assessed:
        build = loads(arguments["text"], revision=arguments.get("revision"))
        found = assess(build, system=arguments.get("system"), progress=progress)
        while len(_assessed) >= MOST_REMEMBERED:
            _assessed.pop(next(iter(_assessed)))
        _assessed[key] = found
    return _assessed[key]


def assessed(arguments: Mapping[str, Any], progress: Progress) -> dict[str, Any]:
    """The report of a build."""
    from coldwright.verdict import report  # noqa: PLC0415 (slow to import)

    found = assessment_of(arguments, progress)
    progress("figures")
    return report(found)


def charted(arguments: Mapping[str, Any], progress: Progress) -> list[dict[str, Any]]:
    """Charts of a build, each as data with a still picture."""
    from coldwright.sheet.build_charts import draw_chart  # noqa: PLC0415 (slow to import)

    drawn = []
    for name in arguments["charts"]:
        progress(f"chart: {name}")
        if name == "pull-down":
            figure = first_start(arguments, progress)
        else:
            figure = draw_chart(name, assessment_of(arguments, progress))
        drawn.append(_as_drawn(name, figure))
    return drawn


def first_start(arguments: Mapping[str, Any], progress: Progress) -> Figure | Undrawn:
    """The chart of a first start with its bands."""
    from coldwright.build import loads  # noqa: PLC0415 (slow to import)
    from coldwright.sheet.charts.pull_down import MINUTES, pull_down  # noqa: PLC0415
    from coldwright.verdict.expect import expect  # noqa: PLC0415

    build = loads(arguments["text"], revision=arguments.get("revision"))
    system = arguments.get("system")
    return pull_down(expect(build, minutes=MINUTES, system=system, progress=progress))


def _as_drawn(name: str, figure: Figure | Undrawn) -> dict[str, Any]:
    """A chart as a page is given it; without a picture where there is nothing to draw."""
    from coldwright.sheet.figure import Undrawn  # noqa: PLC0415 (slow to import)
    from coldwright.sheet.render import as_data, as_svg  # noqa: PLC0415

    if isinstance(figure, Undrawn):
        return {"chart": name, "undrawn": figure.reason}
    return {**as_data(figure), "svg": as_svg(figure)}


def day_run(arguments: Mapping[str, Any], progress: Progress) -> dict[str, Any]:
    """A day: its report, its chart and one row of its course for each quarter of an hour."""
    from coldwright.build import loads  # noqa: PLC0415 (slow to import)
    from coldwright.sheet.charts.day import day_chart  # noqa: PLC0415
    from coldwright.sheet.charts.one_cycle import one_cycle  # noqa: PLC0415
    from coldwright.verdict.day import run_day  # noqa: PLC0415
    from coldwright.verdict.day_report import day_report  # noqa: PLC0415

    build = loads(arguments["text"], revision=arguments.get("revision"))
    day = run_day(
        build,
        hours=arguments["hours"],
        start=arguments["start"],
        swinging=arguments["swinging"],
        system=arguments.get("system"),
        progress=progress,
    )
    progress("figures")
    return {
        "report": day_report(day),
        "last_minute": {name: float(values[-1]) for name, values in day.rows.items()},
        "charts": [_as_drawn("day", day_chart(day)), _as_drawn("cycle", one_cycle(day))],
    }


WORK: Mapping[str, Callable[[Mapping[str, Any], Progress], Any]] = {
    "assess": assessed,
    "charts": charted,
    "day": day_run,
}
