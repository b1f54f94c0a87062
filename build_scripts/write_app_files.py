"""The small files that a served site carries beside its pages: web app manifest, sitemap, licences."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from xml.sax.saxutils import escape

from build_scripts.environment import MissingError

MANIFEST = "manifest.webmanifest"
SITEMAP = "sitemap.xml"
LICENCES = "licences.txt"

ICONS_FOLDER = "assets/icons"
ICON_SIZES = (192, 512)

# The site does not know its address. The theme wants whole ones in the sitemap; theme-here.mjs puts in the real one.
NO_ADDRESS = "https://handbook.invalid/"

# What of the packages ends up in the site, and where the source of the one that asks for it can be had.
_PACKAGES = ("pyodide", "workbox-core", "workbox-precaching", "workbox-routing", "workbox-strategies", "iframe-worker")
_SOURCES = {"pyodide": "https://github.com/pyodide/pyodide"}


def manifest(names: Mapping[str, str]) -> str:
    """What a browser needs to install the handbook as an app, with every address relative to the site.

    names says under which name, carrying its content, each picture lies in the site.
    """
    icons = [{"src": f"{ICONS_FOLDER}/threepin.svg", "sizes": "any", "type": "image/svg+xml"}]
    for size in ICON_SIZES:
        icons.append({"src": f"{ICONS_FOLDER}/threepin-{size}.png", "sizes": f"{size}x{size}", "type": "image/png"})
    icons = [{**icon, "src": names.get(icon["src"], icon["src"])} for icon in icons]
    icons.append({**icons[-1], "purpose": "maskable"})
    data = {
        "name": "Threepin field handbook",
        "short_name": "Threepin",
        "description": "Checks on small hermetic compressors, step by step, with calculators. Works without network.",
        "start_url": "index.html",
        "scope": ".",
        "display": "standalone",
        "background_color": "#f7f4ee",
        "theme_color": "#1d3a44",
        "icons": icons,
    }
    return json.dumps(data, indent=2) + "\n"


def sitemap(site: Path) -> str:
    """Every page of the site, under an address that does not exist."""
    pages = sorted(file.relative_to(site).as_posix() for file in site.rglob("*.html") if file.name != "404.html")
    rows = "".join(f"<url><loc>{escape(NO_ADDRESS + page)}</loc></url>\n" for page in pages)
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">\n{rows}</urlset>\n'
    )


def licences(root: Path) -> str:
    """What the licences of the packages in the site ask to be handed on."""
    parts = ["This site contains the following packages.\n"]
    for name in _PACKAGES:
        folder = root / "node_modules" / name
        if not (folder / "package.json").is_file():
            raise MissingError(
                f"The npm package {name} is not installed, and the site is made with it. "
                "Run “python3 -m build_scripts build”, which installs what package-lock.json names."
            )
        package = json.loads((folder / "package.json").read_text(encoding="utf-8"))
        source = f" Source: {_SOURCES[name]}" if name in _SOURCES else ""
        text = folder / "LICENSE"
        parts.append(f"{name} {package['version']}, licence {package['license']}.{source}\n")
        parts.append(text.read_text(encoding="utf-8").strip() + "\n" if text.is_file() else "")
    return "\n".join(part for part in parts if part)
