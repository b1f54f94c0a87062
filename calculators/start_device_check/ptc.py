"""A PTC, dead and cold: is it open, shorted, or inside what is known of its kind?

Hot it reads thousands of ohms and is right to; two readings that agree, at room temperature and after a rest, are a
cold reading. The table of classes is memory: beyond it there is a doubt, and only the part's own data make it a fault.
"""

from __future__ import annotations

import math
from dataclasses import replace

from calculators.contract import Step, quantity, rounded
from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce
from calculators.parts import Missing
from calculators.readings import Reading
from calculators.start_device_check.dead import DeadTest, Fault, hold_against, ohms, take
from calculators.start_device_check.inputs import PTC_TABLE

_OPEN = Fault("it does not conduct", "The start winding is never fed: the motor hums and trips.")
_SHORTED = Fault("it is shorted", "The start winding stays in: the motor starts, heats and trips.")
_OFF = Fault("it is outside its own data", "It is not the part it says it is any more.")


def ptc(entered: Entered, standards: InForce) -> DeadTest:
    """The dead test of a PTC."""
    test = DeadTest()
    first = take(entered, test, "ptc_ohms", "Disc")
    again = take(entered, test, "ptc_ohms_again", "Disc, read again")
    data = _data(entered)
    if first is None:
        test.missing.append(Missing("the disc read cold", "ptc_ohms"))
        return test
    cold = _cold(entered, standards, test, first, again)
    most, least = standards.limit("start_device.ptc_open"), standards.limit("start_device.ptc_shorted")
    if data is not None:
        least, most = replace(least, value=data[0]), replace(most, value=data[1])
    hold_against(entered, test, "ptc_ohms", "Disc", first, most, _OPEN if data is None or first.open_line else _OFF)
    hold_against(entered, test, "ptc_ohms", "Disc", first, least, _SHORTED if data is None else _OFF)
    if data is None:
        _class(entered, standards, test, first)
    else:
        test.faults = [replace(one, limit=None) for one in test.faults]  # the part's data, not a limit of the handbook
    test.good = test.good[:1]  # one word for one reading
    # A hot disc reads high and has still started the motor: only a cold one speaks against itself.
    test.suspect = test.suspect and cold
    return test


def _data(entered: Entered) -> tuple[float, float] | None:
    """The two ends of the part's own data, when they are known."""
    least, most = entered.number("ptc_data_least"), entered.number("ptc_data_most")
    if least is None and most is None:
        return None
    if least is None or most is None:
        field, label = ("ptc_data_least", "Least") if least is None else ("ptc_data_most", "Most")
        raise RefusedError(
            Problem(field, f"{label} cold ohms by the part's data: enter both ends of the data, or clear both.")
        )
    if least >= most:
        raise RefusedError(
            Problem(
                "ptc_data_most",
                f"Most cold ohms by the part's data: {quantity(most, 'ohm', 1)} is not more than the least, "
                f"{quantity(least, 'ohm', 1)}. Enter the smaller figure as the least.",
            )
        )
    return least, most


def _cold(entered: Entered, standards: InForce, test: DeadTest, first: Reading, again: Reading | None) -> bool:
    """Add what is missing for a cold reading; true when temperature and rest, by their bare values, are those of one.

    The thermometer's band can only add to what is missing.
    """
    coolest, warmest = standards.limit("start_device.ptc_coolest"), standards.limit("start_device.ptc_warmest")
    rest, agree = standards.limit("start_device.ptc_rest"), standards.limit("start_device.ptc_agree")
    wait = standards.limit("start_device.ptc_wait")
    degrees, band, off = (
        entered.number("ptc_temperature"),
        entered.needed("thermometer_band"),
        entered.number("ptc_rest"),
    )
    if degrees is None or degrees + band > warmest.value or degrees - band < coolest.value:
        words = f"the disc between {coolest.text} and {warmest.text} with the thermometer's band"
        middle = (coolest.value + warmest.value) / 2.0
        entry = f"{middle:g} °C" if 2.0 * band <= warmest.value - coolest.value else None
        test.waiting.append(Missing(words, "ptc_temperature", entry))
    if off is None or off < 60.0 * rest.value:
        test.waiting.append(Missing(f"{rest.text} or more without power", "ptc_rest", f"{rest.value:g} min"))
    differ = None
    if again is not None:
        differ = _difference(first, again)
        test.working.append(
            Step(
                "Two readings of a cold disc",
                f"|R₁ − R₂| / larger, at most {agree.text}",
                f"|{rounded(first.value, 2)} − {rounded(again.value, 2)}| / "
                f"{rounded(max(first.value, again.value), 2)}",
                quantity(differ, "percent", 1) if math.isfinite(differ) else "they do not agree",
                agree.source.key,
            )
        )
    if differ is None or differ > agree.value:
        words = f"a second reading {wait.text} later that agrees within {agree.text}"
        same = "OL" if first.open_line else f"{entered.needed('ptc_ohms'):.10g} Ω"
        test.waiting.append(Missing(words, "ptc_ohms_again", same if again is None else None))
    return (
        degrees is not None
        and coolest.value <= degrees <= warmest.value
        and off is not None
        and off >= 60.0 * rest.value
    )


def _difference(first: Reading, again: Reading) -> float:
    """How far two readings differ, in percent of the larger; two open lines agree."""
    if first.open_line or again.open_line:
        return 0.0 if first.open_line and again.open_line else math.inf
    larger = max(first.value, again.value)
    return 100.0 * abs(first.value - again.value) / larger if larger else 0.0


def _class(entered: Entered, standards: InForce, test: DeadTest, reading: Reading) -> None:
    """The class table where the part's own data are not known: beyond it there is a doubt, never a fault."""
    if reading.open_line or test.faults:
        return
    picked = entered.choice("ptc_class")
    row = standards.table(PTC_TABLE).row(picked) if picked else None
    need = Missing("the cold ohms by the part's own data", "ptc_data_least")
    if row is None:
        test.missing.append(Missing("its voltage class, or the cold ohms by the part's own data", "ptc_class"))
        return
    least, most = float(row["least_ohms"]), float(row["most_ohms"])
    test.working.append(
        Step(
            f"Held against the {row['label']}",
            f"{least:g} to {most:g} Ω cold",
            ohms(reading),
            "inside" if least <= reading.value <= most else "outside",
            str(row["source"]),
        )
    )
    if not least <= reading.value <= most:
        words = (
            f"the disc reads {ohms(reading)}, outside the {least:g} to {most:g} Ω that the {row['label']} usually has"
        )
        test.doubts.append((words, need))
