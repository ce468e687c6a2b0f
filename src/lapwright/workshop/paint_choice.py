"""Which paint stands the heat of a part in service, and which primer goes under it on which metal."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Final

from lapwright.quantities.temperature import FREEZING
from lapwright.tables.paints import PaintRow, list_paint_rows, match_paint
from lapwright.tables.reading import is_from_memory
from lapwright.workshop.heat import show_heat

#: What a metal asks for before it is painted.
FAMILIES: Final[Mapping[str, str]] = {
    "cast iron": "iron",
    "steel": "iron",
    "stainless steel": "stainless",
    "brass": "copper alloy",
    "gunmetal": "copper alloy",
    "phosphor bronze": "copper alloy",
    "copper": "copper alloy",
    "aluminium": "aluminium",
}
#: What a part on steam of some 4 bar gets to [K].
_HOT_ON_STEAM: Final = 425.0
#: A whole system over etch primer is to be no thinner and no thicker than this when dry [m].
SYSTEM: Final = (50e-6, 100e-6)


@dataclass(frozen=True, slots=True, kw_only=True)
class Paint:
    """One paint or primer, with what its data sheet says and how it is used.

    `solids` is the share that stays when the solvent has gone; `least`, `usual` and `most` are the dry film of one coat
    [m], None where the sheet that was read does not say. `limit` is the greatest heat it stands [K]; `cure_heat` is how
    hot it has to be made once [K], None where it hardens in the air or its tin has to say. A paint that `wants_bare`
    metal takes no primer, or is one itself; a `sprayed` one comes in a can.
    """

    name: str
    limit: float
    solids: float | None = None
    least: float | None = None
    usual: float | None = None
    most: float | None = None
    coats: int = 2
    recoat: str
    cure: str
    cure_heat: float | None = None
    wants_bare: bool = False
    sprayed: bool = False
    source: str

    @property
    def from_memory(self) -> bool:
        """Whether its figures were recalled and not read."""
        return is_from_memory(self.source)

    @property
    def hardens_on_engine(self) -> bool:
        """Whether steam of some 4 bar makes it hot enough to harden it."""
        return self.cure_heat is not None and self.cure_heat <= _HOT_ON_STEAM

    def stands(self, temperature: float) -> bool:
        """Whether it lives at a temperature in service [K]."""
        return temperature <= self.limit


@dataclass(frozen=True, slots=True)
class Choice:
    """The paint that is taken, None where none stands the heat; the wish that it replaces, or nothing; and why."""

    paint: Paint | None
    instead_of: str
    why: str


@dataclass(frozen=True, slots=True)
class _Habit:
    """How a paint of the table is used, beyond the figures of its row."""

    recoat: str
    cure: str
    coats: int = 2
    cure_heat: float | None = None
    wants_bare: bool = False
    sprayed: bool = False


_ENAMEL, _AEROSOL = "long-oil alkyd gloss enamel", "acrylic engine aerosol"
_OIL_ALUMINIUM, _ALUMINIUM = "oil/styrene aluminium heat paint", "aluminium heat paint 100-200 C"
_BLACK, _SILICONE = "silicone black 400 C", "silicone (general)"
_ETCH = "single-pack etch primer"
_BY_TIN = "as its tin says"
#: Coats and cures that no row tells are common practice, no source; so is that heat paints go on bare iron.
_HABITS: Final[Mapping[str, _Habit]] = {
    _ENAMEL: _Habit("after 16 h, or at any later time", "dries in the air, and hardens on for a week (from memory)"),
    _AEROSOL: _Habit("within 1 h, or after 2 to 7 days and not between", "dries in the air", sprayed=True),
    _OIL_ALUMINIUM: _Habit(_BY_TIN, "dries in the air"),
    _ALUMINIUM: _Habit(_BY_TIN, "hold it at 150 degC for 1 h before service", cure_heat=FREEZING + 150),
    _BLACK: _Habit(
        "after 2 h", "it is hard only once it has been at 230 degC", cure_heat=FREEZING + 230, wants_bare=True
    ),
    _SILICONE: _Habit(_BY_TIN, "hardens by heat, as its tin says", 1, wants_bare=True),
}
#: Which is taken when nobody wishes for another: the coolest that will do, of those whose sheet tells the film.
_PREFERRED: Final = (_ENAMEL, _OIL_ALUMINIUM, _BLACK, _SILICONE)
#: The oil-bound primer that goes under enamel on iron; it hardens and softens as the enamel does.
METAL_PRIMER: Final = Paint(
    name="zinc phosphate metal primer",
    limit=FREEZING + 93,
    solids=0.45,
    least=30e-6,
    usual=40e-6,
    most=50e-6,
    coats=1,
    recoat="the next day",
    cure="dries in the air",
    source="zinc phosphate metal primer: all its figures from memory",
)


@cache
def list_paints() -> tuple[Paint, ...]:
    """List the paints that can be wished for, from the one that stands least heat to the one that stands most."""
    rows = {row.name: row for row in list_paint_rows()}
    return tuple(sorted((_make_paint(rows[name], habit) for name, habit in _HABITS.items()), key=lambda one: one.limit))


@cache
def find_etch_primer() -> Paint:
    """Return the etch primer of the table."""
    row = next(row for row in list_paint_rows() if row.name == _ETCH)
    return _make_paint(row, _Habit("as soon as it is dry, in less than 1 h", "dries in the air", 1, wants_bare=True))


def find_paint(text: str) -> Paint:
    """Find a paint by its name in the tables, or by a word that only one of them has.

    Parameters
    ----------
    text: `long-oil alkyd gloss enamel`, `alkyd`, `aerosol`

    Raises
    ------
    NotOneOf: no paint is called so, or more than one

    Example:
    >>> find_paint("Alkyd").name
    'long-oil alkyd gloss enamel'
    """
    paints = {paint.name: paint for paint in list_paints()}
    return paints[match_paint(text, tuple(paints))]


def choose_paint(temperature: float, *, wished: str | None = None) -> Choice:
    """Return the paint for a part that is so hot in service: the one wished for if it stands that.

    Parameters
    ----------
    temperature: of the metal in service [K], more than 0
    wished: name of a paint; None for no wish

    Raises
    ------
    NotOneOf: no paint is called as wished

    Source: from memory (of two that stand the heat, the one that needs no oven is the easier); limits from the rows

    Example: a cylinder on steam of 4 bar
    >>> choice = choose_paint(425.15, wished="alkyd")
    >>> choice.paint.name, choice.instead_of
    ('oil/styrene aluminium heat paint', 'long-oil alkyd gloss enamel')
    """
    hot = show_heat(temperature)
    wish = find_paint(wished) if wished is not None else None
    if wish is not None and wish.stands(temperature):
        return Choice(wish, "", f"As wished: {wish.name} stands {show_limit(wish)}, and the part runs at {hot}.")
    paint = next((one for one in map(find_paint, _PREFERRED) if one.stands(temperature)), None)
    against = "" if wish is None else f"{_capital(wish.name)} stands only {show_limit(wish)}. "
    name = "" if wish is None else wish.name
    if paint is None:
        why = f"No paint of the tables stands {hot}; the hottest goes to {show_limit(list_paints()[-1])}."
        return Choice(None, name, against + why)
    taken = f"take {paint.name} instead, which" if wish else paint.name
    return Choice(paint, name, f"{against}The part runs at {hot}: {taken} stands {show_limit(paint)}.")


def list_others(paint: Paint, temperature: float) -> tuple[Paint, ...]:
    """List the other paints that stand a temperature, the coolest first.

    Parameters
    ----------
    paint: the one that is left out
    temperature: of the metal in service [K]
    """
    return tuple(one for one in list_paints() if one.stands(temperature) and one.name != paint.name)


def choose_primer(paint: Paint, *, family: str, temperature: float) -> Paint | None:
    """Return the primer under a paint on a metal, or None where the paint goes on bare metal.

    Parameters
    ----------
    paint: what goes over it
    family: of the metal, one of the values of `FAMILIES`
    temperature: of the metal in service [K]

    Source: common practice, no source: oil-bound primer under enamel on iron, etch primer on other metals, none under
        heat paint on iron, nor where the cure would be too hot for it
    """
    if family == "iron" and paint.name == _ENAMEL:
        return METAL_PRIMER
    etch = find_etch_primer()
    hottest = max(temperature, paint.cure_heat or 0.0)
    on_bare_iron = family == "iron" and paint.name != _AEROSOL
    return None if on_bare_iron or paint.wants_bare or not etch.stands(hottest) else etch


def show_limit(paint: Paint) -> str:
    """Show how hot a paint may become, and whether that was only recalled.

    Parameters
    ----------
    paint: whose limit is wanted

    Example:
    >>> show_limit(find_paint("aerosol"))
    '150 degC (from memory)'
    """
    return f"{show_heat(paint.limit)}{' (from memory)' if paint.from_memory else ''}"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _make_paint(row: PaintRow, habit: _Habit) -> Paint:
    return Paint(
        name=row.name,
        limit=row.heat_limit,
        solids=row.volume_solids,
        least=row.dry_least,
        usual=row.dry_usual,
        most=row.dry_most,
        coats=habit.coats,
        recoat=habit.recoat,
        cure=habit.cure,
        cure_heat=habit.cure_heat,
        wants_bare=habit.wants_bare,
        sprayed=habit.sprayed,
        source=f"{row.name}: {row.source}",
    )
