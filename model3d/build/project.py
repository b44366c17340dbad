"""A plan taken all the way to steps, in numbers: what every verb starts from."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from model3d.families.family import Family
from model3d.families.reading import find_family, read_family
from model3d.layout import Layout, lay_out
from model3d.rooms import CheckedPlan
from model3d.rooms.read_plan import read_plan

if TYPE_CHECKING:
    from model3d.as_cut import PieceAsCut
    from model3d.build.fitting import Fitting
    from model3d.findings import Finding
    from model3d.order import Job
    from model3d.scene import Scene
    from model3d.steps import Step
    from model3d.themes import Theme
    from model3d.wording import Language


@dataclass(frozen=True, kw_only=True)
class Project:
    """A checked plan with its family and layout; scene and steps are worked out when first asked for.

    ``cuts`` are the pieces with a length as cut; ``said`` the codes and parts of what the layout's findings say of
    them already; ``language`` is that of the steps' words; ``look`` is the theme of its pictures, None the usual one.
    """

    plan: CheckedPlan
    family: Family
    layout: Layout
    cuts: tuple[PieceAsCut, ...] = ()
    said: frozenset[tuple[str, tuple[str, ...]]] = frozenset()
    language: Language = "en"
    look: Theme | None = None

    @cached_property
    def scene(self) -> Scene:
        """Every part placed. Raises ValueError when the layout was refused."""
        from model3d.scene import compose  # the layout alone does not wait for it

        return compose(self.plan.room, self.layout, self.family, self.plan.bows)

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """The steps of the fitting in the usual order."""
        from model3d.steps import plan_steps
        from model3d.wording import catalogue

        return plan_steps(self.layout, self.scene, self.family, catalogue(self.language))

    @cached_property
    def job(self) -> Job:
        """What an order is sought for, with the meshes of its parts and all that has been asked of them."""
        from model3d.moves import Shapes
        from model3d.order import Job

        return Job(
            plan=self.plan,
            family=self.family,
            layout=self.layout,
            scene=self.scene,
            steps=self.steps,
            shapes=Shapes(family=self.family),
        )

    @cached_property
    def fitting(self) -> Fitting:
        """The order that goes, the usual one where it does; needs the solids."""
        from model3d.build.fitting import fitting_of

        return fitting_of(self.job)

    @cached_property
    def moved_steps(self) -> tuple[Step, ...]:
        """The steps in the order that goes, with each piece coming by an approach that was tried and is free, and how
        hard that is; needs the solids.
        """
        from model3d.order import rate, rate_usual

        fitting = self.fitting
        if fitting.another is not None:
            return rate(self.job, fitting.another).told(fitting.steps)
        return rate_usual(self.job, fitting.steps).told(fitting.steps)

    def unsaid(self, findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
        """The findings that the layout's own do not say yet."""
        known = self.said | {(f.code, f.parts) for f in self.layout.findings}
        return tuple(f for f in findings if (f.code, f.parts) not in known)


def load(path: Path) -> Project:
    """Read a plan and its family, and lay it out, with what warmth and cold do to its pieces and long legs. Raises
    FaultyFile with every fault of the file that has some.
    """
    plan = read_plan(path, find_family=find_family)
    family = read_family(plan.family_path)
    laid = Project(plan=plan, family=family, layout=lay_out(plan, family))
    if laid.layout.refused:
        return laid
    if plan.as_cut or plan.fitted:
        from model3d.as_cut import with_cuts

        cut = with_cuts(plan, laid.layout, family)
        laid = replace(laid, layout=cut.layout, cuts=cut.pieces, said=cut.said)
    from model3d.thermal import growth_findings

    warm = laid.unsaid(growth_findings(plan, laid.layout, family))
    return replace(laid, layout=replace(laid.layout, findings=laid.layout.findings + warm))
