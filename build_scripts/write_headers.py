"""What a host has to send along with the files of a site, written for this very site.

One table of types, one rule of what may be kept, and one content security policy: nothing but the site's own files is
loaded or asked for, and no script runs that is not one of them or stands in a page as it was packed. The theme brings
such scripts; they are allowed by their checksums. `serve` sends the same.
"""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterator
from pathlib import Path

from build_scripts.name_by_content import NAMED_BY_CONTENT, is_named_by_content

HEADERS_FOLDER = "headers"
NGINX = f"{HEADERS_FOLDER}/nginx.conf"
POLICY = f"{HEADERS_FOLDER}/content-security-policy.txt"

# Whatever a site holds, by the ending of its name. A browser insists on some of these and guesses none.
TYPES = {
    "bin": "application/octet-stream",
    "conf": "text/plain",
    "css": "text/css",
    "gz": "application/gzip",
    "html": "text/html",
    "js": "text/javascript",
    "json": "application/json",
    "map": "application/json",
    "mjs": "text/javascript",
    "pdf": "application/pdf",
    "png": "image/png",
    "svg": "image/svg+xml",
    "txt": "text/plain",
    "wasm": "application/wasm",
    "webmanifest": "application/manifest+json",
    "woff2": "font/woff2",
    "xml": "application/xml",
    "zip": "application/zip",
}
KEEP_FOR_GOOD = "public, max-age=31536000, immutable"
LOOK_AGAIN = "no-cache"

# Sent with every file. A reader's address is told to nobody; a file is what its type says.
ALWAYS = {"X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer"}

_INLINE = re.compile(r"<(?P<kind>script|style)\b(?P<attributes>[^>]*)>(?P<text>.*?)</(?P=kind)>", re.DOTALL)
_LOADED_OR_DATA = re.compile(r"\ssrc\s*=|\stype\s*=\s*[\"']?application/")


def type_of(path: str) -> str:
    """The type that goes with a file, with the letters it is written in where it is text that does not say so."""
    kind = TYPES.get(path.rpartition(".")[2], "application/octet-stream")
    return f"{kind}; charset=utf-8" if kind.startswith("text/") else kind


def cache_rule(path: str) -> str:
    """How long a browser may keep the file at this path, or the path after some folders, without looking again."""
    return KEEP_FOR_GOOD if is_named_by_content(path) else LOOK_AGAIN


def content_security_policy(site: Path) -> str:
    """The policy for the pages of a site as they are."""
    scripts, styles = _inline_checksums(site)
    rules = {
        "default-src": ["'self'"],  # Firefox fetches the page that comes next by this rule.
        "script-src": ["'self'", "'wasm-unsafe-eval'", *scripts],
        "style-src": ["'self'", *styles],
        "img-src": ["'self'", "data:"],  # Marks and icons stand inside the theme's style sheet, and in ours.
        "connect-src": ["'self'"],
        "manifest-src": ["'self'"],
        "worker-src": ["'self'"],
        "object-src": ["'none'"],
        "base-uri": ["'none'"],
        "form-action": ["'none'"],  # Readings are computed in the page; sent they never are.
        "frame-ancestors": ["'none'"],
    }
    return "; ".join(f"{name} {' '.join(values)}" for name, values in rules.items())


def write_headers(site: Path) -> None:
    """Write what a host needs into a site whose pages are all there."""
    policy = content_security_policy(site)
    (site / HEADERS_FOLDER).mkdir()
    (site / POLICY).write_text(policy + "\n", encoding="utf-8", newline="\n")
    (site / NGINX).write_text(nginx(policy), encoding="utf-8", newline="\n")


def nginx(policy: str) -> str:
    """The file that an nginx includes; it holds only what may stand in a server and in a location."""
    types = "".join(f"    {kind} {ending};\n" for ending, kind in TYPES.items())
    texts = " ".join(sorted({kind for kind in TYPES.values() if kind.startswith("text/")} - {"text/html"}))
    always = "".join(f'add_header {name} "{value}" always;\n' for name, value in ALWAYS.items())
    return f"""\
# What an nginx sends along with this handbook. The build makes it for these very pages: include the one that lies in
# the folder that is served, and it follows each new revision after a reload.
#
#   server {{
#       root /srv/threepin;                              # this folder
#       error_page 404 /404.html;
#       include /srv/threepin/headers/nginx.conf;
#       # listen, server_name and certificates as for any other site
#   }}
#
# As a part of another site, the folder lying in /srv under the name that it has in the address:
#
#   location /threepin/ {{
#       root /srv;
#       error_page 404 /threepin/404.html;
#       include /srv/threepin/headers/nginx.conf;
#   }}
#
# Headers that the server adds further out are not sent for this handbook, because nginx takes those of the innermost
# place alone. Put them beside the include.

index index.html;
charset utf-8;
charset_types {texts};
default_type application/octet-stream;
types {{
{types}}}

# Beside each file that gets much smaller lies its packed form.
gzip_static on;
gzip_vary on;

# A name that carries its content never gets another content. For everything else the browser has to look again.
set $threepin_keep "{LOOK_AGAIN}";
if ($uri ~ "/{NAMED_BY_CONTENT}") {{
    set $threepin_keep "{KEEP_FOR_GOOD}";
}}
add_header Cache-Control $threepin_keep;

{always}add_header Content-Security-Policy "{policy}" always;
"""


def _inline_checksums(site: Path) -> tuple[list[str], list[str]]:
    """What stands in the pages themselves and runs or styles there, as the policy names it."""
    found: dict[str, set[str]] = {"script": set(), "style": set()}
    for page in site.rglob("*.html"):
        for kind, text in _inline(page.read_text(encoding="utf-8")):
            digest = base64.b64encode(hashlib.sha256(text.encode("utf-8")).digest()).decode("ascii")
            found[kind].add(f"'sha256-{digest}'")
    return sorted(found["script"]), sorted(found["style"])


def _inline(page: str) -> Iterator[tuple[str, str]]:
    for element in _INLINE.finditer(page):
        if not _LOADED_OR_DATA.search(element["attributes"]):
            yield element["kind"], element["text"]
