"""The pinned packages: every one with its hash, the three sets in step, and no registry named."""

from __future__ import annotations

import json
import re

import pytest

from build_scripts.environment import SETS


def pins(root, name: str) -> dict[str, list[str]]:
    """The hashes of every pinned package, by its name, version and condition."""
    text = (root / "requirements" / f"{name}.txt").read_text(encoding="utf-8")
    found: dict[str, list[str]] = {}
    entry = ""
    for line in text.splitlines():
        if line.startswith("    --hash="):
            found[entry].append(line.strip(" \\").removeprefix("--hash="))
        elif line and not line.lstrip().startswith("#"):
            entry = line.removesuffix("\\").strip()
            found[entry] = []
    return found


@pytest.mark.parametrize("name", SETS)
def test_every_requirement_is_one_version_with_hashes(root, name):
    found = pins(root, name)
    assert len(found) > 20
    for entry, hashes in found.items():
        assert re.fullmatch(r"[a-z0-9][a-z0-9-]*==[0-9][0-9a-z.]*( ; .+)?", entry), entry
        assert hashes, f"{entry} has no hash"
        assert all(re.fullmatch(r"sha256:[0-9a-f]{64}", one) for one in hashes), entry
    names = [entry.partition("==")[0] for entry in found]
    assert len(names) == len(set(names)), "one version serves every Python and every system"


@pytest.mark.parametrize(("smaller", "larger"), [("build", "check"), ("check", "test")])
def test_each_set_holds_the_one_before_it(root, smaller, larger):
    assert pins(root, smaller).items() <= pins(root, larger).items()


@pytest.mark.parametrize("name", SETS)
def test_what_is_asked_for_is_pinned(root, name):
    asked = [
        re.match(r"[A-Za-z0-9-]+", line)[0]
        for line in (root / "requirements" / f"{name}.in").read_text(encoding="utf-8").splitlines()
        if line and not line.startswith(("#", "-"))
    ]
    assert asked
    pinned = {entry.partition("==")[0] for entry in pins(root, name)}
    assert set(asked) <= pinned


@pytest.mark.parametrize("name", SETS)
def test_no_address_stands_in_a_requirement_file(root, name):
    for ending in ("in", "txt"):
        text = (root / "requirements" / f"{name}.{ending}").read_text(encoding="utf-8")
        assert "://" not in text
        assert "index-url" not in text.replace("--no-emit-index-url", "")


def test_every_npm_package_has_its_hash_and_no_address(root):
    lock = json.loads((root / "package-lock.json").read_text(encoding="utf-8"))
    packages = {name: entry for name, entry in lock["packages"].items() if name}
    assert len(packages) > 11
    for name, entry in packages.items():
        assert entry["integrity"].startswith("sha512-"), name
        assert "resolved" not in entry, name
        entry.pop("funding", None)
    assert "://" not in json.dumps(lock)


def test_the_npm_packages_are_exact_and_locked_as_asked(root):
    asked = json.loads((root / "package.json").read_text(encoding="utf-8"))["dependencies"]
    locked = json.loads((root / "package-lock.json").read_text(encoding="utf-8"))["packages"]
    assert locked[""]["dependencies"] == asked
    for name, version in asked.items():
        assert re.fullmatch(r"\d+\.\d+\.\d+", version), name
        assert locked[f"node_modules/{name}"]["version"] == version


def test_npm_runs_nobodys_scripts_and_notes_no_address(root):
    settings = (root / ".npmrc").read_text(encoding="utf-8").splitlines()
    assert "ignore-scripts=true" in settings
    assert "omit-lockfile-registry-resolved=true" in settings
