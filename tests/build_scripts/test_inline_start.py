"""The script that starts Python early stands in the packed pages themselves, and nothing of it lies beside them."""

from __future__ import annotations

import pytest

from build_scripts.inline_start import START_EARLY, inline_start
from build_scripts.name_by_content import name_by_content
from build_scripts.write_headers import content_security_policy

TAG = '<script data-root="{root}" data-worker="{root}assets/scripts/worker.js" src="{root}assets/scripts/start-early.js"></script>'


def make(folder, script: str) -> None:
    files = {
        "index.html": "<p>without</p>",
        "calculators/a.html": TAG.format(root="../") + "<p>a</p>",
        "procedures/b.html": TAG.format(root="../") + "<p>b</p>",
        "start.html": TAG.format(root="").replace('data-root=""', 'data-root="./"'),
        START_EARLY: script,
        "assets/scripts/worker.js": "",
    }
    for path, text in files.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(text, encoding="utf-8")


def test_the_script_stands_in_each_page_that_names_it_and_the_page_tells_it_where_its_worker_is(tmp_path):
    make(tmp_path, "start(document.currentScript.dataset.worker)\n")
    names = name_by_content(tmp_path)
    inline_start(tmp_path, names)
    worker, text = names["assets/scripts/worker.js"], "start(document.currentScript.dataset.worker)"
    deep = f'<script data-root="../" data-worker="../{worker}">{text}</script><p>a</p>'
    assert (tmp_path / "calculators/a.html").read_text("utf-8") == deep
    assert (tmp_path / "start.html").read_text(
        "utf-8"
    ) == f'<script data-root="./" data-worker="{worker}">{text}</script>'
    assert (tmp_path / "index.html").read_text("utf-8") == "<p>without</p>"
    assert list((tmp_path / "assets" / "scripts").glob("start-early*")) == []


def test_the_policy_names_one_checksum_for_it_whatever_the_depth_of_the_page(tmp_path):
    make(tmp_path, "start()")
    inline_start(tmp_path, name_by_content(tmp_path))
    # The SHA-256 of start() as base64, by openssl.
    policy = content_security_policy(tmp_path)
    assert policy.count("'sha256-") == 1
    assert "'sha256-DIm7WJS6ZKDYe5qFLPy+h4JFI9Bol5QmYC57mt3Fb00='" in policy


def test_a_script_that_would_end_itself_in_a_page_is_refused(tmp_path):
    make(tmp_path, 'say("</script>")')
    with pytest.raises(RuntimeError, match="holds an end of a script"):
        inline_start(tmp_path, name_by_content(tmp_path))
