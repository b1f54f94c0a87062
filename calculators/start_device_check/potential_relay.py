"""A potential relay, dead: contact 1 to 2 closed at rest, coil 2 to 5 whole, mounted as its arrow says."""

from __future__ import annotations

from calculators.findings import Verdict
from calculators.inputs import Entered
from calculators.limits import InForce
from calculators.parts import Missing
from calculators.start_device_check.dead import DeadTest, Fault, hold_against, ohms, place, take

_NO_START = Fault("the contact does not close", "The start capacitor is never in: the motor hums and trips.")
_BURNT = Fault("the contact is burnt", "The start capacitor works through a bad contact: it hums, or starts sometimes.")
_NEVER_OPENS = Fault("the coil is open", "The contact never opens: the start capacitor stays in and cooks.")


def potential_relay(entered: Entered, standards: InForce) -> DeadTest:
    """The dead test of a potential relay."""
    test = DeadTest()
    contact = take(entered, test, "contact_ohms", "Contact 1–2")
    coil = take(entered, test, "coil_ohms", "Coil 2–5")
    if contact is None:
        test.missing.append(Missing("contact 1 to 2 read at rest", "contact_ohms"))
    else:
        limit = standards.limit("start_device.contact_ohms")
        fault = _NO_START if contact.open_line else _BURNT
        hold_against(entered, test, "contact_ohms", "Contact 1–2", contact, limit, fault)
    least = standards.limit("start_device.potential_coil_least")
    most = standards.limit("start_device.potential_coil_most")
    if coil is None:
        test.missing.append(Missing("coil 2 to 5 read", "coil_ohms"))
    elif coil.open_line:
        test.suspect = True
        test.faults.append(Fault(f"Coil 2–5 OL: {_NEVER_OPENS.words}", _NEVER_OPENS.effect))
    elif place(coil, least) is Verdict.WITHIN and place(coil, most) is Verdict.WITHIN:
        test.good.append(f"coil {ohms(coil)}")
    else:
        words = f"the coil reads {ohms(coil)}, outside the usual {least.text} to {most.text}"
        test.doubts.append((words, Missing("the coil of another relay of the same marking, beside it", "coil_ohms")))
    _position(entered, test)
    return test


def _position(entered: Entered, test: DeadTest) -> None:
    position = entered.choice("position")
    if position == "arrow":
        test.good.append("mounted as its arrow says")
    elif position == "other":
        need = Missing("mounted as its arrow says", "position", "arrow")
        test.doubts.append(("it is not mounted as its arrow says, and its figures hold for that position only", need))
    else:
        test.missing.append(Missing("its position compared with its arrow", "position", "arrow"))
