"""Answers requests, one a line, with nothing but the standard library, so that any Python can run it.

    python answer_lines.py standards.json requests.txt [--text]

Prints a line an answer: the first 32 hexadecimal digits of its SHA-256 or, with --text, the answer itself.
"""

import hashlib
import sys


def answered(standards_text: str, requests: list[str], whole: bool) -> list[str]:
    """The answers, or their digests, in the order of the requests."""
    from calculators.answer import answer
    from calculators.limits import Standards

    standards = Standards.from_json(standards_text)
    texts = (answer(request, standards) for request in requests)
    return [text if whole else hashlib.sha256(text.encode()).hexdigest()[:32] for text in texts]


if __name__ == "__main__":
    sys.stdout.reconfigure(encoding="utf-8", newline="\n")
    with open(sys.argv[1], encoding="utf-8") as standards_file, open(sys.argv[2], encoding="utf-8") as requests_file:
        lines = answered(standards_file.read(), requests_file.read().split("\n"), "--text" in sys.argv)
    print("\n".join(lines))
