"""One shell for one browser tab: `python -m boltend.serve.child [FILE]`, started by the server only."""

import sys

from boltend.core.project.problems import ProjectUnreadable
from boltend.core.values import visible
from boltend.shell import run


def main(words: list[str]) -> int:
    """Run the shell; the exit code. What is wrong with the file goes to the server's terminal."""
    try:
        return run(words[0] if words else None)
    except ProjectUnreadable as error:
        print(visible(str(error)), file=sys.stderr)
        return 2


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
