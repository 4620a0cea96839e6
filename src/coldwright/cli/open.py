"""`coldwright open`: the web page over a folder of builds, on this machine alone."""

from __future__ import annotations

import socket
import threading
import webbrowser
from pathlib import Path
from typing import Annotated

import typer

from coldwright.cli.app import app
from coldwright.cli.terminal import faults_shown
from coldwright.errors import Fault, InputError

HOST = "127.0.0.1"
USUAL_PORT = 8740
PORTS_TRIED = 20


@app.command(name="open")
def open_page(
    folder: Annotated[
        Path, typer.Argument(metavar="[FOLDER]", help="Folder of build files.", show_default=False)
    ] = Path(),
    port: Annotated[
        int | None,
        typer.Option("--port", metavar="N", help=f"Port; default {USUAL_PORT} or the next free."),
    ] = None,
    browser: Annotated[
        bool, typer.Option("--browser/--no-browser", help="Whether to open a browser.")
    ] = True,
) -> None:
    """Open the web page over the builds of a folder: forms, verdict, a day, side by side."""
    with faults_shown(False):
        if not folder.is_dir():
            hint = "name a folder of build files, such as examples"
            raise InputError(Fault("FOLDER", f"'{folder}' is no folder.", None, hint))
        taken = listening(port)
    serve(folder, taken, browser=browser)


def listening(port: int | None) -> socket.socket:
    """A socket of this machine at `port`, or at the first free one from the usual one on."""
    if port is not None and not 0 <= port <= 65535:
        raise InputError(Fault("--port", f"--port must be 0 to 65535; received {port}."))
    tried = range(USUAL_PORT, USUAL_PORT + PORTS_TRIED) if port is None else (port,)
    for each in tried:
        found = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        found.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            found.bind((HOST, each))
        except OSError:
            found.close()
            continue
        return found
    message = f"Port {tried[0]} is in use." if len(tried) == 1 else "No port is free."
    raise InputError(Fault("--port", message, None, "choose another with --port"))


def serve(folder: Path, taken: socket.socket, *, browser: bool) -> None:
    """Serve `folder` at the socket `taken` until the program is stopped."""
    import uvicorn  # noqa: PLC0415 (slow to import)

    from coldwright.web.app import create_app  # noqa: PLC0415

    port = taken.getsockname()[1]
    address = f"http://{HOST}:{port}/"
    config = uvicorn.Config(
        create_app(folder, port),
        log_level="warning",
        server_header=False,
        timeout_graceful_shutdown=2,
    )
    typer.echo(f"Coldwright is at {address} (only on this machine). Stop it with Ctrl+C.")
    if browser:
        threading.Timer(0.7, webbrowser.open, (address,)).start()
    uvicorn.Server(config).run(sockets=[taken])
