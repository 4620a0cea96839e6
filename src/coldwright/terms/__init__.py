"""The one glossary: every entry of a build file with its name, meaning, kind and bounds.

Forms, reference pages and messages are views of it.
"""

from coldwright.terms.glossary import Term, check, read, term, terms

__all__ = ["Term", "check", "read", "term", "terms"]
