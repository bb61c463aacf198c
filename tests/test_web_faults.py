"""What a hurried or hostile reader may send: a plain sentence comes back, nothing breaks, and nothing is written by looking."""

import json
from urllib.parse import quote

import pytest
import webbed
from kept import GULL, everything

from registry.catalogue import complaints, files, jobs, permissions, store, works

PNG = b"\x89PNG\r\n\x1a\n" + b"rest"
LONG = "x" * 5000
DEEP = "[" * 100_000


@pytest.fixture
def catalogue(site):
    found = store.open_catalogue(site.folder)
    works.add(found, GULL, key="gull", picture=files.add(found, PNG, "gull.png").sha256)
    jobs.add(found, key="sign", title="Gull sign", product="carved wooden sign", markets=["US"])
    jobs.use(found, "sign", "gull", "picture")
    complaints.add(found, received="2026-11-20", sender="Bollard Brewery", claim="our name", jobs=["sign"])
    yield found
    found.db.close()


def sentence(answer):
    """The one sentence of a page that refuses."""
    return answer.page.one("main").text


@pytest.mark.parametrize("method", ["GET", "HEAD", "OPTIONS", "PUT"])
@pytest.mark.parametrize("path, fields, leads", [
    ("/job/sign/decide", b"by=Mallory&note=yes&although=so+it+is", "/job/sign"), ("/complaint/c1/answer", b"by=Mallory&says=yes&outcome=withdrawn", "/complaint/c1#answer")])
def test_only_a_sent_form_writes(site, catalogue, method, path, fields, leads):
    before = everything(catalogue)
    answer = site.ask(method, path, fields, {"content-type": "application/x-www-form-urlencoded", **webbed.OWN})
    assert (answer.status, answer.headers["location"]) == (303, leads)
    assert everything(catalogue) == before


SENT = {  # forms that write at the address of their page
    "/work/new": "title=Tern&kind=drawing", "/work/gull/edit": "version=1&title=Tern", "/work/gull/ask": "version=1&us_renewed=no", "/work/gull/picture": "version=1&keep=1",
    "/work/gull/evidence": "fact=us_renewed&basis=told", "/job/new": "title=Tern", "/job/sign/edit": "version=1&title=Tern", "/mark/new": "words=TERN&office=US", "/marks/searched": "office=US&words=TERN",
    "/marks/table": "lines=words%0ATERN&keep=1", "/works/table": "keep=1", "/permission/new": "work=gull&kind=licence", "/complaint/new": "sender=x&claim=y&jobs=sign", "/settings": "name=Mallory"}


@pytest.mark.parametrize("method", ["GET", "HEAD", "OPTIONS"])
@pytest.mark.parametrize("path, fields", SENT.items())
def test_a_page_that_is_only_looked_at_writes_nothing(site, catalogue, path, fields, method):
    before = everything(catalogue)
    answer = site.ask(method, f"{path}?{fields}", fields.encode(), {"content-type": "application/x-www-form-urlencoded"})
    assert answer.status < 500 and everything(catalogue) == before


@pytest.mark.parametrize("address", ["/picture/", "/file/"])
@pytest.mark.parametrize("change, status, says", [
    (lambda path: path.unlink(), 404, "cannot be read: No such file or directory."), (lambda path: path.write_bytes(PNG[:-1] + b"X"), 400, "was changed on disk.")])
def test_a_kept_file_that_is_not_what_it_was_is_not_shown(site, catalogue, address, change, status, says):
    sha = works.get(catalogue, "gull").picture
    assert site.get(address + sha).body == PNG
    change(files.path_of(catalogue, sha))
    answer = site.get(address + sha)
    assert answer.status == status and says in sentence(answer)


BASES = [DEEP, '{"title": ' * 50_000, "7", "null", "1" * 5000, '{"NAME": "\\ud800"}', '{"NAME": {"a": ["\\udfff"]}}', '{"NAME": "x", "\\ud800": "x"}', '{"NAME": ' + "[" * 900 + "]" * 900 + "}"]


@pytest.mark.parametrize("base", BASES, ids=range(len(BASES)))
@pytest.mark.parametrize("path, name, fields, status", [
    ("/settings", "markets", {"name": "Ninepin Slip", "group.0.name": "FAIRS"}, 400), ("/work/gull/ask?fact=us_renewed", "us_renewed", {"fact": "us_renewed", "version": "1", "us_renewed": "no"}, 409),
    ("/work/gull/edit", "title", {"version": "9", "title": "Tern"}, 409), ("/job/sign/edit", "title", {"version": "9", "title": "Tern"}, 409)])
def test_a_damaged_base_is_no_base(site, catalogue, path, name, fields, status, base):
    before = everything(catalogue)
    answer = site.post(path, {**fields, "base": base.replace("NAME", name)})
    assert answer.status == status and everything(catalogue) == before
    held = json.loads(answer.page.one("input", name="base")["value"])  # one page, whole: a broken one has no form
    assert "\ud800" not in held and held.get(name) in (None, "x", "Gull on a Bollard", "Gull sign", True)


@pytest.mark.parametrize("supposed, says", [
    ("originality=zzz", "allowed are faithful_copy, new_expression, unknown."), ("died=" + "[" * 5000, "is not readable as JSON."), ("died=" + "[" * 900 + "]" * 900, "has lists in lists"),
    ('title="\\ud800"', "is not readable as JSON."), ("creators.\u00b2.died=1990", "counted from 0."), ("creators." + "1" * 40 + ".died=1990", "counted from 0."), ("zzz=1", "is not a fact")])
def test_a_supposition_that_cannot_be_is_refused_with_a_sentence(site, catalogue, supposed, says):
    fact, _, value = supposed.partition("=")
    answer = site.get(f"/check?work=gull&markets=US&if.gull/{quote(fact)}={quote(value)}")
    assert answer.status == 200 and says in answer.page.text


@pytest.mark.parametrize("path", [f"/complaint/{LONG}/folder.zip", f"/complaint/{LONG}", f"/job/{LONG}/package.zip", f"/work/{LONG}", f"/job/{LONG}/sheet", f"/work/{LONG}/label.json", "/complaint/%2e%2e/folder.zip"])
def test_what_is_called_by_no_key_is_not_there(site, catalogue, path):
    assert site.get(path).status == 404


@pytest.mark.parametrize("key", ["new", "con", "aux.txt", "a."])
def test_a_work_that_could_not_be_opened_is_not_kept(site, catalogue, key):
    before = everything(catalogue)
    answer = site.post("/works/table", {"keep": "1"}, [("table", "t.csv", f"key,title\n{key},Tern\n".encode())])
    assert answer.status != 303 and everything(catalogue) == before
    assert f"'{key}' cannot be the key of a work" in answer.page.text


@pytest.mark.parametrize("name, kept", [("a\x00b.txt", "ab.txt"), ("..", "file"), ("x" * 5000 + ".txt", "x" * 116 + ".txt")])
def test_a_document_is_kept_under_a_plain_name(site, catalogue, name, kept):
    fields = {"fact": "us_renewed", "basis": "told", "title": "a letter"}
    assert site.post("/work/gull/evidence", fields, [("document", name, b"a letter")]).status == 303
    assert [row[0] for row in catalogue.db.execute("SELECT name FROM files WHERE media_type = 'text/plain'")] == [kept]


@pytest.mark.parametrize("received, deadline, status", [("2026-11-20", "2026-11-19", 400), ("", "2001-01-01", 400), ("2026-11-20", "2026-11-20", 303), ("2026-11-20", "", 303)])
def test_a_deadline_before_the_complaint_stands_beside_its_field(site, catalogue, received, deadline, status):
    answer = site.post("/complaint/new", {"sender": "x", "claim": "y", "jobs": "sign", "received": received, "deadline": deadline})
    assert answer.status == status
    if status == 400:
        assert "before the day on which the complaint came in" in answer.page.one("p", id="deadline-wrong").text


@pytest.mark.parametrize("name, value", [("gull/creators.0.died", "1950"), ("gull/died", "1950"), ("gull/us_renewed", "yes"), ("p1/to", "2030-01-01"), ("p1/commercial", "yes"), ("p1/quantity", "3")])
def test_what_is_supposed_stands_in_its_switch(site, catalogue, name, value):
    permissions.add(catalogue, "gull", "licence", quantity=5)
    answer = site.get(f"/check?work=gull&markets=US&if.{name}={value}")
    switches = [one for one in [*answer.page.all("input"), *answer.page.all("select")] if one["name"] == f"if.{name}"]
    assert answer.status == 200 and len(switches) == 1
