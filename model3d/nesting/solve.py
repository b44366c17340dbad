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

from model3d.nesting.columns import (
    TINY,
    Bars,
    Column,
    Problem,
    columns_of,
    generated,
    linear,
    listed,
    rows,
    step_mm,
    worth_adding,
)
from model3d.nesting.first_fit import first_fit_decreasing
from model3d.nesting.stock import Saw, Stock

ALL_PATTERNS = 20_000
"""Up to so many patterns are listed outright."""


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
    problem = Problem(
        lengths=tuple(x for x, _ in counted),
        demand=tuple(n for _, n in counted),
        stocks=tuple(stocks),
        saw=saw,
    )
    rough = first_fit_decreasing(lengths_mm, stocks, saw)
    if not counted:
        return Solution(bars=(), cost_mm=0.0, bound_mm=0.0, linear_mm=0.0, proven=True)
    columns, complete = listed(problem, all_patterns)
    if not complete:
        columns = generated(problem, columns_of(problem, rough))
    optimum, duals = linear(problem, columns)
    bound = _rounded_up(problem, optimum)
    bars, cost, dual = _integer(problem, columns, seconds)
    if complete:
        bound = max(bound, _rounded_up(problem, dual))
    if _cost(rough) < cost - TINY:
        bars, cost = rough, _cost(rough)
    if not complete and cost > bound + TINY:
        missing = worth_adding(problem, columns, duals, cost - step_mm(problem) - optimum, all_patterns)
        if missing is not None:
            better, less, dual = _integer(problem, missing, seconds)
            if less < cost - TINY:
                bars, cost = better, less
            bound = max(bound, min(cost, _rounded_up(problem, dual)))
    return Solution(
        bars=tuple((s, tuple(cut)) for s, cut in bars),
        cost_mm=cost,
        bound_mm=min(bound, cost),
        linear_mm=optimum,
        proven=cost <= bound + TINY,
    )


def _cost(bars: Bars) -> float:
    return sum(stock.price_mm for stock, _ in bars)


def _rounded_up(problem: Problem, value: float) -> float:
    """Costs are sums of whole bars, so a bound rounds up to the next multiple of the lengths' common
    measure.
    """
    if not math.isfinite(value):
        return 0.0
    step = step_mm(problem)
    return math.ceil(value / step - 1e-7) * step


def _integer(problem: Problem, columns: Sequence[Column], seconds: float) -> tuple[Bars, float, float]:
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
    problem: Problem,
    columns: Sequence[Column],
    cost: list[float],
    held: tuple[list[float], float] | None,
    seconds: float,
) -> tuple[list[int] | None, float]:
    """One integer programme; ``held`` keeps another sum from rising. The counts, and the bound on the
    cost.
    """
    from scipy.optimize import Bounds, LinearConstraint, milp

    cover, used, limited = rows(problem, columns)
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


def _bars(problem: Problem, columns: Sequence[Column], counts: Sequence[int]) -> Bars:
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
