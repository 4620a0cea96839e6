"""Edits as a form makes them, and the difference of two texts."""

from __future__ import annotations

import datetime

import pytest

from coldwright.build import loads
from coldwright.build.difference import carried_over, differences
from coldwright.build.editing import Edit, edited, tree_at, with_new_revision
from coldwright.build.reading import parse_text
from coldwright.errors import InputError
from support.builds import build_text

CHEESE = build_text("cheese")
INLINE = 'name = "x"\n[cabinet]\nlayers = [{ material = "pine" }, { material = "cork" }]  # two\n'


def lines_that_differ(old: str, new: str) -> list[str]:
    before, after = old.splitlines(), new.splitlines()
    return [line for line in after if line not in before]


def test_a_row_is_added_to_tables_inline_lists_and_lists_that_are_not_there():
    assert edited(CHEESE, Edit(add="cabinet.layers")).count("[[cabinet.layers]]") == 4
    tree = tree_at(edited(INLINE, Edit(add="cabinet.layers")), None)
    assert tree["cabinet"]["layers"] == [{"material": "pine"}, {"material": "cork"}, {}]
    new = edited(CHEESE, Edit(add="cabinet.thermal_bridges"))
    assert parse_text(new)["cabinet"]["thermal_bridges"] == [{}]
    nested = edited(CHEESE, Edit(add="cabinet.faces[back].layers"))
    assert parse_text(nested)["cabinet"]["faces"][0]["layers"] == [{}]


def test_a_row_is_taken_out_and_the_others_keep_their_comments():
    new = edited(INLINE, Edit(remove="cabinet.layers[1]"))
    assert tree_at(new, None)["cabinet"]["layers"] == [{"material": "cork"}]
    assert "# two" in new
    left = edited(CHEESE, Edit(remove="cabinet.faces[1]"))
    assert "faces" not in parse_text(left)["cabinet"]
    assert loads(left).cabinet.face("back").adjoining  # assumed again


def test_a_table_that_may_be_left_out_is_taken_out():
    tree = parse_text(edited(CHEESE, Edit(remove="cold_side.plate")))
    assert "plate" not in tree["cold_side"]
    assert tree["cold_side"]["tube"] == parse_text(CHEESE)["cold_side"]["tube"]
    in_revision = edited(CHEESE, Edit(remove="cold_side.plate"), "soldered plate")
    assert "plate" not in tree_at(in_revision, "soldered plate")["cold_side"]


@pytest.mark.parametrize(
    "edit",
    [
        Edit(add="cabinet.door"),
        Edit(remove="cabinet.layers[9]"),
        Edit(remove="cabinet"),
        Edit(remove="cold_side.fins"),
    ],
)
def test_what_is_no_row_is_refused(edit):
    with pytest.raises(InputError):
        edited(CHEESE, edit)


def test_a_table_whose_last_entry_is_cleared_goes_with_it():
    with_fins = edited(CHEESE, Edit({"cold_side.fins.count": "12"}))
    assert "[cold_side.fins]" in with_fins
    assert edited(with_fins, Edit({"cold_side.fins.count": ""})).rstrip() == CHEESE.rstrip()


def test_numbers_are_written_as_the_schema_wants_them():
    changes = {"compressor.lead.gauge": "14", "compressor.map.power": "1, 2.5, x"}
    tree = parse_text(edited(CHEESE, Edit(changes)))
    assert tree["compressor"]["lead"]["gauge"] == 14
    assert tree["compressor"]["map"]["power"] == [1.0, 2.5, "x"]


def test_edits_in_a_revision_are_its_changes_and_leave_the_body_alone():
    name = "soldered plate"
    new = edited(CHEESE, Edit({"capillary.bore": "0.8 mm"}), name)
    assert lines_that_differ(CHEESE, new) == ['"capillary.bore" = "0.8 mm"']
    again = edited(new, Edit({"capillary.bore": "0.9 mm"}), name)
    assert loads(again, revision=name).capillary.bore.text == "0.9 mm"
    assert loads(again).capillary.bore.text == "0.70 mm"
    # Cleared: what the body says is taken away, what only the revision said is forgotten.
    assert '"capillary.bore" = "remove"' in edited(new, Edit({"capillary.bore": ""}), name)
    bare = CHEESE.replace('wall_gap = "30 mm"\n', "")
    gap = edited(bare, Edit({"cold_side.plate.wall_gap": "40 mm"}), name)
    assert edited(gap, Edit({"cold_side.plate.wall_gap": ""}), name).rstrip() == bare.rstrip()


def test_rows_in_a_revision():
    name = "soldered plate"
    new = edited(CHEESE, Edit(remove="cabinet.layers[2]"), name)
    assert len(loads(new, revision=name).cabinet.layers) == 2
    assert len(loads(new).cabinet.layers) == 3
    more = edited(new, Edit(add="cabinet.layers"), name)
    assert tree_at(more, name)["cabinet"]["layers"][2] == {}


def test_a_new_revision_is_empty_and_changes_nothing():
    new = with_new_revision(CHEESE, "thick", datetime.date(2026, 3, 1), "warm\nin August")
    build = loads(new, revision="thick")
    assert build.revisions[-1].why == "warm in August"
    assert build.cabinet == loads(CHEESE, revision="soldered plate").cabinet
    for name in ("", "soldered plate", "x" * 61):
        with pytest.raises(InputError):
            with_new_revision(CHEESE, name, datetime.date(2026, 3, 1), "")


def test_differences_name_the_entry_and_both_values():
    new = CHEESE.replace('fill = "28 g"', 'fill = "30 g"').replace('bond = "clipped"\n', "", 1)
    found = differences(parse_text(CHEESE), parse_text(new))
    assert [(each.field, each.before, each.after) for each in found] == [
        ("cold_side.plate.bond", "clipped", ""),
        ("refrigerant.fill", "28 g", "30 g"),
    ]
    assert [each.words for each in found] == ["Bond of cold side plate", "Fill of refrigerant"]


def test_changes_are_carried_over_only_entry_by_entry():
    base = parse_text(CHEESE)
    mine = parse_text(CHEESE.replace('fill = "28 g"', 'fill = "30 g"'))
    theirs = parse_text(CHEESE.replace('length = "3.0 m"', 'length = "2.8 m"'))
    assert carried_over(base, mine, theirs) == {"refrigerant.fill": "30 g"}
    rows = parse_text(edited(CHEESE, Edit(remove="cabinet.layers[2]")))
    assert carried_over(base, rows, theirs) is None
    thicker = parse_text(CHEESE.replace('thickness = "60 mm"', 'thickness = "80 mm"'))
    # The second layer of theirs is another one now.
    assert carried_over(base, thicker, rows) is None
    assert carried_over(base, thicker, theirs) == {"cabinet.layers[2].thickness": "80 mm"}
