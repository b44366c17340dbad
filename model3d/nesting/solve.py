"""The least stock for a list of cuts, exactly: HiGHS by scipy, loaded when first asked for.

Cuts are covered by patterns, x_p bars cut by pattern p: least sum of what the bars cost with every length
cut often enough and no more off-cuts than there are. Few patterns are all listed, and one integer
programme settles it. Many are made as they are needed (Gilmore and Gomory's columns); the linear programme
then gives a bound, and where the integer answer over the columns made does not meet it, every pattern
whose reduced cost could still matter is added, so that the answer is the least over all, or time runs out
and the bound is shown.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import islice

from model3d.nesting.first_fit import first_fit_decreasing
from model3d.nesting.patterns import Pattern, best_pattern, full_patterns
from model3d.nesting.stock import Saw, Stock

ALL_PATTERNS = 20_000
"""Up to so many patterns are listed outright."""
TINY = 1e-6

Bars = list[tuple[Stock, list[float]]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Solution:
    """Bars and what is cut from each; what the new ones cost as length; the least that any answer costs
    (``bound_mm``) and whether the answer is proven least; the optimum of the linear programme in bars'
    cost.
    """

    bars: tuple[tuple[Stock, tuple[float, ...]], ...]
    cost_mm: float
    bound_mm: float
    linear_mm: float
    proven: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class _Problem:
    """Distinct lengths in falling order, how many of each, the stocks, the saw."""

    lengths: tuple[float, ...]
    demand: tuple[int, ...]
    stocks: tuple[Stock, ...]
    saw: Saw

    @property
    def takes(self) -> list[float]:
        return [self.saw.takes_mm(x) for x in self.lengths]

    def room(self, stock: int) -> float:
        return self.saw.room_mm(self.stocks[stock].length_mm)


Column = tuple[int, Pattern]


def least_stock(
    lengths_mm: Sequence[float],
    stocks: Sequence[Stock],
    saw: Saw,
    *,
    seconds: float = 20.0,
    all_patterns: int = ALL_PATTERNS,
) -> Solution:
    """The bars to take and what to cut from each, at the least length bought; among those, the least stock
    used.

    Raises ValueError for a piece that no stock holds.
    """
    counted = sorted(Counter(round(x, 3) for x in lengths_mm).items(), reverse=True)
    problem = _Problem(
        lengths=tuple(x for x, _ in counted),
        demand=tuple(n for _, n in counted),
        stocks=tuple(stocks),
        saw=saw,
    )
    rough = first_fit_decreasing(lengths_mm, stocks, saw)
    if not counted:
        return Solution(bars=(), cost_mm=0.0, bound_mm=0.0, linear_mm=0.0, proven=True)
    columns, complete = _listed(problem, all_patterns)
    if not complete:
        columns = _generated(problem, _columns_of(problem, rough))
    linear, duals = _linear(problem, columns)
    bound = _rounded_up(problem, linear)
    bars, cost, dual = _integer(problem, columns, seconds)
    if complete:
        bound = max(bound, _rounded_up(problem, dual))
    if _cost(rough) < cost - TINY:
        bars, cost = rough, _cost(rough)
    if not complete and cost > bound + TINY:
        missing = _worth_adding(problem, columns, duals, cost - _step(problem) - linear, all_patterns)
        if missing is not None:
            better, less, dual = _integer(problem, missing, seconds)
            if less < cost - TINY:
                bars, cost = better, less
            bound = max(bound, min(cost, _rounded_up(problem, dual)))
    return Solution(
        bars=tuple((s, tuple(cut)) for s, cut in bars),
        cost_mm=cost,
        bound_mm=min(bound, cost),
        linear_mm=linear,
        proven=cost <= bound + TINY,
    )


def _cost(bars: Bars) -> float:
    return sum(stock.price_mm for stock, _ in bars)


def _rounded_up(problem: _Problem, value: float) -> float:
    """Costs are sums of whole bars, so a bound rounds up to the next multiple of the lengths' common
    measure.
    """
    if not math.isfinite(value):
        return 0.0
    step = _step(problem)
    return math.ceil(value / step - 1e-7) * step


def _step(problem: _Problem) -> float:
    """The common measure of the lengths bought."""
    hundredths = [round(s.length_mm * 100) for s in problem.stocks if not s.is_off_cut]
    return math.gcd(*hundredths) / 100.0 if hundredths else 1.0


def _listed(problem: _Problem, most: int) -> tuple[list[Column], bool]:
    """Every full pattern of every stock, and whether that is all."""
    columns: list[Column] = []
    for i in range(len(problem.stocks)):
        made = full_patterns(problem.takes, problem.demand, problem.room(i))
        columns += [(i, p) for p in islice(made, most + 1 - len(columns)) if any(p)]
        if len(columns) > most:
            return columns, False
    return columns, True


def _columns_of(problem: _Problem, bars: Bars) -> list[Column]:
    """The patterns of an answer."""
    found: dict[Column, None] = {}
    for stock, cut in bars:
        cuts = Counter(round(x, 3) for x in cut)
        found[problem.stocks.index(stock), tuple(cuts[x] for x in problem.lengths)] = None
    return list(found)


def _generated(problem: _Problem, columns: list[Column]) -> list[Column]:
    """Columns until no pattern has a reduced cost below nothing."""
    while True:
        _, duals = _linear(problem, columns)
        more = []
        for i, stock in enumerate(problem.stocks):
            worth, pattern = best_pattern(problem.takes, problem.demand, problem.room(i), duals.lengths)
            if stock.price_mm + duals.stocks[i] - worth < -TINY and (i, pattern) not in columns:
                more.append((i, pattern))
        if not more:
            return columns
        columns = columns + more


@dataclass(frozen=True, slots=True)
class _Duals:
    """What one more piece of each length would cost, and what one more off-cut of each kind would save."""

    lengths: list[float]
    stocks: list[float]


def _rows(
    problem: _Problem, columns: Sequence[Column]
) -> tuple[list[list[float]], list[list[float]], list[int]]:
    """Coverage rows, off-cut rows, and which stocks the latter are of."""
    cover = [[float(p[k]) for _, p in columns] for k in range(len(problem.lengths))]
    limited = [i for i, s in enumerate(problem.stocks) if s.is_off_cut]
    used = [[1.0 if i == stock else 0.0 for i, _ in columns] for stock in limited]
    return cover, used, limited


def _linear(problem: _Problem, columns: Sequence[Column]) -> tuple[float, _Duals]:
    """The optimum of the linear programme over the columns, and its duals."""
    from scipy.optimize import linprog

    cover, used, limited = _rows(problem, columns)
    table = [[-v for v in row] for row in cover] + used
    right = [-float(d) for d in problem.demand] + [float(problem.stocks[i].count or 0) for i in limited]
    found = linprog([problem.stocks[i].price_mm for i, _ in columns], A_ub=table, b_ub=right, method="highs")
    if found.x is None:
        return -math.inf, _Duals([0.0] * len(problem.lengths), [0.0] * len(problem.stocks))
    marginals = [float(m) for m in found.ineqlin.marginals]
    count = len(problem.lengths)
    stocks = [0.0] * len(problem.stocks)
    for place, i in enumerate(limited):
        stocks[i] = -marginals[count + place]
    return float(found.fun), _Duals([max(0.0, -m) for m in marginals[:count]], stocks)


def _worth_adding(
    problem: _Problem, columns: Sequence[Column], duals: _Duals, gap: float, most: int
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


def _integer(problem: _Problem, columns: Sequence[Column], seconds: float) -> tuple[Bars, float, float]:
    """The least cost over the columns, then at that cost the least stock used: bars, cost, and the bound
    on cost.
    """
    cost = [problem.stocks[i].price_mm for i, _ in columns]
    counts, bound = _programme(problem, columns, cost, None, seconds)
    if counts is None:
        return [], math.inf, bound
    paid = sum(c * n for c, n in zip(cost, counts, strict=True))
    if any(s.is_off_cut for s in problem.stocks) or len(problem.stocks) > 1:
        used = [problem.stocks[i].length_mm for i, _ in columns]
        again, _ = _programme(problem, columns, used, (cost, paid), seconds)
        counts = again or counts
    return _bars(problem, columns, counts), sum(c * n for c, n in zip(cost, counts, strict=True)), bound


def _programme(
    problem: _Problem,
    columns: Sequence[Column],
    cost: list[float],
    held: tuple[list[float], float] | None,
    seconds: float,
) -> tuple[list[int] | None, float]:
    """One integer programme; ``held`` keeps another sum from rising. The counts, and the bound on the
    cost.
    """
    from scipy.optimize import Bounds, LinearConstraint, milp

    cover, used, limited = _rows(problem, columns)
    table = [*cover, *used]
    low = [float(d) for d in problem.demand] + [0.0] * len(limited)
    high = [math.inf] * len(problem.demand) + [float(problem.stocks[i].count or 0) for i in limited]
    if held is not None:
        table.append(held[0])
        low.append(-math.inf)
        high.append(held[1] + TINY)
    found = milp(
        cost,
        constraints=LinearConstraint(table, low, high),
        integrality=[1] * len(columns),
        bounds=Bounds(0, math.inf),
        options={"mip_rel_gap": 0.0, "time_limit": seconds},
    )
    bound = -math.inf if found.mip_dual_bound is None else float(found.mip_dual_bound)
    return (None if found.x is None else [round(float(v)) for v in found.x]), bound


def _bars(problem: _Problem, columns: Sequence[Column], counts: Sequence[int]) -> Bars:
    """Bars from counted patterns; pieces beyond the demand are left out, bars left empty too."""
    left = list(problem.demand)
    bars: Bars = []
    for (i, pattern), count in zip(columns, counts, strict=True):
        for _ in range(count):
            cut: list[float] = []
            for k, n in enumerate(pattern):
                take = min(n, left[k])
                left[k] -= take
                cut += [problem.lengths[k]] * take
            if cut:
                bars.append((problem.stocks[i], cut))
    return bars
