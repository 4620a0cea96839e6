"""Every page in a real browser: no error, nothing asked elsewhere, it fits, axe's rules hold."""

from __future__ import annotations

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from support.browsing import DESK, PHONE, SCREENS, wants_screens

PAGES = {
    "shelf": "/",
    "cabinet": "/b/cheese/cabinet",
    "cold-side": "/b/cheese/cold-side",
    "machine": "/b/cheese/machine",
    "balance": "/b/cheese/balance",
    "day": "/b/cheese/day",
    "charts": "/b/cheese/charts",
    "side": "/b/cheese/side",
    "difference": "/b/cheese/difference",
    "revision": "/b/cheese/revision",
    "fault": "/b/nobody/balance",
}
FOLDED = "document.querySelectorAll('details').forEach((each) => { each.open = true })"


@pytest.fixture(scope="module")
def worked_out(address, folder, chromium):
    """The page's figures in full, so that every page shows all it can."""
    context = chromium.new_context(base_url=address)
    page = context.new_page()
    page.goto("/b/cheese/balance")
    page.wait_for_selector("#results [data-state=full]", timeout=120_000)
    page.goto("/b/cheese/cabinet")
    page.wait_for_selector("#figures figure.chart", timeout=120_000)
    if wants_screens():
        page.goto("/b/cheese/side")
        page.get_by_role("button", name="Work out both").click()
        page.wait_for_selector("text=What that changes", timeout=120_000)
        page.goto("/b/cheese/day")
        page.get_by_role("button", name="Run the day").click()
        page.wait_for_selector("#the-day figure.chart", timeout=240_000)
    context.close()


@pytest.mark.parametrize("name", PAGES)
@pytest.mark.parametrize("size", ["desk", "phone"])
def test_a_page_is_sound_and_fits(watched, worked_out, name, size):
    page = watched.open(DESK if size == "desk" else PHONE)
    if name == "fault":
        watched.allowed.append("404")
    page.goto(PAGES[name])
    expect(page.locator("h1")).to_be_visible()
    page.wait_for_load_state("networkidle")
    if wants_screens():
        SCREENS.mkdir(parents=True, exist_ok=True)
        if name in ("charts", "day"):
            page.locator("figure.chart").last.scroll_into_view_if_needed()
            page.wait_for_timeout(1500)
            page.evaluate("scrollTo(0, 0)")
        height = min(page.evaluate("document.documentElement.scrollHeight"), 1700)
        shown = DESK if size == "desk" else PHONE
        area = {"x": 0, "y": 0, "width": shown["width"], "height": height}
        path = SCREENS / f"{name}-{size}.jpeg"
        page.screenshot(path=path, full_page=True, clip=area, type="jpeg", quality=62)
    page.evaluate(FOLDED)
    width = page.evaluate("document.documentElement.scrollWidth")
    assert width <= (DESK if size == "desk" else PHONE)["width"]


@pytest.mark.parametrize(
    ("name", "look"),
    [*((name, "light") for name in PAGES), ("shelf", "dark"), ("balance", "dark")],
)
def test_accessibility_rules_hold(watched, worked_out, name, look):
    if name == "fault":
        watched.allowed.append("404")
    page = watched.open(color_scheme=look)
    page.goto(PAGES[name])
    page.wait_for_load_state("networkidle")
    page.evaluate(FOLDED)
    found = Axe().run(page, options={"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa"]})
    told = [
        f"{each['id']}: {node['target']} {node['failureSummary']}"
        for each in found.response["violations"]
        for node in each["nodes"][:3]
    ]
    assert told == []


def test_charts_come_alive_and_the_still_one_is_printed(watched, worked_out):
    page = watched.open()
    page.goto("/b/cheese/charts")
    first = page.locator("figure.chart").first
    expect(first.locator(".live svg")).to_be_visible()
    expect(first.locator(".still")).to_be_hidden()
    page.emulate_media(media="print")
    expect(first.locator(".live")).to_be_hidden()
    expect(first.locator(".still")).to_be_visible()


def test_a_figure_is_asked_by_keyboard_alone_and_the_focus_comes_back(watched, worked_out):
    page = watched.open()
    page.goto("/b/cheese/balance")
    figure = page.locator("#figures a.ask").first
    figure.focus()
    page.keyboard.press("Enter")
    dialog = page.locator("dialog#ask")
    expect(dialog).to_contain_text("In the report")
    expect(dialog.get_by_role("button", name="Close")).to_be_focused()
    page.keyboard.press("Escape")
    expect(dialog).to_be_hidden()
    expect(figure).to_be_focused()


def test_print_shows_the_sheet_without_its_keys(watched, worked_out):
    page = watched.open()
    page.goto("/b/cheese/balance")
    page.emulate_media(media="print")
    expect(page.locator("#headline")).to_be_visible()
    expect(page.locator("#entries")).to_be_hidden()
    expect(page.locator("#save")).to_be_hidden()
    expect(page.locator(".cautions")).to_be_visible()


def test_the_dark_look_is_chosen_and_kept(watched, worked_out):
    page = watched.open(color_scheme="light")
    page.goto("/")
    light = page.evaluate("getComputedStyle(document.body).backgroundColor")
    page.get_by_role("link", name="dark", exact=True).click()
    page.goto("/b/cheese/balance")
    dark = page.evaluate("getComputedStyle(document.body).backgroundColor")
    bright, dim = (sum(map(int, re.findall(r"\d+", each)[:3])) for each in (light, dark))
    assert dim < bright / 4


def test_without_a_script_the_form_is_sent_and_worked_out(watched, worked_out):
    page = watched.open(java_script_enabled=False)
    page.goto("/b/cheese/balance")
    page.get_by_label("Target air temperature", exact=True).fill("11 °C")
    page.get_by_role("button", name="Recalculate").click()
    expect(page.locator("h1")).to_contain_text("11 °C")
    page.get_by_role("link", name="Undo").click()
    expect(page.get_by_label("Target air temperature", exact=True)).to_have_value("12 °C")
