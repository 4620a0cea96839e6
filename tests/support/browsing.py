"""A server in a thread and a real browser, for the browser tests."""

from __future__ import annotations

import os
import shutil
import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import uvicorn

from coldwright.cli.open import HOST
from coldwright.web.app import create_app

PHONE, DESK = {"width": 360, "height": 740}, {"width": 1400, "height": 900}
SCREENS = Path(__file__).parents[2] / "docs" / "screens"
NAMES = ("chromium", "chromium-browser", "google-chrome")


def browser_path() -> str | None:
    """Where the system's browser is; None when it has none."""
    return next((found for name in NAMES if (found := shutil.which(name))), None)


@contextmanager
def serving(folder: Path, port: int = 0) -> Iterator[tuple[str, int]]:
    """The page over `folder` while the context lasts; its address and port."""
    taken = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    taken.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    taken.bind((HOST, port))
    port = taken.getsockname()[1]
    app = create_app(folder, port)
    config = uvicorn.Config(app, log_level="error", timeout_graceful_shutdown=1)
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [taken]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.02)
    yield f"http://{HOST}:{port}", port
    server.should_exit = True
    thread.join(timeout=10.0)


def wants_screens() -> bool:
    """Whether pictures of the pages are to be written into docs/screens."""
    return bool(os.environ.get("COLDWRIGHT_SCREENS"))
