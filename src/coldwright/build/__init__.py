"""The build file: its schema, faults with their lines, and the plant made from it."""

from coldwright.build.key_table import KeyRow, key_table
from coldwright.build.loading import load, loads, revisions
from coldwright.build.result import Assumed, Build
from coldwright.build.rewriting import add_revision, rewrite, save
from coldwright.build.starter import starter_names, starter_text, write_starter

__all__ = [
    "Assumed",
    "Build",
    "KeyRow",
    "add_revision",
    "key_table",
    "load",
    "loads",
    "revisions",
    "rewrite",
    "save",
    "starter_names",
    "starter_text",
    "write_starter",
]
