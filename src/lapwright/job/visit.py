"""A visit of one engine to the workshop: its record, and every answer, worked out when it is asked for."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING

from lapwright.cures import Cure, find_cures
from lapwright.cures.setting import SettingPart, describe_setting
from lapwright.engine.assume import AFFECTS, assume_missing, list_assumed, list_unbounded
from lapwright.engine.cylinder import assemble_cylinder
from lapwright.engine.engine import Engine
from lapwright.engine.sizes import Assumed, Sizes
from lapwright.errors import CannotRun, FlawedRecord
from lapwright.findings import Finding, find_faults
from lapwright.findings.aim import choose_aim, describe_aim
from lapwright.findings.finding import put_worst_first
from lapwright.job.figures import flatten_figures
from lapwright.job.gaps import Gap, find_gaps
from lapwright.motion.answers import CylinderMotion, describe_motion
from lapwright.motion.spread import Spread, measure_spread, rank_culprits
from lapwright.record import OpenedRecord, open_record

if TYPE_CHECKING:
    from lapwright.cures.part_cure import PartCure
    from lapwright.cycle.comparing import Ground
    from lapwright.cycle.part_loads import PartLoads
    from lapwright.workshop.finish_plan import FinishPlan
    from lapwright.workshop.item import Item


#: Answers that stay the same whatever cure is chosen.
_WHATEVER_IS_CHOSEN = ("cylinders", "motions", "spreads", "aim", "ground", "findings", "loads", "part_findings")


@dataclass(frozen=True)
class Visit:
    """One engine with everything that can be told of it. Each answer is worked out on first use and kept.

    `no_run` says why the engine could not be run, once that was tried. `chosen` are cures that a person chose: each
    goes before the others of its cylinder. `done` are cures that were done while nobody measured what came of them:
    their cylinders want no other, and `told_done` says what was done to each.
    """

    record: OpenedRecord
    engine: Engine
    no_run: str = ""
    chosen: tuple[Cure, ...] = ()
    done: tuple[Cure, ...] = ()
    told_done: Mapping[str, str] = field(default_factory=dict)

    def choosing(
        self, chosen: tuple[Cure, ...], *, done: tuple[Cure, ...] = (), told: Mapping[str, str] | None = None
    ) -> Visit:
        """Return the visit with other cures chosen; what does not hang on the choice is not worked out again.

        Parameters
        ----------
        chosen: one to a cylinder at most, each one of this engine's or one of them with other figures
        done: those that were done while the sizes they came to are not known yet
        told: what is said of each cylinder's work that was done
        """
        other = replace(self, chosen=chosen, done=done, told_done=told or {})
        vars(other).update({name: vars(self)[name] for name in _WHATEVER_IS_CHOSEN if name in vars(self)})
        return other

    @cached_property
    def cylinders(self) -> tuple[Sizes, ...]:
        """The cylinders with what was assumed filled in."""
        return tuple(assume_missing(sizes) for sizes in self.engine.cylinders)

    @cached_property
    def motions(self) -> Mapping[str, CylinderMotion]:
        """What motion tells, by cylinder."""
        return {sizes.name: describe_motion(sizes) for sizes in self.cylinders}

    @cached_property
    def spreads(self) -> Mapping[str, Mapping[str, Spread]]:
        """How far each figure may be out, by cylinder and figure (`head.cut_off.crank_deg`).

        A figure that rests on a size that was assumed and may be anything has none.
        """
        return {sizes.name: _measure_spreads(sizes) for sizes in self.cylinders}

    def list_culprits(self, name: str) -> tuple[str, ...]:
        """Return the record keys of a cylinder that the doubt of its answers comes from, the worst first."""
        unbounded = next((list_unbounded(sizes) for sizes in self.cylinders if sizes.name == name), ())
        return unbounded + tuple(key for key, _ in rank_culprits(self.spreads[name]))

    @cached_property
    def aim(self) -> tuple[str, ...]:
        """What counts as right, in sentences."""
        return describe_aim(choose_aim(self.engine))

    @cached_property
    def ground(self) -> Ground | None:
        """The engine as found, run: what faults and cures are weighed on; None where `no_run` says why."""
        from lapwright.cycle.comparing import lay_ground

        try:
            return lay_ground(self.engine)
        except CannotRun as error:
            object.__setattr__(self, "no_run", str(error))
            return None

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What is wrong, by cylinder, the worst first; weighed by a run where one can be worked out."""
        found = find_faults(self.engine)
        if not found or self.ground is None:
            return found
        from lapwright.findings.cost import weigh_by_run

        return weigh_by_run(found, self.ground)

    @cached_property
    def cures(self) -> tuple[Cure, ...]:
        """The ways out, by cylinder, the best first, each with what it gains in a run."""
        found = find_cures(self.engine, self.findings)
        wanted = tuple(cure for cure in found if cure.cylinder not in self.told_done)
        cures = put_chosen_first(wanted, self.chosen)
        if not cures or self.ground is None:
            return cures
        from lapwright.cures.proof import prove_cures

        return prove_cures(cures, self.ground)

    @cached_property
    def loads(self) -> Mapping[str, PartLoads]:
        """What each cylinder's parts have to bear, by a run; empty where none can be worked out."""
        if self.ground is None:
            return {}
        from lapwright.cycle.part_loads import find_part_loads

        return find_part_loads(self.ground.found.run, self.ground.cylinders)

    @cached_property
    def part_findings(self) -> tuple[Finding, ...]:
        """What is wrong with glands, screws, pins and covers, the worst first."""
        if not self._has_parts:
            return ()
        from lapwright.findings.parts import find_part_faults

        return find_part_faults(self.engine, self.loads)

    @property
    def all_findings(self) -> tuple[Finding, ...]:
        """What is wrong with valves and parts, the worse of the two first."""
        return put_worst_first(self.findings, self.part_findings)

    @cached_property
    def part_cures(self) -> tuple[PartCure, ...]:
        """The way out of each of them."""
        if not self.part_findings:
            return ()
        from lapwright.cures.parts import find_part_cures

        return find_part_cures(self.engine, self.part_findings, self.loads)

    @property
    def _has_parts(self) -> bool:
        return bool(self.engine.glands or self.engine.fasteners or self.engine.pins)

    @cached_property
    def finish(self) -> FinishPlan | None:
        """How the engine is painted, where its record asks for it."""
        if self.engine.finish is None:
            return None
        from lapwright.job.finishing import plan_painting

        return plan_painting(self.engine)

    @cached_property
    def have_ready(self) -> tuple[Item, ...]:
        """What the whole job wants, shelf by shelf: the best cure of each valve, every part, the paint."""
        from lapwright.workshop.cautions import list_wanted
        from lapwright.workshop.item import merge_items

        best = {cure.cylinder: cure for cure in reversed(self.cures)}
        valves = (item for cure in best.values() for item in cure.have_ready)
        parts = (item for cure in self.part_cures for item in cure.have_ready)
        paint = () if self.finish is None else self.finish.have_ready
        cautions = [line for cure in self.part_cures for line in cure.before_you_start]
        cautions += [] if self.finish is None else self.finish.cautions
        painting = (replace(item, purposes=("painting",)) for item in paint)
        return merge_items((*valves, *parts, *painting, *list_wanted(cautions)))

    @cached_property
    def assumed(self) -> tuple[Assumed, ...]:
        """Every size that nobody gave, with what rests on it."""
        painting = () if self.engine.finish is None else _list_painting_assumed(self.engine)
        sizes_taken = (assumed for sizes in self.cylinders for assumed in list_assumed(sizes))
        parts = (assumed for cure in self.part_cures for assumed in cure.taken)
        return tuple(dict.fromkeys((*sizes_taken, *parts, *painting)))

    @cached_property
    def gaps(self) -> tuple[Gap, ...]:
        """What cannot be known, and for want of which size."""
        gaps = tuple(gap for sizes in self.cylinders for gap in find_gaps(sizes))
        if not self.part_findings:
            return gaps
        from lapwright.job.part_gaps import find_part_gaps

        return (*gaps, *find_part_gaps(self.part_findings, self.part_cures))

    @cached_property
    def setting(self) -> Mapping[str, tuple[SettingPart, ...]]:
        """How to set each valve, after the best cure where there is one."""
        best = {cure.cylinder: cure for cure in (*reversed(self.cures), *self.done)}
        after = [sizes.replacing(best[sizes.name].changes) if sizes.name in best else sizes for sizes in self.cylinders]
        return {sizes.name: describe_setting(self.engine, sizes) for sizes in after}


def examine(path: str | os.PathLike[str]) -> Visit:
    """Open an engine record and return the visit that answers everything about it.

    Parameters
    ----------
    path: where the record is

    Raises
    ------
    FlawedRecord: the record has errors; they are listed in its `problems`
    """
    return examine_opened(open_record(path))


def examine_opened(record: OpenedRecord) -> Visit:
    """Return the visit of a record that is already open.

    Raises
    ------
    FlawedRecord: the record has errors; they are listed in its `problems`
    """
    if record.engine is None or not record.is_sound:
        raise FlawedRecord(record.source, record.problems)
    return Visit(record, record.engine)


def put_chosen_first(cures: tuple[Cure, ...], chosen: tuple[Cure, ...]) -> tuple[Cure, ...]:
    """Put the cures that were chosen before the others of their cylinders, each in the place of its namesake.

    Parameters
    ----------
    cures: of an engine, by cylinder
    chosen: one to a cylinder at most
    """
    firsts = {cure.cylinder: cure for cure in chosen}
    others = tuple(cure for cure in cures if cure.cylinder not in firsts or cure.code != firsts[cure.cylinder].code)
    names = dict.fromkeys(cure.cylinder for cure in cures)
    return tuple(
        cure
        for name in names
        for cure in (*((firsts[name],) if name in firsts else ()), *(c for c in others if c.cylinder == name))
    )


def _list_painting_assumed(engine: Engine) -> tuple[Assumed, ...]:
    from lapwright.job.finishing import list_painting_assumed

    return list_painting_assumed(engine)


def _measure_spreads(sizes: Sizes) -> Mapping[str, Spread]:
    paths = {path for key in list_unbounded(sizes) for path in AFFECTS[key]}
    resting = {path.removeprefix("ends.").replace(".events.", ".") for path in paths}
    spreads = measure_spread(sizes, _work_out_figures)
    return {name: spread for name, spread in spreads.items() if name not in resting}


def _work_out_figures(sizes: Sizes) -> dict[str, float]:
    """Every figure, or none where a tolerance runs so far that a rod would no longer reach."""
    return flatten_figures(describe_motion(sizes)) if assemble_cylinder(sizes).can_turn else {}
