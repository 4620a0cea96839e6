"""The samples on disk: kept, mended, and never in the way; unknown names answered."""

import os
import stat

import numpy as np
import pytest

from coldwright.errors import InputError, unknown_name
from coldwright.fluids import refrigerant_tables as tables
from coldwright.fluids import table_cache
from coldwright.fluids.refrigerants import refrigerant, refrigerant_names


@pytest.fixture
def made():
    """Small stand-ins for real samples: the cache does not look inside."""
    return tables.Samples(
        molar_mass=0.1,
        critical_temperature=400.0,
        critical_pressure=4e6,
        temperature=np.linspace(210.0, 390.0, 5),
        saturation=np.arange(10.0).reshape(5, 2),
        log_pressure=np.linspace(11.0, 15.0, 4),
        superheat=np.linspace(0.0, 100.0, 3),
        vapour=np.arange(24.0).reshape(4, 3, 2),
    )


@pytest.fixture
def sampled(monkeypatch, tmp_path, made):
    """Count how often the samples are made, with the cache in a folder of its own."""
    calls = []

    def stand_in(name):
        calls.append(name)
        return made

    monkeypatch.setenv("COLDWRIGHT_CACHE", str(tmp_path / "cache"))
    monkeypatch.setattr(tables, "_sample", stand_in)
    return calls


def equal(one, other):
    return all(np.array_equal(a, vars(other)[key]) for key, a in vars(one).items())


def test_folder_is_chosen_by_the_environment(monkeypatch, tmp_path):
    monkeypatch.setenv("COLDWRIGHT_CACHE", str(tmp_path))
    assert table_cache.cache_folder() == tmp_path
    monkeypatch.delenv("COLDWRIGHT_CACHE")
    assert table_cache.cache_folder().name == "coldwright"


def test_made_once_then_read(sampled, made):
    assert equal(tables.samples("R152a"), made)
    assert equal(tables.samples("R152a"), made)
    assert sampled == ["R152a"]
    (file,) = table_cache.cache_folder().iterdir()
    # The name tells what the samples depend on.
    assert file.name.startswith("R152a-coolprop-")
    assert f"table-{tables.TABLE_VERSION}" in file.name


@pytest.mark.parametrize("damage", [b"", b"not an archive", b"PK\x03\x04 cut off"])
def test_a_damaged_file_is_made_again(sampled, made, damage):
    tables.samples("R134a")
    (file,) = table_cache.cache_folder().iterdir()
    file.write_bytes(damage)
    assert equal(tables.samples("R134a"), made)
    assert sampled == ["R134a"] * 2
    assert equal(tables.samples("R134a"), made)
    assert len(sampled) == 2


def test_a_file_cut_short_is_made_again(sampled, made):
    tables.samples("R134a")
    (file,) = table_cache.cache_folder().iterdir()
    whole = file.read_bytes()
    file.write_bytes(whole[: len(whole) // 2])
    assert equal(tables.samples("R134a"), made)
    assert len(sampled) == 2


def test_a_file_with_a_part_missing_is_made_again(sampled, made):
    tables.samples("R134a")
    (file,) = table_cache.cache_folder().iterdir()
    with file.open("wb") as stream:
        np.savez(stream, molar_mass=0.1)
    assert equal(tables.samples("R134a"), made)
    assert len(sampled) == 2


def test_a_folder_that_cannot_be_written_is_no_fault(sampled, made, monkeypatch, tmp_path):
    # A file where the folder should be: stands for any place that cannot be written, for root too.
    blocked = tmp_path / "blocked"
    blocked.write_text("in the way")
    monkeypatch.setenv("COLDWRIGHT_CACHE", str(blocked))
    assert equal(tables.samples("R600a"), made)
    assert equal(tables.samples("R600a"), made)
    assert len(sampled) == 2


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_read_only_folder_is_no_fault(sampled, made, monkeypatch, tmp_path):
    locked = tmp_path / "locked"
    locked.mkdir()
    locked.chmod(stat.S_IRUSR | stat.S_IXUSR)
    monkeypatch.setenv("COLDWRIGHT_CACHE", str(locked))
    assert equal(tables.samples("R600a"), made)


def test_a_write_that_fails_half_way_leaves_nothing(sampled, made, monkeypatch):
    def breaks(*_, **__):
        raise OSError("disk full")

    monkeypatch.setattr(tables.np, "savez", breaks)
    assert equal(tables.samples("R290"), made)
    assert list(table_cache.cache_folder().iterdir()) == []


def test_the_place_of_a_file_is_only_ever_a_whole_one(sampled, monkeypatch):
    """The final name appears by renaming alone: no reader can meet half a file."""
    seen = []
    whole = tables.np.savez

    def watched(stream, **arrays):
        seen.append([p.name for p in table_cache.cache_folder().iterdir() if p.suffix == ".npz"])
        whole(stream, **arrays)
        seen.append([p.name for p in table_cache.cache_folder().iterdir() if p.suffix == ".npz"])

    monkeypatch.setattr(tables.np, "savez", watched)
    tables.samples("R290")
    assert seen == [[], []]
    assert [p.suffix for p in table_cache.cache_folder().iterdir()] == [".npz"]


@pytest.mark.parametrize(
    ("wrong", "near"),
    [("R152A", "R152a"), ("R143a", "R134a"), ("R-600a", "R600a"), ("152", "R152a")],
)
def test_unknown_refrigerant_names_the_nearest(wrong, near):
    with pytest.raises(InputError) as error:
        refrigerant(wrong)
    (fault,) = error.value.faults
    assert fault.field == "refrigerant.name"
    assert f"received '{wrong}'" in fault.message
    assert near in fault.hint
    for name in refrigerant_names():
        assert name in fault.message


def test_a_refrigerant_is_made_once():
    assert refrigerant("R152a") is refrigerant("R152a")


def test_unknown_name_counts_a_long_list():
    known = [f"part {i}" for i in range(40)]
    (fault,) = unknown_name("a.b", "Part", "part 400", known).faults
    assert "one of 40 known names" in fault.message
    assert "part 4" in fault.hint
    (fault,) = unknown_name("a.b", "Part", "zzz", ["one", "two"]).faults
    assert fault.hint == "Nearest: one, two."
    assert str(fault) == "Part must be one of one, two; received 'zzz'. (Nearest: one, two.)"
