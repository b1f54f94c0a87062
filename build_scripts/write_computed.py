"""Pages that the calculators fill at build time: how long capacitors take to discharge, and the units they speak."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from build_scripts.fill_templates import fill
from build_scripts.read_handbook import Handbook
from calculators.answer import answer
from calculators.limits import Standards
from calculators.units import UNITS, Unit, to_base

DISCHARGE_PAGE = "reference/discharge-times.md"
UNITS_PAGE = "reference/units.md"
_DISCHARGE = "capacitor-discharge"

# Peak volts of supplies of 115 V and 230 V, and of a run capacitor printed 440 V.
_STARTS = (("163", "the peak of 115 V"), ("325", "the peak of 230 V"), ("622", "the peak of a can printed 440 V"))
_MICROFARADS = ("5", "10", "25", "50", "100", "200", "300")
# Ideal entries: the page says what the arithmetic alone gives, and the calculator adds the meter's band.
_EXACT = {"voltmeter_percent": "0", "voltmeter_counts": "0", "can": "sound"}
# Two units that mean the same step are one row of the table; what is only counted or compared has no step.
_NO_STEP = ("ratio", "percent", "plain_number", "count", "turns", "temperature")


def computed_pages(handbook: Handbook) -> list[str]:
    """The pages there are, in the order of the menu."""
    return [*([DISCHARGE_PAGE] if _DISCHARGE in handbook.calculators else []), UNITS_PAGE]


def write_computed(handbook: Handbook, standards: Standards, on: str) -> Iterator[tuple[str, str]]:
    """The path and the Markdown of each page."""
    if _DISCHARGE in handbook.calculators:
        groups = [
            {"volts": volts, "words": words, "rows": [_discharge(each, volts, standards, on) for each in _MICROFARADS]}
            for volts, words in _STARTS
        ]
        yield DISCHARGE_PAGE, fill("discharge_times.md", here=DISCHARGE_PAGE, groups=groups)
    yield UNITS_PAGE, fill("units.md", groups=_unit_groups())


def _discharge(microfarads: str, volts: str, standards: Standards, on: str) -> dict[str, str]:
    entries = _EXACT | {"capacitance": microfarads, "volts_before": volts}
    request = {
        "calculator": _DISCHARGE,
        "date": on,
        "inputs": {name: {"text": text, "unit": ""} for name, text in entries.items()},
    }
    reply = json.loads(answer(json.dumps(request), standards))
    return {"microfarads": microfarads} | {one["name"]: str(one["text"]) for one in reply["results"]}


def _unit_groups() -> list[dict[str, Any]]:
    """The units of each quantity, the base unit first, with how many of it one of each is."""
    groups: dict[str, list[Unit]] = {}
    for unit in UNITS.values():
        if unit.quantity not in _NO_STEP:
            groups.setdefault(unit.quantity, []).append(unit)
    return [
        {
            "title": quantity.replace("_", " ").capitalize(),
            "base": units[0].symbol,
            "rows": [
                {"symbol": unit.symbol, "in_base": f"{to_base(1.0, unit.name):.7g}", "typed": unit.spellings}
                for unit in units
            ],
        }
        for quantity, units in groups.items()
        if len(units) > 1
    ]
