"""Work that is begun, followed and stopped from a page."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter
from fastapi.responses import RedirectResponse

from coldwright.web.folder import NotThereError
from coldwright.web.routes.given import Sent, SentBoard, Shop
from coldwright.web.workshop import CASE_CHARTS

router = APIRouter(include_in_schema=False)


@router.post("/b/{name}/jobs/assess")
def assess(board: SentBoard, sent: Sent, shop: Shop) -> dict[str, Any]:
    """Begin the whole assessment of what the page shows, instead of the last one it asked for."""
    if board.build is None:
        return {"state": "faulty"}
    old = sent.get("instead", "")
    return shop.jobs.start("assess", shop.arguments(board), old, is_watched=True).as_data()


@router.post("/b/{name}/jobs/charts")
def charts(board: SentBoard, sent: Sent, shop: Shop) -> dict[str, Any]:
    """Begin to draw the charts of what the page shows, once it is assessed."""
    if board.build is None or shop.report(board) is None:
        return {"state": "faulty"}
    arguments = shop.chart_arguments(board, CASE_CHARTS)
    old = sent.get("instead", "")
    return shop.jobs.start("charts", arguments, old, is_watched=True).as_data()


@router.get("/jobs/{key}")
def follow(key: str, shop: Shop) -> dict[str, Any]:
    """How far a job is."""
    job = shop.jobs.look(key)
    if job is None:
        raise NotThereError("This work is not known here; begin it again.")
    return job.as_data()


@router.post("/jobs/{key}/cancel")
def cancel(key: str, sent: Sent, shop: Shop) -> RedirectResponse:
    """Stop a job."""
    shop.jobs.cancel(key)
    back = sent.get("back", "/")
    inside = back.startswith("/") and not back.startswith(("//", "/\\"))
    return RedirectResponse(back if inside else "/", status_code=303)
