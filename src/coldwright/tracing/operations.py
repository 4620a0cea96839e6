"""The elementwise operations of a graph as instructions."""

from __future__ import annotations

from coldwright.tracing.graph import Node
from coldwright.tracing.reader import Reader

INSTRUCTIONS = {
    "add": "fadd contract",
    "subtract": "fsub contract",
    "multiply": "fmul contract",
    "divide": "fdiv arcp contract",
    "less": "fcmp olt",
    "less_equal": "fcmp ole",
    "greater": "fcmp ogt",
    "greater_equal": "fcmp oge",
    "equal": "fcmp oeq",
    "not_equal": "fcmp une",
}
CALLS = {
    "exp": "exp",
    "expm1": "expm1",
    "log": "log",
    "log1p": "log1p",
    "log10": "log10",
    "tanh": "tanh",
    "arctan": "atan",
    "arccos": "acos",
    "arcsin": "asin",
    "sin": "sin",
    "cos": "cos",
    "power": "pow",
    "sqrt": "llvm.sqrt.f64",
    "absolute": "llvm.fabs.f64",
    "floor": "llvm.floor.f64",
    "truncate": "llvm.trunc.f64",
}
# Which of two is kept.
GREATER = {"maximum": "ogt", "minimum": "olt"}
# Of the calls, those that have a form for loops, which then run on whole vectors.
IN_LOOPS = {"exp": "lane.exp", "log": "lane.log", "power": "lane.pow"}


class Operations(Reader):
    """Writes the operation that makes a value."""

    def _float(self, node: int, point: str | None) -> str:
        register = self._read(node, point)
        if self.graph.nodes[node].is_bool:
            return self._write(f"uitofp i1 {register} to double")
        return register

    def _computed(self, node: int, point: str | None) -> str:
        """Register of an elementwise node."""
        held = self.graph.nodes[node]
        special = {
            "and": self._logical,
            "or": self._logical,
            "not": self._logical,
            "where": self._where,
            "entry": self._table_entry,
            "interpolated": self._interpolated,
        }.get(held.op)
        if special is not None:
            return special(held, point)
        args = [self._float(arg, point) for arg in held.args]
        if held.op in INSTRUCTIONS:
            return self._write(f"{INSTRUCTIONS[held.op]} double {args[0]}, {args[1]}")
        if held.op == "negative":
            return self._write(f"fneg double {args[0]}")
        if held.op in GREATER:
            test = self._write(f"fcmp {GREATER[held.op]} double {args[0]}, {args[1]}")
            return self._write(f"select i1 {test}, double {args[0]}, double {args[1]}")
        given = ", ".join(f"double {arg}" for arg in args)
        name = CALLS[held.op] if point is None else IN_LOOPS.get(held.op, CALLS[held.op])
        return self._write(f"call double @{name}({given})")

    def _logical(self, held: Node, point: str | None) -> str:
        args = [self._read(arg, point) for arg in held.args]
        if held.op == "not":
            return self._write(f"xor i1 {args[0]}, true")
        return self._write(f"{held.op} i1 {args[0]}, {args[1]}")

    def _where(self, held: Node, point: str | None) -> str:
        test = self._read(held.args[0], point)
        if not self.graph.nodes[held.args[0]].is_bool:
            test = self._write(f"fcmp une double {test}, 0.0")
        if held.is_bool:
            a, b = (self._read(arg, point) for arg in held.args[1:])
            return self._write(f"select i1 {test}, i1 {a}, i1 {b}")
        a, b = (self._float(arg, point) for arg in held.args[1:])
        return self._write(f"select i1 {test}, double {a}, double {b}")

    def _table_entry(self, held: Node, point: str | None) -> str:
        """A coefficient: table, numbers per cell and which of them; the argument is the cell."""
        table, stride, which = (int(each) for each in held.held)
        cell = self._read(held.args[0], point)
        whole = self._write(f"fptosi double {cell} to i32")
        index = self._write(f"sext i32 {whole} to i64")
        scaled = self._write(f"mul i64 {index}, {stride}")
        shifted = self._write(f"add i64 {scaled}, {which}")
        at = self._write(f"getelementptr double, ptr {self._table(table)}, i64 {shifted}")
        return self._write(f"load double, ptr {at}")

    def _interpolated(self, held: Node, point: str | None) -> str:
        """Straight lines by halving; ten halvings serve a thousand places."""
        table, size = (int(each) for each in held.held)
        name = self._table(table)
        at = self._read(held.args[0], point)
        low, high = "0", str(size - 1)
        for _ in range(max(1, (size - 1).bit_length())):
            both = self._write(f"add i64 {low}, {high}")
            middle = self._write(f"lshr i64 {both}, 1")
            place = self._write(f"getelementptr double, ptr {name}, i64 {middle}")
            value = self._write(f"load double, ptr {place}")
            above = self._write(f"fcmp oge double {at}, {value}")
            low = self._write(f"select i1 {above}, i64 {middle}, i64 {low}")
            high = self._write(f"select i1 {above}, i64 {high}, i64 {middle}")
        last = self._write(f"icmp sge i64 {low}, {size - 1}")
        low = self._write(f"select i1 {last}, i64 {size - 2}, i64 {low}")
        held_at = []
        for shift in (0, 1, size, size + 1):
            index = self._write(f"add i64 {low}, {shift}")
            place = self._write(f"getelementptr double, ptr {name}, i64 {index}")
            held_at.append(self._write(f"load double, ptr {place}"))
        x0, x1, y0, y1 = held_at
        share = self._write(
            f"fdiv double {self._write(f'fsub double {at}, {x0}')}, "
            f"{self._write(f'fsub double {x1}, {x0}')}"
        )
        rise = self._write(f"fmul double {share}, {self._write(f'fsub double {y1}, {y0}')}")
        found = self._write(f"fadd double {y0}, {rise}")
        under = self._write(f"fcmp ole double {at}, {x0}")
        over = self._write(f"fcmp oge double {at}, {x1}")
        found = self._write(f"select i1 {under}, double {y0}, double {found}")
        return self._write(f"select i1 {over}, double {y1}, double {found}")
