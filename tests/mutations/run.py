"""Are the tests awake? `python tests/mutations/run.py [--only plugins/NAME] [--sample N] [--seed S]`.

Each site of each calculator's arithmetic is changed, one at a time, and the tests must notice. A survivor is
killed by a better test, or explained in `survivors.toml`. The exit code is 1 where one is neither, where an
explained one is gone from the source, or is noticed after all.

`--only` takes a plugin's folder or one module; `--sample` so many sites of each plugin, drawn by `--seed`.
Slow: some seconds a site. The gate runs only `test_mutate.py`.
"""

import argparse
import os
import random
import sys
import time
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor

from mutate import Site
from subjects import ROOT, all_sites, drawn, explained, learnt, names, package, stale, state
from trial import KILLED, SURVIVED, TIMED_OUT, Lab, Test, Verdict, warm

COLUMNS = ("sites", "tried", "killed", "timed out", "survived", "explained", "minutes")


def main(arguments: Sequence[str]) -> int:
    """Try the mutants, print what became of them; 0 where every survivor is explained."""
    said = _said(arguments)
    warm()
    lab = Lab(ROOT, {f"boltend_{name}": package(name) for name in names()})
    entries = explained()
    why = {entry.site: entry.why for entry in entries}
    gone, before = stale(entries), state()
    print(f"seed {said.seed}, sample {said.sample or 'all'}, Python {sys.version.split()[0]}")
    print(f"{'plugin':<18}" + "".join(f"{column:>11}" for column in COLUMNS), flush=True)
    unexplained: list[tuple[Site, Verdict]] = []
    noticed: list[tuple[Site, Verdict]] = []
    for name in names():
        here = all_sites(name)
        chosen = [site for site in here if site.file.startswith(said.only)]
        if said.sample:
            chosen = drawn(chosen, said.sample, said.seed)
        if not chosen:
            continue
        begin = time.monotonic()
        tried = _try(lab, chosen, *learnt(lab, name), jobs=said.jobs, tell=said.tell)
        count = {what: sum(v.what == what for _, v in tried) for what in (KILLED, TIMED_OUT, SURVIVED)}
        alive = [(site, verdict) for site, verdict in tried if verdict.what == SURVIVED]
        unexplained += [(site, verdict) for site, verdict in alive if site not in why]
        noticed += [(site, verdict) for site, verdict in tried if verdict.what != SURVIVED and site in why]
        figures = [len(here), len(tried), count[KILLED], count[TIMED_OUT], count[SURVIVED]]
        figures.append(sum(site in why for site, _ in alive))
        minutes = (time.monotonic() - begin) / 60
        print(f"{name:<18}" + "".join(f"{n:>11}" for n in figures) + f"{minutes:>11.1f}", flush=True)
    if state() != before:
        print("Files changed while this ran: its figures mix two states of the tree. Run it again.")
    for site, verdict in unexplained:
        print(f"survived, and nobody says why: {site.said}" + (f" ({verdict.by})" if verdict.by else ""))
    for entry in gone:
        print(f"explained, but there is no such site: {entry.site.said}")
    for site, verdict in noticed:
        print(f"explained, but {verdict.what} by {verdict.by or 'the clock'}: {site.said}")
    return 1 if unexplained or gone or noticed else 0


def _said(arguments: Sequence[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("`")[0])
    parser.add_argument("--only", default="plugins/", help="a plugin's folder, or one module")
    parser.add_argument("--sample", type=int, default=0, help="sites of each plugin; all without it")
    parser.add_argument("--seed", type=int, default=random.randrange(10**6))
    parser.add_argument("--jobs", type=int, default=1, help="mutants tried at once")
    parser.add_argument("--tell", action="store_true", help="print every verdict as it falls")
    return parser.parse_args(arguments)


def _try(
    lab: Lab, chosen: Sequence[Site], own: Sequence[Test], others: Sequence[Test], jobs: int, tell: bool
) -> list[tuple[Site, Verdict]]:
    """The verdict on each site, in order."""

    def one(site: Site) -> Verdict:
        verdict = lab.trial(site, own, others)
        if tell:
            print(f"{verdict.what} {verdict.seconds:.1f}s {site.said} {verdict.by}", flush=True)
        return verdict

    if jobs < 2:
        return [(site, one(site)) for site in chosen]
    with ThreadPoolExecutor(jobs) as pool:  # a thread only waits for its fork
        return list(zip(chosen, pool.map(one, chosen), strict=True))


if __name__ == "__main__":
    os.nice(10)
    sys.exit(main(sys.argv[1:]))
