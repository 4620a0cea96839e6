"""The registries of sources and correlations."""

import importlib
import pkgutil

import numpy as np
import pytest

import coldwright
from coldwright import sources as registry
from coldwright.sources import LABELS, Source, correlation, range_notices, source, sources


@pytest.fixture
def empty_registry(monkeypatch):
    monkeypatch.setattr(registry, "_correlations", {})


def test_every_source_is_complete():
    assert sources()
    for key, entry in sources().items():
        assert entry.key == key
        assert entry.author or entry.label == "common practice, no source"
        assert entry.title
        assert entry.label in LABELS
        assert entry.citation.endswith(f"[{entry.label}]")


def test_unknown_source():
    with pytest.raises(KeyError):
        source("nobody_1900")


@pytest.mark.parametrize(
    ("entry", "citation"),
    [
        (
            Source("k", "A. Writer", "1999", "On cold", "Journal 1", "read"),
            "A. Writer (1999), On cold, Journal 1 [read]",
        ),
        (
            Source("k", "A. Writer", "", "On cold", "", "from memory"),
            "A. Writer, On cold [from memory]",
        ),
    ],
)
def test_citation(entry, citation):
    assert entry.citation == citation


def fragments(tmp_path, **texts):
    folder = tmp_path / "references"
    folder.mkdir()
    for name, text in texts.items():
        (folder / f"{name}.toml").write_text(text, encoding="utf-8")
    (folder / "note.txt").write_text("no fragment", encoding="utf-8")
    return tmp_path


def test_a_source_that_stands_twice_is_refused(tmp_path, monkeypatch):
    row = '[same]\nauthor = "A"\ntitle = "T"\nlabel = "read"\n'
    root = fragments(tmp_path, one=row, two=row)
    monkeypatch.setattr(registry, "files", lambda _package: root)
    with pytest.raises(ValueError, match="'same' stands twice"):
        sources.__wrapped__()


def test_a_source_without_a_label_is_refused(tmp_path, monkeypatch):
    root = fragments(tmp_path, one='[bare]\nauthor = "A"\ntitle = "T"\n')
    monkeypatch.setattr(registry, "files", lambda _package: root)
    with pytest.raises(ValueError, match="'bare' has no known label"):
        sources.__wrapped__()


@pytest.mark.usefixtures("empty_registry")
def test_registering_leaves_the_function_as_it_is():
    def nusselt(rayleigh):
        return 2.0 * rayleigh

    assert correlation(quantity="Nusselt", source="s", ranges={})(nusselt) is nusselt
    assert registry.correlations()["nusselt"].quantity == "Nusselt"


@pytest.mark.usefixtures("empty_registry")
def test_range_notices_name_the_argument_and_a_value_outside():
    @correlation(quantity="Nusselt number", source="s", ranges={"rayleigh": (1e3, 1e9)})
    def nusselt(rayleigh, prandtl):
        return rayleigh + prandtl

    assert range_notices("nusselt", rayleigh=1e3, prandtl=-1.0) == ()
    assert range_notices("nusselt", rayleigh=np.array([1e4, 1e9])) == ()
    (notice,) = range_notices("nusselt", rayleigh=np.array([1e4, 2e9, 1e5]))
    assert notice.code == "correlation_range"
    assert notice.severity == "info"
    assert notice.source == "s"
    assert notice.text == (
        "Nusselt number: rayleigh 2e+09 lies outside the fitted range 1000 to 1e+09; "
        "the value is extrapolated."
    )


def test_every_correlation_names_a_known_source():
    for layer in ("fluids", "heat", "parts", "plant", "shop"):
        package = importlib.import_module(f"coldwright.{layer}")
        for module in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            importlib.import_module(module.name)
    for name, record in registry.correlations().items():
        assert record.source in sources(), name
        assert record.quantity, name
        for least, greatest in record.ranges.values():
            assert least < greatest, name


def test_the_package_tells_its_version():
    assert coldwright.__version__ == "0.1.0"
