"""All pages together: each answers, no link on them is dead, every write is guarded, nothing else is changed by looking."""

import inspect
import shutil
from urllib.parse import urldefrag, urljoin

import kept
import pytest
import stocked
import webbed
from registry.catalogue import store, works
from registry.web import routes

MANY = 15  # addresses of one kind of page that are followed
LEAVE = ("/catalogue", "/-/", "/picture/", "/file/")  # not followed further: raw tables, files


@pytest.mark.parametrize("path", [path for paths in {**stocked.EXAMPLES, **stocked.PAPERS}.values() for path in paths])
def test_each_page_answers(stocked_site, path):
    expected = 404 if path in ("/work/none", "/job/none") else 200
    assert stocked_site.get(path).status == expected


def test_no_link_is_dead(stocked_site):
    """Every address that a page names leads somewhere, followed page by page from the home page on."""
    todo, seen, dead, shapes = ["/"], {"/"}, [], []
    while todo:
        path = todo.pop()
        answer = stocked_site.get(path)
        if answer.status not in (200, 303):
            dead.append((path, answer.status))
        if answer.status != 200 or not answer.headers["content-type"].startswith("text/html") or path.startswith(LEAVE):
            continue
        for link in answer.page.all("a", "img", "link", "script", "form"):
            found = urldefrag(urljoin(path, link["href"] or link["src"] or (link["action"] if link["method"] == "get" else "") or "#"))[0]
            shape = next((pattern for pattern, _view in routes.ROUTES if routes.re.match(pattern, found.partition("?")[0])), "")
            if found.startswith("/") and found not in seen and (not shape or sum(1 for other in shapes if other == shape) < MANY):
                shapes.append(shape)
                seen.add(found)
                todo.append(found)
    assert dead == []
    assert {"/settings", "/work/new", "/job/pelican-sign/sheet", "/complaint/c1", "/law/US", "/catalogue"} <= seen and len(seen) > 200


def test_looking_changes_nothing(stocked_folder, tmp_path):
    folder = tmp_path / "looked"
    shutil.copytree(stocked_folder, folder)
    site = webbed.Site(folder)
    catalogue = store.open_catalogue(folder)
    site.get("/")  # stored answers are made now, and may be at any time
    before = kept.everything(catalogue)
    for path in stocked.PAGES:
        site.get(path)
    after = kept.everything(catalogue)
    site.close()
    own = {name for name in before if not name.startswith(("answer", "set_", "work_answers"))}
    assert {name for name in own if before[name] != after[name]} == set()


WRITES = ["/work/new", "/works/table", "/work/gull/edit", "/work/gull/ask", "/work/gull/picture", "/work/gull/evidence", "/job/new", "/job/towel/edit", "/job/towel/decide",
          "/mark/new", "/mark/m1/edit", "/marks/searched", "/marks/table", "/permission/new", "/complaint/new", "/complaint/c1/answer", "/settings"]


FOREIGN = [
    {"origin": "http://evil.example", "sec-fetch-site": "cross-site"}, {"origin": "null"}, {"sec-fetch-site": "same-site"}, {"origin": f"http://{webbed.HOST}", "host": "evil.example"},
    {"origin": f"http://{webbed.HOST}", "sec-fetch-site": "cross-site"},
]


def test_no_other_site_may_write(site):
    """Whatever a page of another site sends is refused before it is read, with and without a cookie."""
    catalogue = store.open_catalogue(site.folder)
    works.add(catalogue, kept.GULL, key="gull")
    before = kept.everything(catalogue)
    for path in WRITES:
        for headers in FOREIGN:
            for more in ({}, {"cookie": "ds_csrftoken=x"}):
                answer = site.post(path, {"title": "x", "name": "x", "version": "1", "base": "{}"}, headers={**headers, **more})
                assert answer.status in (403, 421), (path, headers)
    assert kept.everything(catalogue) == before


def test_every_page_that_takes_a_form_is_tried():
    taking = {stocked.plain(pattern) for pattern, view in routes.ROUTES if "body.read(" in inspect.getsource(view)}
    tried = {stocked.plain(next(pattern for pattern, _view in routes.ROUTES if routes.re.match(pattern, path))) for path in WRITES}
    assert taking == tried


def test_raw_tables_lead_back_and_say_what_they_are(stocked_site):
    database = stocked_site.get("/catalogue")
    assert database.status == 200 and "What the shop keeps" in database.text
    table = stocked_site.get("/catalogue/works?_facet=kind")
    assert 'href="/work/plumb-1928"' in table.text and "One row for each artwork in one version" in table.text
    assert stocked_site.get("/catalogue/works.csv?_size=3").headers["content-type"].startswith("text/plain")
    assert b'"plumb-1928"' in stocked_site.get("/catalogue/works.json?_size=1").body
    assert stocked_site.get("/catalogue?sql=select+1").status == 403
    assert stocked_site.get("/catalogue/answers_now").status == 200
    assert "unsafe-inline" in table.headers["content-security-policy"] and "default-src 'none'" in table.headers["content-security-policy"]


@pytest.mark.parametrize("path", ["/work/a/b", "/law/USA", "/picture/abc", "/job/x/y", "/held/../x", "/nonsense"])
def test_other_addresses_are_not_found(stocked_site, path):
    assert stocked_site.get(path).status == 404


@pytest.mark.parametrize("path", ["/work/%3Cscript%3E", "/?q=%3Cscript%3Ealert(1)%3C/script%3E&in=%3Cb%3E", "/check?wording=%22%3E%3Cb%3E&find=%3Cb%3E&markets=US", "/marks?q=%3Cb%3E", "/work/new?based_on=%3Cb%3E",
                                  "/complaint/new?job=%3Cb%3E", "/permission/new?work=%3Cb%3E", "/date?how=exact&one=%3Cb%3E", "/calendar?in=%3Cb%3E&until=%3Cb%3E", "/?by=%3Cb%3E", "/marks/search?words=%3Cb%3E&in=US"])
def test_what_is_typed_into_an_address_is_only_text(stocked_site, path):
    answer = stocked_site.get(path)
    assert answer.status in (200, 400, 404)
    if answer.headers["content-type"].startswith("text/html"):
        assert "<script>" not in answer.text and "<b>" not in answer.text


def test_the_raw_tables_say_that_they_are_no_legal_advice(demo_site):
    assert "Not legal advice" in demo_site.get("/catalogue").text
