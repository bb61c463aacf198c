"""From TOML text to Law. Takes text; the caller reads files. Refuses what it does not know."""

import tomllib
from dataclasses import dataclass, field, replace
from datetime import date

from registry.errors import BadLaw
from registry.law import engine, node
from registry.law.act import Act, Entry, Law, Rule, Term
from registry.law.condition import Scope, condition, event, lookup

HOW = ("read", "secondary", "memory")
RULE = {"id", "says", "cite", "how", "comment"}
TERM = {"after", "years", "days", "exact", "add", "on", "first_of", "last_of", "perpetual", "none"}
FILE = {"code", "name", "checked", "covers", "edge", "source", "event", "define", "never", "act", "compare", "doubt", "related", "also"}
SOURCE = {"id", "title", "url", "seen", "how"}
ACT = RULE | {"use", "from", "existing", "revive_when", "applies", "compare", "keep_longer", "otherwise", "term"}
EXISTING = ("if_protected", "revive", "revive_only")
SHARED = {"code", "name", "checked", "source", "act", "doubt", "related", "also", "never", "compare"}


@dataclass(slots=True)
class Laws:
    """All laws, loaded when asked for. `reader(name)` gives the text of a terms file or None."""

    vocabulary: object
    reader: object
    groups: dict = field(default_factory=dict)
    tables: dict = field(default_factory=dict)
    territories: dict = field(default_factory=dict)
    program: dict = field(default_factory=dict)
    doubted: dict = field(default_factory=dict)
    _loaded: dict = field(default_factory=dict)
    _shared: dict = field(default_factory=dict)

    def law(self, code):
        """The Law that applies in a place (a territory's is that of its state); None when not covered."""
        if code not in self._loaded:
            self._loaded[code] = self._find(code)
        return self._loaded[code]

    def state(self, code):
        """The code of the state whose law applies in a place: its own, or that of which it is a territory."""
        place = self.territories.get(code)
        return place.get("law", code) if place else code

    def _find(self, code):
        place = self.territories.get(code)
        if place and place.get("law"):
            return self.law(place["law"])
        text = self.reader(code.lower())
        return None if text is None else read_law(text, f"{code.lower()}.toml", self)

    def shared(self, name):
        """The shared file `_name.toml` as compiled pieces: (raw entries by kind and id, sources, code)."""
        if name not in self._shared:
            text = self.reader("_" + name)
            if text is None:
                raise BadLaw(f"shared file _{name}.toml does not exist.")
            self._shared[name] = _parse(text, f"_{name}.toml", SHARED)
        return self._shared[name]

    def gap(self, code):
        """The Rule that says why a place is not covered."""
        place = self.territories.get(code, {})
        says = place.get("gap") or "No rules are on file for this place."
        return Rule(f"{code.lower()}.gap", says, place.get("cite", "list of places of this program"), place.get("how", "read"))


def make_laws(vocabulary, reader, groups, tables, territories, program):
    """Laws over a reader, with the conditions under which absent facts are not presumed compiled.

    `program` is the text of the rules of the program itself.
    """
    own = {rule["id"]: Rule(**rule) for rule in tomllib.loads(program)["rule"]}
    laws = Laws(vocabulary, reader, groups, tables, territories, own)
    scope = Scope(vocabulary, groups, tables, {}, engine.home_protected, "facts.toml")
    for fact in vocabulary.facts.values():
        if fact.unknown_when:
            laws.doubted[fact.name] = condition(fact.unknown_when, scope)
    return laws


def _parse(text, name, allowed):
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise BadLaw(f"{name}: not readable as TOML: {error}.") from None
    for key in raw:
        if key not in allowed:
            raise BadLaw(f"{name}: unknown key '{key}'; allowed are {', '.join(sorted(allowed))}.")
    return raw


def read_law(text, name, laws):
    """The Law in a TOML text; BadLaw names file, entry, what is wrong and what is allowed."""
    return compile_law(_parse(text, name, FILE), name, laws)


def compile_law(raw, name, laws):
    """The Law in a file already parsed to tables; BadLaw as read_law."""
    for key in ("code", "name", "checked", "covers", "source", "act"):
        if key not in raw:
            raise BadLaw(f"{name}: '{key}' is missing.")
    return _Reader(raw, name, laws).law()


class _Reader:
    """Compiles one file; holds what every entry needs to know."""

    def __init__(self, raw, name, laws):
        self.raw, self.name, self.laws = raw, name, laws
        self.code = raw["code"]
        self.ids = set()
        self.sources = self._sources(raw)
        events = {}
        self.scope = Scope(laws.vocabulary, laws.groups, laws.tables, events, engine.home_protected, name)
        for key, names, build in (("event", events, self._event), ("define", self.scope.defined, self._define)):
            for entry in raw.get(key, ()):
                names[entry["id"]] = _later(build, entry)
        for test in (*events.values(), *self.scope.defined.values()):
            test.build()

    def _sources(self, raw):
        found = {}
        for source in raw.get("source", ()):
            for key in source:
                if key not in SOURCE:
                    raise BadLaw(f"{self.name}, source {source.get('id')}: unknown key '{key}'; allowed are {', '.join(sorted(SOURCE))}.")
            if source.get("how") not in HOW:
                raise BadLaw(f"{self.name}, source {source.get('id')}: how is '{source.get('how')}'; allowed are {', '.join(HOW)}.")
            found[source["id"]] = source
        return found

    def law(self):
        raw, compare = self.raw, self.raw.get("compare")
        covers = frozenset(raw["covers"])
        unknown = covers - set(self.laws.vocabulary.facts["kind"].choices)
        if unknown:
            raise BadLaw(f"{self.name}: covers unknown kinds {sorted(unknown)}.")
        acts = tuple(self._act(entry) for entry in raw["act"])
        self._ordered(acts)
        fixed = [act.start for act in acts if isinstance(act.start, int)]
        entries = {kind: tuple(self._entry(e, key) for e in raw.get(key, ())) for kind, key in
                   (("never", "never"), ("doubts", "doubt"), ("related", "related"), ("also", "also"))}
        law = Law(self.code, raw["name"], str(raw["checked"]), covers, raw.get("edge", ""), self.sources,
                  acts=acts, first_day=min(fixed) if fixed else 0, raw=raw, movable=len(fixed) < len(acts),
                  act_ids=frozenset(act.rule.id for act in acts), beside=frozenset(entry.rule.id for entry in entries["also"]), **entries)
        if compare:
            compare = self._merged(compare, "compare")
            exempt = compare.get("exempt")
            law = replace(law, compare_rule=self._rule(compare, "compare"), exempt=condition(exempt, self._at(compare)) if exempt else None)
        if any(act.compare for act in acts) and not compare:
            raise BadLaw(f"{self.name}: an act compares terms but there is no [compare] table.")
        return law

    def _ordered(self, acts):
        last = 0
        for act in acts:
            if isinstance(act.start, int):
                if act.start < last:
                    raise BadLaw(f"{self.name}, act {act.rule.id}: stands after a later act; acts go in order of their first day.")
                last = act.start

    def _at(self, entry):
        return replace(self.scope, at=f"{self.name}, entry {entry.get('id', '?')}")

    def _merged(self, entry, kind):
        use = entry.get("use")
        if not use:
            return entry
        file, _, wanted = use.partition(".")
        shared = self.laws.shared(file)
        pool = shared.get(kind, [])
        pool = [pool] if isinstance(pool, dict) else pool
        for found in pool:
            if found.get("id") == wanted:
                self.sources = {**{f"{file}:{s['id']}": s for s in shared.get("source", ())}, **self.sources}
                marked = _mark(found, file)
                merged = {**marked, **{k: v for k, v in entry.items() if k != "use"}}
                if {"id", "says", "cite"} & entry.keys():
                    del merged["_file"]
                if kind == "act":
                    merged["term"] = [*entry.get("term", ()), *marked.get("term", ())]
                return merged
        raise BadLaw(f"{self.name}: use = '{use}': no such {kind} in _{file}.toml; it has {', '.join(str(e.get('id')) for e in pool)}.")

    def _rule(self, entry, what, parent=""):
        at = f"{self.name}, {what} {entry.get('id', '?')}"
        for key in ("id", "says", "cite"):
            if not entry.get(key):
                raise BadLaw(f"{at}: '{key}' is missing.")
        file = entry.get("_file")
        prefix = file or (parent if parent and not file else self.code.lower())
        ident = entry["id"] if "." in entry["id"] and file else f"{prefix}.{entry['id']}"
        if ident in self.ids and not file:
            raise BadLaw(f"{at}: the id '{ident}' is used twice.")
        self.ids.add(ident)
        cites, hows = self._cited(entry["cite"], file, at)
        how = entry.get("how", hows[0])
        if how not in HOW:
            raise BadLaw(f"{at}: how is '{how}'; allowed are {', '.join(HOW)}.")
        return Rule(ident, entry["says"], "; ".join(cites), how)

    def _cited(self, cite, file, at):
        cites, hows = [], []
        for one in cite if isinstance(cite, list) else [cite]:
            key, _, section = one.partition(" ")
            source = self.sources.get(f"{file}:{key}" if file else key) or self.sources.get(key)
            if source is None:
                raise BadLaw(f"{at}: cites unknown source '{key}'; allowed are {', '.join(sorted(self.sources))}.")
            cites.append(f"{source['title']}, {section}" if section else source["title"])
            hows.append(source["how"])
        return cites, hows

    def _act(self, entry):
        entry = self._merged(entry, "act")
        at = self._at(entry)
        self._allowed(entry, ACT, at)
        rule = self._rule(entry, "act")
        existing = entry.get("existing", "if_protected")
        if existing not in EXISTING:
            at.refuse(f"existing is '{existing}'; allowed are {', '.join(EXISTING)}.")
        keep = entry.get("keep_longer")
        if keep not in (None, "before", "after"):
            at.refuse(f"keep_longer is '{keep}'; allowed are before, after.")
        terms = tuple(self._term(t, rule.id, at) for t in entry.get("term", ()))
        carry = entry.get("otherwise") == "carry"
        if not carry and (not terms or terms[-1].when is not None):
            at.refuse("the list of terms has no ending: give a last term without 'when', or otherwise = \"carry\".")
        if any(t.when is None for t in terms[:-1]):
            at.refuse("a term without 'when' stands before others, which can never be reached.")
        return Act(rule, self._start(entry, at), existing, self._when(entry, "applies", at), self._when(entry, "revive_when", at),
                   entry.get("compare", False), keep, terms, carry)

    def _start(self, entry, at):
        start = entry.get("from")
        if isinstance(start, date):
            return start.toordinal()
        if isinstance(start, str):
            return lookup(start, at)
        at.refuse(f"from is {start!r}; a day or the name of a table is needed.")

    def _allowed(self, entry, allowed, at):
        for key in entry:
            if key not in allowed and key != "_file":
                at.refuse(f"unknown key '{key}'; allowed are {', '.join(sorted(allowed))}.")

    def _when(self, entry, key, at):
        return condition(entry[key], at) if key in entry else None

    def _term(self, entry, parent, at):
        entry = dict(entry)
        at = replace(at, at=f"{at.at}, term {entry.get('id', '?')}")
        self._allowed(entry, RULE | TERM | {"when"}, at)
        return Term(self._rule(entry, "term", parent), self._when(entry, "when", at), self._end(entry, at))

    def _end(self, table, at):
        return end(table, at)

    def _entry(self, entry, kind):
        entry = self._merged(entry, kind)
        at = self._at(entry)
        extra = {"never": {"when", "use"}, "doubt": {"when", "use", "from", "shortest", "longest"},
                 "related": {"when", "use", "from", "term", "after_expiry"}, "also": {"when", "use"}}[kind]
        self._allowed(entry, RULE | extra, at)
        rule, when = self._rule(entry, kind), self._when(entry, "when", at)
        if when is None and kind != "also":
            at.refuse("'when' is missing.")
        start = self._start(entry, at) if "from" in entry else 0
        if kind == "doubt":
            return Entry(rule, when, start, self._doubted(entry, rule, at))
        if kind == "related":
            expiry = event(entry["after_expiry"], at) if "after_expiry" in entry else None
            return Entry(rule, when, start, end(entry.get("term", {}), at), after_expiry=expiry)
        return Entry(rule, when, start)

    def _doubted(self, entry, rule, at):
        low = end(entry["shortest"], at) if "shortest" in entry else lambda world: node.NOTHING
        high = end(entry["longest"], at) if "longest" in entry else lambda world: node.ENDLESS
        return lambda world: node.between(low(world), high(world), "contested_law", rule)

    def _define(self, entry):
        return condition(entry["when"], self._at(entry))

    def _event(self, entry):
        at = replace(self.scope, at=f"{self.name}, event {entry.get('id', '?')}")
        choices = [(condition(one["when"], at) if "when" in one else None, event(one["is"], at)) for one in entry["first"]]

        def find(world):
            for when, found in choices:
                if when is None or when(world):
                    return found(world)
            return None

        return find


class _later:
    """An event or a word of the file, compiled after all of them are named, so that they may refer to each other."""

    __slots__ = ("compile", "entry", "call")

    def __init__(self, compile, entry):
        self.compile, self.entry, self.call = compile, entry, None

    def build(self):
        """Compile once."""
        self.call = self.call or self.compile(self.entry)

    def __call__(self, world):
        memo = world.memo
        if self in memo:
            return memo[self]
        found = memo[self] = self.call(world)
        return found


def _mark(entry, file):
    """A shared entry with its file noted on itself and its terms, so that ids and sources resolve."""
    marked = {**entry, "_file": file}
    if isinstance(entry.get("term"), list):
        marked["term"] = [{**t, "_file": file, "id": f"{file}.{entry['id']}.{t['id']}"} for t in entry["term"]]
    return marked


def end(table, scope):
    """A function World -> Node for the term in a table; BadLaw when none or several are given."""
    given = [key for key in ("after", "on", "first_of", "last_of", "perpetual", "none") if key in table]
    if len(given) != 1:
        scope.refuse(f"a term needs exactly one of after, on, first_of, last_of, perpetual, none; it has {', '.join(given) or 'nothing'}.")
    return _ENDS[given[0]](table, scope)


def _after(table, scope):
    find = event(table["after"], scope)
    years, days, exact = table.get("years", 0), table.get("days", 0), table.get("exact", False)
    adds = [(a.get("years", 0), a.get("days", 0), condition(a["when"], scope) if "when" in a else None) for a in table.get("add", ())]
    plain = _move(years, days, exact)

    def reckon(world):
        if not adds:
            return node.point(find(world), plain)
        more = [(y, d) for y, d, when in adds if when is None or when(world)]
        return node.point(find(world), _move(years + sum(y for y, _ in more), days + sum(d for _, d in more), exact))

    return reckon


def _move(years, days, exact):
    if exact:  # counted without the first day, so the anniversary itself is the last day protected
        return node.to_anniversary(years, days, 0 if years or days else 1)
    return node.to_year_end(years, days)


def _on(table, scope):
    day = table["on"].toordinal()
    fixed = node.Node(day, day, "const")
    return lambda world: fixed


def _of(pick, key):
    def compile_list(table, scope):
        ends = [end(one, scope) for one in table[key]]
        return lambda world: pick([e(world) for e in ends])

    return compile_list


_ENDS = {"after": _after, "on": _on, "first_of": _of(node.least, "first_of"), "last_of": _of(node.most, "last_of"),
         "perpetual": lambda table, scope: lambda world: node.ENDLESS, "none": lambda table, scope: lambda world: node.NOTHING}
