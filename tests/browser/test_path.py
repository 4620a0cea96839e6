"""The maker's own way: a new box, edits, the verdict, a day, side by side, save; and mishaps."""

from __future__ import annotations

import re
import time

import pytest
from playwright.sync_api import expect

from support.browsing import PHONE, serving
from support.shelf import folder_with

FULL = "#results [data-state=full]"
LONG = 120_000


def headline(page) -> str:
    return page.locator("#headline").inner_text()


def test_from_the_shelf_to_a_saved_box(watched, folder):
    page = watched.open()
    page.goto("/")
    page.get_by_label("Name of the file", exact=True).fill("cupboard")
    page.get_by_label("Cheese cupboard: pine").check()
    page.get_by_role("button", name="Make it").click()
    expect(page).to_have_url(re.compile("/b/cupboard/cabinet"))
    page.wait_for_selector("#results [data-state=quick], " + FULL)
    before = headline(page)

    page.get_by_label("Room temperature", exact=True).fill("26 °C")
    expect(page.locator("#headline")).to_contain_text("26 °C")
    assert headline(page) != before
    page.get_by_label("Notes", exact=True).fill("typed while it works")
    page.keyboard.press("Tab")
    page.wait_for_selector(FULL, timeout=LONG)
    expect(page.locator("#results")).to_contain_text("Nineteen in twenty")

    page.get_by_role("link", name="A day").click()
    page.get_by_label("Hours", exact=True).fill("15 min")
    page.get_by_role("button", name="Run the day").click()
    expect(page.locator(".job progress")).to_be_visible()
    page.reload()
    page.wait_for_selector("#the-day figure.chart", timeout=LONG)
    expect(page.locator("#the-day")).to_contain_text("starts an hour")

    page.get_by_role("link", name="Side by side").click()
    page.get_by_role("button", name="Work out both").click()
    page.wait_for_selector("text=What that changes", timeout=LONG)
    expect(page.locator("main")).to_contain_text("cold_side.plate.bond")

    page.get_by_role("button", name="Save").click()
    expect(page.locator("#steps")).to_contain_text("As in the file")
    page.reload()
    text = (folder / "cupboard.toml").read_text(encoding="utf-8")
    assert 'room_temperature = "26 °C"' in text
    assert "# Cheese cupboard: pine" in text
    page.get_by_role("link", name="Cabinet").click()
    expect(page.get_by_label("Room temperature", exact=True)).to_have_value("26 °C")


def test_typing_undo_redo_and_reload_by_keyboard(watched):
    page = watched.open()
    page.goto("/b/cheese/balance")
    charge = page.get_by_label("Charge", exact=True)
    charge.focus()
    page.keyboard.press("Control+A")
    page.keyboard.type("29 g")
    page.keyboard.press("Tab")
    expect(page.locator("#steps")).to_contain_text("Charge: 28 g to 29 g")
    # The field was left: what is typed next is a step of its own once that is answered.
    left_at = page.locator("input[name=tip]").input_value()
    expect(page.locator("input[name=parent]")).to_have_value(left_at)
    page.get_by_label("Target air temperature", exact=True).fill("11 °C")
    page.keyboard.press("Enter")
    expect(page.locator("#steps")).to_contain_text("Target air temperature")
    page.reload()
    expect(charge).to_have_value("29 g")
    page.wait_for_selector("html.live-on")
    page.locator("#undo").press("Enter")
    expect(page.get_by_label("Target air temperature", exact=True)).to_have_value("12 °C")
    expect(charge).to_have_value("29 g")
    page.wait_for_selector("html.live-on")
    page.locator("body").press("Control+Shift+Z")
    expect(page.get_by_label("Target air temperature", exact=True)).to_have_value("11 °C")


def test_bad_input_is_told_beside_the_field_while_the_form_stays(watched):
    page = watched.open()
    page.goto("/b/cheese/balance")
    bore = page.get_by_label("Capillary bore", exact=True)
    bore.fill("0.7 mmm")
    message = page.locator(f"#{bore.get_attribute('id')}-m")
    expect(message).to_contain_text("must be a length")
    expect(bore).to_be_focused()
    expect(bore).to_have_attribute("aria-invalid", "")
    expect(page.locator("#headline")).to_contain_text("something to mend")
    bore.fill("0,7 mm")
    expect(message).to_be_empty()


def test_the_network_drops_while_typing_and_comes_back(watched):
    watched.allowed.append("ERR_INTERNET_DISCONNECTED")
    page = watched.open()
    page.goto("/b/cheese/balance")
    page.wait_for_selector("#results [data-state=quick], " + FULL)
    page.context.set_offline(True)
    page.get_by_label("Target air temperature", exact=True).fill("10 °C")
    expect(page.locator("#progress")).to_contain_text("Not recalculated")
    expect(page.locator("#results")).to_have_class(re.compile("stale"))
    page.context.set_offline(False)
    expect(page.locator("#headline")).to_contain_text("10 °C")
    expect(page.get_by_label("Target air temperature", exact=True)).to_have_value("10 °C")
    expect(page.locator("#results")).not_to_have_class(re.compile("stale"))


def test_two_tabs_lose_nothing(watched, folder):
    (folder / "shared.toml").write_text((folder / "cheese.toml").read_text("utf-8"), "utf-8")
    watched.allowed.append("409")
    first, second = watched.open(), watched.open()
    for page in (first, second):
        page.goto("/b/shared/balance")
    first.get_by_label("Charge", exact=True).fill("30 g")
    second.get_by_label("Capillary length", exact=True).fill("2.9 m")
    for page in (first, second):
        expect(page.locator("#save")).to_be_enabled()
        page.locator("#save").click()
    expect(first.locator("#steps")).to_contain_text("As in the file")
    expect(second.locator("h1")).to_contain_text("nothing has been written")
    assert 'length = "2.9 m"' not in (folder / "shared.toml").read_text("utf-8")
    second.get_by_role("button", name="Put my changes upon").click()
    second.locator("#save").click()
    expect(second.locator("#steps")).to_contain_text("As in the file")
    text = (folder / "shared.toml").read_text("utf-8")
    assert 'fill = "30 g"' in text
    assert 'length = "2.9 m"' in text


def test_a_row_is_added_on_a_phone(watched):
    page = watched.open(PHONE, has_touch=True)
    page.goto("/b/cheese/cabinet")
    page.wait_for_selector("#drawing[data-compact=yes] svg")
    page.get_by_label("Inside width", exact=True).fill("0.62 m")
    page.get_by_role("button", name="Add to layers", exact=True).first.tap()
    row = page.locator("#g-cabinet-layers-4-")
    expect(row).to_be_visible()
    expect(row).to_contain_text("must be given")
    expect(page.get_by_label("Inside width", exact=True)).to_have_value("0.62 m")
    page.wait_for_selector("html.live-on")
    row.get_by_label("Material", exact=True).fill("cork")
    expect(row.locator(".message").first).to_contain_text("did you mean")
    row.get_by_role("button", name="Take out layer 4").tap()
    expect(page.locator("#g-cabinet-layers-4-")).to_have_count(0)


@pytest.mark.usefixtures("address")
def test_a_program_started_anew_answers_the_old_page(chromium, tmp_path):
    folder_with(tmp_path, "cheese")
    context = chromium.new_context()
    page = context.new_page()
    with serving(tmp_path) as (address, port):
        page.goto(f"{address}/b/cheese/balance")
        page.wait_for_selector("#results [data-state=quick], " + FULL)
    page.get_by_label("Target air temperature", exact=True).fill("10 °C")
    expect(page.locator("#progress")).to_contain_text("Not recalculated")
    time.sleep(0.2)
    with serving(tmp_path, port):
        expect(page.locator("#headline")).to_contain_text("10 °C", timeout=30_000)
    context.close()
