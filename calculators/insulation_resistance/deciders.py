"""What would decide readings that are left undecided: bare pins, the test voltage, a finer tester, a better range.

An entry is offered only after the same readings, judged with it, gave a verdict.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from calculators.findings import Decider, Verdict
from calculators.finer_meter import Finer, finer_meter
from calculators.insulation_resistance.inputs import WHOLE
from calculators.insulation_resistance.judgement import Case, Fall, Judged
from calculators.insulation_resistance.readings import shown
from calculators.readings import Meter
from calculators.units import from_base, to_base

ROOM = 1.001  # a reading that is asked for lies this much past the least that decides


def decider_for(case: Case, judged: Judged) -> Decider:
    """What would decide the places that this finding speaks of."""
    return {"state": _bare_pins, "volts": _test_volts, "range": _range, "band": _tester}[judged.why](case, judged)


def _decided(case: Case, judged: Judged) -> bool:
    """Whether the finding about these places has a verdict in this case."""
    if judged.place.field == WHOLE:
        now = case.judged_whole
        clears_nothing = now is not None and now.verdict is Verdict.WITHIN and not case.pins
        return now is not None and now.verdict is not Verdict.UNDECIDED and not clears_nothing
    return case.worst_pin is not None and case.worst_pin.verdict is not Verdict.UNDECIDED


def _test(case: Case) -> str:
    volts, seconds = (case.standards.limit(f"insulation.{name}") for name in ("test_volts", "test_time"))
    return f"tested at {volts.text} for {seconds.text}"


def _bare_pins(case: Case, judged: Judged) -> Decider:
    decides = _decided(replace(case, pin_state="bare"), judged)
    return Decider(
        f"{judged.place.words} to the shell, again",
        "the tester as it is",
        f"everything off the pins, pins and glass clean and dry, {_test(case)}",
        "pin_state" if decides else None,
        "bare" if decides else None,
    )


def _test_volts(case: Case, judged: Judged) -> Decider:
    volts = case.standards.limit("insulation.test_volts")
    decides = _decided(replace(case, test_volts=volts.value), judged)
    return Decider(
        f"{judged.place.words} again, with an insulation tester",
        f"a tester set to {volts.text}; an ohmmeter of any resolution will not do",
        _test(case),
        "test_volts" if decides else None,
        f"{volts.value:g}" if decides else None,
    )


def _range(case: Case, judged: Judged) -> Decider:
    meter = judged.place.meter
    top = _typed(_least_reading(meter, to_base(case.accepted.value, case.accepted.unit)))
    decides = _decided(case.with_top(to_base(top, "megohm")), judged)
    return Decider(
        f"{judged.place.words} on a higher range",
        f"a range that shows {top:g} MΩ or more",
        f"the same test; {case.accepted.text} cannot be seen on a range that ends at {shown(judged.place.top)}",
        "top_range" if decides else None,
        f"{top:g} MΩ" if decides else None,
    )


def _tester(case: Case, judged: Judged) -> Decider:
    finer = _finer(judged.place.meter, lambda meter: _decided(case.with_meter(meter), judged))
    needed = _typed(_least_reading(judged.place.meter, to_base(case.refused.value, case.refused.unit)))
    if finer is not None:
        return Decider(
            f"{judged.place.words} again",
            finer.words,
            f"the same pins in the same condition, {_test(case)}",
            finer.enter_in,
            finer.entry,
        )
    alone = _decided(_with_reading(case, judged.place.field, to_base(needed, "megohm")), judged)
    return Decider(
        f"{judged.place.words} again",
        f"with this tester {needed:g} MΩ or more; no tester is fine enough for a reading on the limit",
        f"cleaned, dried and cooler, {_test(case)}",
        judged.place.field if alone else None,
        f"{needed:g} MΩ" if alone else None,
    )


def fall_decider(case: Case, fall: Fall) -> Decider:
    """What would decide whether a reading fell further than allowed."""
    place = fall.place
    limit = case.standards.limit("insulation.most_fall")

    def decides(case: Case) -> bool:
        return all(one.verdict is not Verdict.UNDECIDED for one in case.falls())

    finer = _finer(place.meter, lambda meter: decides(case.with_meter(meter)))
    if finer is not None:
        return Decider(
            f"{place.words}, both readings again", finer.words, "one test, one range", finer.enter_in, finer.entry
        )
    entry = _steady_entry(fall, limit.value / 100.0)
    return Decider(
        f"{place.words}, both readings again",
        "both on one range of the tester, which can show both",
        f"one test of full length; steady when it ends at {entry} or more",
        place.field if len(case.falls()) == 1 else None,
        entry if len(case.falls()) == 1 else None,
    )


def _steady_entry(fall: Fall, allowed: float) -> str:
    counts = fall.place.meter.counts_band
    if math.isinf(fall.first):
        return "OL"
    return f"{_typed(ROOM * ((1.0 - allowed) * (fall.first + counts) + counts)):g} MΩ"


def accepted_entry(case: Case) -> str:
    """What a pin that is still to be measured would have to read to be accepted, as it is typed."""
    meter, top = case.places[0].meter, case.places[0].top
    needed = _typed(_least_reading(meter, to_base(case.accepted.value, case.accepted.unit)))
    return "OL" if top and to_base(needed, "megohm") > top else f"{needed:g} MΩ"


def _finer(meter: Meter, decides: Callable[[Meter], bool]) -> Finer | None:
    return finer_meter(meter, decides, "insulation_tester", "megohm")


def _least_reading(meter: Meter, limit: float) -> float:
    """The least reading of this tester that is past a limit with its whole band, ohm."""
    return ROOM * (limit + meter.counts_band) / (1.0 - meter.percent / 100.0)


def _typed(ohms: float) -> float:
    """Megohms as they are asked for, four figures."""
    return float(f"{from_base(ohms, 'megohm'):.4g}")


def _with_reading(case: Case, field: str, ohms: float) -> Case:
    return replace(case, places=tuple(replace(one, ohms=ohms) if one.field == field else one for one in case.places))
