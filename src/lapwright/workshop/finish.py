"""The painting plan of a part: paint by its heat in service, primer by its metal, coats, order of work, quantities."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, isfinite
from typing import Final

from lapwright.engine.parts import LETTERINGS
from lapwright.errors import NotOneOf, OutOfRange
from lapwright.sources import cite
from lapwright.tables.materials import find_metal
from lapwright.workshop.cautions import CURING, OLD_PACKING, OLD_PAINT, PAINT, STEAM
from lapwright.workshop.finish_plan import Coat, FinishPlan
from lapwright.workshop.finish_steps import Work, list_steps, list_steps_without_paint
from lapwright.workshop.heat import show_heat
from lapwright.workshop.item import Item
from lapwright.workshop.paint_choice import (
    FAMILIES,
    METAL_PRIMER,
    SYSTEM,
    Choice,
    Paint,
    choose_paint,
    choose_primer,
    find_etch_primer,
    list_others,
    show_limit,
)
from lapwright.workshop.paint_faults import PAINT_FAULTS, explain_faults
from lapwright.workshop.paint_film import Build, build_film, find_volume, find_wet_film, show_micrometres

#: Colder and hotter than this no painted part is in service [K].
_COLDEST, _HOTTEST = 223.15, 1273.15
#: As much surface as no part of a small engine has [m2].
_WIDEST = 100.0
#: Above this a part is one that steam warms [K].
_WARM = 366.15
_COUNTS: Final = ("first", "second", "third", "fourth", "fifth")
#: Paint is measured out of the tin in steps of this [ml].
_MEASURE = 5
_PRACTICE = "Order of work, number of coats, covering and letters: common practice, no source."
_REMEMBERED = "Waste, and the stiffness and weight of wet paint: from memory."


def plan_finish(
    *,
    metal: str,
    temperature: float,
    surface: float | None = None,
    old_paint: bool = False,
    lettering: str = LETTERINGS[0],
    masked: tuple[str, ...] = (),
    paint: str | None = None,
    seen: tuple[str, ...] = (),
) -> FinishPlan:
    """Return how to paint a part: which paint and why, coat by coat, in which order, and what to have ready.

    Parameters
    ----------
    metal: what it is made of, by its name or grade: "cast iron", "LG2"
    temperature: of the metal in service [K], 223 to 1273
    surface: what is painted [m2], more than 0, up to 100; None where not known
    old_paint: whether there is old paint on it
    lettering: "none", "raised" or "recessed"
    masked: what stays bright, in the person's words
    paint: the one that is wished for; None for no wish
    seen: what went wrong with paint on it before, some of `PAINT_FAULTS`

    Raises
    ------
    NotOneOf: a metal, a lettering, a fault or a paint that is none of those known
    OutOfRange: a temperature or a surface that no part has

    Source: gels-2018 (wrinkles); common practice, no source (order of work); films and limits from the table of paints

    Example: an iron bed on air
    >>> plan = plan_finish(metal="cast iron", temperature=293.15, surface=0.035)
    >>> [coat.name for coat in plan.coats][1:]
    ['first coat of long-oil alkyd gloss enamel', 'second coat of long-oil alkyd gloss enamel']
    >>> [(item.name, item.amount) for item in plan.have_ready if item.shelf == "paint"][1]
    ('long-oil alkyd gloss enamel', '10 ml')
    """
    metal = find_metal(metal).name
    _check(temperature, surface=surface, lettering=lettering, seen=seen)
    choice = choose_paint(temperature, wished=paint)
    if choice.paint is None:
        return _plan_without_paint(choice, metal=metal, temperature=temperature, surface=surface, old_paint=old_paint)
    primer = choose_primer(choice.paint, family=FAMILIES[metal], temperature=temperature)
    work = Work(
        family=FAMILIES[metal],
        paint=choice.paint,
        primer=primer,
        coats=tuple(_lay_coats(choice.paint, primer, surface=surface)),
        old_paint=old_paint,
        lettering=lettering,
        masked=tuple(name.strip() for name in masked if name.strip()),
        surface=surface,
    )
    return FinishPlan(
        metal=metal,
        temperature=temperature,
        surface=surface,
        paint=choice.paint.name,
        instead_of=choice.instead_of,
        why=choice.why,
        coats=work.coats,
        steps=list_steps(work),
        faults=explain_faults(choice.paint, wet_film=work.coats[-1].wet_film, seen=seen),
        notes=tuple(_note(work, temperature)),
        cautions=tuple(_caution(work, temperature)),
        have_ready=tuple(_list_items(work, temperature)),
        sources=tuple(_list_sources(work)),
    )


def _check(temperature: float, *, surface: float | None, lettering: str, seen: tuple[str, ...]) -> None:
    known = ((lettering, LETTERINGS), *((fault, PAINT_FAULTS) for fault in seen))
    for written, words in known:
        if written not in words:
            raise NotOneOf(written, words)
    if not (isfinite(temperature) and _COLDEST <= temperature <= _HOTTEST):
        span = f"is not between {show_heat(_COLDEST)} and {show_heat(_HOTTEST)}"
        raise OutOfRange(show_heat(temperature), span)
    if surface is not None and not (isfinite(surface) and 0 < surface <= _WIDEST):
        raise OutOfRange(f"{surface * 1e4:g} cm2", "is no surface that a part of a small engine has")


def _plan_without_paint(
    choice: Choice, *, metal: str, temperature: float, surface: float | None, old_paint: bool
) -> FinishPlan:
    return FinishPlan(
        metal=metal,
        temperature=temperature,
        surface=surface,
        paint="",
        instead_of=choice.instead_of,
        why=choice.why,
        coats=(),
        steps=list_steps_without_paint(FAMILIES[metal]),
        faults=(),
        notes=(),
        cautions=(PAINT, *((OLD_PAINT,) if old_paint else ())),
        have_ready=(Item("consumables", "pack of rags without lint"), Item("consumables", "white spirit", 1, "50 ml")),
        sources=(_PRACTICE,),
    )


def _lay_coats(paint: Paint, primer: Paint | None, *, surface: float | None) -> Iterator[Coat]:
    if primer is not None:
        yield _make_coat(primer, primer.name, dry_film=_find_usual(primer), surface=surface)
    build = _build_up(paint, primer)
    each = None if build is None else build.each
    count = paint.coats if build is None else build.coats
    for number in range(count):
        name = paint.name if count == 1 else f"{_COUNTS[number]} coat of {paint.name}"
        yield _make_coat(paint, name, dry_film=each, surface=surface)


def _build_up(paint: Paint, primer: Paint | None) -> Build | None:
    """Make up the film of the paint from coats; over etch primer the whole has to stay within its system."""
    usual = _find_usual(paint)
    if usual is None:
        return None
    wanted = paint.coats * usual
    under = _find_usual(primer) if primer is not None and primer.wants_bare else None
    if under is not None:
        wanted = min(wanted, SYSTEM[1] - under)
    return build_film(wanted, least=paint.least or usual, most=paint.most or usual)


def _find_usual(paint: Paint) -> float | None:
    """The dry film of one coat [m]: the sheet's own, or the middle of what it allows."""
    if paint.usual is None and paint.least is not None and paint.most is not None:
        return (paint.least + paint.most) / 2
    return paint.usual


def _make_coat(paint: Paint, name: str, *, dry_film: float | None, surface: float | None) -> Coat:
    wet = None if dry_film is None or paint.solids is None else find_wet_film(dry_film, paint.solids)
    return Coat(
        name=f"{name} (from memory)" if paint.from_memory else name,
        paint=paint.name,
        dry_film=dry_film,
        wet_film=wet,
        recoat=paint.recoat,
        cure=paint.cure,
        amount=None if wet is None or surface is None else find_volume(surface, wet),
        source=paint.source,
        from_memory=paint.from_memory,
    )


def _note(work: Work, temperature: float) -> Iterator[str]:
    films = [coat.dry_film for coat in work.coats]
    known = [film for film in films if film is not None]
    if len(known) == len(films):
        yield f"All coats together are {show_micrometres(sum(known))} thick when dry."
    if work.primer is not None and work.primer.wants_bare:
        least, most = map(show_micrometres, SYSTEM)
        yield f"Over etch primer the whole is to be {least} to {most}: thinner it does not keep, thicker it lifts."
    if work.primer is None and work.family != "iron":
        yield (
            f"No etch primer here: it gives up at {show_limit(find_etch_primer())}, in service or while the paint is "
            "hardened. Bare metal other than iron holds paint less well: try a patch through one warming first."
        )
    yield from _note_cold(work.paint) if temperature <= _WARM else _note_hot(work.paint, temperature)
    if work.surface is None:
        yield "Give the surface, and the amounts can be worked out."
    elif any(coat.amount is not None for coat in work.coats):
        yield "The amounts to have ready hold three parts in ten more, for what stays in brush and pot (from memory)."


def _note_cold(paint: Paint) -> Iterator[str]:
    if paint.cure_heat is not None or paint.wants_bare:
        yield "A part this cool never hardens heat paint by itself; plain enamel would do, and dries in the air."
    yield (
        "If the part is to meet steam some day, it will be at 144 to 165 degC on 3 to 6 bar: past plain enamel, which "
        "would have to come off again."
    )


def _note_hot(paint: Paint, temperature: float) -> Iterator[str]:
    yield "Steam of 3 to 6 bar is at 144 to 165 degC."
    others = [
        f"{one.name} ({show_heat(one.limit)}{', from memory' if one.from_memory else ''})"
        for one in list_others(paint, temperature)
    ]
    if others:
        yield f"These stand it too: {', '.join(others)}."
    yield (
        "Colours that stand heat are silicone paints: with alkyd in them to 150 or 200 degC, unfilled to 200 or 250, "
        "filled with pigment to 300 or 650; the figure on the tin decides."
    )


def _caution(work: Work, temperature: float) -> Iterator[str]:
    yield PAINT
    if work.old_paint:
        yield OLD_PAINT
        if temperature > _WARM:
            yield OLD_PACKING
    if work.paint.cure_heat is not None or work.paint.wants_bare:
        yield CURING
    if work.paint.hardens_on_engine:
        yield STEAM


def _list_items(work: Work, temperature: float) -> Iterator[Item]:
    names = tuple(dict.fromkeys(coat.paint for coat in work.coats))
    if work.primer is not None or not work.paint.sprayed:
        yield Item("tools", "soft flat brush")
        yield Item("tools", "syringe or small measure marked in ml")
    if work.lettering != "none":
        yield Item("tools", "flat block")
    for name in names:
        yield _list_paint(name, [coat.amount for coat in work.coats if coat.paint == name])
    if work.lettering == "recessed":
        yield Item("tools", "fine brush")
        yield Item("paint", f"colour for the letters that stands {show_heat(temperature)}", 1, f"{_MEASURE} ml")
    if work.family == "iron" and work.primer is METAL_PRIMER:
        yield Item("paint", "stopper for castings", 1, "20 ml")
    thinned = [name for name in names if not (work.paint.sprayed and name == work.paint.name)]
    if thinned:
        yield Item("paint", f"thinner for {' and '.join(thinned)}", 1, "50 ml")
    yield from _list_consumables(work)


def _list_consumables(work: Work) -> Iterator[Item]:
    washing = "alkaline cleaner" if work.family == "copper alloy" else "white spirit"
    yield Item("consumables", washing, 1, "50 ml")
    yield Item("consumables", "sheet of wet-or-dry paper, P180")
    yield Item("consumables", "sheet of wet-or-dry paper, P600")
    yield Item("consumables", "pack of rags without lint")
    yield Item("consumables", "pair of gloves that stand thinner")
    if work.masked:
        yield Item("consumables", "roll of masking tape")


def _list_paint(name: str, amounts: list[float | None]) -> Item:
    known = [amount for amount in amounts if amount is not None]
    if len(known) < len(amounts):
        return Item("paint", name)
    return Item("paint", name, 1, f"{ceil(sum(known) * 1e6 / _MEASURE) * _MEASURE} ml")


def _list_sources(work: Work) -> Iterator[str]:
    yield from dict.fromkeys(coat.source for coat in work.coats)
    yield f"Wrinkles: {cite('gels-2018')}, and a thesis of the University of Minnesota."
    yield f"Heat of steam: {cite('iapws-r7-97')}."
    yield _PRACTICE
    yield _REMEMBERED
