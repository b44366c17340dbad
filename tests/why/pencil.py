"""Doing a sum again: the figures of an explanation worked out from its printed lines alone."""

from __future__ import annotations

import ast
import math
import operator
import re
from dataclasses import dataclass

_OPERATORS = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
}
_FUNCTIONS = {
    "tan": lambda deg: math.tan(math.radians(deg)),
    "sin": lambda deg: math.sin(math.radians(deg)),
    "cos": lambda deg: math.cos(math.radians(deg)),
    "atan": lambda x: math.degrees(math.atan(x)),
    "sqrt": math.sqrt,
    "ln": math.log,
    "log": math.log10,
}
_DECIMAL = re.compile(r"(?<![\w.^])\d+\.\d+(?:e[-+]\d+)?")
_VALUE = re.compile(r"(-?[\d.]+(?:e[-+]\d+)?)(?: (\S.*))?")
SYMBOLS = ("s", "valve", "return", "turn-back", "cap", "gap/2")
"""What a given figure is called in sums."""
MOST_SLACK = 0.03
"""As a share of a figure: a sum whose printed numbers leave more open than this says too little."""

ALWAYS_OPEN = {"mm": 0.03, "deg": 0.03, "Pa": 0.03, "%": 0.1}
"""What a small figure may be open by, in its unit."""


class NoSum(ValueError):
    """The text is words, not a sum."""


@dataclass(frozen=True)
class PrintedSum:
    """One line of an explanation: what it names, its sum, the value it prints, its unit, decimals printed."""

    name: str
    formula: str
    value: float
    unit: str
    decimals: int


def worked_out(text: str) -> float:
    """The value of a sum as an explanation writes it: x for times, ^ for powers, angles in degrees. Raises
    NoSum.
    """
    code = text.replace("^", "**").replace(" x ", " * ")
    code = re.sub(r"(?<=[\d)]) (tan|cos|sin|sqrt)\(", r" * \1(", code)
    try:
        return _value(ast.parse(code, mode="eval").body)
    except SyntaxError as error:
        raise NoSum(text) from error


def _value(node: ast.expr) -> float:
    if isinstance(node, ast.Constant) and isinstance(node.value, int | float):
        return float(node.value)
    if isinstance(node, ast.Name) and node.id == "pi":
        return math.pi
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        return -_value(node.operand)
    if isinstance(node, ast.BinOp) and type(node.op) in _OPERATORS:
        return float(_OPERATORS[type(node.op)](_value(node.left), _value(node.right)))
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in _FUNCTIONS:
        return _FUNCTIONS[node.func.id](_value(node.args[0]))
    raise NoSum(ast.dump(node))


def slack(text: str) -> float:
    """How far the value of a sum may be off because its numbers are printed rounded: to two decimals, or to those
    that stand there where they are more.
    """
    here, open_by = worked_out(text), 0.0
    for found in _DECIMAL.finditer(text):
        mantissa, _, power = found[0].partition("e")
        places = max(2, len(mantissa.partition(".")[2]))
        if power:
            places = len(mantissa.partition(".")[2])
        bump = 0.5 * 10.0 ** (int(power or 0) - places)
        moved = text[: found.start()] + f"{float(found[0]) + bump:.12g}" + text[found.end() :]
        open_by += abs(worked_out(moved) - here)
    return open_by


def printed_sums(text: str) -> list[PrintedSum]:
    """Every sum on the lines of an explanation, in order; figures that are given have none."""
    found = []
    for line in text.splitlines():
        if not re.match(r"  \S", line) or line.startswith("  ("):
            continue
        name, *parts = line.strip().split(" = ")
        value = _VALUE.fullmatch(parts[-1]) if parts else None
        if value is None:
            raise NoSum(line)
        if len(parts) > 1 and parts[-2] not in SYMBOLS:
            decimals = len(value[1].partition("e")[0].partition(".")[2])
            found.append(
                PrintedSum(name=name, formula=parts[-2], value=float(value[1]), unit=value[2] or "", decimals=decimals)
            )
    return found


def wrong_sums(text: str) -> list[str]:
    """The sums of a printed explanation that give another value than is printed, or leave it open."""
    wrong = []
    for printed in printed_sums(text):
        try:
            again, open_by = worked_out(printed.formula), slack(printed.formula)
        except NoSum:
            wrong.append(f"{printed.name}: no sum: {printed.formula}")
            continue
        rounding = 0.5 * 10.0**-printed.decimals
        most_open = max(ALWAYS_OPEN.get(printed.unit, 0.0), MOST_SLACK * abs(printed.value), rounding)
        whole = 0.005 if printed.unit in ("mm", "deg") else 0.0  # numbers that end in noughts are printed without
        if abs(again - printed.value) > open_by + rounding + whole + 1e-9:
            wrong.append(f"{printed.name}: {printed.formula} gives {again:.6g}, not {printed.value:.6g}")
        elif open_by > most_open:
            wrong.append(f"{printed.name}: {printed.formula} is open by {open_by:.4g}")
    return wrong
