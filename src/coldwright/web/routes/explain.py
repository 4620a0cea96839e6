"""Where a figure comes from."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from coldwright.sheet.writer import Writer
from coldwright.verdict.explained import explained
from coldwright.web.page import board_context, render
from coldwright.web.routes.day import DAY_OPTIONS, explained_of_day
from coldwright.web.routes.given import AskedBoard, Shop

router = APIRouter(include_in_schema=False)


@router.get("/b/{name}/explain", response_class=HTMLResponse)
def explain(request: Request, board: AskedBoard, shop: Shop, path: str) -> HTMLResponse:
    """One figure: its formula, what goes into it, its sources. `part` gives the matter alone."""
    of_day = request.query_params.get("of") == "day" and board.build is not None
    asked: dict[str, str] = {}
    if of_day:
        asked = {name: request.query_params.get(name, "") for name in ("of", *DAY_OPTIONS)}
        shown = explained_of_day(request.query_params, board, shop, path)
    else:
        shown = explained(shop.quick(board).data or {}, path)
    write = None
    if board.build is not None:
        write = Writer({}, board.system, board.build.site.atmospheric_pressure)

    def written(name: str, value: Any) -> list[str]:  # noqa: ANN401 (any JSON value)
        if write is None:
            return []
        if isinstance(value, Mapping):
            return [f"{key}: {write.written(f'{name}.{key}', each)}" for key, each in value.items()]
        return [str(write.written(name, value))]

    inputs = [
        {"asked": {**asked, "path": name}, "words": words_of(name), "values": written(name, value)}
        for name, value in shown["inputs"].items()
    ]
    only_part = bool(request.query_params.get("part"))
    return render(
        request,
        "parts/explained.html" if only_part else "explain.html",
        path=path,
        words=words_of(path),
        values=written(path, shown["value"]),
        formula=shown["formula"],
        inputs=inputs,
        sources=shown["sources"],
        **board_context(board),
    )


UNITS: tuple[str, ...] = (
    *("_kWh_per_day", "_g_per_day", "_m3_per_h", "_kg_per_h", "_W_per_K", "_mm_per_day"),
    *("_percent", "_cm3", "_kWh", "_Pa", "_mm", "_kg", "_rpm", "_min"),
    *("_C", "_K", "_W", "_A", "_g", "_m", "_L", "_V"),
)


def words_of(path: str) -> str:
    """A figure's path in words: `running.power_W` is `running: power`."""
    parts = path.split(".")
    parts[-1] = next(
        (parts[-1].removesuffix(unit) for unit in UNITS if parts[-1].endswith(unit)), parts[-1]
    )
    return ": ".join(each.replace("_", " ") for each in parts)
