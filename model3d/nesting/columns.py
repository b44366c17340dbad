"""The linear programme of a nesting: columns listed outright or made as they are needed, its optimum and
its duals.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import islice

from model3d.nesting.patterns import Pattern, best_pattern, full_patterns
from model3d.nesting.stock import Saw, Stock

TINY = 1e-6

Bars = list[tuple[Stock, list[float]]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """Distinct lengths in falling order, how many of each, the stocks, the saw."""

    lengths: tuple[float, ...]
    demand: tuple[int, ...]
    stocks: tuple[Stock, ...]
    saw: Saw

    @property
    def takes(self) -> list[float]:
        """What a piece of each length takes of a bar, its cut included."""
        return [self.saw.takes_mm(x) for x in self.lengths]

    def room(self, stock: int) -> float:
        """What a bar of a stock offers, by the stock's number."""
        return self.saw.room_mm(self.stocks[stock].length_mm)


Column = tuple[int, Pattern]
"""A stock's number, and a pattern cut from it."""


def step_mm(problem: Problem) -> float:
    """The common measure of the lengths bought."""
    hundredths = [round(s.length_mm * 100) for s in problem.stocks if not s.is_off_cut]
    return math.gcd(*hundredths) / 100.0 if hundredths else 1.0


def listed(problem: Problem, most: int) -> tuple[list[Column], bool]:
    """Every full pattern of every stock, and whether that is all."""
    columns: list[Column] = []
    for i in range(len(problem.stocks)):
        made = full_patterns(problem.takes, problem.demand, problem.room(i))
        columns += [(i, p) for p in islice(made, most + 1 - len(columns)) if any(p)]
        if len(columns) > most:
            return columns, False
    return columns, True


def columns_of(problem: Problem, bars: Bars) -> list[Column]:
    """The patterns of an answer."""
    found: dict[Column, None] = {}
    for stock, cut in bars:
        cuts = Counter(round(x, 3) for x in cut)
        found[problem.stocks.index(stock), tuple(cuts[x] for x in problem.lengths)] = None
    return list(found)


def generated(problem: Problem, columns: list[Column]) -> list[Column]:
    """Columns until no pattern has a reduced cost below nothing."""
    while True:
        _, duals = linear(problem, columns)
        more = []
        for i, stock in enumerate(problem.stocks):
            worth, pattern = best_pattern(problem.takes, problem.demand, problem.room(i), duals.lengths)
            if stock.price_mm + duals.stocks[i] - worth < -TINY and (i, pattern) not in columns:
                more.append((i, pattern))
        if not more:
            return columns
        columns = columns + more


@dataclass(frozen=True, slots=True)
class Duals:
    """What one more piece of each length would cost, and what one more off-cut of each kind would save."""

    lengths: list[float]
    stocks: list[float]


def rows(
    problem: Problem, columns: Sequence[Column]
) -> tuple[list[list[float]], list[list[float]], list[int]]:
    """Coverage rows, off-cut rows, and which stocks the latter are of."""
    cover = [[float(p[k]) for _, p in columns] for k in range(len(problem.lengths))]
    limited = [i for i, s in enumerate(problem.stocks) if s.is_off_cut]
    used = [[1.0 if i == stock else 0.0 for i, _ in columns] for stock in limited]
    return cover, used, limited


def linear(problem: Problem, columns: Sequence[Column]) -> tuple[float, Duals]:
    """The optimum of the linear programme over the columns, and its duals."""
    from scipy.optimize import linprog

    cover, used, limited = rows(problem, columns)
    table = [[-v for v in row] for row in cover] + used
    right = [-float(d) for d in problem.demand] + [float(problem.stocks[i].count or 0) for i in limited]
    found = linprog([problem.stocks[i].price_mm for i, _ in columns], A_ub=table, b_ub=right, method="highs")
    if found.x is None:
        return -math.inf, Duals([0.0] * len(problem.lengths), [0.0] * len(problem.stocks))
    marginals = [float(m) for m in found.ineqlin.marginals]
    count = len(problem.lengths)
    stocks = [0.0] * len(problem.stocks)
    for place, i in enumerate(limited):
        stocks[i] = -marginals[count + place]
    return float(found.fun), Duals([max(0.0, -m) for m in marginals[:count]], stocks)


def worth_adding(
    problem: Problem, columns: Sequence[Column], duals: Duals, gap: float, most: int
) -> list[Column] | None:
    """Every pattern whose reduced cost is within ``gap``, from the linear optimum to the next better cost
    than the answer in hand: no other can be in a better answer. None when they are too many.
    """
    found = dict.fromkeys(columns)
    for i, stock in enumerate(problem.stocks):
        needed = stock.price_mm + duals.stocks[i] - gap - TINY
        made = full_patterns(
            problem.takes, problem.demand, problem.room(i), worth=duals.lengths, at_least=needed
        )
        for pattern in islice(made, most + 1):
            found[i, pattern] = None
        if len(found) > most:
            return None
    return list(found)
