from __future__ import annotations

import pytest

from coldwright.build import load, loads
from coldwright.errors import FileFault
from support.builds import build_text


def fault_of(path):
    with pytest.raises(FileFault) as caught:
        load(path)
    assert len(caught.value.faults) == 1
    return caught.value.faults[0]


def test_missing_file(tmp_path):
    fault = fault_of(tmp_path / "none.toml")
    assert "none.toml' does not exist." in fault.message
    assert "starter" in fault.hint


def test_folder(tmp_path):
    assert "is a folder" in fault_of(tmp_path).message


def test_name_that_no_system_takes():
    assert "cannot be read" in fault_of("box\x00.toml").message


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"", "is empty"),
        (b" \n\t\r\n", "is empty"),
        (b"\xef\xbb\xbf", "is empty"),
        (b"format = 1\nname = \xff\xfe\n", "not UTF-8"),
        (b"\x7fELF\x02\x01\x01\x00", "not valid TOML"),
        (b"\x89PNG\r\n\x1a\n", "not UTF-8"),
        ("format = 1".encode("utf-16"), "not UTF-8"),
        (b"a = 1\n" * 200_000, "larger than 1 MB"),
        (b"a = " + b"[" * 40 + b"]" * 40, "nested too deeply"),
        (b"a = " + b"[" * 100_000, "nested too deeply"),
        (b"a." * 40 + b"b = 1", "nested too deeply"),
        (b"a = " + b"1" * 5000, "cannot be read"),
        (b"day = 2026-02-31", "TOML"),
    ],
)
def test_files_that_are_no_build_files(tmp_path, data, message):
    path = tmp_path / "box.toml"
    path.write_bytes(data)
    assert message in fault_of(path).message


def test_malformed_toml_says_where():
    for text, line, column in (
        ("format = 1\nname = Larder\n", 2, "column 8"),
        ('format = 1\n\n[site\nx = "1"\n', 3, "column 6"),
        ('format = 1\nname = "a"\nname = "b"\n', 3, "column 11"),
    ):
        with pytest.raises(FileFault) as caught:
            loads(text)
        fault = caught.value.faults[0]
        assert fault.line == line
        assert column in fault.message


def test_unfinished_text_names_its_last_line():
    with pytest.raises(FileFault) as caught:
        loads("format = 1\nlist = [1,\n2,\n")
    assert caught.value.faults[0].line == 3


def test_line_of_a_byte_that_is_no_text(tmp_path):
    path = tmp_path / "box.toml"
    path.write_bytes(b"format = 1\nname = 'caf\xe9'\n")
    assert fault_of(path).line == 2


def test_unreadable_file(tmp_path, monkeypatch):
    path = tmp_path / "box.toml"
    path.write_text(build_text("larder"), encoding="utf-8")

    def refuse(*_args, **_kwargs):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("pathlib.Path.open", refuse)
    assert "cannot be read: Permission denied" in fault_of(path).message
