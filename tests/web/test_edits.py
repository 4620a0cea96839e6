"""Editing, the kept steps, saving, and two hands at one file."""

from __future__ import annotations

import html
import re
import tomllib

import pytest

from coldwright.build import loads
from support.builds import build_text
from support.shelf import client_of, fields_of, folder_with

CHEESE = build_text("cheese")


@pytest.fixture
def client(tmp_path, monkeypatch):
    with client_of(folder_with(tmp_path, "cheese")) as found:
        # What is worked out is tested elsewhere; here it would only take time.
        monkeypatch.setattr(found.workshop, "quick", lambda board, *_: found.workshop.known(board))
        yield found


def file_of(client) -> str:
    return (client.workshop.folder.root / "cheese.toml").read_text(encoding="utf-8")


def form_of(client, stage="balance", query="") -> dict[str, str]:
    return fields_of(client.get(f"/b/cheese/{stage}{query}").text)


def typed(client, sent, stage="balance", **changed):
    return client.post(f"/b/cheese/{stage}/live", data={**sent, **changed}).json()


def refrigerant(client, data) -> dict:
    step = client.workshop.drafts.step("cheese", data["step"])
    return tomllib.loads(step.text)["refrigerant"]


@pytest.mark.parametrize("units", ["shop", "si"])
@pytest.mark.parametrize("stage", ["cabinet", "cold-side", "machine", "balance", "day"])
def test_a_form_not_touched_changes_nothing_in_either_units(client, stage, units):
    sent = form_of(client, stage, f"?units={units}")
    data = typed(client, sent, stage)
    assert client.workshop.drafts.step("cheese", data["step"]).text == CHEESE
    assert data["asked"]["w"] == ""


def test_one_field_changes_one_line_and_the_file_only_when_saved(client):
    data = typed(client, form_of(client), **{"refrigerant.fill": "0,8 oz"})
    step = client.workshop.drafts.step("cheese", data["step"])
    changed = [
        pair
        for pair in zip(CHEESE.splitlines(), step.text.splitlines(), strict=True)
        if pair[0] != pair[1]
    ]
    assert changed == [('fill = "28 g"', 'fill = "0,8 oz"')]
    assert file_of(client) == CHEESE
    asked = {name: data["asked"][name] for name in ("w", "v")}
    answer = client.post("/b/cheese/save", data={**asked, "slug": "balance"})
    assert answer.status_code == 303
    assert file_of(client) == step.text
    assert "As in the file" in client.get(answer.headers["location"]).text


def test_a_field_shown_in_other_units_is_not_rewritten_beside_one_that_is(client):
    sent = form_of(client, "balance", "?units=shop")
    data = typed(client, sent, **{"capillary.bore": "0.031 in"})
    text = client.workshop.drafts.step("cheese", data["step"]).text
    assert 'bore = "0.031 in"' in text
    assert text.replace('bore = "0.031 in"', 'bore = "0.70 mm"') == CHEESE


def test_bad_input_is_told_beside_its_field_and_kept(client):
    data = typed(client, form_of(client), **{"refrigerant.fill": "-5 g", "capillary.bore": "wide"})
    assert not data["sound"]
    assert "greater than 0 g" in data["entries"]["refrigerant.fill"]["fault"]
    assert "must be a length" in data["entries"]["capillary.bore"]["fault"]
    again = form_of(client, query=f"?w={data['step']}")
    assert again["refrigerant.fill"] == "-5 g"
    assert again["capillary.bore"] == "wide"
    other = client.get(f"/b/cheese/cabinet?w={data['step']}").text
    assert "Mend it on D Balance" in other
    refused = client.post("/b/cheese/save", data={"w": data["step"]})
    assert refused.status_code == 422
    assert "Not saved" in refused.text
    assert file_of(client) == CHEESE


def test_markup_that_is_typed_stays_text(client):
    data = typed(client, form_of(client, "cabinet"), "cabinet", name="<script>alert(1)</script>")
    page = client.get(f"/b/cheese/balance?w={data['step']}").text
    assert "<script>alert" not in page
    assert "&lt;script&gt;" in page


def test_undo_and_redo_step_over_whole_fields_and_outlive_a_restart(client):
    sent = form_of(client)
    half = typed(client, sent, **{"refrigerant.fill": "2"})
    whole = typed(client, sent, tip=half["step"], **{"refrigerant.fill": "24 g"})
    both = {"refrigerant.fill": "24 g", "refrigerant.superheat": "7 K"}
    last = typed(client, sent, parent=whole["step"], **both)
    assert client.workshop.drafts.step("cheese", half["step"]) is None
    with client_of(client.workshop.folder.root) as anew:
        page = anew.get(last["address"]).text
        undo = html.unescape(re.search(r'id="undo" href="([^"]*)"', page)[1])
        assert f"w={whole['step']}" in undo
        page = anew.get(undo).text
        assert fields_of(page)["refrigerant.superheat"] == ""
        assert fields_of(page)["refrigerant.fill"] == "24 g"
        redo = html.unescape(re.search(r'id="redo" href="([^"]*)"', page)[1])
        assert fields_of(anew.get(redo).text)["refrigerant.superheat"] == "7 K"


def test_a_field_set_back_is_a_step_and_undo_leads_to_the_one_between(client):
    sent = form_of(client)
    first = typed(client, sent, **{"refrigerant.fill": "24 g"})
    back = typed(client, sent, parent=first["step"])
    assert back["step"] != first["step"]
    assert refrigerant(client, back)["fill"] == "28 g"
    before = client.workshop.drafts
    step = before.step("cheese", back["step"])
    assert before.before("cheese", step).name == first["step"]


def test_rows_are_added_and_taken_out_and_what_was_typed_comes_along(client):
    sent = form_of(client, "cabinet")
    sent["cabinet.layers[1].thickness"] = "12 mm"
    answer = client.post("/b/cheese/cabinet/edit", data={**sent, "row": "add:cabinet.layers"})
    place = answer.headers["location"]
    assert place.endswith("#g-cabinet-layers")
    page = client.get(place).text
    assert fields_of(page)["cabinet.layers[1].thickness"] == "12 mm"
    assert fields_of(page)["cabinet.layers[4].material"] == ""
    assert "must be given" in page
    sent = fields_of(page)
    sent.update({"cabinet.layers[4].material": "cork", "row": "remove:cabinet.layers[2]"})
    sent["cabinet.layers[4].thickness"] = "20 mm"
    answer = client.post("/b/cheese/cabinet/edit", data=sent)
    left = fields_of(client.get(answer.headers["location"]).text)
    assert left["cabinet.layers[2].material"] == "pine"
    assert left["cabinet.layers[3].thickness"] == "20 mm"
    assert "cabinet.layers[4].material" not in left


def test_another_kind_of_cold_side_by_taking_out_the_old_one(client):
    # Its revision changes the plate, so it goes first.
    client.post("/b/cheese/revision/remove", data={"place": "1"})
    step = client.workshop.drafts.unsaved("cheese").name
    sent = form_of(client, "cold-side", f"?w={step}")
    data = typed(client, sent, "cold-side", **{"cold_side.kind": "bare_tube"})
    assert "cannot stand beside" in data["elsewhere"]
    assert "#g-cold-side-plate" in data["elsewhere"]
    sent.update({"cold_side.kind": "bare_tube", "row": "remove:cold_side.plate"})
    answer = client.post("/b/cheese/cold-side/edit", data=sent)
    page = client.get(answer.headers["location"]).text
    assert 'class="fault"' not in page
    assert fields_of(page)["cold_side.plate.width"] == ""


def test_an_edit_of_a_revision_is_written_as_its_change(client):
    sent = form_of(client, "balance", "?rev=soldered+plate")
    data = typed(client, sent, **{"refrigerant.fill": "25 g"})
    text = client.workshop.drafts.step("cheese", data["step"]).text
    assert loads(text).refrigerant.fill.text == "28 g"
    assert loads(text, revision="soldered plate").refrigerant.fill.text == "25 g"
    assert "changed in this revision" in data["entries"]["refrigerant.fill"]["note"]


def test_a_new_revision_is_begun_and_a_name_that_is_taken_is_told(client):
    sent = {"w": "", "v": "", "name": "thicker", "why": "warm in August"}
    answer = client.post("/b/cheese/revision", data=sent)
    assert "rev=thicker" in answer.headers["location"]
    assert "written as changes of revision" in client.get(answer.headers["location"]).text
    taken = client.post("/b/cheese/revision", data={**sent, "name": "soldered plate"})
    assert taken.status_code == 422
    assert "must be new" in taken.text
    assert "warm in August" in taken.text


def test_a_folder_that_may_not_be_written_keeps_the_steps_in_memory(client, monkeypatch):
    from coldwright.web import drafts

    def refuse(*_: object) -> None:
        raise OSError(30, "Read-only file system")

    monkeypatch.setattr(drafts, "write_whole", refuse)
    data = typed(client, form_of(client), **{"refrigerant.fill": "24 g"})
    assert form_of(client, query=f"?w={data['step']}")["refrigerant.fill"] == "24 g"


def test_a_revision_is_taken_out(client):
    answer = client.post("/b/cheese/revision/remove", data={"w": "", "v": "", "place": "1"})
    page = client.get(answer.headers["location"]).text
    assert "Take out soldered plate" not in page
    assert client.post("/b/cheese/revision/remove", data={"place": "7"}).status_code == 422


class TestTwoHands:
    """One tab has an unsaved step when another hand writes the file."""

    @pytest.fixture
    def mine(self, client):
        data = typed(client, form_of(client), **{"refrigerant.fill": "24 g"})
        return {name: data["asked"][name] for name in ("w", "v")}

    @pytest.fixture
    def theirs(self, client, mine):
        assert mine["w"]  # begun before the other hand writes
        text = CHEESE.replace('length = "3.0 m"', 'length = "2.8 m"  # measured anew')
        path = client.workshop.folder.root / "cheese.toml"
        path.write_text(text, encoding="utf-8")
        return text

    def test_nothing_is_written_and_the_difference_is_shown(self, client, mine, theirs):
        answer = client.post("/b/cheese/save", data=mine)
        assert answer.status_code == 409
        assert file_of(client) == theirs
        for told in ("refrigerant.fill", "24 g", "capillary.length", "2.8 m", "3.0 m"):
            assert told in answer.text
        page = client.get(f"/b/cheese/balance?w={mine['w']}&v={mine['v']}").text
        assert "changed by another hand" in page

    def test_mine_put_upon_theirs_keeps_both_and_their_comment(self, client, mine, theirs):
        answer = client.post("/b/cheese/merge", data=mine)
        page = client.get(answer.headers["location"]).text
        assert "changed by another hand" not in page
        steps = fields_of(page)
        saved = client.post("/b/cheese/save", data={"w": steps["w"], "v": steps["v"]})
        assert saved.status_code == 303
        assert file_of(client) == theirs.replace('fill = "28 g"', 'fill = "24 g"')

    def test_mine_over_theirs_only_for_the_version_that_was_seen(self, client, mine, theirs):
        seen = re.search(
            r'name="over" value="(\w+)"', client.post("/b/cheese/save", data=mine).text
        )
        path = client.workshop.folder.root / "cheese.toml"
        path.write_text(theirs + "\n# once more", encoding="utf-8")
        over = {**mine, "over": seen[1]}
        assert client.post("/b/cheese/save", data=over).status_code == 409
        path.write_text(theirs, encoding="utf-8")
        assert client.post("/b/cheese/save", data=over).status_code == 303
        assert 'fill = "24 g"' in file_of(client)

    def test_mine_as_another_file(self, client, mine, theirs):
        answer = client.post("/b/cheese/save-copy", data={**mine, "name": "cheese mine"})
        assert answer.status_code == 303
        text = (client.workshop.folder.root / "cheese mine.toml").read_text(encoding="utf-8")
        assert 'fill = "24 g"' in text
        assert file_of(client) == theirs

    @pytest.mark.usefixtures("theirs")
    def test_the_shelf_leads_back_to_what_is_not_saved(self, client, mine):
        assert f"w={mine['w']}" in html.unescape(client.get("/").text)


def test_a_disk_that_refuses_is_told_and_the_step_stays(client, monkeypatch):
    from coldwright.web.routes import edits

    data = typed(client, form_of(client), **{"refrigerant.fill": "24 g"})

    def refuse(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(edits, "save", refuse)
    answer = client.post("/b/cheese/save", data=data["asked"])
    assert answer.status_code == 422
    assert "No space left on device" in answer.text
    assert form_of(client, query=f"?w={data['step']}")["refrigerant.fill"] == "24 g"
