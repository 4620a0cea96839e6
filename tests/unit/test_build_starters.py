from __future__ import annotations

from pathlib import Path

import pytest

from coldwright.build import load, loads, starter_names, starter_text, write_starter
from coldwright.errors import FileFault, InputError

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.mark.parametrize("name", starter_names())
def test_starter_loads_at_every_revision_and_says_it_is_invented(name):
    text = starter_text(name)
    assert "Invented figures, for practice only" in text
    base = loads(text)
    assert base.revisions
    for revision in base.revisions:
        assert revision.why
        assert loads(text, revision=revision.name).document != base.document


@pytest.mark.parametrize("name", starter_names())
def test_example_is_the_starter(name):
    assert (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8") == starter_text(name)


def test_the_three_boxes_show_the_three_cold_sides():
    kinds = {name: loads(starter_text(name)).cold_side.kind for name in starter_names()}
    assert kinds == {"larder": "vessel", "cheese": "plate", "galley": "bare_tube"}


def test_written_starter_can_be_loaded_and_is_never_overwritten(tmp_path):
    path = tmp_path / "box.toml"
    write_starter("cheese", path)
    assert load(path).name == "Cheese cupboard"
    path.write_text("mine", encoding="utf-8")
    with pytest.raises(InputError, match="exists already"):
        write_starter("larder", path)
    assert path.read_text(encoding="utf-8") == "mine"


def test_unknown_starter_and_missing_folder(tmp_path):
    with pytest.raises(InputError, match="did you mean 'larder'"):
        write_starter("ladder", tmp_path / "box.toml")
    with pytest.raises(FileFault, match="cannot be written"):
        write_starter("larder", tmp_path / "none" / "box.toml")
    assert list(tmp_path.iterdir()) == []
