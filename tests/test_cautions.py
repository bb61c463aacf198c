"""Each caution has a case where it shows and one where it does not; the data file is refused when it is wrong."""

import pytest

from registry import data
from registry.catalogue.mark_rules import caution_rules, mark_rules, products
from registry.clearance.caution_rules import read_cautions
from registry.clearance.cautions import cautions
from registry.clearance.ground import Ground
from registry.clearance.marks import Mark
from registry.clearance.model import Case, JobFacts, Layer, Permission, Terms, Use
from registry.clearance.rules import read_rules
from registry.clearance.scene import founds, scene, setting
from registry.errors import BadLaw
from registry.facts import edtf
from registry.facts.work import read_work
from registry.rulebook import rulebook

DAY = edtf.day("2026-11-25")
OLD = {"title": "Ferry at Orrin", "kind": "drawing", "authorship": "individual", "created": "1890", "published": True,
       "creators": [{"name": "Hester Quill", "died": "1901", "nationality": ["US"]}], "publications": [{"date": "1890", "country": "US"}]}
NEW = {**OLD, "title": "Ferry at dawn", "created": "2015", "creators": [{"name": "Abel Thole", "alive": True}], "publications": [{"date": "2015", "country": "US"}]}
SCAN = {"title": "Scan", "kind": "photograph", "authorship": "corporate", "created": "2015", "published": True, "creators": [],
        "publications": [{"date": "2015", "country": "DE"}], "faithful_reproduction": True}
FONT = {**NEW, "title": "Quarrystone", "kind": "lettering"}
TEXT = {**NEW, "title": "Verses of the ferry", "kind": "text"}
FIGURE = {**OLD, "title": "Boy with carp", "kind": "sculpture"}
HARE = Mark("m1", "HARE & LANTERN", "word", "Lantern Inns", "US", "invented-7", "1990-02-01", "1991-03-01", "2031-03-01", (20,), "registered", "registered")


def layer(key="w1", facts=OLD, **more):
    return Layer(key, facts["title"], read_work(facts, rulebook().vocabulary), **more)


def shown(place, *layers, marks=(), part="picture", listing="", permissions=(), product="carved wooden sign", purpose="sale", traits=(), **job):
    """Ids of the cautions of a job that uses the last of some layers."""
    layers = layers or (layer(),)
    facts = JobFacts("j1", product, purpose, (place,), 40, job.get("wording", ""), job.get("lettering", ""), None, (Use(layers[-1].key, part, traits, job.get("changes", "")),))
    case = Case(facts, {one.key: one for one in layers}, permissions)
    book = rulebook()
    ground = Ground(book.laws, read_rules(data.read_text("clearance.toml"), data.read_text("licences.toml"), book.groups), book.groups, DAY)
    where = setting(case, products(), book.laws, DAY, job.get("title", ""), listing)
    found, near = founds(where, marks, [place], DAY, mark_rules())
    return [one.id for one in cautions(scene(where, place, found[place], bool(near), ground), caution_rules())]


def office(code, **more):
    return Mark("m1", "HARE & LANTERN", "word", "Lantern Inns", code, "invented-7", classes=more.pop("classes", (20,)), state=more.pop("state", "registered"), **more)


WORDING = {"wording": "HARE AND LANTERN"}
COPY = (layer("w0"), layer("w1", SCAN, based_on="w0", originality="faithful_copy"))
TINTED = (layer("w0"), layer("w1", NEW, based_on="w0", originality="new_expression", traits=("sunset tints",)))
STATUE = (layer("w0", FIGURE), layer("w1", {**SCAN, "faithful_reproduction": False}, based_on="w0", originality="new_expression"))
PERSON = (layer(facts={**OLD, "real_person": True}),)
UNPUBLISHED = {**OLD, "published": False, "publications": []}

# id: (place, layers, keywords) where it shows; then the same where it does not
CASES = {
    "TM-NOEXPIRY": (("CA", (), {**WORDING, "marks": (HARE,)}), ("CA", (), {**WORDING})),
    "TM-10Y": (("US", (), {**WORDING, "marks": (HARE,)}), ("CA", (), {**WORDING, "marks": (HARE,)})),
    "TM-10Y-UKEU": (("GB", (), {**WORDING, "marks": (office("GB"),)}), ("GB", (), {**WORDING, "marks": (office("GB", state="dead"),)})),
    "TM-US-USE": (("US", (), {**WORDING, "marks": (office("US", state="dead"),)}), ("US", (), {})),
    "TM-US-MAINT": (("US", (), {**WORDING, "marks": (HARE,)}), ("US", (), {**WORDING, "marks": (office("US", registered="2024-01-01"),)})),
    "TM-DE-UNREG": (("DE", (), {**WORDING}), ("DE", (), {})),
    "TM-SC2003": (("US", (), {**WORDING, "marks": (HARE,)}), ("US", (layer(facts=NEW),), {**WORDING, "marks": (HARE,)})),
    "TM-SC2003-LIMIT": (("US", (), {"listing": "The official ferry sign"}), ("US", (), {"listing": "A ferry sign"})),
    "TM-CHAR-PD": (("US", (), {**WORDING, "marks": (HARE,)}), ("US", (), {**WORDING, "marks": (office("US", state="dead"),)})),
    "TM-LATERVERSION": (("US", TINTED, {}), ("US", (layer(),), {})),
    "TM-EFTA": (("NO", (), {**WORDING, "marks": (office("NO"),)}), ("US", (), {**WORDING, "marks": (HARE,)})),
    "TM-ORNAMENT": (("US", (), {"wording": "ORRIN ROWING CLUB"}), ("US", (), {"wording": "ORRIN"})),
    "TM-PHRASE": (("GB", (), {"wording": "GATHER ROUND THE STOVE"}), ("GB", (), {"wording": "ORRIN"})),
    "TM-CLASS": (("US", (), {**WORDING, "marks": (office("US", classes=(33,)),)}), ("US", (), {**WORDING, "marks": (HARE,)})),
    "TM-DRESS": (("US", (), {"title": "Tractor silhouette"}), ("US", (), {"title": "Ferry"})),
    "EMB-6TER": (("FR", (), {"title": "Board with the coat of arms of Orrin"}), ("FR", (), {"title": "Board with a ferry"})),
    "EMB-DECOR": (("JP", (), {"title": "A national flag in oak"}), ("JP", (), {"title": "A ferry in oak"})),
    "EMB-CH-ARMS": (("CH", (), {"title": "Wappen of a canton"}), ("AT", (), {"title": "Wappen of a canton"})),
    "EMB-CH-FOREIGN": (("CH", (), {"title": "National flag"}), ("CH", (), {"title": "Ferry"})),
    "EMB-DE-ARMS": (("DE", (), {"title": "Stadtwappen"}), ("DE", (), {"title": "Ferry"})),
    "EMB-GB-ROYAL": (("GB", (), {"listing": "Makers by appointment"}), ("US", (), {"listing": "Makers by appointment"})),
    "EMB-CA-S9": (("CA", (), {"title": "University crest"}), ("CA", (), {"title": "Ferry"})),
    "EMB-REDCROSS": (("MX", (), {"title": "First aid post sign"}), ("MX", (), {"title": "Post sign"})),
    "EMB-OLYMPIC-TREATY": (("MX", (), {"title": "Five rings"}), ("MX", (), {"title": "Five gulls"})),
    "EMB-OLYMPIC-DE": (("DE", (), {"wording": "OLYMPIA BAD"}), ("DE", (), {"wording": "BAD"})),
    "EMB-OLYMPIC-FR": (("FR", (), {"wording": "JEUX OLYMPIQUES"}), ("FR", (), {"wording": "JEUX"})),
    "EMB-OLYMPIC-CA": (("CA", (), {"wording": "OLYMPIC POOL"}), ("US", (), {"wording": "POOL"})),
    "EMB-OLYMPIC-US": (("US", (), {"wording": "OLYMPIC POOL"}), ("MX", (), {"wording": "OLYMPIC POOL"})),
    "EMB-US-SPECIAL": (("US", (layer(facts={**OLD, "government_of": "US"}),), {}), ("US", (layer(facts={**OLD, "government_of": "GB"}),), {})),
    "TYPE-US": (("US", (layer(facts=FONT),), {"part": "lettering"}), ("US", (), {})),
    "TYPE-GB": (("GB", (layer(facts=FONT),), {"part": "lettering"}), ("US", (layer(facts=FONT),), {"part": "lettering"})),
    "TYPE-DE": (("DE", (layer(facts=FONT),), {"part": "lettering"}), ("DE", (), {})),
    "TYPE-FR": (("FR", (layer(facts=FONT),), {"part": "lettering"}), ("FR", (), {})),
    "TYPE-EU": (("NL", (layer(facts=FONT),), {"part": "lettering"}), ("NL", (layer(facts={**OLD, "kind": "lettering"}),), {"part": "lettering"})),
    "FONT-LICENCE": (("US", (layer(facts=FONT),), {"part": "lettering"}), ("US", (layer(facts=FONT),), {"part": "lettering", "permissions": (Permission("p1", "w1"),)})),
    "WORDS-US": (("US", (), {**WORDING}), ("US", (), {})),
    "WORDS-EU": (("FR", (layer(facts=TEXT),), {"part": "text"}), ("FR", (), {"wording": "CAFE"})),
    "TYPESET-GB": (("GB", (layer(facts=TEXT),), {"part": "text"}), ("GB", (layer(facts={**OLD, "kind": "text"}),), {"part": "text"})),
    "SCAN-US": (("US", COPY, {"part": "photograph"}), ("US", (), {})),
    "SCAN-EU": (("FR", COPY, {"part": "photograph"}), ("DE", COPY, {"part": "photograph"})),
    "SCAN-DE": (("DE", COPY, {"part": "photograph"}), ("DE", TINTED, {})),
    "SCAN-GB": (("GB", COPY, {"part": "photograph"}), ("GB", (), {})),
    "SCAN-3D": (("US", STATUE, {"part": "photograph"}), ("US", COPY, {"part": "photograph"})),
    "SCAN-TERMS": (("US", (layer(terms=Terms("non-commercial use only", "Museum of Orrin")),), {}), ("US", (), {})),
    "RESTORE": (("US", TINTED, {}), ("US", COPY, {"part": "photograph"})),
    "PUBRIGHT-EU": (("DE", (layer(facts=UNPUBLISHED),), {}), ("DE", (), {})),
    "CRITED-EU": (("DE", (layer("w0", {**OLD, "kind": "text"}), layer("w1", TEXT, based_on="w0")), {"part": "text"}), ("DE", (layer(facts=TEXT),), {"part": "text"})),
    "MORAL-FR": (("FR", (), {}), ("FR", (layer(facts=FONT),), {"part": "lettering"})),
    "MORAL-IT": (("IT", (), {}), ("IT", (layer(own=True),), {})),
    "MORAL-OTHER": (("MX", (), {}), ("US", (), {})),
    "MORAL-TERM": (("CA", (layer(facts=NEW),), {}), ("CA", (), {})),
    "PAY-UY": (("UY", (), {}), ("UY", (), {"purpose": "gift"})),
    "PAY-AR": (("AR", (), {}), ("AR", (layer(own=True),), {})),
    "SPECIAL-GB-PLAY": (("GB", (layer(facts=TEXT),), {"part": "text", "title": "Lines from a stage play"}), ("GB", (layer(facts=TEXT),), {"part": "text"})),
    "PUBL-US": (("US", PERSON, {}), ("US", (), {})),
    "PUBL-NY": (("US", PERSON, {}), ("US", (), {"title": "Likeness of a captain"})),
    "PUBL-DE": (("DE", PERSON, {}), ("DE", (), {})),
    "PUBL-OTHER": (("FR", PERSON, {}), ("DE", PERSON, {})),
    "HER-IT": (("US", (layer(facts={**OLD, "held_in": "IT"}),), {}), ("US", (layer(facts={**OLD, "held_in": "FR"}),), {})),
    "HER-GR": (("GR", (), {"title": "Parthenon at dusk"}), ("US", (), {"title": "Parthenon at dusk"})),
    "HER-FR": (("FR", (), {"title": "Château on the river"}), ("FR", (), {"title": "Ferry on the river"})),
    "HER-TCE": (("NZ", (), {"title": "Tribal band"}), ("NZ", (), {"title": "Rope band"})),
    "HER-PANORAMA": (("FR", (layer(facts={**NEW, "kind": "sculpture"}),), {}), ("FR", (layer(facts=FIGURE),), {})),
    "DESIGN-REG": (("DE", (layer(facts=NEW),), {}), ("DE", (), {})),
    "MAPDATA": (("US", (layer(facts={**NEW, "kind": "map"}),), {}), ("US", (layer(facts={**OLD, "kind": "map"}),), {})),
    "AIGEN": (("US", (layer(facts={**NEW, "machine_made": True}),), {}), ("US", (layer(facts={**NEW, "machine_made": "unknown"}),), {})),
    "MARKET-RULES": (("US", (), {"listing": "Oak board with a ferry"}), ("US", (), {})),
}


def test_every_caution_has_its_cases():
    assert CASES.keys() == {rule.id for rule in caution_rules()}


@pytest.mark.parametrize("name", CASES)
def test_a_caution_shows_where_it_applies(name):
    place, layers, more = CASES[name][0]
    assert name in shown(place, *layers, **more)


@pytest.mark.parametrize("name", CASES)
def test_a_caution_does_not_show_where_it_does_not(name):
    place, layers, more = CASES[name][1]
    assert name not in shown(place, *layers, **more)


def test_a_plain_old_picture_without_words_has_few_cautions():
    assert shown("US") == [] and shown("JP") == []
    assert shown("FR") == ["MORAL-FR"]


def test_what_asks_for_something_first_stands_on_top():
    actions = {rule.id: rule.action for rule in caution_rules()}
    order = [actions[name] for name in shown("US", *STATUE, part="photograph", marks=(HARE,), listing="official", **WORDING)]
    assert order == sorted(order, reverse=False, key=lambda action: action != "first") and {"first", "also"} == set(order)


@pytest.mark.parametrize("changed, places", [
    ({}, True), ({"traits": ("ferry",)}, True), ({"traits": ("ferry",), "changes": "redrawn from w0"}, False)])
def test_a_version_that_the_product_does_not_show_brings_no_caution(changed, places):
    layers = (layer("w0", traits=("ferry",)), TINTED[1])
    assert ("TM-LATERVERSION" in shown("US", *layers, **changed)) is places


GOOD = {"id": '"X"', "title": '"t"', "looks": '"l"', "says": '"s"', "source": '"s"', "how": '"read"', "action": '"also"', "when": "{ listing = true }"}


@pytest.mark.parametrize("changed, says", [
    ({"says": '""'}, "'says' is missing"), ({"source": '""'}, "'source' is missing"), ({"colour": "1"}, "unknown key 'colour'"),
    ({"how": '"heard"'}, "how is 'heard'"), ({"action": '"never"'}, "action is 'never'"), ({"when": "{}"}, "'when' is missing"),
    ({"when": "[{}, { listing = true }]"}, "a table of 'when' is empty"), ({"when": "{ weather = 1 }"}, "unknown condition 'weather'"),
    ({"when": "{ marks = [\"alive\"] }"}, "marks has 'alive'"), ({"when": "{ kinds = [\"poem\"] }"}, "kinds has 'poem'"),
    ({"when": "{ classes = [46] }"}, "classes has '46'"), ({"when": "{ has = { shoe_size = [1] } }"}, "has names 'shoe_size'"),
    ({"when": "{ own = 1 }"}, "own is 1; true or false is needed"), ({"when": "{ shown_within = true }"}, "a whole number is needed"),
    ({"when": "{ facts = { colour = true } }"}, "unknown condition 'colour'"), ({"places": '["Narnia"]'}, "'Narnia' is neither"),
    ({"without": '["@MOON"]'}, "'@MOON' is neither"),
])
def test_a_bad_entry_is_named(changed, says):
    text = "[[caution]]\n" + "\n".join(f"{name} = {value}" for name, value in {**GOOD, **changed}.items())
    with pytest.raises(BadLaw, match="cautions.toml, caution X") as caught:
        read_cautions(text, rulebook().vocabulary, rulebook().groups)
    assert says in str(caught.value)


def test_an_id_stands_once_and_the_file_must_be_toml():
    entry = "[[caution]]\n" + "\n".join(f"{name} = {value}" for name, value in GOOD.items())
    with pytest.raises(BadLaw, match="the id X stands there twice"):
        read_cautions(f"{entry}\n{entry}", rulebook().vocabulary, rulebook().groups)
    with pytest.raises(BadLaw, match="not readable as TOML"):
        read_cautions("[[caution", rulebook().vocabulary, rulebook().groups)
