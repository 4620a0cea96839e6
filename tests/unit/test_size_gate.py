"""The size gate counts what it says it counts."""

import ast
import importlib.util
from pathlib import Path

import pytest

TOOL = Path(__file__).resolve().parents[2] / "tools" / "size_gate.py"


@pytest.fixture(scope="module")
def gate():
    spec = importlib.util.spec_from_file_location("size_gate", TOOL)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_functions_are_measured_with_their_decorators_and_named_by_their_class(gate):
    text = "class A:\n    @staticmethod\n    def f():\n        def g():\n            pass\n"
    assert gate.functions(ast.parse(text)) == [("A.f", 4), ("A.f.g", 2)]


def test_long_files_and_functions_are_found(gate, tmp_path):
    body = "    pass\n"
    (tmp_path / "good.py").write_text(f"def f():\n{body * 59}", encoding="utf-8")
    (tmp_path / "long.py").write_text("x = 1\n" * 401, encoding="utf-8")
    (tmp_path / "deep.py").write_text(f"if True:\n  def f():\n{body * 60}", encoding="utf-8")
    assert gate.too_long(tmp_path) == {
        "deep.py:f": "61 lines, at most 60",
        "long.py": "401 lines, at most 400",
    }


def test_a_listed_reason_passes_and_a_stale_one_fails(gate, tmp_path, monkeypatch, capsys):
    (tmp_path / "long.py").write_text("x = 1\n" * 401, encoding="utf-8")
    monkeypatch.setattr(gate, "SOURCE", tmp_path)
    assert gate.main() == 1
    monkeypatch.setattr(gate, "REASONS", {"long.py": "one table"})
    assert gate.main() == 0
    monkeypatch.setattr(gate, "REASONS", {"long.py": "one table", "gone.py": "none"})
    assert gate.main() == 1
    assert "gone.py: listed, but no longer too long" in capsys.readouterr().err
