"""A current relay, dead: coil, contact upright and upside down, and whether it ever sticks.

The contact hangs open by the plunger's weight, so it is read upright as mounted first; held the wrong way round a good
one reads closed. Turned over it has to close, every time.
"""

from __future__ import annotations

from calculators.findings import Verdict
from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce
from calculators.parts import Missing
from calculators.readings import Reading
from calculators.start_device_check.dead import DeadTest, Fault, hold_against, ohms, place, take

_COIL = Fault("the coil is open", "The running current has no way through: the motor is silent.")
_NEVER_CLOSES = Fault("the contact does not close", "The start winding is never fed: it hums and trips.")
_BURNT = Fault("the contact is burnt", "The start winding is fed through a bad contact: it hums, or starts sometimes.")
_WELDED = Fault("the contact is welded", "The start winding stays in: it starts, roars, and trips within seconds.")


def current_relay(entered: Entered, standards: InForce) -> DeadTest:
    """The dead test of a current relay."""
    test = DeadTest()
    coil = take(entered, test, "relay_coil_ohms", "Coil")
    upright = take(entered, test, "contact_upright_ohms", "Contact upright")
    inverted = take(entered, test, "contact_inverted_ohms", "Contact upside down")
    _coil(entered, standards, test, coil)
    _upright(entered, standards, test, upright, inverted)
    _inverted(entered, standards, test, upright, inverted)
    _turns(entered, standards, test)
    for name, words, reading in (
        ("relay_coil_ohms", "the coil read", coil),
        ("contact_upright_ohms", "the contact read upright as mounted", upright),
        ("contact_inverted_ohms", "the contact read upside down", inverted),
    ):
        if reading is None:
            test.missing.append(Missing(words, name))
    return test


def _coil(entered: Entered, standards: InForce, test: DeadTest, coil: Reading | None) -> None:
    if coil is None:
        return
    limit = standards.limit("start_device.relay_coil")
    if coil.open_line:
        test.suspect = True
        test.faults.append(Fault(f"Coil OL: {_COIL.words}", _COIL.effect))
    elif place(coil, limit) is Verdict.WITHIN:
        test.good.append(f"coil {ohms(coil)}")
    else:
        words = f"the coil reads {ohms(coil)}, more than the usual {limit.text}"
        test.doubts.append(
            (words, Missing("the coil of another relay of the same marking, beside it", "relay_coil_ohms"))
        )
        test.suspect = True


def _upright(
    entered: Entered, standards: InForce, test: DeadTest, upright: Reading | None, inverted: Reading | None
) -> None:
    """Open is good; closed is welded once upside down reads closed too; in between says nothing yet."""
    if upright is None:
        return
    closed, opened = standards.limit("start_device.contact_ohms"), standards.limit("start_device.open_ohms")
    if place(upright, opened) is Verdict.WITHIN:
        test.good.append(f"contact open upright ({ohms(upright)})")
        return
    test.suspect = True
    if place(upright, closed) is not Verdict.WITHIN or upright.high > closed.value:
        need = Missing("read again with clean sockets and no fingers on the probes", "contact_upright_ohms")
        test.doubts.append((f"the contact reads {ohms(upright)} upright, neither open nor closed", need))
    elif inverted is None:
        need = Missing(
            "the contact read upside down as well: held the wrong way round a good one reads closed",
            "contact_inverted_ohms",
        )
        test.doubts.append((f"the contact reads closed upright ({ohms(upright)})", need))
    elif inverted.open_line or place(inverted, closed) is not Verdict.WITHIN:
        need = Missing("held upright as it is mounted, then turned over", "contact_upright_ohms")
        test.doubts.append(("the contact is closed upright and not upside down: it was held the wrong way", need))
    else:
        words = f"Contact closed upright ({ohms(upright)}) and upside down: {_WELDED.words}"
        test.faults.append(Fault(words, _WELDED.effect, closed))


def _inverted(
    entered: Entered, standards: InForce, test: DeadTest, upright: Reading | None, inverted: Reading | None
) -> None:
    """Closed is good; open counts only when it was open upright too: then it closes no way round."""
    if inverted is None:
        return
    limit = standards.limit("start_device.contact_ohms")
    open_upright = upright is not None and place(upright, standards.limit("start_device.open_ohms")) is Verdict.WITHIN
    if not inverted.open_line:
        hold_against(entered, test, "contact_inverted_ohms", "Contact upside down", inverted, limit, _BURNT)
    elif open_upright:
        test.suspect = True
        test.faults.append(Fault(f"Contact OL both ways: {_NEVER_CLOSES.words}", _NEVER_CLOSES.effect, limit))
    elif upright is None:
        test.suspect = True
        need = Missing("the contact read upright as mounted, then turned over", "contact_upright_ohms")
        test.doubts.append(("the contact reads OL, but not in both positions", need))


def _turns(entered: Entered, standards: InForce, test: DeadTest) -> None:
    turns, sticks, least = (
        entered.number("turns"),
        entered.number("sticks"),
        standards.limit("start_device.relay_tries"),
    )
    if turns is not None and sticks is not None and sticks > turns:
        raise RefusedError(
            Problem(
                "sticks",
                f"Times it stuck, open or closed: {sticks:g} is more than the {_times(turns)} it was turned over. "
                "Count both again.",
            )
        )
    if sticks:
        test.read = test.suspect = True
        effect = "A relay that sticks once in the hand sticks in service."
        test.faults.append(Fault(f"It stuck {_times(sticks)}: the plunger hangs", effect, least))
    elif turns is not None and turns >= least.value and sticks == 0.0:
        test.good.append(f"turned over {turns:g} times without sticking")
    else:
        test.missing.append(Missing(f"turned over {least.text} times or more, with the number of sticks", "turns"))


def _times(count: float) -> str:
    return f"{count:g} time" if count == 1.0 else f"{count:g} times"
