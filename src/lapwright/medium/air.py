"""Air as an ideal gas, which is enough here.

At 3 bar and 20 degC the real density differs by a thousandth and the specific heat by a two-hundredth; at 8 bar by
three thousandths.
"""

from __future__ import annotations

#: Gas constant of dry air [J/kg K].
GAS_CONSTANT = 287.05
#: Ratio of the specific heats [-].
EXPONENT = 1.4
#: Viscosity at about 20 degC [Pa s]; common practice, no source.
VISCOSITY = 1.82e-5
