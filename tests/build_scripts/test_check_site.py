"""The checks of built pages find what they are for, and say it at the page and the line."""

from __future__ import annotations

import pytest

from build_scripts import check_site
from build_scripts.check_site import check_folder, check_html, check_links
from build_scripts.environment import MissingError
from build_scripts.errors import HandbookError

PAGE = '<!DOCTYPE html>\n<html lang="en">\n<head><title>One</title></head>\n<body>\n{body}\n</body>\n</html>\n'


@pytest.fixture
def site(tmp_path):
    (tmp_path / "deep").mkdir()
    (tmp_path / "dot.svg").write_text("<svg/>", encoding="utf-8")
    (tmp_path / "index.html").write_text(PAGE.format(body='<p id="here">Hello</p>'), encoding="utf-8")
    return tmp_path


def write(site, body, page="deep/page.html"):
    (site / page).write_text(PAGE.format(body=body), encoding="utf-8")


def said(check, *arguments):
    with pytest.raises(HandbookError) as broken:
        check(*arguments)
    return [str(mistake) for mistake in broken.value.mistakes]


def test_files_that_are_there_are_fine(site):
    write(
        site, '<img src="../dot.svg" alt=""><a href="https://example.org/">out</a><img src="data:image/png;base64,x">'
    )
    check_folder(site)


def test_an_address_with_a_question_or_an_anchor_is_the_file_before_it(site):
    write(site, '<img src="../dot.svg?x=1#y" alt="">')
    check_folder(site)


@pytest.mark.parametrize(
    ("body", "name"),
    [
        ('<td style="text-align: right;">1</td>', "style"),
        ("<p\n  class='x' onclick='go()'>x</p>", "onclick"),
        ('<svg><g fill="none" style="stroke:red"/></svg>', "style"),
    ],
)
def test_styles_and_scripts_in_attributes_are_refused_as_a_host_would_refuse_them(site, body, name):
    write(site, body)
    (line,) = said(check_folder, site)
    assert line.startswith(
        f"deep/page.html:{5 + body.count(chr(10))} — the attribute {name} would do nothing on a host"
    )


def test_words_that_look_like_such_an_attribute_are_words(site):
    write(site, '<p>Write style="x" and onclick="y" into it.</p><pre>&lt;p style="x"&gt;</pre><i data-style="x">y</i>')
    check_folder(site)


@pytest.mark.parametrize(
    "body",
    [
        '<img alt="" src="gone.svg">',
        "<script src='gone.svg'></script>",
        '<link rel="stylesheet" href="gone.svg">',
        '<iframe title="x" src="gone.svg"></iframe>',
        '<img src="/gone.svg" alt="">',
    ],
)
def test_a_file_that_a_page_loads_and_that_is_not_there_is_named(site, body):
    write(site, body)
    (line,) = said(check_folder, site)
    assert line.startswith("deep/page.html:5 — ")
    assert line.endswith("gone.svg: the built page loads this file, and it is not there.")


@pytest.mark.parametrize(
    "body",
    [
        '<script src="https://example.org/a.js"></script>',
        '<img src="//example.org/a.png" alt="">',
        '<link rel="preconnect" href="https://example.org">',
    ],
)
def test_a_file_from_another_host_is_refused(site, body):
    write(site, body)
    (line,) = said(check_folder, site)
    assert "loads this from another host" in line


def test_what_a_style_sheet_loads_is_looked_at_too(site):
    (site / "style.css").write_text(
        '@import "https://example.org/x.css";\nbody { background: url(gone.png) }\n.a { mask: url("dot.svg") }\n',
        encoding="utf-8",
    )
    first, second = said(check_folder, site)
    assert first.startswith("style.css:1 — https://example.org/x.css: the built page loads this from another host")
    assert second.startswith("style.css:2 — gone.png: the built page loads this file")


def test_valid_html_is_fine(root, site):
    check_html(root, site)


def test_html_that_is_not_valid_is_named_with_its_line(root, site):
    write(site, '<p>one<div>two</div></p>\n<p id="a">x</p><p id="a">y</p>')
    lines = said(check_html, root, site)
    assert any(line.startswith("deep/page.html:5 — the built page is not valid HTML: ") for line in lines)
    assert any(line.startswith("deep/page.html:6 — ") and "no-dup-id" in line for line in lines)


def test_html_that_shuts_people_out_is_named(root, site):
    write(site, '<img src="../dot.svg">')
    (line,) = said(check_html, root, site)
    assert line.startswith("deep/page.html:5 — ")
    assert "wcag/h37" in line


def test_a_long_report_is_read_whole(root, site):
    write(site, "\n".join(['<img src="../dot.svg">'] * 400))
    assert len(said(check_html, root, site)) == 400


def test_links_that_arrive_are_fine(site):
    write(site, '<a href="../index.html#here">x</a> <a href="page.html">y</a> <a href="https://example.org/gone">z</a>')
    check_links(site)


def test_links_that_do_not_arrive_are_named_with_their_lines(site):
    write(site, '<a href="../index.html#gone">x</a>\n<a href="gone.html">y</a>\n<a href="#nowhere">z</a>')
    first, second, third = said(check_links, site)
    assert first == "deep/page.html:5 — the link to index.html#gone does not arrive: cannot find fragment."
    assert second == "deep/page.html:6 — the link to deep/gone.html does not arrive: file not found."
    assert third == "deep/page.html:7 — the link to deep/page.html#nowhere does not arrive: cannot find fragment."


def test_a_missing_link_checker_is_said_with_what_to_run(site, monkeypatch):
    monkeypatch.setattr(check_site.shutil, "which", lambda *_, **__: None)
    with pytest.raises(MissingError, match=r"lychee is not installed.*python3 -m build_scripts check"):
        check_links(site)


def test_a_missing_validator_is_said_with_what_to_run(tmp_path, site):
    with pytest.raises(MissingError, match=r"html-validate is not installed.*python3 -m build_scripts check"):
        check_html(tmp_path, site)


def test_a_checker_that_breaks_is_not_taken_for_a_good_report(site, monkeypatch):
    monkeypatch.setattr(check_site.shutil, "which", lambda *_, **__: "/bin/false")
    with pytest.raises(RuntimeError, match="false gave no report"):
        check_links(site)
