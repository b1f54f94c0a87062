"""The same text from the worker that the site ships, in a real browser, served; each way of starting Python."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from build_scripts.name_by_content import packed_file
from build_scripts.pack_runtime import STARTS_FROM
from calculators import CALCULATORS
from tests.browser import stock_start
from tests.same_text.answer_lines import answered
from tests.same_text.random_requests import example_requests
from tests.same_text.test_same_text import ROOT, requests_of

IN_PAGE, IN_PAGE_IN_FULL = 12, 200

ASK_THE_WORKER = """async ([script, way, requests]) => {
  const worker = new Worker(script, { name: way });
  const heard = (wanted) => new Promise((resolve, reject) => {
    const listen = ({ data }) => {
      if (data.kind === "failed" || data.kind === "broke") reject(new Error(data.why));
      if (!wanted(data)) return;
      worker.removeEventListener("message", listen);
      resolve(data);
    };
    worker.addEventListener("message", listen);
  });
  const { boot } = await heard((said) => said.kind === "ready");
  if (boot !== way) throw new Error(`asked for ${way}, got ${boot}`);
  const answers = [];
  for (const [id, request] of requests.entries()) {
    worker.postMessage({ verb: "answer", id, request });
    answers.push((await heard((said) => said.kind === "answer" && said.id === id)).answer);
  }
  worker.terminate();
  return answers;
}"""


@pytest.mark.parametrize("way", STARTS_FROM)
def test_the_page_prints_the_same_text(way, visit, served, site: Path, seed, long_run) -> None:
    standards_text = packed_file(site, "assets/data/standards.json").read_text(encoding="utf-8")
    script = f"{served}/{packed_file(site, 'assets/scripts/worker.js').relative_to(site).as_posix()}"
    count = IN_PAGE_IN_FULL if long_run else IN_PAGE
    requests = [one for slug in CALCULATORS for one in requests_of(slug, standards_text, seed, count)]
    there = visit(served + "/index.html").evaluate(ASK_THE_WORKER, [script, way, requests])
    here = answered(standards_text, requests, True)
    unlike = [request for request, a, b in zip(requests, here, there, strict=True) if a != b]
    assert unlike == []
    assert all(json.loads(text)["calculator"] for text in there)


def test_a_stock_start_of_python_prints_the_same_text(visit, serve_folder, site: Path, tmp_path) -> None:
    standards_text = packed_file(site, "assets/data/standards.json").read_text(encoding="utf-8")
    requests = [one for calculator in CALCULATORS.values() for one in example_requests(calculator)]
    with serve_folder(stock_start.make_stock_folder(ROOT, tmp_path / "stock")) as address:
        page = visit(f"{address}/{stock_start.PAGE}")
        there = page.evaluate(
            f"([standards, requests]) => ({stock_start.ANSWERS})(standards, requests)", [standards_text, requests]
        )
        page.context.close()
    assert len(there) >= 3 * len(CALCULATORS)
    assert there == answered(standards_text, requests, True)
