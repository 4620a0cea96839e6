"""A folder of builds and the page over it, as the web tests use them."""

from __future__ import annotations

import asyncio
import html
import re
import threading
from collections.abc import Coroutine
from pathlib import Path
from typing import Any

import httpx

from coldwright.web.app import create_app
from coldwright.web.workshop import Workshop
from support.builds import build_text

PORT = 8740


def folder_with(path: Path, *names: str) -> Path:
    """The folder `path` with the named test builds in it."""
    for name in names:
        (path / f"{name}.toml").write_text(build_text(name), encoding="utf-8")
    return path


class Client:
    """Asks the page over `folder` as a browser on this machine does, one question at a time."""

    def __init__(self, folder: Path) -> None:
        self.app = create_app(folder, PORT)
        # A loop in a thread of its own: a browser test may hold the main thread's.
        self.loop = asyncio.new_event_loop()
        self.thread = threading.Thread(target=self.loop.run_forever, daemon=True)
        self.thread.start()
        self.asking = httpx.AsyncClient(
            transport=httpx.ASGITransport(self.app, raise_app_exceptions=False),
            base_url=f"http://127.0.0.1:{PORT}",
            timeout=120.0,
        )

    @property
    def workshop(self) -> Workshop:
        return self.app.state.workshop

    @property
    def cookies(self) -> httpx.Cookies:
        return self.asking.cookies

    def done(self, work: Coroutine[Any, Any, Any]) -> Any:
        return asyncio.run_coroutine_threadsafe(work, self.loop).result(timeout=300.0)

    def get(self, path: str, **options: Any) -> httpx.Response:
        return self.done(self.asking.get(path, **options))

    def post(self, path: str, **options: Any) -> httpx.Response:
        return self.done(self.asking.post(path, **options))

    def __enter__(self) -> Client:
        return self

    def __exit__(self, *_: object) -> None:
        self.done(self.asking.aclose())
        self.done(self.loop.shutdown_default_executor())
        self.loop.call_soon_threadsafe(self.loop.stop)
        self.thread.join(timeout=5.0)
        self.loop.close()
        self.workshop.jobs.close()


def client_of(folder: Path) -> Client:
    """A client of the page over `folder`."""
    return Client(folder)


def fields_of(page: str) -> dict[str, str]:
    """Names and values of a page's entries form, as a browser would send it."""
    form = page[page.index('<form id="entries"') :]
    form = form[: form.index("</form>")]
    found = {}
    for tag in re.findall(r"<input[^>]*>", form):
        name, value = (re.search(rf'{key}="([^"]*)"', tag) for key in ("name", "value"))
        if name:
            found[name[1]] = html.unescape(value[1]) if value else ""
    for name, inside in re.findall(r'<select[^>]*name="([^"]*)"[^>]*>(.*?)</select>', form, re.S):
        chosen = re.search(r"<option selected>([^<]*)", inside)
        found[name] = html.unescape(chosen[1]) if chosen else ""
    for name, text in re.findall(r'<textarea[^>]*name="([^"]*)"[^>]*>(.*?)</textarea>', form, re.S):
        found[name] = html.unescape(text)
    return found
