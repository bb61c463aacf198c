"""Settings, evidence, permissions and marks."""

import kept
import pytest
from registry.catalogue import evidence, files, ledger, marks, permissions, settings, works
from registry.errors import RegistryError, UnknownRecord


@pytest.fixture
def catalogue(tmp_path):
    found = kept.new(tmp_path)
    works.add(found, kept.GULL, key="gull")
    return found


def test_settings_before_and_after(catalogue):
    assert settings.everything(catalogue) == {"name": "", "markets": [], "groups": {}}
    settings.put(catalogue, name="Ninepin", groups={"NEAR": ["GB", "IE"]}, markets=["US", "NEAR"])
    assert settings.get(catalogue, "markets") == ["US", "NEAR"]
    assert settings.opened(catalogue, ["NEAR", "US", "GB"]) == ["GB", "IE", "US"]


@pytest.mark.parametrize(
    "values, says",
    [
        ({"shop": "x"}, "^There is no setting 'shop'; allowed are name, markets, groups.$"),
        ({"markets": ["Atlantis"]}, "^'Atlantis' is not a place"),
        ({"groups": {"EU": ["GB"]}}, "^The group EU is one of the program's own"),
        ({"groups": {"AB": ["GB"]}}, "^'AB' cannot name a group"),
        ({"groups": {"near": ["GB"]}}, "^'near' cannot name a group"),
        ({"groups": {"ALL": ["GB"]}}, "^'ALL' cannot name a group"),
        ({"groups": {"NEAR": ["Narnia"]}}, "^The group NEAR has the member 'NARNIA'"),
        ({"groups": {}}, "^'NEAR' is not a place"),
    ],
)
def test_settings_that_cannot_be(catalogue, values, says):
    settings.put(catalogue, groups={"NEAR": ["GB", "IE"]}, markets=["NEAR"])
    before = kept.everything(catalogue)
    with pytest.raises(RegistryError, match=says):
        settings.put(catalogue, **{"name": "other", **values})
    assert kept.everything(catalogue) == before


def test_evidence_is_kept_and_noted(catalogue):
    file = files.add(catalogue, b"%PDF-1.4", "letter.pdf")
    one = evidence.add(catalogue, "gull", "died", "seen", kind="letter", title="from the heirs", seen_on="2026-04-02", file=file.sha256)
    assert evidence.of_work(catalogue, "gull") == [one]
    assert (one.work, one.fact, one.basis, one.kind, one.seen_on, one.file, one.url) == ("gull", "died", "seen", "letter", "2026-04-02", file.sha256, "")
    (row,) = ledger.rows(catalogue, "evidence", "gull")
    assert row.body["fact"] == "died" and row.body["file"] == file.sha256 and row.body["work"] == "gull"


@pytest.mark.parametrize(
    "words, columns, says",
    [
        (("tern", "died", "seen"), {}, "^There is no work 'tern'"),
        (("gull", "birthday", "seen"), {}, "^'birthday' is no fact that evidence can support"),
        (("gull", "died", "guessed"), {}, "^The basis is 'guessed'; allowed are seen, told, assumed.$"),
        (("gull", "died", "seen"), {"seen_on": "yesterday"}, "^seen_on: A day must be"),
        (("gull", "died", "seen"), {"file": "a" * 64}, "^No file 'a+' is kept"),
    ],
)
def test_evidence_that_cannot_be(catalogue, words, columns, says):
    before = kept.everything(catalogue)
    with pytest.raises(RegistryError, match=says):
        evidence.add(catalogue, *words, **columns)
    assert kept.everything(catalogue) == before


def test_evidence_is_not_kept_when_it_cannot_be_noted(catalogue):
    catalogue.db.execute("CREATE TRIGGER stop BEFORE INSERT ON ledger BEGIN SELECT raise(ABORT, 'stop'); END")
    with pytest.raises(Exception, match="stop"):
        evidence.add(catalogue, "gull", "died", "seen")
    assert evidence.of_work(catalogue, "gull") == []


def test_permissions(catalogue):
    one = permissions.add(catalogue, "gull", "licence", licensor="A. Quill", places=["GB", "EU"], uses=["goods"], quantity=300,
                          valid_from="2026-01-01", valid_to="2026-12-31", commercial=True, exclusive=False)
    world = permissions.add(catalogue, "gull", "purchase", places=["world"])
    assert permissions.of_work(catalogue, "gull") == [one, world]
    assert (one.places, one.uses, one.media, one.quantity, one.commercial, one.exclusive, one.changes_allowed) == (("GB", "EU"), ("goods",), (), 300, True, False, None)
    assert world.places == ("world",)


@pytest.mark.parametrize(
    "kind, columns, says",
    [
        ("loan", {}, "^The kind of permission is 'loan'; allowed are licence, release, purchase.$"),
        ("licence", {"places": ["Atlantis"]}, "^'Atlantis' is not a place"),
        ("licence", {"places": ["world", "GB"]}, "^'world' is not a place"),
        ("licence", {"valid_to": "2026-13-01"}, "^valid_to: A day must be"),
        ("licence", {"document": "b" * 64}, "^No file 'b+' is kept"),
    ],
)
def test_permissions_that_cannot_be(catalogue, kind, columns, says):
    with pytest.raises(RegistryError, match=says):
        permissions.add(catalogue, "gull", kind, **columns)
    assert permissions.of_work(catalogue, "gull") == []


def test_marks(catalogue):
    mark = marks.add(catalogue, ["gull"], words="QUAYLARK", office="EM", classes=[24, 25], state="live", expires="2028-06-12")
    other = marks.add(catalogue, words="OTHER")
    assert marks.listed(catalogue) == [mark, other]
    assert (mark.classes, mark.works, mark.state, other.works, other.state) == ((24, 25), ("gull",), "live", (), "unknown")


@pytest.mark.parametrize(
    "linked, columns, says",
    [
        (["tern"], {}, "^There is no work 'tern'"),
        ([], {"state": "asleep"}, "^The state of the mark is 'asleep'; allowed are applied, published, opposed, registered, expired, cancelled, withdrawn, refused, unregistered-use, not-found, live, pending, dead, unknown.$"),
        ([], {"classes": [46]}, "^The class is 46; Nice classes are whole numbers from 1 to 45.$"),
        ([], {"classes": ["24"]}, "^The class is '24'"),
        ([], {"filed": "1929"}, "^filed: A day must be"),
    ],
)
def test_marks_that_cannot_be(catalogue, linked, columns, says):
    with pytest.raises(RegistryError, match=says):
        marks.add(catalogue, linked, words="X", **columns)
    assert marks.listed(catalogue) == []
    with pytest.raises(UnknownRecord, match="^There is no mark 1 in this catalogue.$"):
        marks.get(catalogue, 1)
