"""What it costs to import the package, against an import of SciPy's splines alone."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator

from benchmarks.timing import Row, best, row


def import_rows() -> Iterator[Row]:
    """Whole runs of the interpreter, less one that imports nothing."""
    empty = _run("pass")
    reference = _run("import scipy.interpolate") - empty
    for module in ("coldwright", "coldwright.fluids.refrigerants", "coldwright.verdict.assess"):
        time = _run(f"import {module}") - empty
        yield row(f"import {module}", max(time, 1e-6), "import scipy.interpolate", reference)


def _run(statement: str) -> float:
    command = [sys.executable, "-c", statement]
    return best(lambda: subprocess.run(command, check=True))
