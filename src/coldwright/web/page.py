"""Pages out of templates, with what every page carries: units, look and the files it needs."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any
from urllib.parse import urlencode

from fastapi import Request
from fastapi.responses import HTMLResponse
from jinja2 import Environment, PackageLoader, StrictUndefined, select_autoescape
from markupsafe import Markup

from coldwright.shop.cautions import cautions_for
from coldwright.shop.refrigerant_safety import safety
from coldwright.verdict.report import citation_of
from coldwright.web.board import Asked, Board
from coldwright.web.stages import STAGES
from coldwright.web.stamp import code_stamp
from coldwright.web.workshop import Workshop

LOOKS = ("light", "dark", "auto")
UNITS = ("shop", "si")
PASSING = ("work", "part")
A_YEAR = 365 * 24 * 3600


@cache
def environment() -> Environment:
    """The templates of this package."""
    made = Environment(
        loader=PackageLoader("coldwright.web"),
        autoescape=select_autoescape(default=True),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals["static"] = lambda name: f"/static/{code_stamp()}/{name}"
    made.globals["made"] = lambda name: f"/made/{code_stamp()}/{name}"
    made.globals["stages"] = STAGES
    made.filters["drawn"] = Markup  # the drawing is our own SVG
    return made


def part(template: str, /, **context: Any) -> str:  # noqa: ANN401 (what a template takes)
    """A template's text."""
    return environment().get_template(template).render(**context)


def render(
    request: Request,
    template: str,
    /,
    status: int = 200,
    **context: Any,  # noqa: ANN401 (what a template takes)
) -> HTMLResponse:
    """A whole page; a choice of units or look in the address is remembered by the browser."""
    chosen = {
        "units": _chosen(request, "units", UNITS),
        "look": _chosen(request, "look", LOOKS),
    }
    text = part(
        template,
        look=chosen["look"] or "auto",
        here=lambda **changed: _here(request, context.get("board"), changed),
        **context,
    )
    answer = HTMLResponse(text, status_code=status, headers={"cache-control": "no-store"})
    for name, value in chosen.items():
        if value and request.cookies.get(name) != value:
            answer.set_cookie(name, value, max_age=A_YEAR, samesite="strict", httponly=True)
    return answer


def _chosen(request: Request, name: str, allowed: tuple[str, ...]) -> str:
    """What the address or, failing that, the browser's memory says; empty for neither."""
    for value in (request.query_params.get(name), request.cookies.get(name)):
        if value in allowed:
            return str(value)
    return ""


def _here(request: Request, board: Board | None, changed: Mapping[str, str]) -> str:
    """The address of this page with other words in it; the balance's for an answer to a form."""
    if request.method != "GET":
        return "/" if board is None else board.link("balance", **changed)
    words = {**dict(request.query_params), **changed}
    kept = {name: value for name, value in words.items() if value and name not in PASSING}
    return f"{request.url.path}?{urlencode(kept)}"


def workshop_of(request: Request) -> Workshop:
    """The folder at work."""
    found: Workshop = request.app.state.workshop
    return found


def asked_of(request: Request, sent: Mapping[str, str] | None = None) -> Asked:
    """What an address, or a form sent from a page of it, asks for."""
    words = request.query_params if sent is None else sent
    return Asked(
        step=words.get("w", ""),
        version=words.get("v", ""),
        revision=words.get("rev", ""),
        units=_chosen(request, "units", UNITS),
    )


async def sent_form(request: Request) -> dict[str, str]:
    """The texts of a form that was sent."""
    form = await request.form(max_files=0, max_fields=2000)
    return {name: value for name, value in form.items() if isinstance(value, str)}


def board_context(board: Board) -> dict[str, Any]:
    """What every page of a build shows beside its own matter."""
    return {"board": board, "cautions": _cautions(board)}


def _cautions(board: Board) -> list[dict[str, str]]:
    if board.build is None:
        return []
    notices = cautions_for(safety(board.build.refrigerant.name).safety_class)
    return [{"text": each.text, "source": citation_of(each.source)} for each in notices]
