"""The shelf: every book, standard and paper that a figure of this project rests on."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from lapwright.sources.citing import Source
from lapwright.sources.workshop_shelf import WORKSHOP_SOURCES

_RE_KEYED = "the printed book was not read, only its answers as re-keyed by volunteers"

_BOOKS = (
    Source(
        key="agrawal",
        author="B. Agrawal and C. M. Agrawal",
        title="Basic Mechanical Engineering",
        note=_RE_KEYED,
    ),
    Source(
        key="ahrons",
        author="E. L. Ahrons",
        title="Steam Locomotive Construction and Maintenance",
        year="1920s",
    ),
    Source(
        key="alexander-1977",
        author="R. Alexander",
        title="Diagonally implicit Runge-Kutta methods for stiff O.D.E.'s, SIAM Journal on Numerical Analysis 14",
        year="1977",
        note="cited from memory; the scheme's order and damping are proved by the tests",
    ),
    Source(
        key="babcock-1919",
        author="Babcock & Wilcox",
        title="Steam, Its Generation and Use, 35th edition",
        year="1919",
        note="its steam table is that of Marks and Davis, 1909",
    ),
    Source(
        key="bourne-1865",
        author="John Bourne",
        title="A Catechism of the Steam Engine, new and enlarged edition",
        year="c. 1864-65",
        note="its tables of lap and exhaust hold misprints; a case that corrects one says so",
    ),
    Source(
        key="saint-venant-1839",
        author="A. J. C. Barre de Saint-Venant and L. Wantzel",
        title="Memoire et experiences sur l'ecoulement de l'air, Journal de l'Ecole Polytechnique 16",
        year="1839",
        note="cited from memory; the equation as every handbook of thermodynamics has it",
    ),
    Source(key="brooks-1888", author="C. P. Brooks", title="Cotton Manufacturing", year="1888"),
    Source(
        key="broyden-1965",
        author="C. G. Broyden",
        title="A class of methods for solving nonlinear simultaneous equations, Mathematics of Computation 19",
        year="1965",
        note="cited from memory; that the spaces find their balance is proved by the tests",
    ),
    Source(
        key="derr-1911",
        author="Louis Derr (ed.)",
        title="Cyclopedia of Engineering",
        year="1911",
        note="only the captions of its plates were read",
    ),
    Source(
        key="dole-1914",
        author="C. W. Dole and W. H. James",
        title="Mechanism of Steam Engines",
        year="1914",
    ),
    Source(
        key="ewing-1911",
        author="J. A. Ewing",
        title='"Steam Engine", Encyclopaedia Britannica, 11th edition, vol. 25',
        year="1911",
        note="section 61 prints cos for sin in the relation of lap, lead and angle of advance",
    ),
    Source(
        key="joel",
        author="Rayner Joel",
        title="Basic Engineering Thermodynamics",
        note=_RE_KEYED,
    ),
    Source(
        key="langley-1911",
        author="S. P. Langley and C. M. Manly",
        title="Langley Memoir on Mechanical Flight, Smithsonian Contributions to Knowledge, vol. 27, no. 3",
        year="1911",
    ),
    Source(
        key="lardner-1840",
        author="Dionysius Lardner",
        title="The Steam Engine Explained and Illustrated, 7th edition",
        year="1840",
    ),
    Source(key="lineham", author="Wilfrid J. Lineham", title="A Text-Book of Mechanical Engineering"),
    Source(
        key="low-1887",
        author="D. A. Low",
        title="An Introduction to Machine Drawing and Design",
        year="1887",
        note="the sizes of fig. 58 were read by eye from the woodcut",
    ),
    Source(
        key="machinery-70",
        author="Machinery's Reference Series No. 70",
        title="Steam Engines",
        year="1911",
    ),
    Source(
        key="machinery-handbook",
        author="E. Oberg and others",
        title="Machinery's Handbook, 31st edition",
        year="2020",
        note="the authors and the year are given from memory; its tables of BA threads are those of BS 93",
    ),
    Source(
        key="maggard-1900",
        author="James H. Maggard",
        title="Rough and Tumble Engineering",
        year="c. 1900",
    ),
    Source(
        key="molesworth",
        author="G. L. Molesworth",
        title="Pocket-Book of Engineering Formulae",
        year="late 19th century",
        note="a machine-read scan; figures with a doubtful digit were left out",
    ),
    Source(
        key="modern-mechanism",
        author="Park Benjamin (ed.)",
        title='Modern Mechanism, article "Friction of Engines"',
        year="1892",
        note="it sums up the trials of Thurston and of Carpenter and Preston; editor and year are given from memory",
    ),
    Source(
        key="rohan-1899",
        author="J. V. Rohan",
        title="Young Engineer's Guide",
        year="c. 1899",
    ),
    Source(
        key="rose-1887",
        author="Joshua Rose",
        title="Modern Machine Shop Practice, vol. II",
        year="1887-88",
    ),
    Source(
        key="sarkar",
        author="B. K. Sarkar",
        title="Theory of Machines",
        note=f"{_RE_KEYED}; the re-keyed piston speed drops a factor of 2 in its second term",
    ),
    Source(
        key="sinclair-1885",
        author="Angus Sinclair",
        title="Locomotive Engine Running and Management",
        year="1885",
        note="the text of a later printing",
    ),
    Source(
        key="singh",
        author="Onkar Singh",
        title="Applied Thermodynamics",
        note=_RE_KEYED,
    ),
    Source(
        key="solberg-1946",
        author="H. L. Solberg and others",
        title="Elementary Heat Power",
        year="1946",
        note=_RE_KEYED,
    ),
    Source(
        key="thurston-1878",
        author="R. H. Thurston",
        title="A History of the Growth of the Steam-Engine",
        year="1878",
    ),
    Source(
        key="travelling-engineers",
        author="Traveling Engineers' Association",
        title="Examination questions and answers",
        year="early 20th century",
    ),
    Source(
        key="tredgold-1838",
        author="Thomas Tredgold",
        title="The Steam Engine, vol. 1",
        year="1838",
        note="the printing of 1838 or a later one",
    ),
    Source(
        key="unwin-1911",
        author="W. C. Unwin",
        title='"Hydraulics", Encyclopaedia Britannica, 11th edition, vol. 14',
        year="1911",
        note="the author and the volume are given from memory",
    ),
    Source(
        key="van-cleve",
        author="B. F. Van Cleve",
        title="The English and American Mechanic",
    ),
    Source(
        key="williams-1906",
        author="Archibald Williams",
        title="How It Works",
        year="c. 1906",
        note="calls the eccentricity the throw, as this project does; other books call twice of it the throw",
    ),
)

_PAPERS = (
    Source(
        key="closed-forms",
        author="no book",
        title="closed forms of an ideal gas, of a space with openings and of a crank, worked out for this comparison",
        note="each row names its formula",
    ),
    Source(
        key="cushion-trials",
        author="author not found",
        title="Averages of trials with cushion steam, a table in an engineering society's transactions",
        note="a machine-read scan without its title page",
    ),
    Source(
        key="da-silva-2018",
        author="B. Da Silva",
        title="thesis on a piston expander, Stellenbosch University",
        year="2018",
        note="only the abstract was read",
    ),
    Source(
        key="mit-1917",
        author="bachelor's thesis, Massachusetts Institute of Technology",
        title="An experimental plant for a steam-car power unit",
        year="1917",
        note="only the first lines could be read, and the title is given by its subject",
    ),
    Source(
        key="outside-lap-text",
        author="author not stated",
        title='instruction text for railwaymen, page "Lead / Outside lap"',
        year="early 20th century",
    ),
    Source(
        key="riedler-1891",
        author="A. Riedler",
        title="Trials of compressed-air motors, Scientific American Supplement no. 803",
        year="23 May 1891",
        note="the initial of the author is given from memory",
    ),
    Source(
        key="rose-1877",
        author="Joshua Rose",
        title='"Setting locomotive slide valves", Scientific American, vol. 37, no. 2',
        year="14 July 1877",
    ),
    Source(
        key="sciam-1880",
        author="Scientific American",
        title="vol. XLIII, no. 25",
        year="18 December 1880",
    ),
    Source(
        key="trial-program",
        author="this project",
        title="a trial program for one small engine, written before this one and apart from it",
        note="what it used for the ports, the lap and the lead was not kept",
    ),
)

_STANDARDS = (
    Source(
        key="bs-84",
        author="British Standards Institution",
        title="BS 84, Parallel screw threads of Whitworth form",
        note="form and tolerances read in extracts; the title is given from memory",
    ),
    Source(
        key="bs-93",
        author="British Standards Institution",
        title="BS 93, British Association (B.A.) screw threads",
        year="1951, 2008",
        note="read as reprinted in Machinery's Handbook and in an extract of annex B; the title is given from memory",
    ),
    Source(
        key="cgpm-1901",
        author="General Conference on Weights and Measures",
        title="Declaration on the unit of mass and the definition of weight",
        year="1901",
        note="cited from memory; standard gravity is 9.80665 m/s² exactly",
    ),
    Source(
        key="gum",
        author="Joint Committee for Guides in Metrology",
        title="JCGM 100, Evaluation of measurement data: guide to the expression of uncertainty in measurement",
        year="2008",
        note="cited from memory",
    ),
    Source(
        key="iapws-r6-95",
        author="International Association for the Properties of Water and Steam",
        title="R6-95, Formulation 1995 for the thermodynamic properties of ordinary water substance, revised release",
        year="2016, 2018",
        note="its tables 7 and 8 were read in a public transcription",
    ),
    Source(
        key="iapws-r7-97",
        author="International Association for the Properties of Water and Steam",
        title="R7-97, Industrial Formulation 1997 for the thermodynamic properties of water and steam, revised release",
        year="2012",
        note="its coefficients and tables were read in public transcriptions, which agree digit for digit",
    ),
    Source(
        key="inch-1959",
        author="national standards laboratories of six countries",
        title="Agreement on the international yard and pound",
        year="1959",
        note="cited from memory; the inch is 25.4 mm and the pound 0.45359237 kg exactly",
    ),
    Source(
        key="iso-261",
        author="International Organization for Standardization",
        title="ISO 261, ISO general purpose metric screw threads: general plan",
        note="cited from memory; the coarse pitch that goes with each diameter",
    ),
    Source(
        key="iso-68-1",
        author="International Organization for Standardization",
        title="ISO 68-1, ISO general purpose screw threads: basic profile, metric screw threads",
        note="the title is given from memory",
    ),
    Source(
        key="iso-724",
        author="International Organization for Standardization",
        title="ISO 724, ISO general-purpose metric screw threads: basic dimensions",
        note="the title is given from memory",
    ),
)

#: Every entry of the bibliography, by its key. Keys are public and do not change.
SOURCES: Final[Mapping[str, Source]] = MappingProxyType(
    {
        source.key: source
        for source in sorted((*_BOOKS, *_PAPERS, *_STANDARDS, *WORKSHOP_SOURCES), key=lambda source: source.key)
    }
)
