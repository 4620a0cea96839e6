"""Build files that stay as they are, so that the starters may be tuned. Invented figures."""

from pathlib import Path


def build_text(name: str) -> str:
    """The text of the build file `name`."""
    return (Path(__file__).parent / f"{name}.toml").read_text(encoding="utf-8")
