"""From a form that was sent to the edit that it means."""

from __future__ import annotations

from collections.abc import Mapping

from coldwright.build.editing import Edit
from coldwright.web.forms.entry import Entry
from coldwright.web.forms.form import Form

ROW = "row"
LONGEST_TEXT = 20_000


def edit_of(sent: Mapping[str, str], form: Form) -> Edit:
    """What is different from what `form` showed; a field not touched is not part of it.

    The button `row` adds a row to a list (`add:cabinet.layers`) or takes one out
    (`remove:cabinet.layers[2]`).
    """
    changes = {}
    for name, entry in form.entries.items():
        if name in sent:
            text = cleaned(sent[name])
            if text != cleaned(entry.shown):
                changes[name] = text
    word, _, path = sent.get(ROW, "").partition(":")
    return Edit(
        changes,
        add=path if word == "add" else "",
        remove=path if word == "remove" else "",
    )


def cleaned(text: str) -> str:
    """A text as it is kept: one kind of line end, nothing around it."""
    return text.replace("\r\n", "\n").strip()[:LONGEST_TEXT]


def what_was_done(edit: Edit, entries: Mapping[str, Entry]) -> str:
    """The edit in a few words, for the list of steps."""
    parts = [
        f"{entries[name].label}: {entries[name].shown or 'assumed'} to {text or 'assumed'}"
        for name, text in edit.changes.items()
        if name in entries
    ]
    if edit.add:
        parts.append(f"row added to {edit.add}")
    if edit.remove:
        parts.append(f"{edit.remove} taken out")
    return "; ".join(parts)[:200] or "no change"
