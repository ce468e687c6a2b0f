"""All that a job card is made from, handed in by whoever examined the engine: no file and no clock in here."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Protocol

from lapwright.cures.cure import Cure
from lapwright.cures.part_cure import PartCure
from lapwright.engine.engine import Engine
from lapwright.engine.sizes import Assumed, Sizes
from lapwright.findings.finding import Finding
from lapwright.motion.answers import CylinderMotion
from lapwright.motion.spread import Spread
from lapwright.workshop.item import Item

if TYPE_CHECKING:
    # A card without a run shall not load what runs an engine.
    from lapwright.cycle.comparing import Showing
    from lapwright.cycle.starting import Starting
    from lapwright.workshop.finish_plan import FinishPlan


class RecordProblem(Protocol):
    """What a card needs of a problem in the record."""

    @property
    def line(self) -> int | None:
        """Line of the record it stands on; None where it belongs to no line."""

    @property
    def key(self) -> str:
        """Key of the record it belongs to; may be empty."""

    @property
    def message(self) -> str:
        """What is wrong, in a sentence."""

    @property
    def instead(self) -> str:
        """What to write instead; may be empty."""


@dataclass(frozen=True, slots=True)
class Section:
    """A part of the setting procedure: its title and its steps in order."""

    title: str
    steps: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RunSheet:
    """How the engine runs as found and, where there are cures, after the chosen one of each cylinder.

    Both states are run on the same. `starting` and `starting_after` are the same states at rest. `gain` says in one
    line what the cures gain; `cautions` go with putting the engine on air or steam.
    """

    before: Showing
    after: Showing | None = None
    starting: Starting | None = None
    starting_after: Starting | None = None
    gain: str = ""
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CardMatter:
    """Everything on a card.

    `date` is as it shall be printed, year-month-day. `aim` says in sentences what is taken as right. `before`, `sizes`,
    `setting` and `spread` go by the cylinder's name; of the cures the first of each cylinder is the chosen one.
    `spread` names its figures as `head.cut_off.crank_deg`, `crank.lead_mm`, `valve_travel_mm`. `not_known` pairs a
    figure with the reason why it cannot be told. `cautions` hold for all work on the engine. `runs` is None where the
    engine was not run; why not stands in `not_known`. `part_findings` and `part_cures` are those of glands, screws,
    pins and covers; `have_ready` lists what the whole job wants.
    """

    engine: Engine
    record_name: str
    record_digest: str
    date: str
    before: Mapping[str, CylinderMotion]
    sizes: Mapping[str, Sizes]
    problems: tuple[RecordProblem, ...] = ()
    assumed: tuple[Assumed, ...] = ()
    not_known: tuple[tuple[str, str], ...] = ()
    aim: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()
    cures: tuple[Cure, ...] = ()
    setting: Mapping[str, tuple[Section, ...]] = field(default_factory=dict)
    spread: Mapping[str, Mapping[str, Spread]] = field(default_factory=dict)
    cautions: tuple[str, ...] = ()
    runs: RunSheet | None = None
    part_findings: tuple[Finding, ...] = ()
    part_cures: tuple[PartCure, ...] = ()
    finish: FinishPlan | None = None
    have_ready: tuple[Item, ...] = ()
