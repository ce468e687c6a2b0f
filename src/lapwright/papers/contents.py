"""What stands on the card, in the order in which it is worked from."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from math import degrees

from lapwright.cures.cure import Cure
from lapwright.engine.sizes import Sizes
from lapwright.findings.finding import Finding, put_worst_first
from lapwright.papers.blocks import Block, Cautions, Heading, Paragraph, Points, Remark, Steps, Table
from lapwright.papers.lettering import NOT_KNOWN, clean_text, join_words, show_angle, show_length, show_number
from lapwright.papers.matter import CardMatter, RecordProblem, Section
from lapwright.papers.measure_terms import call_size
from lapwright.papers.parts_block import lay_finish, lay_parts, lay_shopping, list_part_sources
from lapwright.papers.run_block import lay_runs
from lapwright.papers.sheets import lay_cylinder

MARKS = {"stops-it": "STOPS IT", "spoils-it": "SPOILS IT", "worth-doing": "WORTH DOING", "note": "NOTE"}
#: How the sizes of a cure are called at the bench; the unit is the end of the name.
SIZES = {
    "valve_length_mm": "Valve, over its outer edges",
    "cavity_mm": "Valve's cavity",
    "valve_edges_mm": "Valve's four edges",
    "eccentric_angle_deg": "Eccentric ahead of the crank",
    "turn_deg": "Turn the eccentric by",
    "valve_offset_mm": "Valve from mid-face, head end +",
    "spindle_turns": "Spindle, turns",
    "move_mm": "Move the valve by, head end +",
    "remaining_error_mm": "Error that remains",
    "eccentric_rod_change_mm": "Eccentric rod, longer +",
    "throw_mm": "Throw of the eccentric",
    "exhaust_port_mm": "Middle port",
    "bridge_mm": "Each bridge",
    "chest_head_mm": "Chest wall from mid-face, head end",
    "chest_crank_mm": "Chest wall from mid-face, crank end",
}
#: Where the record keeps what a cure sets, to say what was found there.
FOUND_AS = {
    "valve_length_mm": "valve.length",
    "cavity_mm": "valve.cavity",
    "eccentric_angle_deg": "valve_drive.eccentric_angle",
    "valve_offset_mm": "valve_drive.valve_offset",
    "throw_mm": "valve_drive.throw",
    "exhaust_port_mm": "port_face.exhaust_port",
    "bridge_mm": "port_face.bridge",
    "chest_head_mm": "port_face.chest_head",
    "chest_crank_mm": "port_face.chest_crank",
}


def list_blocks(matter: CardMatter, *, width: float) -> list[Block]:
    """Return the whole card as blocks.

    Parameters
    ----------
    matter: what is told
    width: room for pictures from edge to edge of the text [mm]
    """
    # Tools and material are fetched before the first step is done.
    blocks = [*lay_found(matter), *lay_shopping(matter), *_work(matter), *lay_parts(matter), *lay_finish(matter)]
    for name in matter.before:
        blocks += lay_cylinder(matter, name, width=width)
    blocks += lay_runs(matter, width=width)
    told = {
        *(matter.cautions[:1] if _chosen(matter) else ()),
        *(matter.cautions[1:] if any(matter.setting.values()) else ()),
    }
    return [*blocks, *_setting(matter), *_others(matter), *lay_grounds(matter, told=told)]


def name_cylinders(names: list[str]) -> str:
    """Return cylinders as they are named in a heading."""
    return ("Cylinder " if len(names) == 1 else "Cylinders ") + join_words(names)


def lay_found(matter: CardMatter) -> Iterator[Block]:
    """Yield what is wrong, the worst first, each with its evidence.

    Parameters
    ----------
    matter: what is told
    """
    yield Heading("What was found")
    for line in matter.aim:
        yield Paragraph(line)
    found = put_worst_first(matter.findings, matter.part_findings)
    if not found:
        yield Paragraph("Nothing wrong was found" + (" in what is known." if matter.not_known else "."))
    for finding in found:
        yield _remark(finding, many=len(matter.before) > 1)


def _remark(finding: Finding, *, many: bool) -> Remark:
    where = f"Cylinder {finding.cylinder}: " if many else ""
    lines = [("Because", _sentence(finding.because))]
    if finding.instead_of:
        return Remark("OR INSTEAD", where + finding.title, (("Check", _sentence(finding.check_next)),))
    if finding.doubt:
        unit = "°" if finding.unit == "deg" else f" {finding.unit}"
        lines.append(("Doubt", f"± {finding.doubt:.2g}{unit}, mostly from {_name_doubt(finding)}"))
    lines.append(("Effect", _sentence(finding.effect)))
    if finding.cost:
        lines.append(("In a run", _sentence(finding.cost)))
    lines.append(("Check", _sentence(finding.check_next)))
    return Remark(MARKS[finding.severity], where + finding.title, tuple(lines))


def _name_doubt(finding: Finding) -> str:
    key, words = finding.doubt_mostly_from, finding.doubt_words
    return call_size(key) if words == key else words


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:] + ("" if words.endswith(".") else ".")


def _chosen(matter: CardMatter) -> list[tuple[list[str], Cure]]:
    """The cure chosen for each cylinder; cylinders with just the same steps go together."""
    groups: list[tuple[list[str], Cure]] = []
    for name in matter.before:
        cure = next((cure for cure in matter.cures if cure.cylinder == name), None)
        if cure is None:
            continue
        for names, other in groups:
            if other.steps == cure.steps:
                names.append(name)
                break
        else:
            groups.append(([name], cure))
    return groups


def _work(matter: CardMatter) -> Iterator[Block]:
    chosen = _chosen(matter)
    if not chosen:
        return
    yield Heading("What to do")
    cautions = dict.fromkeys(line for _, cure in chosen for line in cure.before_you_start)
    yield Cautions((*matter.cautions[:1], *cautions))
    for names, cure in chosen:
        many = len(matter.before) > 1
        yield Heading((f"{name_cylinders(names)}: " if many else "") + f"{cure.title} ({cure.work})", 2)
        yield Steps(cure.steps)
        rows = tuple(row for name in names for row in _sizes_to_set(matter, name, many=len(names) > 1))
        yield Table(("Size", "as found", "to set", "as left"), rows, blanks=(3,))
        if cure.left:
            yield Paragraph(f"This leaves: {_name_left(cure)}.")


def _name_left(cure: Cure) -> str:
    """The faults that a cure leaves, in words: the codes are plain words but for their hyphens."""
    return join_words([code.replace("-", " ") for code in cure.left])


def _sizes_to_set(matter: CardMatter, name: str, *, many: bool) -> Iterator[tuple[str, ...]]:
    cure = next(cure for cure in matter.cures if cure.cylinder == name)
    for size, value in cure.set.items():
        words = SIZES.get(size, size.rsplit("_", 1)[0].replace("_", " "))
        figures = ", ".join(_show_size(size, each) for each in (value if isinstance(value, tuple) else (value,)))
        yield (f"{words} ({name})" if many else words, _show_found(matter.sizes[name], size), figures, "")
    for words, was, lead in _leads_to_set(matter, cure):
        yield (f"{words} ({name})" if many else words, was, f"{show_number(lead, 2)} mm", "")


def _show_found(sizes: Sizes, size: str) -> str:
    """What was found where a cure sets a size, with a mark if nobody measured it; a dash where there is nothing."""
    key = FOUND_AS.get(size)
    if key is None or key not in sizes.numbers:
        return "–"
    number, mark = sizes.numbers[key], " (assumed)" if key in sizes.assumed else ""
    return _show_size(size, degrees(number) if size.endswith("_deg") else number * 1e3) + mark


def _leads_to_set(matter: CardMatter, cure: Cure) -> list[tuple[str, str, float]]:
    """The lead to be found: alike at both ends, as the setting evens it out, unless equal cut-off is wanted instead."""
    ends = ("head", "crank") if cure.after.piston_area_mm2["crank"] != 0 else ("head",)
    found = {end: state.lead_mm for end, state in matter.before[cure.cylinder].ends.items()}
    was = {end: NOT_KNOWN if lead is None else show_number(lead, 2) for end, lead in found.items()}
    leads = [(end, lead) for end in ends if (lead := cure.after.ends[end].lead_mm) is not None]
    if len(leads) == 2 and matter.engine.target.equal != "cut-off":
        both = " and ".join(dict.fromkeys(was.values()))
        return [("Lead, each end alike", _with_unit(both), sum(lead for _, lead in leads) / 2)]
    return [(f"Lead at the {end} end", _with_unit(was[end]), lead) for end, lead in leads]


def _with_unit(figures: str) -> str:
    return figures if figures.endswith(NOT_KNOWN) else f"{figures} mm"


def _show_size(size: str, value: float) -> str:
    if size.endswith("_deg"):
        return show_angle(value)
    return show_length(value) if size.endswith("_mm") else f"{value:g}"


def _setting(matter: CardMatter) -> Iterator[Block]:
    if not any(matter.setting.values()):
        return
    yield Heading("Setting the valve", fresh=True)
    yield Cautions(matter.cautions[1:])
    told: dict[Section, list[str]] = {}
    for name, sections in matter.setting.items():
        for section in sections:
            told.setdefault(section, []).append(name)
    for section, names in told.items():
        # A part that reads alike for every cylinder stands once.
        where = f" ({name_cylinders(names)})" if len(matter.before) > len(names) else ""
        yield Heading(f"{section.title}{where}", 2)
        yield Steps(section.steps)


def _others(matter: CardMatter) -> Iterator[Block]:
    best = {id(cure) for _, cure in _chosen(matter)}
    first = {name: next((c for c in matter.cures if c.cylinder == name), None) for name in matter.before}
    others = [c for c in matter.cures if c is not first[c.cylinder] and id(c) not in best]
    if not others:
        return
    yield Heading("Other ways out")
    lines: dict[str, list[str]] = {}
    for cure in others:
        left = f" Leaves: {_name_left(cure)}." if cure.left else ""
        lines.setdefault(f"{cure.title} ({cure.work}).{left}", []).append(cure.cylinder)
    many = len(matter.before) > 1
    yield Points(tuple((f"{name_cylinders(names)}: " if many else "") + line for line, names in lines.items()))


def lay_grounds(matter: CardMatter, *, told: Collection[str] = ()) -> Iterator[Block]:
    """Yield what everything above rests on.

    Parameters
    ----------
    matter: what is told
    told: the cautions that stand above already
    """
    taken = (*matter.assumed, *(matter.runs.before.run.assumed if matter.runs else ()))
    assumed = dict.fromkeys(f"{call_size(each.key)} {each.value}, {each.because}" for each in taken)
    if assumed:
        yield Heading("Assumed, not measured")
        yield Points(tuple(assumed))
    if matter.not_known:
        yield Heading("Not known")
        yield Points(tuple(f"{figure}: {because.removeprefix('not known, ')}" for figure, because in matter.not_known))
    sources = (*list_part_sources(matter.part_cures), *(matter.finish.sources if matter.finish else ()))
    if sources:
        yield Heading("What the figures of the parts rest on")
        yield Points(sources)
    if matter.problems:
        yield Heading("Notes on the record")
        yield Points(tuple(_say_problem(problem) for problem in matter.problems))
    left = tuple(caution for caution in matter.cautions if caution not in told)
    if left:
        yield Heading("Cautions besides")
        yield Points(left)


def _say_problem(problem: RecordProblem) -> str:
    where = f"line {problem.line}" if problem.line else "the whole record"
    return ": ".join(words for words in (where, clean_text(problem.message), clean_text(problem.instead)) if words)
