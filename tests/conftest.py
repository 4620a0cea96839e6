"""Markers from the folder a test stands in, and one deterministic hypothesis profile."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

KINDS = ("published", "agreement", "property", "unit", "pinned", "command", "web", "browser")
HERE = Path(__file__).parent

settings.register_profile(
    "coldwright",
    derandomize=True,
    database=None,
    deadline=None,
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("coldwright")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark each test by its folder; a test outside the known folders is a usage error."""
    for item in items:
        if not item.path.is_relative_to(HERE):
            continue
        folder = item.path.relative_to(HERE).parts[0]
        if folder not in KINDS:
            raise pytest.UsageError(
                f"{item.nodeid} stands in no folder of {', '.join(KINDS)}: "
                "a test is sorted by where its expected number comes from"
            )
        item.add_marker(getattr(pytest.mark, folder))
