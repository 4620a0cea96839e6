"""A build at the board: the text that a page shows, and its place among the steps."""

from __future__ import annotations

import datetime
import re
from dataclasses import dataclass
from functools import lru_cache
from urllib.parse import quote, urlencode

from coldwright.build import Build, loads
from coldwright.build.completion import Completion
from coldwright.build.editing import tree_at
from coldwright.build.loading import complete
from coldwright.build.paths import Tree
from coldwright.build.revisions import revision_names
from coldwright.errors import Fault, InputError
from coldwright.units import System
from coldwright.web.drafts import Drafts, Step
from coldwright.web.folder import Folder, NotThereError, version_of

VERSION = re.compile(r"^[0-9a-f]{12}$")


@dataclass(frozen=True)
class Asked:
    """What a page's address says beside the build's name."""

    step: str = ""  # empty: the file as it is
    version: str = ""  # of the file that the step goes back to; empty: the file as it is
    revision: str = ""  # empty: as built
    units: str = ""  # shop or si; empty: as the build says


@dataclass(frozen=True)
class Read:
    """A text as far as it can be read: its tree completed, the build if sound, or its faults."""

    tree: Tree  # as written, with the revision's changes; empty where the text is no TOML
    completion: Completion | None
    revisions: tuple[str, ...]
    build: Build | None
    faults: tuple[Fault, ...]


@lru_cache(maxsize=24)
def read_build(text: str, revision: str | None) -> Read:
    """Read `text` at `revision`; every fault is in the answer, none is raised."""
    try:
        tree = tree_at(text, revision)
    except InputError as error:
        return Read({}, None, (), None, error.faults)
    names = tuple(name for name in revision_names(tree) if name)
    try:
        completion = complete(tree)
        return Read(tree, completion, names, loads(text, revision=revision), ())
    except InputError as error:
        return Read(tree, completion, names, None, error.faults)


@dataclass(frozen=True)
class Board:
    """One build as one tab sees it."""

    name: str
    step: Step
    version: str  # of the file that this tab knows
    file_version: str  # of the file as it is now
    revision: str | None
    system: System
    read: Read
    back: Step | None
    forward: Step | None
    date: str  # of the file

    @property
    def text(self) -> str:
        """The text that is worked on."""
        return self.step.text

    @property
    def build(self) -> Build | None:
        """The build, where the text is sound."""
        return self.read.build

    @property
    def is_saved(self) -> bool:
        """Whether the file holds exactly this text."""
        return version_of(self.text) == self.file_version

    @property
    def is_overtaken(self) -> bool:
        """Whether somebody else has changed the file since."""
        return self.version != self.file_version and not self.is_saved

    @property
    def title(self) -> str:
        """The box's own name, or the file's."""
        given = self.read.tree.get("name")
        return given if isinstance(given, str) and given else self.name

    def link(self, page: str = "", /, **changed: str) -> str:
        """The address of a page of this build that goes on from here."""
        return link(self.name, page, **{**self.asked, **changed})

    @property
    def asked(self) -> dict[str, str]:
        """What the address of this board says, leaving out what is plain."""
        return {
            "w": "" if self.step.name == self.file_version else self.step.name,
            "v": self.version,
            "rev": self.revision or "",
        }


def link(name: str, page: str = "", /, **asked: str) -> str:
    """The address of a page of the build `name`."""
    words = urlencode({key: value for key, value in asked.items() if value})
    path = f"/b/{quote(name)}" + (f"/{page}" if page else "")
    return f"{path}?{words}" if words else path


def open_board(folder: Folder, drafts: Drafts, name: str, asked: Asked) -> Board:
    """The board that an address asks for.

    Raises NotThereError for a build, step or revision that is not there, FileFault for a file that
    cannot be read.
    """
    current = folder.read(name)
    root = drafts.begin(name, current)
    step = root
    if asked.step:
        found = drafts.step(name, asked.step)
        if found is None:
            raise NotThereError(
                "This step is no longer kept. The build file itself is as it was last saved."
            )
        step = found
    revision = asked.revision or None
    if revision is not None and revision not in read_build(step.text, None).revisions:
        if not asked.step:
            raise NotThereError(f"This build has no revision '{revision}'.")
        revision = None  # undone up to before it was begun
    read = read_build(step.text, revision)
    units = asked.units if asked.units in ("shop", "si") else _units_of(read)
    return Board(
        name=name,
        step=step,
        version=asked.version if VERSION.match(asked.version) else root.name,
        file_version=root.name,
        revision=revision,
        system="shop" if units == "shop" else "si",
        read=read,
        back=drafts.before(name, step),
        forward=drafts.after(name, step),
        date=_date_of(folder, name),
    )


def _date_of(folder: Folder, name: str) -> str:
    changed = datetime.datetime.fromtimestamp(folder.path(name).stat().st_mtime)
    return f"{changed.day} {changed:%b %Y}"


def _units_of(read: Read) -> str:
    completed = read.completion.tree if read.completion is not None else {}
    return str(completed.get("units", "shop"))
