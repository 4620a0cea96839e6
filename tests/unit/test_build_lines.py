from __future__ import annotations

import tomllib

from coldwright.build.lines import line_index, line_of

TEXT = '''\
# a comment with [brackets] and "quotes"
top = 1
dotted.key.here = "x # no comment"

[table] # behind
a = """
many
lines = 5 ""\\"""
"""
b = [
    1, # first
    { x = 1, y = [2,
      3] },
]
'quoted key' = 'its'
"a.b" = 2

[[list]]
name = "one"
[list.sub]
deep = 1
[[list]]
name = "two"
[list.sub]
deep = 2
[[list.inner]]
z = 1
[[list.inner]]
z = 2
'''


def test_lines_of_every_kind_of_key():
    assert tomllib.loads(TEXT)["list"][1]["inner"][1]["z"] == 2
    index = line_index(TEXT)
    lines = TEXT.split("\n")

    def at(*path):
        return lines[index[path] - 1].strip()

    assert at("top") == "top = 1"
    assert at("dotted", "key", "here").startswith("dotted.key")
    assert at("dotted").startswith("dotted.key")
    assert at("table").startswith("[table]")
    assert at("table", "a") == 'a = """'
    assert ("table", "lines") not in index
    assert at("table", "b", 0) == "1, # first"
    assert at("table", "b", 1, "x").startswith("{ x = 1")
    assert at("table", "b", 1, "y", 1) == "3] },"
    assert at("table", "quoted key").startswith("'quoted key'")
    assert at("table", "a.b") == '"a.b" = 2'
    assert at("list", 0, "name") == 'name = "one"'
    assert at("list", 0, "sub", "deep") == "deep = 1"
    assert at("list", 1, "sub", "deep") == "deep = 2"
    assert at("list", 1, "inner", 1, "z") == "z = 2"


def test_missing_key_has_the_line_of_the_table_around_it():
    index = line_index("a = 1\n[b.c]\nd = 2\n")
    assert line_of(index, ("b", "c", "missing", "deeper")) == 2
    assert line_of(index, ("nowhere",)) is None


def test_text_that_is_no_toml_gives_fewer_lines_and_no_failure():
    assert line_index('a = 1\nb = "never closed\n')["a",] == 1
    for text in (
        "",
        "[",
        "[[",
        "= 3",
        "a = [1, [2",
        "a = {b = ",
        '"',
        "a",
        "\x00",
        "]]]",
        "a = '''",
    ):
        assert isinstance(line_index(text), dict)
