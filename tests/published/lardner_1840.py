"""Lardner, The Steam Engine: the table of p. 519, work of a cubic foot of water by cut-off, clearance 5 %."""

from __future__ import annotations

from tests.published.figure import Figure, Row
from tests.published.power import mean_factor

SOURCE = "lardner-1840"
CLEARANCE = 0.05
#: Work of a cubic foot of water turned to steam, without expansion [ft lb]: condensing, and not.
CONSTANTS = {"condensing": 3875969, "non-condensing": 4347826}
#: The table: the same with the steam cut off at 0.10, 0.11 ... 0.90 of the stroke [ft lb].
# fmt: off
PRINTED = {"condensing": (
    10126265, 9956867, 9793136, 9634926, 9482029, 9334219, 9191251, 9052888, 8918896, 8789043, 8663120, 8540918,
    8422242, 8306916, 8194770, 8085644, 7979392, 7875870, 7774952, 7676514, 7580447, 7486640, 7394990, 7305407,
    7217807, 7132097, 7048206, 6966058, 6885585, 6806720, 6729408, 6653578, 6579187, 6506174, 6434491, 6364099,
    6294944, 6226989, 6160190, 6094510, 6029916, 5966367, 5903837, 5842288, 5781693, 5722024, 5663251, 5605353,
    5548297, 5492064, 5436628, 5381969, 5328065, 5274896, 5222444, 5170684, 5119605, 5069186, 5019410, 4970263,
    4921727, 4873790, 4826434, 4779648, 4733417, 4687728, 4642569, 4597928, 4553794, 4510155, 4466999, 4424317,
    4382096, 4340332, 4299010, 4258120, 4217658, 4177613, 4137974, 4098737, 4059893,
), "non-condensing": (
    11359029, 11169008, 10985344, 10807875, 10636364, 10470560, 10310186, 10154978, 10004675, 9859014, 9717760,
    9580682, 9447559, 9318193, 9192396, 9069984, 8950796, 8834674, 8721468, 8611048, 8503284, 8398056, 8295250,
    8194760, 8096496, 8000352, 7906249, 7814100, 7723832, 7635365, 7548642, 7463580, 7380132, 7298230, 7217822,
    7138858, 7061285, 6985058, 6910126, 6836450, 6763992, 6692708, 6622565, 6553525, 6485552, 6418619, 6352693,
    6287745, 6223742, 6160662, 6098478, 6037166, 5976699, 5917057, 5858219, 5800159, 5742860, 5686304, 5630469,
    5575340, 5520894, 5467121, 5414000, 5361519, 5309659, 5258408, 5207751, 5157676, 5108170, 5059218, 5010808,
    4962931, 4915569, 4868720, 4822368, 4776500, 4731113, 4686192, 4641728, 4597713, 4554140,
)}
# fmt: on


def work_of_water(engine: str, cut_off: float) -> float:
    """Work of a cubic foot of water [ft lb]: the mean pressure over what is drawn in for it at every stroke."""
    return CONSTANTS[engine] * mean_factor(cut_off, CLEARANCE) / (cut_off + CLEARANCE)


def cut_offs(engine: str) -> list[tuple[float, int]]:
    return [(0.10 + number / 100, printed) for number, printed in enumerate(PRINTED[engine])]


def worst_off(engine: str) -> float:
    """How far ours lies from the table at most, in millionths."""
    return max(abs(work_of_water(engine, cut_off) / printed - 1) for cut_off, printed in cut_offs(engine)) * 1e6


ROWS = (
    Row(
        id="LAR-519",
        source=SOURCE,
        locator="p. 519",
        kind="check",
        figures=(
            *(
                Figure(
                    what=f"{engine}, cut-off {cut_off:.2f}",
                    theirs=printed,
                    ours=lambda engine=engine, cut_off=cut_off: work_of_water(engine, cut_off),  # type: ignore[misc]
                    unit="ft lb",
                    within=0.5,
                    places=0,
                    explained=6,
                )
                for engine in PRINTED
                for cut_off, printed in cut_offs(engine)[5::20]
            ),
            *(
                Figure(
                    what=f"furthest off of all 81, {engine}",
                    theirs=0,
                    ours=lambda engine=engine: worst_off(engine),  # type: ignore[misc]
                    unit="millionths",
                    within=0.6,
                    places=2,
                )
                for engine in PRINTED
            ),
        ),
        note="Seven figures worked out with logarithms of seven places: the last one wavers. The work is the mean "
        "forward pressure, the clearance filled afresh at every stroke, without compression and before back pressure.",
    ),
)
