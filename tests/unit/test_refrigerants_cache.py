"""The tables on disk: kept, mended, shared, never in the way; unknown names answered."""

import os
import stat
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from coldwright import cache_place
from coldwright.errors import InputError, unknown_name
from coldwright.fluids import oils, table_cache
from coldwright.fluids import refrigerant_tables as tables
from coldwright.fluids.grids import Curve, Surface
from coldwright.fluids.oils import oil
from coldwright.fluids.refrigerants import refrigerant, refrigerant_names

SOURCE = Path(tables.__file__).parents[2]


@pytest.fixture
def made():
    """Small stand-ins for real tables: the cache does not look inside."""
    curve = Curve(210.0, 0.5, np.arange(24.0).reshape(3, 2, 4))
    surface = Surface((11.0, 3.0), (0.1, 0.2), np.arange(192.0).reshape(2, 4, 4, 2, 3))
    return tables.Tables(0.1, 400.0, 4e6, 210.0, 398.0, *[curve] * 3, *[surface] * 3)


@pytest.fixture
def sampled(monkeypatch, tmp_path, made):
    """Count how often the tables are made, with the cache in a folder of its own."""
    calls = []
    monkeypatch.setenv("COLDWRIGHT_CACHE", str(tmp_path / "cache"))
    monkeypatch.setattr(tables.nodes, "sample", calls.append)
    monkeypatch.setattr(tables, "fitted", lambda _: made)
    return calls


def equal(one, other):
    arrays = tables.packed(other)
    return all(np.array_equal(a, arrays[key]) for key, a in tables.packed(one).items())


def test_folder_is_chosen_by_the_environment(monkeypatch, tmp_path):
    monkeypatch.setenv("COLDWRIGHT_CACHE", str(tmp_path))
    assert table_cache.cache_folder() == tmp_path
    monkeypatch.delenv("COLDWRIGHT_CACHE")
    assert table_cache.cache_folder().name == "coldwright"


def test_made_once_then_read(sampled, made):
    assert equal(tables.tables("R152a"), made)
    assert equal(tables.tables("R152a"), made)
    assert sampled == ["R152a"]
    (file,) = table_cache.cache_folder().iterdir()
    # The name tells what the samples depend on.
    assert file.name.startswith("R152a-coolprop-")
    assert f"table-{tables.TABLE_VERSION}" in file.name


@pytest.mark.parametrize("damage", [b"", b"not an archive", b"PK\x03\x04 cut off"])
def test_a_damaged_file_is_made_again(sampled, made, damage):
    tables.tables("R134a")
    (file,) = table_cache.cache_folder().iterdir()
    file.write_bytes(damage)
    assert equal(tables.tables("R134a"), made)
    assert sampled == ["R134a"] * 2
    assert equal(tables.tables("R134a"), made)
    assert len(sampled) == 2


def test_a_file_cut_short_is_made_again(sampled, made):
    tables.tables("R134a")
    (file,) = table_cache.cache_folder().iterdir()
    whole = file.read_bytes()
    file.write_bytes(whole[: len(whole) // 2])
    assert equal(tables.tables("R134a"), made)
    assert len(sampled) == 2


def test_a_file_with_a_part_missing_is_made_again(sampled, made):
    tables.tables("R134a")
    (file,) = table_cache.cache_folder().iterdir()
    with file.open("wb") as stream:
        np.savez(stream, molar_mass=0.1)
    assert equal(tables.tables("R134a"), made)
    assert len(sampled) == 2


def test_a_folder_that_cannot_be_written_is_no_fault(sampled, made, monkeypatch, tmp_path):
    # A file where the folder should be: stands for any place that cannot be written, for root too.
    blocked = tmp_path / "blocked"
    blocked.write_text("in the way")
    monkeypatch.setenv("COLDWRIGHT_CACHE", str(blocked))
    assert equal(tables.tables("R600a"), made)
    assert equal(tables.tables("R600a"), made)
    assert len(sampled) == 2


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_read_only_folder_is_no_fault(sampled, made, monkeypatch, tmp_path):
    locked = tmp_path / "locked"
    locked.mkdir()
    locked.chmod(stat.S_IRUSR | stat.S_IXUSR)
    monkeypatch.setenv("COLDWRIGHT_CACHE", str(locked))
    assert equal(tables.tables("R600a"), made)


def test_a_write_that_fails_half_way_leaves_nothing(sampled, made, monkeypatch):
    def breaks(*_, **__):
        raise OSError("disk full")

    monkeypatch.setattr(table_cache.np, "savez", breaks)
    assert equal(tables.tables("R290"), made)
    assert list(table_cache.cache_folder().iterdir()) == []


def test_the_place_of_a_file_is_only_ever_a_whole_one(sampled, monkeypatch):
    """The final name appears by renaming alone: no reader can meet half a file."""
    seen = []
    whole = table_cache.np.savez

    def watched(stream, **arrays):
        seen.append([p.name for p in table_cache.cache_folder().iterdir() if p.suffix == ".npz"])
        whole(stream, **arrays)
        seen.append([p.name for p in table_cache.cache_folder().iterdir() if p.suffix == ".npz"])

    monkeypatch.setattr(table_cache.np, "savez", watched)
    tables.tables("R290")
    assert seen == [[], []]
    assert [p.suffix for p in table_cache.cache_folder().iterdir()] == [".npz"]


def test_a_new_version_is_made_again(sampled, made, monkeypatch):
    tables.tables("R134a")
    monkeypatch.setattr(tables, "TABLE_VERSION", tables.TABLE_VERSION + 1)
    tables.tables("R134a")
    monkeypatch.setattr(table_cache, "version", lambda _: "99.0")
    tables.tables("R134a")
    assert len(sampled) == 3
    assert len(list(table_cache.cache_folder().iterdir())) == 3


def test_other_users_may_read_what_is_kept(sampled):
    tables.tables("R134a")
    (file,) = table_cache.cache_folder().iterdir()
    assert stat.S_IMODE(file.stat().st_mode) == 0o644


def test_a_cache_that_may_only_be_read_is_used(sampled, made, monkeypatch):
    tables.tables("R134a")

    def refused(*_, **__):
        raise PermissionError("read-only")

    # Root may write everywhere, so the refusal is put in its way.
    monkeypatch.setattr(cache_place.tempfile, "mkstemp", refused)
    assert equal(tables.tables("R134a"), made)
    assert sampled == ["R134a"]
    tables.tables("R290")
    tables.tables("R290")
    assert sampled == ["R134a", "R290", "R290"]


def test_real_tables_survive_the_disk(monkeypatch, tmp_path):
    held = refrigerant("R600a")._tables
    monkeypatch.setenv("COLDWRIGHT_CACHE", str(tmp_path))
    file = table_cache.table_file("R600a", tables.TABLE_VERSION)
    table_cache.keep_tables(file, tables.packed(held))
    again = tables.tables("R600a")
    assert equal(again, held)
    assert again.molar_mass == held.molar_mass


def run(script, folder):
    environment = {**os.environ, "COLDWRIGHT_CACHE": str(folder), "PYTHONPATH": str(SOURCE)}
    return subprocess.Popen(
        [sys.executable, "-c", script],
        env=environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


LOOK_UP = """
import sys
from coldwright.fluids.oils import oil
from coldwright.fluids.refrigerants import refrigerant
fluid = refrigerant("R600a")
print(float(fluid.saturation_pressure(260.0)), float(fluid.vapour(5e4, 300.0).density))
print(float(oil("ester").solubility("R600a", 0.2, 320.0)))
print(sorted({"scipy", "CoolProp"} & set(sys.modules)))
"""


def test_two_processes_build_at_once_and_a_third_only_reads(tmp_path):
    folder = tmp_path / "fresh"
    both = [run(LOOK_UP, folder) for _ in range(2)]
    first, second = [process.communicate(timeout=120) for process in both]
    assert [process.returncode for process in both] == [0, 0], (first[1], second[1])
    assert first[0].splitlines()[:2] == second[0].splitlines()[:2]
    names = sorted(file.name for file in folder.iterdir())
    assert [name.split("-coolprop-")[0] for name in names] == ["R600a", "oil-ester-R600a"]
    third = run(LOOK_UP, folder)
    out, err = third.communicate(timeout=60)
    assert third.returncode == 0, err
    assert out.splitlines()[:2] == first[0].splitlines()[:2]
    # With the tables at hand neither library is loaded.
    assert out.splitlines()[2] == "[]"


def test_an_oil_table_of_other_data_is_made_again(monkeypatch, tmp_path):
    monkeypatch.setenv("COLDWRIGHT_CACHE", str(tmp_path))
    made = oils._table.__wrapped__("ester", "R134a")
    (file,) = tmp_path.iterdir()
    held = table_cache.read_tables(file)
    table_cache.keep_tables(file, {**held, "share_coefficients": 2.0 * made.coefficients})
    assert np.array_equal(
        oils._table.__wrapped__("ester", "R134a").coefficients, 2.0 * made.coefficients
    )
    table_cache.keep_tables(file, {**held, "data": held["data"] * 1.01})
    again = oils._table.__wrapped__("ester", "R134a")
    assert np.array_equal(again.coefficients, made.coefficients)
    share = oil("ester").solubility("R134a", np.array([0.0, 0.3]), 320.0)
    assert share[0] == 0.0
    assert share[1] == pytest.approx(0.3 * float(made(np.array(320.0), np.array(0.3))[0]))


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
