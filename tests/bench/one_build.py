"""One build in a process of its own, so that what it takes can be measured: `python -m tests.bench.one_build ours|plain CLONE`."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import Any

import yaml

PLAIN_SETTINGS = "plain.yml"
PLAIN_SITE = "build/plain"


def build_ours(clone: Path) -> None:
    """The whole build, from the files that people write to a site swapped in."""
    from build_scripts.build import build_site

    build_site(clone, lambda _: None)


def prepare_plain(clone: Path) -> None:
    """Settings for plain Material beside those of the project: the same pages, menu, features, plugins and extensions."""

    from build_scripts.menu import menu
    from build_scripts.read_handbook import read_handbook

    settings = yaml.load((clone / "mkdocs.yml").read_text(encoding="utf-8"), _Settings)
    del settings["theme"]["custom_dir"]
    settings["site_dir"] = PLAIN_SITE
    settings["nav"] = menu(read_handbook(clone, date.today()))
    settings["markdown_extensions"] = [_without_fence(one) for one in settings["markdown_extensions"]]
    (clone / PLAIN_SETTINGS).write_text(yaml.safe_dump(settings, allow_unicode=True), encoding="utf-8")


def build_plain(clone: Path) -> None:
    """What `mkdocs build` does with those settings."""
    from mkdocs.commands.build import build
    from mkdocs.config import load_config

    config = load_config(config_file=str(clone / PLAIN_SETTINGS))
    config.plugins.on_startup(command="build", dirty=False)
    build(config)
    config.plugins.on_shutdown()


class _Settings(yaml.SafeLoader):
    """Reads mkdocs.yml, the name of the fence left out."""


_Settings.add_multi_constructor("tag:yaml.org,2002:python/name:", lambda *_: None)


def _without_fence(extension: Any) -> Any:
    return "pymdownx.superfences" if isinstance(extension, dict) and "pymdownx.superfences" in extension else extension


if __name__ == "__main__":
    which, folder = sys.argv[1:]
    {"ours": build_ours, "plain": build_plain}[which](Path(folder).resolve())
