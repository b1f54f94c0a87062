"""What the exit code of every command means; the one place where it is said."""

from __future__ import annotations

from enum import IntEnum


class ExitCode(IntEnum):
    """How a command ended."""

    DONE = 0
    MISTAKES = 1
    WRONG_USE = 2
    SOMETHING_MISSING = 3
    OUR_FAULT = 4


MEANINGS = {
    ExitCode.DONE: "done",
    ExitCode.MISTAKES: "the handbook has mistakes, or a test failed",
    ExitCode.WRONG_USE: "wrong usage, or entries that cannot be used",
    ExitCode.SOMETHING_MISSING: "this computer lacks something; the message says what",
    ExitCode.OUR_FAULT: "Threepin itself broke; the message says where the details are",
}
