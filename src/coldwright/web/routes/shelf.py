"""The shelf: the builds of the folder, and new ones."""

from __future__ import annotations

import datetime
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, RedirectResponse

from coldwright.build import load, write_starter
from coldwright.build.rewriting import save
from coldwright.build.starter import STARTERS
from coldwright.errors import Fault, FileFault, InputError
from coldwright.verdict.headline import headline
from coldwright.web.board import Asked, Board, link
from coldwright.web.jobs import Job
from coldwright.web.page import asked_of, render
from coldwright.web.routes.given import Sent, Shop
from coldwright.web.workshop import Workshop

router = APIRouter()


@router.get("/", response_class=HTMLResponse, include_in_schema=False)
def shelf(request: Request, shop: Shop) -> HTMLResponse:
    """Every build with what it holds, as far as that is worked out."""
    return _shelf(request, shop)


@router.post("/new", response_model=None, include_in_schema=False)
def new(request: Request, shop: Shop, sent: Sent) -> HTMLResponse | RedirectResponse:
    """A build from a starter, or a copy of one on the shelf."""
    try:
        path = shop.folder.new_path(sent.get("name", ""))
        if sent.get("copy"):
            save(path, shop.folder.read(sent["copy"]))
        else:
            write_starter(sent.get("starter", ""), path)
    except InputError as error:
        return _shelf(request, shop, sent, error)
    except OSError as error:
        fault = FileFault(Fault("name", f"The file cannot be written: {error.strerror}."))
        return _shelf(request, shop, sent, fault)
    return RedirectResponse(link(path.stem, "cabinet"), status_code=303)


@router.post("/work-out", include_in_schema=False)
def work_out(request: Request, shop: Shop, sent: Sent) -> RedirectResponse:
    """Begin to work out one build, or all that are not."""
    wanted = [sent["name"]] if sent.get("name") else list(shop.folder.builds())
    for name in wanted:
        board = _board(shop, name, asked_of(request))
        if board is not None and board.build is not None:
            shop.jobs.start("assess", shop.arguments(board))
    return RedirectResponse("/", status_code=303)


def _shelf(
    request: Request,
    shop: Workshop,
    sent: dict[str, str] | None = None,
    error: InputError | None = None,
) -> HTMLResponse:
    rows = [_row(shop, name, asked_of(request)) for name in shop.folder.builds()]
    return render(
        request,
        "shelf.html",
        status=200 if error is None else 422,
        rows=rows,
        starters=STARTERS,
        sent=sent or {},
        faults=() if error is None else error.faults,
        folder=shop.folder.root.name,
    )


def _board(shop: Workshop, name: str, asked: Asked) -> Board | None:
    """The board of a build as its file stands; None for a file that cannot be read."""
    try:
        return shop.board(name, Asked(units=asked.units))
    except FileFault:
        return None


def _row(shop: Workshop, name: str, asked: Asked) -> dict[str, Any]:
    """One build: its name, what it holds, and the work about it."""
    board = _board(shop, name, asked)
    changed = shop.folder.path(name).stat().st_mtime
    row: dict[str, Any] = {
        "name": name,
        "link": link(name, "balance"),
        "title": name,
        "use": "",
        "changed": datetime.datetime.fromtimestamp(changed).strftime("%d %b %Y, %H:%M"),
        "holds": "",
        "job": None,
        "faults": (),
        "revisions": (),
        "draft": "",
    }
    if board is None:
        return {**row, "faults": _faults_of(shop, name)}
    row["title"] = board.title
    row["draft"] = _draft_link(shop, name, board)
    if board.build is None:
        return {**row, "faults": board.read.faults}
    row["use"] = board.build.targets.use
    row["revisions"] = tuple(
        (each.name, link(name, "balance", rev=each.name)) for each in board.build.revisions
    )
    report = shop.report(board)
    if report is not None:
        return {**row, "holds": headline(report, board.system)}
    return {**row, "job": _job(shop, board)}


def _draft_link(shop: Workshop, name: str, board: Board) -> str:
    """Where unsaved work goes on; empty where there is none."""
    latest = shop.drafts.unsaved(name)
    if latest is None or latest.text == board.text:
        return ""
    return link(name, "balance", w=latest.name, v=shop.drafts.root_of(name, latest).name)


def _job(shop: Workshop, board: Board) -> Job | None:
    return shop.job("assess", shop.arguments(board))


def _faults_of(shop: Workshop, name: str) -> tuple[Fault, ...]:
    try:
        load(shop.folder.path(name))
    except InputError as error:
        return error.faults
    return ()
