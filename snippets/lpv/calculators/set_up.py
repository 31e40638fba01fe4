"""Calculator for setting up: what a frequency belongs to."""

from lpv.forms.fields import Number
from lpv.forms.form import Calculator, Output, Steps
from lpv.setup.radio import kind

WORDS = {
    "localizer": "A receiver tuned to it can show a localizer's deviation where you expect SBAS.",
    "VOR": "", "neither": "",
}
NAMES = {"localizer": "a localizer channel", "VOR": "a VOR channel", "neither": "neither a localizer nor a VOR channel"}


def _frequency(frequency_mhz: float) -> "dict[str, tuple[str, str]]":
    service = kind(frequency_mhz)
    return {"kind": (NAMES[service], WORDS[service])}


CALCULATORS = (
    Calculator(
        "frequency", "localizer channel or not", "Is this frequency a localizer's?", _frequency,
        inputs=(Number("frequency_mhz", "Frequency", "MHz", 108, 118, 0.001, 110.3),),
        outputs=(Output("kind", "It is"),),
        sentence="{frequency_mhz} is {kind}.",
        remarks="Which frequencies are localizers' and VORs' is from memory.",
        facts=("localizer_lowest_mhz", "localizer_highest_mhz"),
        table=Steps("frequency_mhz", ("kind",), step=0.05),
    ),
)
