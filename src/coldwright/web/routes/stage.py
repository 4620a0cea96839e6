"""A build's pages: one for each stage of the work."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, RedirectResponse

from coldwright.build.editing import edited
from coldwright.build.paths import parse_path
from coldwright.build.schema.walk import field_at
from coldwright.errors import InputError
from coldwright.web.board import Asked, Board
from coldwright.web.drafts import Step
from coldwright.web.drawing import drawing_of
from coldwright.web.folder import NotThereError
from coldwright.web.forms.form import Form, form_of
from coldwright.web.forms.posted import edit_of, what_was_done
from coldwright.web.page import board_context, part, render
from coldwright.web.results import results_of
from coldwright.web.routes.day import day_context
from coldwright.web.routes.given import AskedBoard, Sent, SentBoard, Shop
from coldwright.web.stages import BY_SLUG, Stage, place_id, stage_of
from coldwright.web.workshop import Figures, Overtaken, Workshop

router = APIRouter(include_in_schema=False)
NARROW = "narrow"  # what a narrow screen sends along


def _stage(slug: str) -> Stage:
    if slug not in BY_SLUG:
        raise NotThereError(f"There is no page '{slug}' of a build.")
    return BY_SLUG[slug]


@router.get("/b/{name}")
def begin(board: AskedBoard) -> RedirectResponse:
    """A build is opened at its balance."""
    return RedirectResponse(board.link("balance"), status_code=303)


@router.get("/b/{name}/{slug}", response_class=HTMLResponse)
def page(request: Request, board: AskedBoard, slug: str, shop: Shop) -> HTMLResponse:
    """The page of a stage."""
    stage = _stage(slug)
    figures = shop.quick(board) if request.query_params.get("work") else shop.known(board)
    form = form_of(board.text, board.revision, stage, board.system)
    return render(
        request,
        "stage.html",
        stage=stage,
        form=form,
        elsewhere=faults_elsewhere(board, form),
        day=day_context(request, board, shop) if slug == "day" else None,
        **board_context(board),
        **shown(shop, board, stage, figures, compact=request.cookies.get(NARROW) == "1"),
    )


@router.post("/b/{name}/{slug}/live")
def live(board: SentBoard, slug: str, sent: Sent, shop: Shop) -> dict[str, Any]:
    """What changes on a page while one types: results, drawing, steps, notes beside the fields."""
    stage = _stage(slug)
    try:
        after, form = _edited(shop, board, stage, sent)
        turn = sent.get("turn", "")
        figures = shop.quick(after, sent.get("tab", ""), int(turn) if turn.isdecimal() else 0)
    except Overtaken:
        return {"overtaken": True}
    except InputError as error:
        return {"refused": [str(fault) for fault in error.faults]}
    return answer(shop, after, stage, figures, form, compact=sent.get(NARROW) == "1")


@router.get("/b/{name}/{slug}/results")
def results(request: Request, board: AskedBoard, slug: str, shop: Shop) -> dict[str, Any]:
    """The same for a page whose work has been finished meanwhile."""
    stage = _stage(slug)
    form = form_of(board.text, board.revision, stage, board.system)
    compact = request.query_params.get(NARROW) == "1"
    return answer(shop, board, stage, shop.known(board), form, compact=compact)


@router.post("/b/{name}/{slug}/edit")
def edit(request: Request, board: SentBoard, slug: str, sent: Sent, shop: Shop) -> RedirectResponse:
    """Take in a whole form, with a row added or taken out; the page is then shown anew."""
    del request
    stage = _stage(slug)
    after, _ = _edited(shop, board, stage, sent)
    word, _, path = sent.get("row", "").partition(":")
    target = path.rpartition("[")[0] or path if word == "remove" else path
    place = f"#{place_id(target)}" if target else ""
    # With a script the page asks by itself, once it is there.
    work = "" if sent.get("script") else "1"
    return RedirectResponse(after.link(slug, work=work) + place, status_code=303)


def _edited(
    shop: Workshop, board: Board, stage: Stage, sent: Mapping[str, str]
) -> tuple[Board, Form]:
    """The board after what the form says, and the form as it then is.

    `w` names the step that the form was drawn from; `parent`, where given, the last one that was
    finished; `tip` the one that is being typed.
    """
    form = form_of(board.text, board.revision, stage, board.system)
    wanted = edit_of(sent, form)
    text = edited(board.text, wanted, board.revision)
    parent: Step = shop.drafts.step(board.name, sent.get("parent", "")) or board.step
    done = what_was_done(wanted, form.entries)
    step = shop.drafts.put(board.name, parent, text, done, sent.get("tip", ""))
    asked = Asked(step.name, board.version, board.revision or "", board.system)
    after = shop.board(board.name, asked)
    return after, form_of(after.text, after.revision, stage, after.system)


def shown(
    shop: Workshop, board: Board, stage: Stage, figures: Figures, *, compact: bool
) -> dict[str, Any]:
    """The results and the drawing, ready for a template."""
    results = None
    if figures.data is not None and board.build is not None:
        results = results_of(
            figures.data, board.build, board.system, stage, is_full=figures.is_full
        )
    key, charts = shop.drawn(board, stage.charts) if figures.is_full else ("", [])
    return {
        "results": results,
        "charts": charts,
        "key": key,
        "faults": figures.faults,
        "job": shop.job("assess", shop.arguments(board)) if board.build is not None else None,
        "drawing": drawing_of(board, figures.data, compact=compact),
        "compact": compact,
    }


def answer(
    shop: Workshop, board: Board, stage: Stage, figures: Figures, form: Form, *, compact: bool
) -> dict[str, Any]:
    """What the page's module swaps in."""
    told = shown(shop, board, stage, figures, compact=compact)
    context = {"board": board, "stage": stage, **told}
    results = told["results"]
    return {
        "step": board.step.name,
        "address": board.link(stage.slug),
        "asked": board.asked,
        "complete": results is not None and results.is_full,
        "drawn": bool(told["charts"]) or not stage.charts,
        "sound": board.build is not None and not figures.faults,
        "headline": results.headline if results is not None else "",
        "results": part("parts/results.html", **context),
        "figures": part("parts/figures.html", **context),
        "drawing": told["drawing"],
        "compact": compact,
        "steps": part("parts/steps.html", **context),
        "elsewhere": part("parts/elsewhere.html", elsewhere=faults_elsewhere(board, form)),
        "entries": {entry.name: entry.state for entry in form.entries.values()},
    }


def faults_elsewhere(board: Board, form: Form) -> list[dict[str, str]]:
    """Faults of entries that are not on this page, with where to mend them."""
    found = []
    for fault in board.read.faults:
        if fault.field in form.entries:
            continue
        stage = stage_of(fault.field)
        place = f"#{place_id(_group_of(fault.field))}"
        found.append(
            {
                "message": str(fault),
                "link": f"{board.link(stage.slug)}{place}" if stage is not None else "",
                "page": f"{stage.letter} {stage.title}" if stage is not None else "",
            }
        )
    return found


def _group_of(field: str) -> str:
    """The table that `field` is, or that it stands in."""
    try:
        found = field_at(parse_path(field, {}))
    except ValueError:
        found = None
    if found is not None and found.section is not None:
        return field
    return field.rpartition(".")[0] or "box"
