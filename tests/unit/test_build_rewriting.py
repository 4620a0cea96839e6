from __future__ import annotations

import datetime
import os
import stat

import pytest

from coldwright.build import add_revision, load, loads, rewrite, save
from coldwright.errors import FileFault, InputError
from support.builds import build_text

LARDER = build_text("larder")


def changed_lines(old: str, new: str) -> list[tuple[str, str]]:
    before, after = old.split("\n"), new.split("\n")
    assert len(before) == len(after)
    return [(a, b) for a, b in zip(before, after, strict=True) if a != b]


def test_only_the_changed_line_changes_and_its_comment_stays():
    new = rewrite(LARDER, {"cold_side.vessel.well": "0.30 m"})
    (pair,) = changed_lines(LARDER, new)
    assert pair[0].startswith('well = "0.25 m" ')
    assert pair[1].startswith('well = "0.30 m" ')
    assert pair[1].endswith("# for the bulb")


def test_items_of_lists_and_inline_tables():
    new = rewrite(
        build_text("galley"),
        {"cabinet.layers[2].thickness": "80 mm", "cabinet.faces[top].layers[2].thickness": "5 cm"},
    )
    build = loads(new)
    assert build.cabinet.layers[1].thickness.value == pytest.approx(0.08)
    assert build.cabinet.layers_of("top")[1].thickness.value == pytest.approx(0.05)
    assert len(changed_lines(build_text("galley"), new)) == 2


def test_numbers_stay_numbers():
    text = build_text("cheese")
    new = rewrite(text, {"cold_side.plate.faces": "1"})
    assert changed_lines(text, new)[0][1].startswith("faces = 1")
    assert loads(new).cold_side.plate.faces == 1


def test_new_keys_and_tables_are_made_and_empty_text_takes_a_key_out():
    new = rewrite(LARDER, {"condenser.shaded_fraction": "10 %", "drier.volume": "20 mL"})
    build = loads(new)
    assert build.condenser.shaded_fraction.value == pytest.approx(0.1)
    assert build.drier.volume.value == pytest.approx(20e-6)
    assert not build.is_assumed("drier.volume")
    back = rewrite(new, {"drier.volume": ""})
    assert loads(back).is_assumed("drier.volume")
    assert rewrite(LARDER, {"drier.volume": ""}).strip() != ""


def test_a_whole_number_choice_is_written_as_a_number_where_it_was_left_out():
    text = build_text("cheese").replace("faces = 2\n", "")
    assert "faces = 1\n" in rewrite(text, {"cold_side.plate.faces": "1"})


def test_quotes_and_odd_characters_come_back():
    awkward = 'say "hi" \\ to\tthe café\n# not a comment'
    assert loads(rewrite(LARDER, {"notes": awkward})).notes == awkward


@pytest.mark.parametrize("key", ["cabinet", "cabinet.layers", "cabinet.layers[9].material", "a..b",
                                 "name.first", "", "cabinet.layers[2]"])  # fmt: skip
def test_what_is_no_single_entry_cannot_be_set(key):
    with pytest.raises(InputError) as caught:
        rewrite(LARDER, {key: "x"})
    assert caught.value.faults[0].field == key


def test_malformed_text_is_a_file_fault():
    with pytest.raises(FileFault):
        rewrite("a = ", {"a": "1"})


def test_windows_line_ends_stay():
    text = LARDER.replace("\n", "\r\n")
    new = rewrite(text, {"name": "Larder"})
    assert new.count("\r\n") == new.count("\n") == text.count("\r\n")


def test_added_revision_can_be_selected():
    day = datetime.date(2026, 5, 1)
    new = add_revision(LARDER, 'a "b"', day, "why\nnot", {"capillary.bore": "0.028 in"})
    assert new.startswith(LARDER.rstrip())
    build = loads(new, revision='a "b"')
    assert build.capillary.bore.value == pytest.approx(0.028 * 0.0254)
    assert build.revisions[-1].why == "why\nnot"
    assert build.revisions[-1].date == "2026-05-01"
    assert loads(new).capillary.bore == loads(LARDER).capillary.bore


def test_added_revision_writes_a_whole_number_choice_as_a_number():
    new = add_revision(build_text("cheese"), "one", "", "", {"cold_side.plate.faces": "1"})
    assert loads(new, revision="one").cold_side.plate.faces == 1


def test_revision_needs_a_new_name_and_a_change():
    with pytest.raises(InputError) as caught:
        add_revision(LARDER, "fins", "2026-05-01", "", {})
    assert {fault.field for fault in caught.value.faults} == {"revision.name", "revision.changes"}
    with pytest.raises(InputError, match="must be given"):
        add_revision(LARDER, " ", "2026-05-01", "", {"name": "x"})
    with pytest.raises(InputError, match="cannot be made"):
        add_revision(LARDER, "x", "2026-05-01", "", {"a..b": "x"})


def test_save_keeps_permissions_and_leaves_nothing_behind(tmp_path):
    path = tmp_path / "box.toml"
    path.write_text("old", encoding="utf-8")
    path.chmod(0o640)
    save(path, LARDER)
    assert load(path).name == "Butter larder"
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    assert [file.name for file in tmp_path.iterdir()] == ["box.toml"]


def test_new_file_has_the_usual_permissions(tmp_path):
    mask = os.umask(0o027)
    try:
        save(tmp_path / "new.toml", LARDER)
    finally:
        os.umask(mask)
    assert stat.S_IMODE((tmp_path / "new.toml").stat().st_mode) == 0o640


def test_link_is_followed(tmp_path):
    real = tmp_path / "real.toml"
    real.write_text("old", encoding="utf-8")
    link = tmp_path / "link.toml"
    link.symlink_to(real)
    save(link, LARDER)
    assert link.is_symlink()
    assert real.read_text(encoding="utf-8") == LARDER


@pytest.mark.parametrize("step", ["os.fsync", "os.fdopen", "pathlib.Path.replace",
                                  "pathlib.Path.chmod"])  # fmt: skip
def test_failure_at_any_step_leaves_the_old_file(tmp_path, monkeypatch, step):
    path = tmp_path / "box.toml"
    path.write_text("old", encoding="utf-8")

    def fail(*_args, **_kwargs):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(step, fail)
    with pytest.raises(OSError, match="No space"):
        save(path, LARDER)
    monkeypatch.undo()
    assert path.read_text(encoding="utf-8") == "old"
    assert [file.name for file in tmp_path.iterdir()] == ["box.toml"]
