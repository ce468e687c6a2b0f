"""The guidance for measuring, of every table in one place."""

from __future__ import annotations

from collections.abc import Mapping

from lapwright.job.measure.guide import Guide
from lapwright.job.measure.guides_engine import ENGINE_GUIDES
from lapwright.job.measure.guides_parts import PART_GUIDES
from lapwright.job.measure.guides_running import RUNNING_GUIDES

#: How every key of a record is measured, by table and key.
GUIDES: Mapping[str, Mapping[str, Guide]] = {**ENGINE_GUIDES, **PART_GUIDES, **RUNNING_GUIDES}
