"""`new` as a user types it."""

from __future__ import annotations

import pytest
from typer.testing import CliRunner

from coldwright.build import load, starter_text
from coldwright.cli.app import app


def call(*arguments: object):
    return CliRunner().invoke(app, ["new", *(str(argument) for argument in arguments)])


@pytest.mark.parametrize("starter", ["larder", "cheese", "galley"])
def test_a_starter_is_written_as_it_stands_and_loads(tmp_path, starter):
    path = tmp_path / "my box.toml"
    result = call(path, "--from", starter)
    assert result.exit_code == 0
    assert str(path) in result.stdout.replace("\n", "")
    assert path.read_text(encoding="utf-8") == starter_text(starter)
    assert load(path).cabinet.inside_width.value > 0.0


@pytest.mark.parametrize(
    ("name", "written"), [("box", "box.toml"), ("box v1.2", "box v1.2.toml"), ("ß.toml", "ß.toml")]
)
def test_the_name_ends_in_toml(tmp_path, name, written):
    assert call(tmp_path / name, "--from", "galley").exit_code == 0
    assert [path.name for path in tmp_path.iterdir()] == [written]


def test_a_file_that_is_there_stays_as_it_is(tmp_path):
    path = tmp_path / "box.toml"
    path.write_text("mine", encoding="utf-8")
    result = call(path, "--from", "galley")
    assert result.exit_code == 2
    assert "exists already" in result.stderr
    assert path.read_text(encoding="utf-8") == "mine"


def test_a_folder_that_is_not_there_and_an_unknown_starter(tmp_path):
    result = call(tmp_path / "none" / "box.toml", "--from", "galley")
    assert result.exit_code == 2
    assert "cannot be written" in result.stderr
    result = call(tmp_path / "box", "--from", "gallery")
    assert result.exit_code == 2
    assert "galley" in result.output
    assert list(tmp_path.iterdir()) == []
