"""One browser for all; a page that fails its test on a console error or a request elsewhere."""

from __future__ import annotations

import os

import pytest
from playwright.sync_api import expect, sync_playwright

from support.browsing import DESK, browser_path, serving
from support.shelf import folder_with

expect.set_options(timeout=30_000)  # a busy machine is slow, not wrong


# No name but this machine's is found, whoever asks: a page, or the browser itself.
ALONE = ["--no-sandbox", "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"]


@pytest.fixture(scope="session")
def chromium():
    path = browser_path()
    if path is None:
        if os.environ.get("CI"):
            pytest.fail("No Chromium is found: `apt-get install chromium`.")
        pytest.skip("No Chromium is found: `apt-get install chromium` lets these tests run.")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=ALONE)
        yield browser
        browser.close()


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return folder_with(tmp_path_factory.mktemp("shelf"), "cheese")


@pytest.fixture(scope="module")
def address(folder):
    with serving(folder) as (found, _):
        yield found


class Watched:
    """Pages whose requests and console are watched."""

    def __init__(self, browser, address: str) -> None:
        self.browser, self.address = browser, address
        self.contexts: list = []
        self.faults: list[str] = []
        self.allowed: list[str] = []

    def open(self, viewport=DESK, **options):
        """A page in a context of its own; what it asks elsewhere is refused and remembered."""
        context = self.browser.new_context(viewport=viewport, base_url=self.address, **options)
        context.set_default_timeout(30_000)
        self.contexts.append(context)

        def guard(route):
            url = route.request.url
            if url.startswith((self.address, "data:", "blob:")):
                route.continue_()
            else:
                self.faults.append(f"asked elsewhere: {url}")
                route.abort()

        context.route("**/*", guard)
        page = context.new_page()
        page.on("console", self.hear)
        page.on("pageerror", lambda error: self.faults.append(f"error: {error}"))
        return page

    def hear(self, message) -> None:
        told = f"{message.type}: {message.text}"
        if message.type in ("error", "warning") and not any(a in told for a in self.allowed):
            self.faults.append(told)


@pytest.fixture
def watched(chromium, address):
    found = Watched(chromium, address)
    yield found
    for context in found.contexts:
        context.close()
    assert found.faults == []
