"""Shape and sizes of `calc surface`: which options belong to which shape."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.cli.calc.entries import Entries, Entry
from coldwright.errors import unknown_name
from coldwright.units import Kind

SIZES = (1e-3, 10.0)  # m
LENGTHS = (0.01, 200.0)  # m of tube
ENDS = ("both", "top", "bottom", "none")
SHAPES: dict[str, tuple[str, ...]] = {
    "vertical-plate": ("width", "height"),
    "vertical-cylinder": ("diameter", "height"),
    "horizontal-tube": ("diameter", "length"),
    "box": ("width", "depth", "height"),
}
HINTS = {
    "vertical-plate": "--width 400mm --height 500mm --faces 2",
    "vertical-cylinder": "--diameter 150mm --height 400mm",
    "horizontal-tube": "--diameter 10mm --length 4m",
    "box": "--width 400mm --depth 120mm --height 300mm",
}


@dataclass(frozen=True)
class SizeTexts:
    """The options as given."""

    shape: str | None
    height: str | None
    width: str | None
    depth: str | None
    diameter: str | None
    length: str | None
    faces: str | None
    ends: str | None


@dataclass(frozen=True)
class Body:
    """The shape, its faces (of a plate) and which ends are in the air (of a cylinder or box)."""

    shape: str
    faces: int
    ends: str


def read_sizes(entries: Entries, texts: SizeTexts) -> tuple[Body, dict[str, Entry]]:
    """The body and its sizes; faults are kept."""
    shape = _shape(entries, texts.shape)
    wanted = SHAPES.get(shape, ())
    found: dict[str, Entry] = {}
    for name in ("width", "depth", "height", "diameter", "length"):
        option, text = f"--{name}", getattr(texts, name)
        bounds = LENGTHS if name == "length" else SIZES
        if shape and name not in wanted:
            if text is not None:
                entries.fault(option, f"{option} must be left out for {_a(shape)}.", HINTS[shape])
            continue
        if shape and text is None:
            entries.fault(option, f"{option} must be given for {_a(shape)}.", HINTS[shape])
            continue
        entry = entries.optional(option, text, Kind.length, bounds)
        if entry is not None:
            found[name] = entry
    faces = _choice(entries, "--faces", texts.faces, ("1", "2"), "2", shape in ("", *_PLATES))
    ends = _choice(entries, "--ends", texts.ends, ENDS, "both", shape in ("", *_CLOSED))
    return Body(shape, int(faces), ends), found


_PLATES = ("vertical-plate",)
_CLOSED = ("vertical-cylinder", "box")


def _a(shape: str) -> str:
    return f"a {shape.replace('-', ' ')}"


def _shape(entries: Entries, text: str | None) -> str:
    if text is None:
        entries.fault("--shape", f"--shape must be given: one of {', '.join(SHAPES)}.")
        return ""
    plain = "-".join(text.lower().replace("_", " ").replace("-", " ").split())
    if plain in SHAPES:
        return plain
    (fault,) = unknown_name("--shape", "--shape", text, SHAPES).faults
    entries.fault(fault.field, fault.message, fault.hint)
    return ""


def _choice(
    entries: Entries,
    option: str,
    text: str | None,
    allowed: tuple[str, ...],
    usual: str,
    applies: bool,
) -> str:
    """One of a few words."""
    if text is None:
        return usual
    if not applies:
        entries.fault(option, f"{option} must be left out for this shape; received '{text}'.")
        return usual
    if text.strip().lower() in allowed:
        return text.strip().lower()
    entries.fault(option, f"{option} must be one of {', '.join(allowed)}; received '{text}'.")
    return usual
