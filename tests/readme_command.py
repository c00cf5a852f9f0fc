"""Print the n-th `sh` block of the README: what CI runs is what a reader runs."""

import re
import sys
from pathlib import Path

readme = Path(__file__).parent.parent / "README.md"
blocks = re.findall(r"^```sh\n(.*?)^```", readme.read_text(encoding="utf-8"), re.M | re.S)
print(blocks[int(sys.argv[1]) - 1], end="")
