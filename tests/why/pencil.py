"""Doing a sum again: the figures of an explanation worked out from its text alone."""

from __future__ import annotations

import ast
import math
import operator
import re

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
    "sqrt": math.sqrt,
}


class NoSum(ValueError):
    """The text is words, not a sum."""


def worked_out(text: str) -> float:
    """The value of a sum as an explanation writes it: x for times, ^ for powers, angles in degrees. Raises
    NoSum.
    """
    code = text.replace(" deg in radians", f" * {math.pi} / 180").replace("^", "**")
    code = re.sub(r"(?<=[\d)]) x (?=[\d(])", " * ", code)
    code = re.sub(r"(?<=[\d)]) (tan|cos|sin|sqrt)\(", r" * \1(", code)
    try:
        return _value(ast.parse(code, mode="eval").body)
    except SyntaxError as error:
        raise NoSum(text) from error


def _value(node: ast.expr) -> float:
    if isinstance(node, ast.Constant) and isinstance(node.value, int | float):
        return float(node.value)
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        return -_value(node.operand)
    if isinstance(node, ast.BinOp) and type(node.op) in _OPERATORS:
        return float(_OPERATORS[type(node.op)](_value(node.left), _value(node.right)))
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in _FUNCTIONS:
        return _FUNCTIONS[node.func.id](_value(node.args[0]))
    raise NoSum(ast.dump(node))
