"""What the pages of a work and a job say of evidence, and say to programs in JSON-LD."""

import json

import pytest
import test_labels
import test_sheet
import webbed
from registry.catalogue import clear, jobs, store, support, words
from registry.clearance.model import Ranked


@pytest.fixture(scope="module")
def catalogue(tmp_path_factory):
    return test_sheet.filled(tmp_path_factory.mktemp("said"))


@pytest.fixture(scope="module")
def site(catalogue):
    found = webbed.Site(catalogue.folder)
    yield found
    found.close()


def node(text):
    """The JSON-LD object in a page."""
    assert text.count('<script type="application/ld+json">') == 1
    return json.loads(text.partition('<script type="application/ld+json">')[2].partition("</script>")[0])


def test_the_page_of_a_work(site, catalogue):
    answer = site.get("/work/gull?in=US,GB")
    found = node(answer.text)
    assert answer.status == 200 and list(test_labels.strange(found)) == []
    assert found["@id"] == "/work/gull" and found["schema:name"] == test_sheet.NASTY and found["schema:conditionsOfAccess"] == "no resale of the scan"
    said = " ".join(answer.text.split())
    assert "The answers rest on evidence for:" in said and "Date of publication (seen in a document)" in said and "They hang, without evidence, on:</strong> Kind (no evidence)." in said


def test_the_page_of_a_job(site, catalogue):
    answer = site.get("/job/sign")
    found = node(answer.text)
    assert answer.status == 200 and list(test_labels.strange(found)) == [] and found["@type"] == ["schema:Product", "prov:Entity"]
    assert {"@id": "/work/gull"} in found["prov:wasDerivedFrom"] and len(found["dcterms:rights"]) == 3
    at = clear.desk(catalogue, store.today())
    rests, loose = support.told(support.of_job(at, clear.answer(at, jobs.get(catalogue, "sign"), want=0)))
    said = " ".join(answer.text.split())
    assert all(text in said for text in (*rests, *loose)) and rests and loose


def test_a_work_of_which_nothing_is_known(site, catalogue):
    answer = site.get("/work/slab?in=AQ")
    assert answer.status == 200 and node(answer.text)["schema:name"] == "Slab" and "The answers rest on evidence" not in answer.text


@pytest.mark.parametrize("settled, waiting, says", [
    (2, 3, "An answer may settle 2 of the 3 markets and jobs that wait for it."),
    (1, 1, "An answer may settle the one market and job that waits for it."),
    (0, 3, "An answer to this alone settles none of the 3 markets and jobs that wait for it: other questions must be answered too."),
    (0, 1, "An answer to this alone is not enough: other questions must be answered too."),
])
def test_what_an_answer_would_settle(settled, waiting, says):
    assert words.worth(Ranked(None, settled, 0, waiting, ())) == says
