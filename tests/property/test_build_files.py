from __future__ import annotations

import tomllib

from hypothesis import given, settings
from hypothesis import strategies as st

from coldwright.build import Build, loads, rewrite, starter_names, starter_text
from coldwright.build.lines import line_index
from coldwright.build.paths import parse_path, path_text
from coldwright.errors import Fault, InputError

TEXTS = {name: starter_text(name) for name in starter_names()}


def entries(tree: object, path: tuple[str | int, ...] = ()) -> dict[tuple[str | int, ...], object]:
    """Every plain value of a TOML tree by its path."""
    if isinstance(tree, dict):
        pairs = list(tree.items())
    elif isinstance(tree, list):
        pairs = list(enumerate(tree))
    else:
        return {path: tree}
    return {at: value for key, item in pairs for at, value in entries(item, (*path, key)).items()}


def read(text: str) -> Build | tuple[Fault, ...]:
    """What a text gives: a build or its faults (never none); any other exception passes."""
    try:
        return loads(text)
    except InputError as error:
        return error.faults


# Texts of the body; the revisions' own keys are dotted and are changed by hand.
TARGETS = [
    (name, path)
    for name, text in TEXTS.items()
    for path, value in entries(tomllib.loads(text)).items()
    if isinstance(value, str) and path[0] != "revision"
]


@given(st.sampled_from(TARGETS), st.text(min_size=1, max_size=20))
def test_rewriting_one_entry_leaves_every_other_and_every_comment(target, value):
    name, path = target
    text = TEXTS[name]
    new = rewrite(text, {path_text(path): value})
    before, after = entries(tomllib.loads(text)), entries(tomllib.loads(new))
    before[path] = value
    assert after == before
    comments = [line[line.index("#") :] for line in text.split("\n") if "#" in line]
    position = 0
    for comment in comments:
        position = new.index(comment, position) + len(comment)


@settings(max_examples=80)
@given(
    st.sampled_from(sorted(TEXTS)),
    st.floats(0.0, 1.0, exclude_max=True),
    st.one_of(st.just(""), st.characters(), st.sampled_from('"[]{}=.#\n0-°"')),
    st.booleans(),
)
def test_one_wrong_character_gives_a_build_or_a_plain_fault(name, where, letter, insert):
    text = TEXTS[name]
    place = int(where * len(text))
    damaged = text[:place] + letter + text[place + (0 if insert else 1) :]
    outcome = read(damaged)
    if not isinstance(outcome, Build):
        count = damaged.count("\n") + 1
        for fault in outcome:
            assert fault.message.endswith(".")
            assert fault.line is None or 1 <= fault.line <= count


@settings(max_examples=40)
@given(
    st.sampled_from(TARGETS),
    st.one_of(
        st.sampled_from(["nan", "inf", "-inf", "true", "[]", "{}", "1e308", "-0.0", "1979-05-27"]),
        st.sampled_from(['""', '"0"', '"nan m"', '"1e400 m"', '"-5 °C"', '"5 ± -1 m"', '"± mm"']),
    ),
)
def test_a_value_of_any_type_gives_a_build_or_a_plain_fault(target, value):
    name, path = target
    lines = TEXTS[name].split("\n")
    row = line_index(TEXTS[name])[path] - 1
    key, _, _ = lines[row].partition("=")
    lines[row] = f"{key}= {value}"
    assert read("\n".join(lines))


@given(st.text(max_size=200))
def test_any_text_gives_a_build_or_a_plain_fault(text):
    assert read(text)
    assert isinstance(line_index(text), dict)


@given(st.sampled_from(TARGETS))
def test_paths_survive_the_way_to_text_and_back(target):
    name, path = target
    assert parse_path(path_text(path), tomllib.loads(TEXTS[name])) == path
    assert path in line_index(TEXTS[name])
