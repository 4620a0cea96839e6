"""Every `coldwright calc` line in the how-to runs, and shows what the page says it shows."""

import re
import shlex
from pathlib import Path

import pytest
from typer.testing import CliRunner

from coldwright.cli.app import app
from coldwright.sources import sources

DOCS = Path(__file__).resolve().parents[2] / "docs"
HOW_TO = DOCS / "how-to" / "which-temperature-is-my-gauge-telling-me.md"
THEORY = ("refrigerants.md", "brines.md", "moist_air_and_oils.md")


def examples():
    """Each command of the page with the lines of output shown under it."""
    found = []
    for block in re.findall(r"```console\n(.*?)```", HOW_TO.read_text(encoding="utf-8"), re.DOTALL):
        for line in block.splitlines():
            if line.startswith("$ "):
                found.append((line[2:], []))
            elif line != "...":
                found[-1][1].append(line)
    return found


def tidy(line):
    return " ".join(line.split())


@pytest.mark.parametrize(("command", "shown"), examples(), ids=[each[0] for each in examples()])
def test_the_line_runs_and_prints_what_is_shown(command, shown):
    program, *words = shlex.split(command)
    assert program == "coldwright"
    found = CliRunner().invoke(app, words)
    assert found.exit_code == 0, found.output
    printed = iter([tidy(line) for line in found.stdout.splitlines()])
    for line in shown:
        # in the order of the page; lines left out on the page are passed over
        assert tidy(line) in printed


def test_every_command_of_the_page_is_in_a_console_block():
    text = HOW_TO.read_text(encoding="utf-8")
    assert len(re.findall(r"^\s*\$? ?coldwright calc", text, re.MULTILINE)) == len(examples())
    named = {shlex.split(command)[2] for command, _ in examples()}
    assert named == {"saturation", "altitude", "standing", "dewpoint", "charge-room", "brine"}


@pytest.mark.parametrize("page", THEORY)
def test_theory_names_known_sources(page):
    text = (DOCS / "theory" / page).read_text(encoding="utf-8")
    keys = re.findall(r"`([a-z0-9]+_[a-z0-9_]+)`", text)
    assert keys
    assert set(keys) <= set(sources())
