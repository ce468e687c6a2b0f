"""The events of one cylinder as a table for the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lapwright.job.visit import Visit

EVENTS = (
    ("admission", "admission"),
    ("cut_off", "cut-off"),
    ("release", "release"),
    ("compression", "compression"),
)
FIGURES = (
    ("lead_mm", "lead"),
    ("greatest_steam_opening_mm", "opens at most"),
)
#: Put behind a figure that rests on a size nobody gave.
MARK = "*"
#: A doubt smaller than this would be shown as nothing [mm].
LEAST_SHOWN = 0.005


class EventTable:
    """One cylinder's events, leads and openings, end beside end, each with its doubt."""

    def __init__(self, visit: Visit, name: str) -> None:
        self.motion = visit.motions[name]
        self.spread = visit.spreads.get(name, {})
        self.culprits = visit.list_culprits(name)[:3]
        sizes = next(sizes for sizes in visit.cylinders if sizes.name == name)
        self.ends = ("head", "crank") if "piston_rod" in sizes.numbers else ("head",)
        # What is taken as nothing is in every record and told below; a mark at each figure would mark them all.
        taken = [assumed for assumed in visit.assumed if sizes.numbers.get(assumed.key)]
        prefix = f"cylinders.{name}."
        self.resting = {path.removeprefix(prefix) for assumed in taken for path in assumed.affects}

    def write(self) -> str:
        """Return the table as text."""
        lines = [f"{'Cylinder ' + self.motion.name:<18}" + "".join(f"{end + ' end':<32}" for end in self.ends).rstrip()]
        for event, words in EVENTS:
            lines.append(self._line(words, [self._event(end, event) for end in self.ends]))
        for figure, words in FIGURES:
            lines.append(self._line(words, [self._figure(end, figure) for end in self.ends]))
        blow = self.motion.chest_to_exhaust_deg
        if blow:
            lines.append(f"  the chest is open straight to exhaust for {blow:.1f} deg of a turn")
        if self.culprits:
            lines.append(f"  most of the doubt comes from {', '.join(self.culprits)}")
        if any(MARK in line for line in lines):
            lines.append(f"  {MARK} rests on a size that was assumed; see below")
        return "\n".join(lines)

    def _line(self, words: str, cells: list[str]) -> str:
        return (f"  {words:<16}" + "".join(f"{cell:<32}" for cell in cells)).rstrip()

    def _mark(self, path: str) -> str:
        return MARK if path in self.resting else ""

    def _event(self, end: str, event: str) -> str:
        times, path = self.motion.ends[end].events[event], f"ends.{end}.events.{event}"
        if times.crank_deg is None:
            return "not known"
        if not times.crank_deg:
            return "never"
        doubt = self.spread.get(f"{end}.{event}.crank_deg")
        told = "" if doubt is None else f" ± {doubt.half_width:.1f}"
        angles = ", ".join(f"{angle:.1f}" for angle in times.crank_deg)
        text = f"{angles}{told} deg{self._mark(path + '.crank_deg')}"
        if times.stroke_percent is not None:
            shares = ", ".join(f"{share:.1f}" for share in times.stroke_percent)
            text += f" ({shares} %{self._mark(path + '.stroke_percent')})"
        return text

    def _figure(self, end: str, figure: str) -> str:
        value = getattr(self.motion.ends[end], figure)
        if value is None:
            return "not known"
        doubt = self.spread.get(f"{end}.{figure}")
        told = "" if doubt is None or doubt.half_width < LEAST_SHOWN else f" ± {doubt.half_width:.2f}"
        return f"{value:.2f}{told} mm{self._mark(f'ends.{end}.{figure}')}"
