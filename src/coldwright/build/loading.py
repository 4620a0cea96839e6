"""From a build file to a `Build`, or to all of its faults at once."""

from __future__ import annotations

import math
import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path as FilePath

from pydantic import ValidationError

from coldwright.build.completion import Completion, plain_copy
from coldwright.build.computed_defaults import COMPUTED
from coldwright.build.contradictions import contradictions
from coldwright.build.lines import line_index, line_of
from coldwright.build.paths import Path, Tree, lookup, path_text, spoken
from coldwright.build.product_defaults import fill_product
from coldwright.build.reading import parse_text, read_text
from coldwright.build.result import Assumed, Build, walk
from coldwright.build.revisions import apply_changes, changes_of, revision_names
from coldwright.build.schema.circuit import FIND
from coldwright.build.schema.document import Document, Revision
from coldwright.build.schema.fields import nearest_hint, states_uncertainty
from coldwright.build.shop_defaults import SHOP, fill_class, fill_tubes
from coldwright.build.vessel_defaults import fill_vessel
from coldwright.build.wall_defaults import fill_gasket, fill_layers
from coldwright.build.wording import schema_faults
from coldwright.errors import Fault, InputError, Notice


def load(path: str | os.PathLike[str], *, revision: str | None = None) -> Build:
    """Read the build file at `path`, as built or with the changes up to `revision`.

    Without `revision` the box is taken as the body of the file describes it. Each revision builds
    upon the ones above it. All faults of the file, its revisions included, are raised together as
    one InputError in the order of lines; FileFault when it cannot be read or is no TOML.
    """
    text = read_text(path)
    return _build(text, parse_text(text, name=os.fspath(path)), revision, FilePath(path))


def loads(text: str, *, revision: str | None = None) -> Build:
    """Read a build from `text`; see `load`."""
    return _build(text, parse_text(text), revision, None)


def revisions(build: Build) -> tuple[Revision, ...]:
    """The revisions of `build`'s file in order."""
    return build.revisions


@dataclass(frozen=True)
class _Stage:
    """The file with the changes up to one revision: its document if sound, and its faults."""

    document: Document | None
    completion: Completion
    faults: list[Fault]


def _build(text: str, tree: Tree, revision: str | None, path: FilePath | None) -> Build:
    lines = line_index(text.removeprefix("\ufeff").replace("\r\n", "\n"))
    names = revision_names(tree)
    faults = _name_faults(names, revision, lines)
    stages = _stages(tree, len(names), lines)
    seen: set[tuple[str, int | None]] = set()
    for stage in stages:  # a fault of the body is told once, not again for each revision
        fresh = [fault for fault in stage.faults if (fault.field, fault.line) not in seen]
        faults += fresh
        seen |= {(fault.field, fault.line) for fault in fresh}
    if faults:
        raise InputError(*sorted(faults, key=lambda fault: fault.line or math.inf))
    stage = stages[0 if revision is None else names.index(revision) + 1]
    if stage.document is None:
        raise InputError(Fault("", "The build file cannot be used as it stands."))
    return _result(stage.document, stage.completion, revision, text, path)


def _stages(tree: Tree, count: int, lines: Mapping[Path, int]) -> list[_Stage]:
    """Check the body of the file, then the body with each revision's changes upon the last."""
    current: Tree = {key: plain_copy(value) for key, value in tree.items()}
    origins: dict[Path, Path] = {}
    stages = [_check(current, lines, origins)]
    for place in range(count):
        broken = apply_changes(current, changes_of(tree, place), origins)
        stage = _check(current, lines, origins)
        for fault in broken:
            line = line_of(lines, fault.stands_at)
            stage.faults.append(Fault(path_text(fault.stands_at), fault.message, line))
        stages.append(stage)
    return stages


def _name_faults(names: list[str], revision: str | None, lines: Mapping[Path, int]) -> list[Fault]:
    """A revision that is asked for exists, and each name stands once."""
    faults = []
    for place, name in enumerate(names):
        if name and name in names[:place]:
            path: Path = ("revision", place, "name")
            message = f"Name of revision '{name}' must stand once in the file."
            faults.append(Fault(path_text(path), message, line_of(lines, path)))
    if revision is not None and revision not in names:
        message = f"Revision '{revision}' does not stand in the file."
        hint = nearest_hint(revision, names) if names else "the file has no revisions"
        faults.append(Fault("revision", message, None, hint))
    return faults


def _check(tree: Tree, lines: Mapping[Path, int], origins: Mapping[Path, Path]) -> _Stage:
    """Complete `tree`, hold it against the schema, and look for contradictions."""

    def line(path: Path) -> int | None:
        for length in range(len(path), 0, -1):
            if path[:length] in origins:
                return line_of(lines, (*origins[path[:length]], *path[length:]))
        for length in range(len(path), 0, -1):
            if path[:length] in lines:
                return lines[path[:length]]
            below = [at for changed, at in origins.items() if changed[:length] == path[:length]]
            if below:  # a table that only a revision makes
                return line_of(lines, below[0])
        return None

    completion = complete(tree)
    faults: list[Fault] = []
    document = None
    try:
        document = Document.model_validate(_frozen(completion.tree))
    except ValidationError as error:
        faults += schema_faults(error, completion, line)
    for finding in contradictions(completion):
        place = path_text(finding.path)
        faults.append(Fault(place, finding.message, line(finding.path), finding.hint))
    return _Stage(document, completion, faults)


def complete(tree: Tree) -> Completion:
    """Return `tree` with everything filled in that the maker may leave out."""
    completion = Completion(tree)
    completion.make_tables()
    fill_class(completion)  # a known class beats the table of defaults
    completion.take_defaults()
    # Tubes first, since pitches follow from them; the rest of the shop's knowledge last, since
    # it hangs on kinds and bonds that are filled in between.
    for step in (
        fill_tubes,
        fill_vessel,
        *COMPUTED,
        *SHOP,
        fill_layers,
        fill_gasket,
        fill_product,
    ):
        step(completion)
    return completion


def _frozen(value: object) -> object:
    """Return `value` with every list as a tuple, since a build never changes."""
    if isinstance(value, dict):
        return {key: _frozen(item) for key, item in value.items()}
    if isinstance(value, list):
        return tuple(_frozen(item) for item in value)
    return value


def _result(
    document: Document,
    completion: Completion,
    revision: str | None,
    text: str,
    path: FilePath | None,
) -> Build:
    quantities = dict(walk(document))
    assumed = []
    for place, source in completion.sources.items():
        quantity = quantities.get(place)
        shown = str(lookup(completion.tree, place) or FIND)
        assumed.append(
            Assumed(
                field=path_text(place),
                text=quantity.text if quantity else shown,
                value_SI=quantity.value if quantity else None,
                kind=quantity.kind if quantity else None,
                standard_uncertainty=quantity.standard_uncertainty if quantity else None,
                source=source,
            )
        )
    usual = tuple(
        path_text(place)
        for place, quantity in quantities.items()
        if quantity.standard_uncertainty > 0.0 and not states_uncertainty(quantity.text)
    )
    remarks = tuple(
        Notice("doubtful_number", "info", f"{spoken(place, {})}: {quantity.remark}.", "build file")
        for place, quantity in quantities.items()
        if quantity.remark
    )
    return Build(document, revision, tuple(assumed), usual, remarks, text, path)
