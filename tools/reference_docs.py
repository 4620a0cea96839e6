"""Write the reference pages in docs/reference from the code's own registries.

python tools/reference_docs.py            write them
python tools/reference_docs.py --check    fail when one is not what would be written
"""

from __future__ import annotations

import pkgutil
import sys
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

import coldwright
from coldwright.build import key_table
from coldwright.sources import correlations, sources
from coldwright.terms import Term, terms
from coldwright.units import FACTS, Kind, format_quantity
from coldwright.verdict.explain import FIGURES, MACHINE_STATES
from coldwright.verdict.explain_machine import MACHINE

if TYPE_CHECKING:
    from collections.abc import Sequence

ROOT = Path(__file__).resolve().parent.parent
PAGES = ROOT / "docs" / "reference"
# Layers whose modules register correlations.
PHYSICS = ("fluids", "heat", "parts", "plant", "shop")
MADE = "<!-- Written by tools/reference_docs.py; change the code, not this page. -->"


def cell(text: str) -> str:
    """`text` as one cell of a Markdown table."""
    return " ".join(text.split()).replace("|", "\\|")


def table(head: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> str:
    """A Markdown table."""
    lines = [head, tuple("---" for _ in head), *rows]
    return "\n".join(f"| {' | '.join(cell(entry) for entry in line)} |" for line in lines)


def page(title: str, opening: str, body: str) -> str:
    """A whole page."""
    return f"{MADE}\n\n# {title}\n\n{opening}\n\n{body}\n"


def import_physics() -> None:
    """Import every module that may register a correlation."""
    for layer in PHYSICS:
        package = import_module(f"{coldwright.__name__}.{layer}")
        for module in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            import_module(module.name)


def correlations_page() -> str:
    """Each correlation with its quantity, range, bias and source."""
    rows = []
    for name, record in sorted(correlations().items()):
        ranges = "; ".join(
            f"{argument.replace('_', ' ')} {least:.4g} to {greatest:.4g}"
            for argument, (least, greatest) in record.ranges.items()
        )
        rows.append((f"`{name}`", record.quantity, ranges, record.bias, f"`{record.source}`"))
    return page(
        "Correlations",
        "Each correlation the program may use, the range of the data it was fitted on (SI units; "
        "outside it the value is extrapolated and a notice says so), what is known of its bias, "
        "and its source, by its key in [Sources](sources.md).",
        table(("Function", "Gives", "Fitted range", "Bias", "Source"), rows),
    )


def sources_page() -> str:
    """Each source by key."""
    rows = [
        (f"`{key}`", entry.author, entry.year, entry.title, entry.publication, entry.label)
        for key, entry in sorted(sources().items())
    ]
    return page(
        "Sources",
        "Where figures come from. The last column says how they reached this program: *read* in "
        "the source, written *from memory* of it, *computed* by an independent program, or "
        "*common practice, no source*.",
        table(("Key", "Author", "Year", "Title", "Publication", "How"), rows),
    )


def usual_uncertainty(entry: Term) -> str:
    """The uncertainty assumed when the maker gives none, as the half-width one would write."""
    parts = []
    if entry.usual_uncertainty:
        kind = Kind.temperature_difference if entry.kind is Kind.temperature else entry.kind
        shown = format_quantity(2.0 * entry.usual_uncertainty, kind, "si")
        parts.append(f"± {shown}")
    if entry.usual_relative_uncertainty:
        parts.append(f"± {200.0 * entry.usual_relative_uncertainty:.3g} % of it")
    return ", ".join(parts) or "none"


def terms_page() -> str:
    """Each entry of a build file, by section."""
    sections: dict[str, list[tuple[str, ...]]] = {}
    for key, entry in terms().items():
        sections.setdefault(entry.section, []).append(
            (
                f"`{key}`",
                entry.name,
                entry.meaning,
                FACTS[entry.kind].example,
                entry.bounds_text("si"),
                entry.bounds_text("shop"),
                usual_uncertainty(entry),
            )
        )
    head = ("Entry", "Name", "Meaning", "Write", "Bounds", "Bounds, shop units", "If not given")
    body = "\n\n".join(f"## {section}\n\n{table(head, rows)}" for section, rows in sections.items())
    return page(
        "Terms of a build file",
        "The entries of a build file that hold a quantity. Every one may carry its uncertainty, "
        "`60 mm ± 2 mm` or `60 mm ± 5 %`: the half-width of a 95 % interval. The last column is "
        "the half-width assumed when none is written (common practice, no source).",
        body,
    )


def build_file_page() -> str:
    """Each key of a build file, in the order of the file."""
    rows = [
        (f"`{row.path}`", row.kind, row.example, row.default, row.meaning) for row in key_table()
    ]
    return page(
        "Keys of the build file",
        "Every key, what it takes, and what is taken when it is left out. `[]` means every item of "
        "a list; places in a list count from 1, as in `cabinet.layers[2].thickness`.",
        table(("Key", "Kind", "Write", "If left out", "Meaning"), rows),
    )


def figures_page() -> str:
    """Each figure of an assessment with its formula in words."""
    rows = [
        (f"`{path}`", entry.formula, ", ".join(f"`{key}`" for key in entry.sources))
        for path, entry in FIGURES.items()
    ]
    machine = [
        (f"`{name}`", entry.formula, ", ".join(f"`{key}`" for key in entry.sources))
        for name, entry in MACHINE.items()
    ]
    head = ("Figure", "How it is found", "Sources")
    states = ", ".join(f"`{state}`" for state in MACHINE_STATES)
    return page(
        "Figures of an assessment",
        "The keys of `coldwright assess FILE --json`; each ends in its unit. `--explain FIGURE` "
        "shows one with the values that went into it.",
        f"{table(head, rows)}\n\n## The machine, in each of {states}\n\n{table(head, machine)}",
    )


def pages() -> dict[Path, str]:
    """Every reference page: where it stands and its text."""
    import_physics()
    return {
        PAGES / "build_file.md": build_file_page(),
        PAGES / "figures.md": figures_page(),
        PAGES / "correlations.md": correlations_page(),
        PAGES / "sources.md": sources_page(),
        PAGES / "terms.md": terms_page(),
    }


def main(arguments: list[str]) -> int:
    """Write the pages, or check them; 0 when all is well."""
    if arguments not in ([], ["--check"]):
        print("usage: reference_docs.py [--check]", file=sys.stderr)
        return 2
    stale = 0
    for path, text in pages().items():
        current = path.read_text(encoding="utf-8") if path.exists() else ""
        if current == text:
            continue
        if arguments:
            print(f"{path.relative_to(ROOT)} is not current: run `make docs`", file=sys.stderr)
            stale = 1
        else:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
            print(f"wrote {path.relative_to(ROOT)}")
    return stale


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
