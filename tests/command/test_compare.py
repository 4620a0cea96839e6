"""`compare` as a user types it."""

from __future__ import annotations

import json

import pytest
from typer.testing import CliRunner

from coldwright.cli.app import app
from support.assessed import changed

FIRST = """
[[revision]]
name = "thick lid"
why = "The lid sweats."

[revision.changes]
"cabinet.faces[top].layers[2].thickness" = "90 mm"
"cabinet.layers[2].thickness" = "110 mm"
"drier.volume" = "20 mL"

"""


def call(*arguments: str):
    return CliRunner().invoke(app, ["compare", *arguments])


@pytest.fixture(scope="module")
def path(tmp_path_factory):
    text = changed("galley", ('fill = "find"', 'fill = "36 g"'))
    text = text[: text.index("[[revision]]")] + FIRST
    file = tmp_path_factory.mktemp("compare") / "box.toml"
    file.write_text(text, encoding="utf-8")
    return str(file)


@pytest.fixture(scope="module")
def shown(path):
    return call(path, "--with", "thick lid")


def test_what_changed_stands_first_with_what_stood_there(shown):
    assert shown.exit_code == 0
    head = shown.stdout.split("as built")[0]
    assert "thick lid: The lid sweats." in head
    assert "cabinet.faces[top].layers[2].thickness: 45 mm -> 90 mm" in head
    assert "drier.volume: 15 mL ± 40 % (assumed) -> 20 mL" in head


def test_figures_stand_side_by_side(shown):
    rows = {line[:40].strip(): line for line in shown.stdout.splitlines()}
    running = next(row for label, row in rows.items() if label.startswith("running"))
    before, after = (int(word) for word in running.split() if word.isdigit())
    assert after < before  # more insulation, less running
    assert "nan" not in shown.stdout
    assert shown.stdout.count("HOLDS: ") == 2


def test_faults_are_told_once_and_together(path):
    result = call(path, "--with", "thin lid", "--with", "no lid", "--room", "warm")
    assert result.exit_code == 2
    assert result.stdout == ""
    for said in ("--room must be a temperature", "'thin lid'", "'no lid'", "3 faults;"):
        assert said in result.stderr


def test_faults_as_data(path):
    result = call(path, "--with", "thin lid", "--json")
    assert result.exit_code == 2
    fault = json.loads(result.stdout)["faults"][0]
    assert "thin lid" in fault["message"]
    assert "thick lid" in fault["hint"]


def test_something_must_be_compared(path):
    assert call(path).exit_code == 2
