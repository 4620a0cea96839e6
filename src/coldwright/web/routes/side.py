"""Two revisions side by side, what differs first."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, RedirectResponse

from coldwright.build.difference import differences
from coldwright.sheet.rows.revisions import ROWS
from coldwright.sheet.writer import Writer
from coldwright.verdict.headline import headline, how_sure
from coldwright.web.board import Board
from coldwright.web.page import asked_of, board_context, render
from coldwright.web.routes.given import AskedBoard, Sent, SentBoard, Shop
from coldwright.web.workshop import Workshop

router = APIRouter(include_in_schema=False)
AS_BUILT = "as built"


@router.get("/b/{name}/side", response_class=HTMLResponse)
def side(request: Request, board: AskedBoard, shop: Shop) -> HTMLResponse:
    """The page; without a choice, the build as it stands beside its last revision."""
    names = board.read.revisions
    left = request.query_params.get("left", "")
    right = request.query_params.get("right", names[-1] if names else "")
    columns = [_column(request, shop, board, each) for each in (left, right)]
    return render(
        request,
        "side.html",
        page="side",
        names=names,
        left=left,
        right=right,
        columns=columns,
        entries=differences(columns[0]["tree"], columns[1]["tree"]),
        **_figures(columns),
        **board_context(board),
    )


@router.post("/b/{name}/side/run")
def run(request: Request, board: SentBoard, sent: Sent, shop: Shop) -> RedirectResponse:
    """Work out both."""
    left, right = sent.get("left", ""), sent.get("right", "")
    for revision in (left, right):
        each = _at(request, shop, board, revision)
        if each.build is not None:
            shop.jobs.start("assess", shop.arguments(each))
    return RedirectResponse(board.link("side", left=left, right=right), status_code=303)


def _at(request: Request, shop: Workshop, board: Board, revision: str) -> Board:
    asked = asked_of(request, {**board.asked, "rev": revision})
    return shop.board(board.name, asked)


def _column(request: Request, shop: Workshop, board: Board, revision: str) -> dict[str, Any]:
    each = _at(request, shop, board, revision)
    report = shop.report(each)
    why = ""
    if each.build is not None:
        why = next((r.why for r in each.build.revisions if r.name == revision), "")
    # The list of revisions is the same on both sides: only the box is compared.
    tree = {key: value for key, value in each.read.tree.items() if key != "revision"}
    return {
        "name": revision or AS_BUILT,
        "why": why,
        "board": each,
        "tree": tree,
        "faults": each.read.faults,
        "report": report,
        "job": shop.job("assess", shop.arguments(each)),
        "headline": headline(report, board.system) if report else "",
        "sure": how_sure(report, board.system) if report else "",
    }


def _figures(columns: list[dict[str, Any]]) -> dict[str, Any]:
    """Figures of both sides, those that differ apart from those that do not."""
    if not all(each["report"] for each in columns):
        return {"differing": [], "same": []}
    writers = [
        Writer(each["report"], each["board"].system, each["board"].build.site.atmospheric_pressure)
        for each in columns
    ]
    differing: list[tuple[str, str, list[str]]] = []
    same: list[tuple[str, str, list[str]]] = []
    for label, path in ROWS:
        cells = [write.figure(path) for write in writers]
        if all(cell == "not known" for cell in cells):
            continue
        (same if cells[0] == cells[1] else differing).append((label, path, cells))
    return {"differing": differing, "same": same}
