"""Charts of a build: still pictures, and the specification that makes them live."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from coldwright.sheet.charts import CHARTS
from coldwright.web.drawing import drawing_style
from coldwright.web.folder import NotThereError
from coldwright.web.page import board_context, render
from coldwright.web.routes.given import AskedBoard, Sent, SentBoard, Shop
from coldwright.web.stamp import code_stamp
from coldwright.web.workshop import CASE_CHARTS

router = APIRouter(include_in_schema=False)
FOREVER = {"cache-control": "public, max-age=31536000, immutable"}
SETS = {"case": CASE_CHARTS, "charge": ("charge",), "start": ("pull-down",)}


@router.get("/b/{name}/charts", response_class=HTMLResponse)
def charts(request: Request, board: AskedBoard, shop: Shop) -> HTMLResponse:
    """The charts of a build, those that are drawn."""
    sets = []
    for name, wanted in SETS.items():
        key = shop.jobs.key("charts", shop.chart_arguments(board, wanted))
        sets.append(
            {
                "name": name,
                "titles": [CHARTS[each] for each in wanted],
                "job": shop.jobs.look(key),
                "key": key,
                "charts": shop.jobs.result(key),
            }
        )
    return render(request, "charts.html", sets=sets, page="charts", **board_context(board))


@router.post("/b/{name}/charts/run")
def run(board: SentBoard, sent: Sent, shop: Shop) -> RedirectResponse:
    """Draw one set of charts."""
    wanted = SETS.get(sent.get("set", ""))
    if wanted is not None and board.build is not None:
        shop.jobs.start("charts", shop.chart_arguments(board, wanted))
    return RedirectResponse(board.link("charts"), status_code=303)


@router.get("/drawn/{key}/{chart}.svg")
def still(key: str, chart: str, shop: Shop) -> Response:
    """A chart as a still picture."""
    return Response(_chart(shop.jobs.result(key), chart)["svg"], media_type="image/svg+xml")


@router.get("/drawn/{key}/{chart}.json")
def specification(key: str, chart: str, shop: Shop) -> dict[str, Any]:
    """A chart's specification, with its data."""
    spec: dict[str, Any] = _chart(shop.jobs.result(key), chart)["spec"]
    return {name: value for name, value in spec.items() if name != "$schema"}


def _chart(result: Any, name: str) -> dict[str, Any]:  # noqa: ANN401 (any JSON value)
    found = result.get("charts") or [] if isinstance(result, dict) else result or []
    for each in found:
        if isinstance(each, dict) and each.get("chart") == name and "svg" in each:
            return each
    raise NotThereError("This chart is not drawn.")


@cache
def bundle() -> str:
    """The drawing library's own script, as the installed package makes it."""
    import vl_convert  # noqa: PLC0415 (a large library: only a live chart needs it)

    script: str = vl_convert.javascript_bundle("window.vegaEmbed = vegaEmbed;")
    return script


@router.get("/made/{stamp}/{name}")
def made(stamp: str, name: str) -> Response:
    """What makes charts live, and the drawing's style; the address changes with the program."""
    if stamp != code_stamp() or name not in MADE:
        raise NotThereError("There is no such file of this version of the program.")
    make, kind = MADE[name]
    return Response(make(), media_type=kind, headers=FOREVER)


MADE: dict[str, tuple[Callable[[], str], str]] = {
    "charts.js": (bundle, "text/javascript"),
    "drawing.css": (drawing_style, "text/css"),
}
