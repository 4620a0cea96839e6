"""The kinds of field of a build file: a measured quantity, a name from the shop, free text.

A field is written `Annotated[Quantity, known("capillary.bore", "0.031 in")]`: the glossary's key
and an example; or `local(...)` with kind, bounds and meaning where the glossary has no such entry.
Checks, messages and the key table are all read from it.
"""

from __future__ import annotations

import datetime
import difflib
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Annotated

from pydantic import BaseModel, BeforeValidator, ConfigDict, GetCoreSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from coldwright.errors import Fault, InputError
from coldwright.terms import Term, read, term
from coldwright.units import Kind, Quantity, parse_quantity

MEASURE_FAULT = "measure"
NAME_FAULT = "unknown_name"


class Section(BaseModel):
    """A table of the build file: every key known, every type exact, nothing changes afterwards."""

    model_config = ConfigDict(
        strict=True, extra="forbid", frozen=True, arbitrary_types_allowed=True, allow_inf_nan=False
    )


@dataclass(frozen=True)
class Measure:
    """A quantity that `term` describes; `registered` when the term stands in the glossary."""

    term: Term
    example: str
    registered: bool = True

    def read(self, value: object, *, subject: str, field: str = "") -> Quantity:
        """Return `value` as a quantity. Raises InputError with one sentence about `subject`.

        Where the maker wrote no uncertainty, the usual one of the term is filled in.
        """
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            what = "true or false" if isinstance(value, bool) else "a list, table or date"
            message = f"{subject} must be {self._described()}; received {what}."
            raise InputError(Fault(field, message))
        if self.registered:
            quantity = read(self.term.key, value, field=field, subject=subject)
        else:
            quantity = parse_quantity(value, self.term.kind, field=field, subject=subject)
            if not self.term.accepts(quantity.value):
                demand = self.term.bounds_text() or "finite"
                message = f"{subject} must be {demand}; received '{quantity.text}'."
                hint = f"it is the {self.term.meaning}, such as {self.example}"
                raise InputError(Fault(field, message, None, hint))
        if states_uncertainty(value):
            return quantity
        return replace(quantity, standard_uncertainty=self.term.usual(quantity.value))

    def _described(self) -> str:
        return f'text such as "{self.example}"'

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Check by `read`; a fault is put into words later, when the place in the file is known."""
        del source, handler

        def check(value: object) -> Quantity:
            try:
                return self.read(value, subject="The value")
            except InputError:
                raise PydanticCustomError(MEASURE_FAULT, "{measure}", {"measure": self}) from None

        return core_schema.no_info_plain_validator_function(check)


def states_uncertainty(value: object) -> bool:
    """Whether the maker wrote how sure the value is."""
    return isinstance(value, str) and ("±" in value or "+/-" in value or "+-" in value)


def known(key: str, example: str) -> Measure:
    """Return a field that the glossary describes under `key`."""
    return Measure(term(key), example)


def local(
    kind: str,
    least: float,
    greatest: float,
    example: str,
    meaning: str,
    *,
    above: bool = False,
    usual: float = 0.0,
    usual_relative: float = 0.0,
) -> Measure:
    """Return a field with bounds of its own [SI]; `above` shuts `least` itself out."""
    entry = Term(
        key="",
        name=meaning[:1].upper() + meaning[1:],
        meaning=meaning,
        kind=Kind(kind),
        least=least,
        greatest=greatest,
        least_excluded=above,
        usual_uncertainty=usual,
        usual_relative_uncertainty=usual_relative,
    )
    return Measure(entry, example, registered=False)


@dataclass(frozen=True)
class Text:
    """Free text, a fixed choice or a plain table: only its meaning and an example are kept."""

    example: str
    meaning: str


@dataclass(frozen=True)
class Named:
    """A name out of a list that the shop or the fluids keep; `what` is what the names are of.

    `canonical` returns the name as the list spells it and raises InputError for an unknown one.
    """

    what: str
    canonical: Callable[[str], str]
    names: Callable[[], Sequence[str]]
    example: str
    meaning: str

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Check the name against the list and say which names are near."""
        inner = handler(source)

        def check(value: object) -> object:
            if not isinstance(value, str):
                return value
            try:
                return self.canonical(value)
            except InputError:
                context = {"what": self.what, "hint": nearest_hint(value, tuple(self.names()))}
                raise PydanticCustomError(NAME_FAULT, "{what}", context) from None

        return core_schema.no_info_before_validator_function(check, inner)


def nearest_hint(given: str, names: Sequence[str], *, shown: int = 8) -> str:
    """Return `did you mean 'x'?`, or the first names when none is near."""
    folded: dict[str, str] = {}
    for name in names:
        folded.setdefault(name.casefold(), name)
    near = difflib.get_close_matches(given.casefold(), list(folded), n=2, cutoff=0.6)
    if near:
        return f"did you mean {' or '.join(repr(folded[name]) for name in near)}?"
    listed = ", ".join(list(names)[:shown])
    return f"known: {listed}{', ...' if len(names) > shown else ''}"


def _no_flag(value: object) -> object:
    """Keep true and false from passing as 1 and 0."""
    return ("true" if value else "false") if isinstance(value, bool) else value


NotAFlag = BeforeValidator(_no_flag)


def _date_text(value: object) -> object:
    if isinstance(value, datetime.datetime):
        return value.date().isoformat()
    return value.isoformat() if isinstance(value, datetime.date) else value


DateText = Annotated[str, BeforeValidator(_date_text)]
