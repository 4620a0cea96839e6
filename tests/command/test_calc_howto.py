"""Every `coldwright` line in a how-to runs, and shows what the page says it shows."""

import re
import shlex
import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner

from coldwright.cli.app import app
from coldwright.sources import sources

ROOT = Path(__file__).resolve().parents[2]
DOCS = ROOT / "docs"
PAGES = {
    "which-temperature-is-my-gauge-telling-me": {
        "saturation",
        "altitude",
        "standing",
        "dewpoint",
        "charge-room",
        "brine",
    },
    "my-box-will-not-get-colder": {"assess", "surface", "wall", "saturation"},
    "which-capillary-and-how-much-gas": {"capillary", "fill", "map"},
    "a-gas-not-on-the-plate": {"compressor", "motor", "charge-room"},
    "read-the-charts": {"chart"},
}
THEORY = (
    "refrigerants.md",
    "brines.md",
    "moist_air_and_oils.md",
    "cold_side.md",
    "air_circuit.md",
    "cabinet.md",
    "heat_transfer.md",
    "capillary.md",
    "compressor_and_motor.md",
)
# `assess` ends with 1 where a box does not hold: that is its answer, no fault.
ENDS = {"assess": (0, 1)}


def text_of(page):
    return (DOCS / "how-to" / f"{page}.md").read_text(encoding="utf-8")


def examples_of(page):
    """Each command of a page with the lines of output shown under it."""
    found = []
    for block in re.findall(r"```console\n(.*?)```", text_of(page), re.DOTALL):
        for line in block.splitlines():
            if line.startswith("$ "):
                found.append((line[2:], []))
            elif line != "...":
                found[-1][1].append(line)
    return found


EXAMPLES = [each for page in PAGES for each in examples_of(page)]


KEPT = {}


def name_of(command):
    """The command's own name: `assess`, or what stands behind `calc`."""
    words = shlex.split(command)
    return words[2] if words[1] == "calc" else words[1]


def described(picture):
    return re.search(r"<desc>.*?</desc>", picture.read_text(encoding="utf-8")).group()


def tidy(line):
    return " ".join(line.split())


@pytest.mark.parametrize(("command", "shown"), EXAMPLES, ids=[each[0] for each in EXAMPLES])
def test_the_line_runs_and_prints_what_is_shown(command, shown, monkeypatch, tmp_path):
    # in a copy, for a chart is written beside its build
    shutil.copytree(ROOT / "examples", tmp_path / "examples")
    monkeypatch.chdir(tmp_path)
    program, *words = shlex.split(command)
    assert program == "coldwright"
    # A page may show parts of one answer; an answer is worked out once.
    found = KEPT[command] if command in KEPT else CliRunner().invoke(app, words)
    KEPT[command] = found
    assert found.exit_code in ENDS.get(name_of(command), (0,)), found.output
    printed = iter([tidy(line) for line in found.stdout.splitlines()])
    for line in shown:
        # in the order of the page; lines left out on the page are passed over
        assert tidy(line) in printed, line
    for picture in tmp_path.rglob("*.svg"):
        # the picture that the page shows says the same as the one just drawn (`make charts`)
        shown_picture = DOCS / "charts" / picture.name
        assert described(shown_picture) == described(picture)


@pytest.mark.parametrize("page", PAGES)
def test_every_command_of_the_page_is_in_a_console_block(page):
    lines = re.findall(r"^\s*\$? ?coldwright (?:calc|assess|chart)", text_of(page), re.MULTILINE)
    assert len(lines) == len(examples_of(page))
    assert {name_of(command) for command, _ in examples_of(page)} == PAGES[page]


@pytest.mark.parametrize("page", THEORY)
def test_theory_names_known_sources(page):
    text = (DOCS / "theory" / page).read_text(encoding="utf-8")
    keys = re.findall(r"`([a-z0-9]+_[a-z0-9_]+)`", text)
    assert keys
    assert set(keys) <= set(sources())


@pytest.mark.parametrize("page", [path.name for path in sorted(DOCS.glob("*/*.md"))])
def test_links_of_the_pages_lead_somewhere(page):
    (path,) = DOCS.glob(f"*/{page}")
    for target in re.findall(r"\]\(([^)#:]+\.(?:md|svg))", path.read_text(encoding="utf-8")):
        assert (path.parent / target).is_file(), target
