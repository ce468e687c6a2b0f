"""Flow through an opening, choked and not, and through a thin gap: one law for air and steam.

Written with pressure and density upstream, so that wet steam takes the same line as air.
"""

from __future__ import annotations

from math import sqrt

from lapwright.medium.compiling import inlined, lean

#: Below this drop, as a share of the pressure upstream, flow grows in proportion to the drop instead of its root:
#: the root's endless slope at nothing would stall every solver, and a thousandth leaves the card as it is.
SMALL_DROP = 1e-3


@lean
def find_flow_terms(exponent: float) -> tuple[float, float, float, float, float]:
    """Return what the flow law needs of an expansion exponent, worked out once.

    Parameters
    ----------
    exponent: isentropic exponent k of the medium [-], above 1

    Returns
    -------
    Critical pressure ratio [-], flow factor when choked [-], 1/k [-], 2k/(k - 1) [-], and the slope of the factor
    within the smallest drops [-].

    Source: saint-venant-1839 (flow of a perfect gas through an opening)

    Example:
    >>> [round(term, 5) for term in find_flow_terms(1.4)[:2]]
    [0.52828, 0.68473]
    """
    sonic = 2.0 / (exponent + 1.0)
    thinned = sonic ** (1.0 / (exponent - 1.0))
    critical = sonic * thinned
    choked = sqrt(exponent * sonic) * thinned
    scale = 2.0 * exponent / (exponent - 1.0)
    ratio = 1.0 - SMALL_DROP
    power = ratio ** (1.0 / exponent)
    slope = sqrt(scale * power * (power - ratio)) / SMALL_DROP
    return critical, choked, 1.0 / exponent, scale, slope


@inlined
def flow_factor(ratio: float, critical: float, choked: float, inverse: float, scale: float, slope: float) -> float:
    """Return the factor in mass flow = area x sqrt(pressure x density) x factor, all upstream.

    Parameters
    ----------
    ratio: pressure downstream over pressure upstream [-], 0 to 1; above 1 nothing flows
    critical, choked, inverse, scale, slope: as `find_flow_terms` gives them [-]

    Source: saint-venant-1839 (flow of a perfect gas through an opening)
    """
    if ratio >= 1.0:
        return 0.0
    if ratio <= critical:
        return choked
    if ratio > 1.0 - SMALL_DROP:
        return slope * (1.0 - ratio)
    power = ratio**inverse
    return sqrt(scale * power * (power - ratio))
