"""What tests of a calculator's page share: an outcome as data, and the entries of a worked example typed into the form."""

from __future__ import annotations

from playwright.sync_api import Locator

# An outcome as nested lists of tag, attributes and text. Spaces between tags are left out; addresses are whole ones,
# as the theme makes them in the page that it found.
TREE = """
(element) => {
  const value = (node, one) => one.name === "href" ? node.href : one.value;
  const tree = (node) => node.nodeType === Node.TEXT_NODE
    ? node.textContent.replace(/\\s+/g, " ")
    : [node.nodeName.toLowerCase(),
       Object.fromEntries([...node.attributes].map((one) => [one.name, value(node, one)]).sort()),
       [...node.childNodes].map(tree).filter((one) => one !== " ")];
  const copy = element.cloneNode(true);
  copy.normalize();
  return tree(copy);
}
"""

_ENTER_EXAMPLE = """
(example) => {
  const form = document.querySelector(".calculator-form");
  for (const { dataset: { entry, text, unit } } of example.querySelectorAll("[data-entry]")) {
    const field = form.querySelector(`[name="${entry}"]`);
    field.closest("details")?.setAttribute("open", "");
    if (unit) form.querySelector(`[name="${entry}__unit"]`).value = unit;
    field.value = text;
    field.dispatchEvent(new Event("input", { bubbles: true }));
  }
}
"""


def enter_example(example: Locator) -> None:
    """Type the entries of one worked example, in order, each as a reader would."""
    example.evaluate(_ENTER_EXAMPLE)
