"""A day of the build on the clock: begun, followed, and shown."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import RedirectResponse

from coldwright.build import Build
from coldwright.errors import InputError
from coldwright.sheet.rows.day import day_sections
from coldwright.sheet.writer import Writer
from coldwright.units import Kind, parse_quantity
from coldwright.verdict.explain_day import day_explanation_of
from coldwright.verdict.explained import laid_open
from coldwright.web.board import Board
from coldwright.web.folder import NotThereError
from coldwright.web.results import table_of
from coldwright.web.routes.given import Sent, SentBoard, Shop
from coldwright.web.workshop import Workshop

router = APIRouter(include_in_schema=False)

LONGEST_HOURS = 240.0
USUAL_HOURS = "24"
HOURS_FAULT = (
    f"Hours must be greater than 0 h and at most {LONGEST_HOURS:.0f} h, such as 24 or 2 day."
)
DAY_OPTIONS = ("hours", "from", "swing")
STARTS = {"warm": "everything at room temperature", "settled": "after days of the same"}


@router.post("/b/{name}/day/run")
def run(board: SentBoard, sent: Sent, shop: Shop) -> RedirectResponse:
    """Begin the day, and show its page, which follows it (or says what is wrong with its hours)."""
    options = _options(sent)
    if board.build is not None and _hours(options["hours"]) is not None:
        shop.jobs.start("day", _arguments(shop, board, options))
    return RedirectResponse(board.link("day", **options) + "#the-day", status_code=303)


def _options(words: Mapping[str, str]) -> dict[str, str]:
    """Options of a day, as typed."""
    return {
        "hours": words.get("hours", USUAL_HOURS).strip(),
        "from": words["from"] if words.get("from") in STARTS else "warm",
        "swing": "1" if words.get("swing") else "",
    }


def _hours(text: str) -> float | None:
    """Hours out of `24`, `24 h` or `2 day`; None where they cannot be run."""
    for given in (text, f"{text} h"):
        try:
            hours = parse_quantity(given, Kind.time, field="hours").value / 3600.0
        except InputError:
            continue
        return hours if 0.0 < hours <= LONGEST_HOURS else None
    return None


def _arguments(shop: Workshop, board: Board, options: dict[str, str]) -> dict[str, Any]:
    return {
        **shop.arguments(board),
        "hours": _hours(options["hours"]),
        "start": options["from"],
        "swinging": options["swing"] == "1",
    }


def day_context(request: Request, board: Board, shop: Workshop) -> dict[str, Any]:
    """The day that the address asks for: its options, its job, and its results once there."""
    options = _options(request.query_params)
    context: dict[str, Any] = {"options": options, "starts": STARTS, "job": None, "result": None}
    context["fault"] = "" if _hours(options["hours"]) is not None else HOURS_FAULT
    if board.build is None or context["fault"]:
        return context
    arguments = _arguments(shop, board, options)
    context["job"] = shop.job("day", arguments)
    result = shop.jobs.result(shop.jobs.key("day", arguments))
    if result is not None:
        context["result"] = _result(result, board.build, board, options)
        context["key"] = shop.jobs.key("day", arguments)
    return context


def explained_of_day(
    query: Mapping[str, str], board: Board, shop: Workshop, path: str
) -> dict[str, Any]:
    """A figure of the day that the address asks for, laid open; NotThereError where it is not run.

    A column of the rows stands with its last minute.
    """
    arguments = _arguments(shop, board, _options(query))
    result = shop.jobs.result(shop.jobs.key("day", arguments))
    if result is None:
        raise NotThereError("This day is not worked out: run it on the page of the day.")
    entry = day_explanation_of(path)
    return laid_open({**result["report"], "rows": result["last_minute"]}, path, entry, entry.inputs)


def asked_of_day(options: Mapping[str, str]) -> dict[str, str]:
    """What an address says to ask for a day's figure."""
    return {"of": "day", **options}


def _result(
    result: dict[str, Any], build: Build, board: Board, options: dict[str, str]
) -> dict[str, Any]:
    report = result["report"]
    write = Writer(report, board.system, build.site.atmospheric_pressure)
    return {
        "sentences": report["sentences"],
        "tables": [
            table_of(title, rows, day_explanation_of, **asked_of_day(options))
            for title, rows in day_sections(write)
        ],
        "notices": report["notices"],
        "assumed": report["assumed"],
        "charts": result["charts"],
    }
