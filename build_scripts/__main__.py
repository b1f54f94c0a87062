"""The way in: python3 -m build_scripts VERB, with nothing but Python installed.

Readable by any Python, however old, so that the old ones can say which one is needed.
"""

import sys

if sys.version_info < (3, 11):
    sys.stderr.write(
        "Threepin needs Python 3.11 or newer, and this is Python %d.%d: install a newer one and run the same command "
        "with it.\n" % sys.version_info[:2]
    )
    sys.exit(3)

from build_scripts.environment import enter

if __name__ == "__main__":
    sys.exit(enter(sys.argv[1:]))
