#!/usr/bin/env python3
"""Compare a museum's copyright notices with the answer for Great Britain on one day, per creator.

Usage: scripts/trial_museum.py museum_status.csv [--on 2014-10-01]
Columns used: museum_status, created_from, created_to, classification, n_contributors, creator_role,
creator_id, creator_birth_year, creator_death_year, creator_birth_country, government_art_credit.
A notice is the museum's own statement, not a court finding. The record has a place of birth and no
nationality: the place of birth is used instead. Whether and where a work was published is not recorded.
"""

import argparse
import csv
import sys
from collections import Counter, defaultdict
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from registry.facts import edtf  # noqa: E402
from registry.facts.work import read_work  # noqa: E402
from registry.law.verdict import judge  # noqa: E402
from registry.rulebook import rulebook  # noqa: E402

KINDS = {"on paper, print": "print", "on paper, unique": "drawing", "painting": "painting",
         "sculpture": "sculpture", "relief": "sculpture"}
BIRTH = {"United Kingdom": "GB", "United States": "US", "Deutschland": "DE", "France": "FR", "Éire": "IE", "Italia": "IT",
         "Canada": "CA", "Australia": "AU", "España": "ES", "Nihon": "JP", "Österreich": "AT", "Nederland": "NL",
         "Polska": "PL", "Schweiz": "CH", "South Africa": "ZA", "België": "BE", "Portugal": "PT", "New Zealand": "NZ"}


def facts(row):
    """The facts object of a museum record, with only what the record says."""
    person = {"born": row["creator_birth_year"] or None, "died": row["creator_death_year"] or None}
    if row["creator_birth_country"] in BIRTH:
        person["nationality"] = [BIRTH[row["creator_birth_country"]]]
    made = [y for y in (row["created_from"], row["created_to"]) if y]
    found = {"id": row["object_id"], "kind": KINDS[row["classification"]], "authorship": "individual", "creators": [person]}
    if made:
        found["created"] = made[0] if len(set(made)) == 1 else "/".join(made)
    if row["government_art_credit"] == "yes":
        found["government_of"] = "unknown"
    return found


def usable(row):
    """True for a record of one maker, a kind we know and an image shown."""
    return (row["n_contributors"] == "1" and row["creator_role"] == "artist" and row["classification"] in KINDS
            and row["museum_status"] != "no_image_shown")


def kind_of(row, verdict):
    """In one sentence, why a record's notice and our answer may differ."""
    died = row["creator_death_year"]
    if verdict.because == "missing_fact" and not died:
        return "no year of death in the record: we ask, the museum judged from what it knows"
    if verdict.status == "undetermined" and verdict.because == "missing_fact":
        return "we ask for " + ", ".join(dict.fromkeys(q.fact for q in verdict.questions[:2]))
    if verdict.status == "undetermined":
        return f"undetermined ({verdict.because}): {verdict.why[0].id if verdict.why else 'no rule'}"
    if row["museum_status"] == "copyright_notice":
        return f"free by our rules (maker dead {died}), yet a notice is shown: the notice names {row['notice_kind'] or 'nobody'}"
    return f"protected by our rules to {edtf.iso(verdict.latest)}, yet no notice is shown (maker dead {died})"


def main():
    """0 always; the tally is the result."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("file")
    parser.add_argument("--on", default="2014-10-01")
    args = parser.parse_args()
    with open(args.file, encoding="utf-8", newline="") as table:
        rows = [row for row in csv.DictReader(table) if usable(row)]
    pairs, why, makers = Counter(), Counter(), defaultdict(Counter)
    book, day = rulebook(), edtf.day(args.on)
    for row in rows:
        verdict = judge(read_work(facts(row), book.vocabulary), "GB", book.laws, day)
        pairs[row["museum_status"], verdict.status] += 1
        fits = agree(row, verdict)
        makers[row["creator_id"]][fits] += 1
        if fits != "agree":
            why[fits, kind_of(row, verdict)] += 1
    report(rows, pairs, why, makers)
    return 0


def agree(row, verdict):
    """agree, differ, or open (we ask)."""
    if verdict.status == "undetermined":
        return "open"
    return "agree" if (verdict.status == "in_copyright") == (row["museum_status"] == "copyright_notice") else "differ"


def report(rows, pairs, why, makers):
    """Print the tallies."""
    print(f"{len(rows)} records with an image, one maker and a kind we know")
    for (notice, status), count in sorted(pairs.items()):
        print(f"   {notice:18} {status:15} {count}")
    settled = [m for m in makers.values() if m["agree"] + m["differ"]]
    whole = sum(1 for m in settled if not m["differ"])
    print(f"makers: {len(makers)}; with a settled answer: {len(settled)}; in full agreement: {whole}; with a difference: {len(settled) - whole}")
    for (fits, reason), count in why.most_common(30):
        print(f"   {count:5} {fits:6} {reason}")


if __name__ == "__main__":
    sys.exit(main())
