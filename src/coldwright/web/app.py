"""The application: its routes, its guard, and what it says when something is wrong."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from importlib.resources import files
from pathlib import Path

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, Response
from starlette.exceptions import HTTPException

from coldwright import __version__
from coldwright.errors import Fault, InputError
from coldwright.web.folder import NotThereError
from coldwright.web.page import render
from coldwright.web.routes import api, charts, day, edits, explain, jobs, shelf, side, stage
from coldwright.web.routes.charts import FOREVER
from coldwright.web.security import LocalOnly
from coldwright.web.workshop import Workshop

TYPES = {".css": "text/css", ".js": "text/javascript", ".svg": "image/svg+xml"}
DATA = ("/api/", "/jobs/", "/drawn/")


def create_app(folder: Path, port: int) -> FastAPI:
    """The page over the build files of `folder`, for a server that listens at `port`."""
    workshop = Workshop(folder)

    @asynccontextmanager
    async def lifespan(app: FastAPI) -> AsyncIterator[None]:
        del app
        yield
        workshop.jobs.close()

    app = FastAPI(
        title="Coldwright",
        version=__version__,
        summary="Will a one-off, fan-less cold box hold its target?",
        docs_url=None,  # these pages would fetch scripts from elsewhere
        redoc_url=None,
        lifespan=lifespan,
    )
    app.state.workshop = workshop
    # Pages that have a name of their own stand before the stages' pages.
    for module in (shelf, api, jobs, explain, edits, side, charts, day, stage):
        app.include_router(module.router)
    app.add_api_route("/static/{stamp}/{name}", _static, include_in_schema=False)
    app.add_exception_handler(NotThereError, _not_there)
    app.add_exception_handler(HTTPException, _http_fault)
    app.add_exception_handler(InputError, _input_fault)
    app.add_exception_handler(RequestValidationError, _badly_asked)
    app.add_exception_handler(Exception, _own_fault)
    app.add_middleware(LocalOnly, port=port)
    return app


def _static(stamp: str, name: str) -> Response:
    """A file of the page's own; its address changes with the program, so it keeps for long."""
    del stamp  # an older page asks for the file by an older stamp; it is told what there is
    place = files("coldwright.web").joinpath("static")
    known = {each.name: each for each in place.iterdir()}
    if name not in known:
        raise NotThereError("There is no such file.")
    kind = TYPES.get(Path(name).suffix, "application/octet-stream")
    return Response(known[name].read_bytes(), media_type=kind, headers=FOREVER)


def _told(request: Request, status: int, title: str, faults: tuple[Fault, ...]) -> Response:
    """Faults as data where data was asked for, else as a page."""
    wants_data = request.url.path.startswith(DATA) or request.url.path.endswith(
        ("/live", "/results", "/jobs/assess")
    )
    if wants_data:
        rows = [vars(fault) for fault in faults]
        return JSONResponse({"faults": rows}, status_code=status)
    return render(request, "fault.html", status, title=title, faults=faults, back="/")


async def _not_there(request: Request, error: Exception) -> Response:
    return _told(request, 404, "Not there", (Fault("", str(error)),))


async def _http_fault(request: Request, error: Exception) -> Response:
    status = error.status_code if isinstance(error, HTTPException) else 404
    text = "There is no such page." if status == 404 else "This cannot be asked like this."
    return _told(request, status, "Not there", (Fault("", text),))


async def _input_fault(request: Request, error: Exception) -> Response:
    faults = error.faults if isinstance(error, InputError) else ()
    return _told(request, 422, "A fault of the input", faults)


async def _badly_asked(request: Request, error: Exception) -> Response:
    found = error.errors() if isinstance(error, RequestValidationError) else ()
    faults = tuple(
        Fault(".".join(str(step) for step in each["loc"]), f"{each['msg']}.") for each in found
    )
    return _told(request, 422, "A fault of the input", faults)


async def _own_fault(request: Request, error: Exception) -> Response:
    text = (
        f"The program has a fault of its own here: {type(error).__name__}: {error}. Your files are "
        "unchanged; please report this with the build file."
    )
    return _told(request, 500, "A fault of the program", (Fault("", text),))
