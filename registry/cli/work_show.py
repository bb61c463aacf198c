"""registry work show: everything on record about a work."""

from registry.catalogue import clear, evidence, jobs, permissions, store, words, works
from registry.cli import evidence_list, permission_add, permission_list, shown, work_options

SHOWN_ELSEWHERE = {"id", "title", "kind", "creators", "publications"}


def arguments(parser):
    """Adds the argument of the command."""
    parser.add_argument("work", help="The key of the work.")


def run(args):
    """0; UnknownRecord when there is no such work."""
    catalogue = store.open_catalogue(args.catalogue)
    record = works.get(catalogue, args.work)
    proofs, leaves = evidence.of_work(catalogue, record.key), permissions.of_work(catalogue, record.key)
    used_in = jobs.of_work(catalogue, record.key)
    if args.json:
        found = {"evidence": [evidence_list.as_object(one) for one in proofs],
                 "permissions": [permission_add.as_object(one) for one in leaves], "jobs": used_in}
        shown.show_json(work_options.as_object(record) | found)
        return 0
    print(shown.heading(record.title, record.key))
    print(shown.table([row for row in _rows(record) if row[1]]))
    _block("Facts on record", _facts(record))
    _block("Evidence", [(f"e{one.id}", shown.fact(one.fact), evidence_list.told(catalogue, one)) for one in proofs])
    _block("Permissions", [(f"p{one.id}", one.kind, permission_list.line(one, clear.drawn(catalogue, one))) for one in leaves])
    _block("Used in", [(key, jobs.get(catalogue, key).title) for key in used_in])
    return 0


def _block(title, rows):
    if rows:
        print(f"\n{title}\n{shown.table(rows)}")


def _rows(record):
    yield "kind", shown.kind(record.kind)
    for number, maker in enumerate(record.facts.get("creators", ())):
        yield "maker" if number == 0 else "", _pairs(maker, "name")
    for number, publication in enumerate(record.facts.get("publications", ())):
        yield "published" if number == 0 else "", _pairs(publication, "date", "country")
    yield "based on", f"{record.based_on} ({words.ORIGINALITY[record.originality]})" if record.based_on else ""
    yield "made by", "the shop itself" if record.own else ""
    yield "traits", "; ".join(f"{name} ({note})" if note else name for name, note in record.traits)
    yield "terms", record.access_terms
    yield "notes", record.notes
    yield "picture", record.picture or ""
    yield "version", f"{record.version}, changed {record.changed_at}"


def _pairs(entry, *first):
    """An entry in one line: the facts named first stand alone, the others with their names."""
    alone = [str(entry[name]) for name in first if name in entry]
    named = [f"{name.replace('_', ' ')} {_value(value)}" for name, value in entry.items() if name not in first]
    return ", ".join([*alone, *named]) or "nothing is known"


def _value(value):
    if isinstance(value, list):
        return ", ".join(map(str, value))
    return {True: "yes", False: "no", "unknown": "looked for, not found"}.get(value, value)


def _facts(record):
    """Facts beside those shown above, by the names under which `work change --set` knows them."""
    return [(name, str(_value(value))) for name, value in record.facts.items() if name not in SHOWN_ELSEWHERE]
