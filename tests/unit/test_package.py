"""The public face: cheap to import, names resolved when used."""

import subprocess
import sys

import pytest

import coldwright


def test_importing_the_package_brings_in_nothing_heavy():
    # pint, CoolProp and SciPy take most of a second together.
    script = (
        "import sys, coldwright;"
        "heavy = {'numpy', 'scipy', 'CoolProp', 'pint', 'pydantic', 'typer', 'rich', 'tomlkit'};"
        "print(sorted(heavy & set(sys.modules)))"
    )
    run = subprocess.run(
        [sys.executable, "-c", script],
        capture_output=True,
        text=True,
        check=True,
        env={"PYTHONPATH": ":".join(sys.path)},
    )
    assert run.stdout.strip() == "[]"


def test_unknown_names_are_refused():
    with pytest.raises(AttributeError, match="no attribute 'defrost'"):
        _ = coldwright.defrost


def test_public_names_are_listed_and_resolve():
    assert dir(coldwright) == ["__version__", "assess", "load", "run_day"]
    assert callable(coldwright.load)
    assert callable(coldwright.assess)
    assert callable(coldwright.run_day)
