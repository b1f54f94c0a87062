"""Options that every test may read: the long counts, and the seed that random samples start from."""

from __future__ import annotations

import secrets

import pytest
from hypothesis import settings

DEFAULT_SEED = 1


def pytest_addoption(parser: pytest.Parser) -> None:
    group = parser.getgroup("threepin")
    group.addoption("--long", action="store_true", help="run the long counts in full, from a new seed each time")
    group.addoption("--seed", type=int, help="the seed of every random sample; printed at the start of each run")
    group.addoption("--failed-check", action="append", default=[], help="a check that failed before, for the summary")
    group.addoption("--not-driven", action="append", default=[], help="why an engine is not driven, for the summary")


def pytest_configure(config: pytest.Config) -> None:
    _take_part(config)
    if config.option.seed is None:
        config.option.seed = secrets.randbelow(10**9) if config.option.long else DEFAULT_SEED
    settings.register_profile("short", deadline=None, derandomize=True, max_examples=60)
    settings.register_profile("long", deadline=None, max_examples=1000, print_blob=True)
    settings.load_profile("long" if config.option.long else "short")


def _take_part(config: pytest.Config) -> None:
    """Where pytest runs in several processes: hand the tests out, or do those that are handed out."""
    handed_out = getattr(config, "workerinput", None)
    if handed_out is None and not getattr(config.option, "numprocesses", None):
        return
    from tests.parts import Part, Parting

    if handed_out is None:
        config.pluginmanager.register(Parting(), "threepin-parting")
    else:
        config.option.seed = handed_out["seed"]
        config.pluginmanager.register(Part(), "threepin-part")


def pytest_report_header(config: pytest.Config) -> str:
    counts = "long" if config.option.long else "sampled"
    return f"counts: {counts}; seed {config.option.seed} (repeat with --seed {config.option.seed})"


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    for name in config.option.failed_check:
        terminalreporter.write_line(f"FAILED before the tests: {name} (what it found stands above)", red=True)
    for sentence in config.option.not_driven:
        terminalreporter.write_line(sentence, yellow=True)


@pytest.fixture(scope="session")
def long_run(request: pytest.FixtureRequest) -> bool:
    """Whether the long counts were asked for."""
    return bool(request.config.option.long)


@pytest.fixture(scope="session")
def seed(request: pytest.FixtureRequest) -> int:
    """Where every random sample starts."""
    return int(request.config.option.seed)
