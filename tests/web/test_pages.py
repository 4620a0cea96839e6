"""The pages as a browser without a script gets them, and who may ask for them."""

from __future__ import annotations

import pytest

from support.shelf import client_of, fields_of, folder_with

BUILDS = ("cheese", "galley", "holdover", "larder")
STAGES = ("cabinet", "cold-side", "machine", "balance", "day")


@pytest.fixture(scope="module")
def client(tmp_path_factory):
    with client_of(folder_with(tmp_path_factory.mktemp("shelf"), *BUILDS)) as found:
        yield found


@pytest.mark.parametrize("page", [*STAGES, "charts", "side", "difference", "revision"])
@pytest.mark.parametrize("units", ["shop", "si"])
def test_every_page_of_every_kind_of_build_answers(client, page, units):
    for name in BUILDS:
        answer = client.get(f"/b/{name}/{page}?units={units}")
        assert answer.status_code == 200
        assert "<h1" in answer.text
        assert 'src="http' not in answer.text
        assert 'href="http' not in answer.text


def test_the_shelf_names_each_build_and_says_what_is_not_worked_out(client):
    page = client.get("/").text
    assert "Cheese cupboard" in page
    assert "Butter larder" in page
    assert page.count("Not worked out yet.") == len(BUILDS)


def test_units_are_remembered_and_entries_are_shown_in_them(client):
    client.get("/b/cheese/cabinet?units=shop")
    shown = fields_of(client.get("/b/cheese/cabinet").text)
    assert shown["targets.air_temperature"] == "53.6 °F"
    client.get("/b/cheese/cabinet?units=si")
    shown = fields_of(client.get("/b/cheese/cabinet").text)
    assert shown["targets.air_temperature"] == "12 °C"
    client.cookies.clear()


def test_every_key_of_the_build_file_stands_on_a_page(client):
    from coldwright.build import key_table

    shown = set()
    for stage in STAGES:
        shown |= set(fields_of(client.get(f"/b/larder/{stage}").text))
    plain = {each.replace("[1]", "[]") for each in shown}
    for row in key_table():
        is_table = row.kind in ("table", "list of tables")
        # Rows are shown once there are some; the revisions have pages of their own.
        if is_table or "[]" in row.path or row.path.startswith(("revision", "format")):
            continue
        assert row.path in plain


@pytest.mark.parametrize(
    "headers",
    [
        {"host": "elsewhere.example"},
        {"host": "127.0.0.1:9"},
        {"host": "localhost.elsewhere.example:8740"},
        {"origin": "http://elsewhere.example"},
        {"origin": "null"},
        {"origin": "http://127.0.0.1:9"},
    ],
)
def test_a_request_in_another_name_or_from_another_page_is_refused(client, headers):
    assert client.get("/", headers=headers).status_code == 403
    assert client.post("/new", headers=headers, data={"name": "x"}).status_code == 403
    assert client.get("/openapi.json", headers=headers).status_code == 403


def test_a_form_sent_from_another_site_is_refused(client):
    answer = client.post("/new", headers={"sec-fetch-site": "cross-site"}, data={"name": "x"})
    assert answer.status_code == 403


def test_the_page_may_load_nothing_from_elsewhere(client):
    policy = client.get("/").headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "frame-ancestors 'none'" in policy
    assert "http" not in policy
    assert "unsafe-eval" not in policy


@pytest.mark.parametrize(
    "path",
    [
        "/b/..%2Fsecret/balance",
        "/b/%2Fetc%2Fpasswd/balance",
        "/b/cheese/nothing",
        "/b/nobody/balance",
        "/b/cheese/balance?w=000000000000",
        "/b/cheese/balance?w=../../secret",
        "/b/cheese/balance?rev=nothing",
        "/jobs/..%2F..%2Fcheese",
        "/drawn/abc/tubes.svg",
        "/static/x/..%2Fapp.py",
    ],
)
def test_what_is_not_there_is_said_so(client, path):
    answer = client.get(path)
    assert answer.status_code == 404
    assert "Traceback" not in answer.text


def test_a_link_out_of_the_folder_is_no_build(client, tmp_path):
    secret = tmp_path / "secret.toml"
    secret.write_text('name = "secret"', encoding="utf-8")
    folder = client.workshop.folder.root
    (folder / "secret.toml").symlink_to(secret)
    assert client.get("/b/secret/balance").status_code == 404
    assert "secret" not in client.get("/").text
    (folder / "secret.toml").unlink()


def test_a_new_build_from_a_starter_and_a_copy(client):
    sent = {"name": "my box", "starter": "galley"}
    answer = client.post("/new", data=sent)
    assert answer.headers["location"] == "/b/my%20box/cabinet"
    assert client.get(answer.headers["location"]).status_code == 200
    assert "exists already" in client.post("/new", data=sent).text
    copied = client.post("/new", data={"name": "my box 2", "copy": "my box"})
    assert copied.status_code == 303
    root = client.workshop.folder.root
    assert (root / "my box 2.toml").read_text() == (root / "my box.toml").read_text()


@pytest.mark.parametrize("name", ["", "../up", "a/b", ".hidden", "a" * 61, "x\x00y", "<b>"])
def test_a_name_that_will_not_do_is_told_and_what_was_typed_stays(client, name):
    answer = client.post("/new", data={"name": name, "starter": "cheese"})
    assert answer.status_code == 422
    assert "Name of the file must be" in answer.text
    assert "<b>" not in answer.text.replace("<b>Cautions", "")


def test_a_file_that_is_no_toml_is_told_with_its_line(client):
    root = client.workshop.folder.root
    (root / "broken.toml").write_text('name = "x"\nname = [', encoding="utf-8")
    for page in ("/", "/b/broken/balance", "/b/broken/difference"):
        answer = client.get(page)
        assert answer.status_code == 200
    assert "line 2" in client.get("/b/broken/cabinet").text
    (root / "broken.toml").unlink()


def test_parts_of_the_page_keep_for_long_and_come_with_their_type(client):
    page = client.get("/").text
    address = page.split('<link rel="stylesheet" href="')[1].split('"')[0]
    answer = client.get(address)
    assert answer.headers["content-type"].startswith("text/css")
    assert "immutable" in answer.headers["cache-control"]
    assert client.get(address.replace("sheet.css", "app.py")).status_code == 404


def test_every_part_of_the_drawing_leads_to_a_place_that_is_there(client):
    from coldwright.web.stages import PARTS, place_id

    for slug, path in PARTS.values():
        assert f'id="{place_id(path)}"' in client.get(f"/b/larder/{slug}").text
