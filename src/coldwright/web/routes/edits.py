"""Saving, and what to do when the file has been changed by another hand."""

from __future__ import annotations

import datetime
import threading
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, RedirectResponse

from coldwright.build.difference import carried_over, differences
from coldwright.build.editing import Edit, edited, with_new_revision
from coldwright.build.paths import Tree
from coldwright.build.reading import parse_text
from coldwright.build.rewriting import rewrite, save
from coldwright.errors import Fault, InputError
from coldwright.web.board import Board, link
from coldwright.web.folder import version_of
from coldwright.web.page import board_context, render
from coldwright.web.routes.given import AskedBoard, Sent, SentBoard, Shop
from coldwright.web.stages import BY_SLUG
from coldwright.web.workshop import Workshop

router = APIRouter(include_in_schema=False)
_writing = threading.Lock()


@router.post("/b/{name}/save", response_model=None)
def save_build(
    request: Request, board: SentBoard, sent: Sent, shop: Shop
) -> HTMLResponse | RedirectResponse:
    """Write the build file, if nobody else has changed it since and it is sound.

    `over` names the version of the file that its maker has seen and wants to write over.
    """
    if board.build is None:
        return _not_saved(request, board, board.read.faults)
    with _writing:
        current = version_of(shop.folder.read(board.name))
        if current not in (board.version, sent.get("over", ""), version_of(board.text)):
            return _overtaken(request, board, shop)
        try:
            save(shop.folder.path(board.name), board.text)
        except OSError as error:
            message = f"The file cannot be written: {error.strerror}. Your work is kept here."
            return _not_saved(request, board, (Fault(board.name, message),))
    shop.drafts.begin(board.name, board.text)
    return RedirectResponse(_back_to(board, sent, v=version_of(board.text)), status_code=303)


@router.post("/b/{name}/merge")
def merge(board: SentBoard, sent: Sent, shop: Shop) -> RedirectResponse:
    """Set the entries changed here in the file as it is now; what comes out is not saved yet."""
    current = shop.folder.read(board.name)
    base = shop.drafts.step(board.name, board.version)
    changes = None
    if base is not None:
        changes = carried_over(*(parse_text(each) for each in (base.text, board.text, current)))
    if changes is None:
        message = "These changes cannot be put upon the other ones entry by entry."
        raise InputError(Fault(board.name, message))
    root = shop.drafts.begin(board.name, current)
    step = shop.drafts.put(board.name, root, rewrite(current, changes), "put upon the file")
    return RedirectResponse(_back_to(board, sent, w=step.name, v=root.name), status_code=303)


@router.post("/b/{name}/save-copy", response_model=None)
def save_copy(
    request: Request, board: SentBoard, sent: Sent, shop: Shop
) -> HTMLResponse | RedirectResponse:
    """Write this text as another build file."""
    try:
        path = shop.folder.new_path(sent.get("name", ""))
        save(path, board.text)
    except InputError as error:
        return _overtaken(request, board, shop, error.faults)
    except OSError as error:
        fault = Fault("name", f"The file cannot be written: {error.strerror}.")
        return _overtaken(request, board, shop, (fault,))
    return RedirectResponse(link(path.stem, "balance"), status_code=303)


@router.get("/b/{name}/difference", response_class=HTMLResponse)
def difference(request: Request, board: AskedBoard, shop: Shop) -> HTMLResponse:
    """What stands in the file now beside what stands here."""
    return _overtaken(request, board, shop, status=200)


@router.get("/b/{name}/revision", response_class=HTMLResponse)
def revision_form(request: Request, board: AskedBoard) -> HTMLResponse:
    """The form for a new revision."""
    return render(request, "revision.html", sent={}, faults=(), **board_context(board))


@router.post("/b/{name}/revision", response_model=None)
def revision(
    request: Request, board: SentBoard, sent: Sent, shop: Shop
) -> HTMLResponse | RedirectResponse:
    """Begin a revision; what is then changed is written as its changes."""
    name, why = sent.get("name", "").strip(), sent.get("why", "")
    try:
        today = datetime.datetime.now().astimezone().date()
        text = with_new_revision(board.text, name, today, why)
    except InputError as error:
        context = board_context(board)
        return render(request, "revision.html", 422, sent=sent, faults=error.faults, **context)
    step = shop.drafts.put(board.name, board.step, text, f"revision {name}")
    return RedirectResponse(board.link("balance", w=step.name, rev=name), status_code=303)


@router.post("/b/{name}/revision/remove")
def remove_revision(board: SentBoard, sent: Sent, shop: Shop) -> RedirectResponse:
    """Take a revision out; those after it are then upon the ones before it."""
    place = sent.get("place", "")
    text = edited(board.text, Edit(remove=f"revision[{place}]"))
    step = shop.drafts.put(board.name, board.step, text, "revision taken out")
    return RedirectResponse(board.link("revision", w=step.name, rev=""), status_code=303)


def _back_to(board: Board, sent: dict[str, str], **changed: str) -> str:
    slug = sent.get("slug", "")
    return board.link(slug if slug in BY_SLUG else "balance", **changed)


def _not_saved(request: Request, board: Board, faults: tuple[Fault, ...]) -> HTMLResponse:
    context: dict[str, Any] = {
        "faults": faults,
        "title": "Not saved",
        "back": board.link("balance"),
    }
    return render(request, "fault.html", 422, **context)


def _overtaken(
    request: Request,
    board: Board,
    shop: Workshop,
    faults: tuple[Fault, ...] = (),
    status: int = 409,
) -> HTMLResponse:
    base = shop.drafts.step(board.name, board.version)
    mine = _tree(board.text)
    theirs = _tree(shop.folder.read(board.name))
    began = None if base is None else _tree(base.text)
    before = {} if began is None else {each.field: each for each in differences(mine, began)}
    rows = [
        {
            "field": each.field,
            "words": each.words,
            "file": each.before,
            "mine": each.after,
            "began": before[each.field].after if each.field in before else each.after,
        }
        for each in differences(theirs, mine)
    ]
    return render(
        request,
        "difference.html",
        status,
        rows=rows,
        faults=faults,
        can_merge=began is not None and carried_over(began, mine, theirs) is not None,
        **board_context(board),
    )


def _tree(text: str) -> Tree:
    try:
        return parse_text(text)
    except InputError:
        return {}
