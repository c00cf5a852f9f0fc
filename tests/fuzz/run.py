"""Coverage-guided fuzzing of one target with atheris, which is no dependency of ours:

    python3.11 -m venv fuzzing && fuzzing/bin/pip install atheris -e .
    fuzzing/bin/python tests/fuzz/run.py notation --seconds 600 --keep FOLDER

FOLDER holds what was found interesting, and the next run goes on from there. A finding stops the run, and its
bytes are written to FOLDER/finding-*; `run.py notation --repeat FILE` runs them again, without atheris.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))


def main() -> None:
    """Read the call, and fuzz or repeat."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("target")
    parser.add_argument("--seconds", type=int, default=600)
    parser.add_argument("--keep", type=Path, default=Path("/tmp/boltend-fuzz"))
    parser.add_argument("--longest", type=int, default=4096, help="bytes of one input")
    parser.add_argument("--repeat", type=Path, help="run these bytes once")
    said = parser.parse_args()
    if said.repeat is not None:
        from targets import result_of

        result_of(said.target, said.repeat.read_bytes())
        print("no promise was broken")
        return
    fuzz(said.target, said.seconds, said.keep, said.longest)


def fuzz(name: str, seconds: int, keep: Path, longest: int) -> None:
    """Run atheris for so long; it prints how many executions ran."""
    import atheris

    with atheris.instrument_imports(include=["boltend"]):
        from targets import TARGETS, seeds, timed

        for target, data in seeds():
            if target == name:
                TARGETS[name](data)  # whatever it imports late is instrumented, too
    corpus = keep / name
    corpus.mkdir(parents=True, exist_ok=True)
    for number, (target, data) in enumerate(seeds()):
        if target == name:
            (corpus / f"seed-{number}").write_bytes(data)
    call = [
        sys.argv[0], str(corpus), f"-max_total_time={seconds}", f"-max_len={longest}", "-timeout=20",
        f"-artifact_prefix={keep}/finding-{name}-", "-print_final_stats=1", "-rss_limit_mb=2048",
    ]  # fmt: skip
    atheris.Setup(call, timed(TARGETS[name]))
    atheris.Fuzz()


if __name__ == "__main__":
    main()
