"""Exponential, logarithm and power without calls or branches, so that loops run on whole vectors.

Within two units in the last place of the exact value: the exponential for arguments of -708 to 709
(held there), the logarithm and the power for normal numbers above 0.
"""

from __future__ import annotations

import math
import struct

HALVES = 0.5
# Where the mantissa of the logarithm's argument begins, so that it lies around one.
ROOT_OF_HALF = math.sqrt(0.5)
# Adding it to a number below 2^51 rounds to a whole number, which then stands in the low bits.
ROUNDING = 1.5 * 2.0**52
EXPONENT_BITS = 52
EXPONENTIAL_TERMS, LOGARITHM_TERMS = 13, 9
LEAST, GREATEST = -708.0, 709.0


def number(value: float) -> str:
    """A number by its bits."""
    return f"0x{bits_of(value):016X}"


def bits_of(value: float) -> int:
    """The bits of a number as a whole number."""
    return int(struct.unpack("<Q", struct.pack("<d", value))[0])


def _high_part(value: float) -> float:
    """The leading 32 bits of a number: its multiples by an exponent are exact."""
    kept = bits_of(value) >> 21 << 21
    return float(struct.unpack("<d", struct.pack("<Q", kept))[0])


LOG_TWO_HIGH = _high_part(math.log(2.0))
# ln 2 to twice the precision, from its series: what the high part leaves.
LOG_TWO_LOW = 1.9082149292705877e-10


def _chain(start: str, at: str, coefficients: list[float], name: str) -> list[str]:
    """Horner's rule, highest power first; the last register is `%name`."""
    lines, value = [], start
    for k, coefficient in enumerate(coefficients):
        result = f"%{name}" if k == len(coefficients) - 1 else f"%{name}{k}"
        lines.append(f"  %{name}.m{k} = fmul contract double {value}, {at}")
        lines.append(f"  {result} = fadd contract double %{name}.m{k}, {number(coefficient)}")
        value = result
    return lines


def _exponential() -> list[str]:
    """2^n exp(r) with x = n ln 2 + r, exp(r) by its series."""
    series = [1.0 / math.factorial(k) for k in range(EXPONENTIAL_TERMS, -1, -1)]
    return [
        "define internal double @lane.exp(double %given) alwaysinline {",
        f"  %under = fcmp olt double %given, {number(LEAST)}",
        f"  %held = select i1 %under, double {number(LEAST)}, double %given",
        f"  %over = fcmp ogt double %held, {number(GREATEST)}",
        f"  %x = select i1 %over, double {number(GREATEST)}, double %held",
        f"  %t = fmul double %x, {number(1.0 / math.log(2.0))}",
        f"  %shifted = fadd double %t, {number(ROUNDING)}",
        f"  %n = fsub double %shifted, {number(ROUNDING)}",
        f"  %high = fmul contract double %n, {number(LOG_TWO_HIGH)}",
        "  %r.high = fsub contract double %x, %high",
        f"  %low = fmul contract double %n, {number(LOG_TWO_LOW)}",
        "  %r = fsub contract double %r.high, %low",
        *_chain(number(series[0]), "%r", series[1:], "series"),
        "  %whole = bitcast double %shifted to i64",
        f"  %exponent = shl i64 %whole, {EXPONENT_BITS}",
        "  %bits = bitcast double %series to i64",
        "  %scaled = add i64 %bits, %exponent",
        "  %result = bitcast i64 %scaled to double",
        "  ret double %result",
        "}",
    ]


def _logarithm() -> list[str]:
    """Sum of n ln 2 and 2 artanh((m - 1) / (m + 1)) with x = 2^n m and m around one."""
    series = [1.0 / (2 * k + 1) for k in range(LOGARITHM_TERMS, 0, -1)]
    return [
        "define internal double @lane.log(double %x) alwaysinline {",
        "  %bits = bitcast double %x to i64",
        f"  %above = sub i64 %bits, {bits_of(ROOT_OF_HALF)}",
        f"  %exponent = ashr i64 %above, {EXPONENT_BITS}",
        f"  %moved = shl i64 %exponent, {EXPONENT_BITS}",
        "  %rest = sub i64 %bits, %moved",
        "  %m = bitcast i64 %rest to double",
        "  %short = trunc i64 %exponent to i32",
        "  %n = sitofp i32 %short to double",
        f"  %f = fsub double %m, {number(1.0)}",
        f"  %sum = fadd double %f, {number(2.0)}",
        "  %s = fdiv double %f, %sum",
        "  %z = fmul double %s, %s",
        *_chain(number(series[0]), "%z", series[1:], "series"),
        "  %tail = fmul double %series, %z",
        # 2 s (1 + tail) = f - s (f - 2 tail): the leading term is exact.
        f"  %two = fmul double %tail, {number(2.0)}",
        "  %inner = fsub double %f, %two",
        "  %less = fmul double %s, %inner",
        f"  %low = fmul contract double %n, {number(LOG_TWO_LOW)}",
        "  %corrected = fsub contract double %low, %less",
        f"  %high = fmul contract double %n, {number(LOG_TWO_HIGH)}",
        "  %near = fadd double %f, %corrected",
        "  %result = fadd contract double %high, %near",
        "  ret double %result",
        "}",
    ]


def _power() -> list[str]:
    return [
        "define internal double @lane.pow(double %x, double %y) alwaysinline {",
        "  %l = call double @lane.log(double %x)",
        "  %e = fmul double %l, %y",
        "  %result = call double @lane.exp(double %e)",
        "  ret double %result",
        "}",
    ]


def definitions() -> list[str]:
    """The functions' text."""
    return [*_exponential(), *_logarithm(), *_power()]
