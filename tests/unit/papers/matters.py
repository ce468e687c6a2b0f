"""Cards to test with: the demo engines, and engines put together from a few lines."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from lapwright.engine.engine import Engine
from lapwright.engine.sizes import Sizes
from lapwright.job.papers import gather_matter
from lapwright.job.visit import Visit, examine
from lapwright.papers import CardMatter

EXAMPLES = Path(__file__).parents[3] / "examples"
NAMES = sorted(path.stem for path in EXAMPLES.glob("*.toml"))


def examine_demo(name: str) -> Visit:
    """A demo engine's visit."""
    return examine(EXAMPLES / f"{name}.toml")


def card_of(visit: Visit) -> CardMatter:
    """Its card on a fixed day."""
    return gather_matter(visit, date="2026-11-25")


def with_engine(visit: Visit, engine: Engine) -> Visit:
    """The same visit with another engine."""
    return Visit(replace(visit.record, engine=engine), engine)


def without(visit: Visit, key: str) -> Visit:
    """The same engine with one size nobody gave, in every cylinder."""

    def less(sizes: Sizes) -> Sizes:
        numbers = {k: v for k, v in sizes.numbers.items() if k != key}
        return replace(sizes, numbers=numbers, assumed={k: v for k, v in sizes.assumed.items() if k != key})

    return with_engine(visit, replace(visit.engine, cylinders=tuple(less(s) for s in visit.engine.cylinders)))
