"""Dates by plain choices become EDTF and come back as the same choice; no typed date is left out silently."""

import json
import re
from urllib.parse import urlencode

import kept
import pytest
from registry.catalogue import store, works
from registry.errors import BadDate
from registry.facts import edtf
from registry.web import dates
from webbed import form_of

ROWS = [  # choice, first, second, written form, meaning
    ("exact", "1928", "", "1928", "1928"),
    ("exact", "1928-05-17", "", "1928-05-17", "17 May 1928"),
    ("about", "1928", "", "1928~", "about 1928"),
    ("before", "1930", "", "[..1930]", "not after 1930"),
    ("after", "1930", "", "[1930..]", "not before 1930"),
    ("between", "1920", "1930-06", "[1920..1930-06]", "one date from 1920 to June 1930"),
    ("unknown", "", "", "unknown", "looked for, not found"),
    ("written", "192X", "", "192X", "some day in 1920-1929"),
]


@pytest.mark.parametrize("how, first, second, text, meaning", ROWS)
def test_there_and_back(how, first, second, text, meaning):
    assert dates.written(how, first, second) == text
    assert dates.reading(text) == meaning
    assert dates.choice(text) == (how, text if how == "written" else first, second)
    if text != "unknown":
        assert edtf.parse(text)


@pytest.mark.parametrize("typed, text", [
    ("12 March 1931", "1931-03-12"), ("March 12, 1931", "1931-03-12"), ("12th Mar. 1931", "1931-03-12"), ("sept 1931", "1931-09"), ("1928", "1928"),
    ("31 February 1931", None), ("3/12/1931", None), ("spring 1931", None), ("12 March 31", None)])
def test_a_day_with_its_month_in_words_is_taken_and_nothing_else_is_guessed(typed, text):
    assert dates.plainly(typed) == (text or typed)
    if text is None:
        with pytest.raises(BadDate):
            dates.written("exact", typed)
    else:
        assert dates.written("exact", typed) == dates.written("", typed) == text and dates.written("about", typed) == f"{text}~"


def test_in_the_written_form_nothing_is_turned():
    assert dates.written("written", "12 March 1931") == "12 March 1931"


def test_a_day_with_its_month_in_words_is_taken_in_every_form_and_shown_as_read(site):
    catalogue = store.open_catalogue(site.folder)
    works.add(catalogue, {**kept.CRAB, "us_renewed": None}, key="crab")
    found = json.loads(site.get("/date?" + urlencode({"how": "exact", "one": "12 March 1931"})).text)
    assert (found["written"], found["reading"]) == ("1931-03-12", "12 March 1931")
    page = site.post("/job/new", {"title": "Towel", "due": "12 March 2027", "markets": "US"})
    assert page.status == 303 and "due 12 March 2027" in site.get(page.headers["location"]).page.text
    sent = site.post("/work/crab/evidence", {"fact": "kind", "basis": "seen", "seen_on": "3 May 2026"})
    assert sent.status == 303 and "3 May 2026" in site.get("/work/crab").page.text
    sent = site.post("/permission/new", {"work": "crab", "places": "US", "valid_to": "March 12, 2027"})
    assert sent.status == 303 and "to 12 March 2027" in site.get("/permission/1").page.text
    catalogue.db.close()


def test_nothing_is_not_looked_for():
    assert dates.written("", "", "") is None
    assert dates.choice(None) == dates.choice("") == ("", "", "")
    assert dates.reading(None) == "not looked for yet"


def test_a_date_without_a_choice_is_taken_as_written():
    assert dates.written("", " 1928~ ", "") == "1928~"


@pytest.mark.parametrize("how, first, second", [("exact", "", ""), ("between", "1920", ""), ("between", "", "1930"), ("written", "", ""), ("about", " ", "")])
def test_a_missing_date_is_named(how, first, second):
    with pytest.raises(BadDate, match="A date is missing"):
        dates.written(how, first, second)


@pytest.mark.parametrize("text", ["1928?", "1920/1930", "[1920,1925]", "1928-05~", "156X-12-25", "-0044", "[1920..1930,1940]"])
def test_every_other_form_stays_as_it_is_written(text):
    how, first, second = dates.choice(text)
    assert dates.written(how, first, second) == text


def test_the_choices_have_a_word_each():
    assert len({value for value, _label in dates.CHOICES}) == len({label for _value, label in dates.CHOICES}) == len(dates.CHOICES)


# --- no typed date vanishes ---------------------------------------------------------------------------

TWO = "Two dates are given: choose “between”, or empty the second."
SECOND = "A date is given in the second field, which is only for “between”: move it to the first, or empty it."
NOT_FOUND = "A date is given, but “looked for, not found” is chosen: choose how the date is meant, or empty it."
NOT_LOOKED = "A date is given, but “not looked for yet” is chosen: choose how the date is meant, or empty it."
ONE_OF_TWO = "A date is missing: “between” needs two; type the other one, or choose how the one is meant."
REFUSED = [  # choice, first, second, the sentence beside the field
    *((how, "1925", "1955", TWO) for how in ("", "exact", "about", "before", "after", "written")),
    *((how, "", "1955", SECOND) for how in ("", "exact", "about", "before", "after", "written")),
    ("unknown", "1925", "", NOT_FOUND),
    ("unknown", "", "1955", NOT_FOUND),
    ("unknown", "1925", "1955", NOT_FOUND),
    ("between", "1925", "", ONE_OF_TWO),
    ("between", "", "1955", ONE_OF_TWO),
    ("between", "1955", "1925", "The second date, 1925, is before the first, 1955: type the earlier one first."),
    ("sometime", "1925", "", "“sometime” is no way to mean a date"),
]


@pytest.mark.parametrize("how, first, second, sentence", REFUSED)
def test_a_date_without_a_place_is_refused(how, first, second, sentence):
    with pytest.raises(BadDate) as refused:
        dates.written(how, first, second)
    assert str(refused.value).startswith(sentence)


def test_a_date_on_record_does_not_lose_how_it_was_meant():
    with pytest.raises(BadDate) as refused:
        dates.written("", "1928", recorded=True)
    assert str(refused.value) == NOT_LOOKED
    assert dates.written("", "", recorded=True) is None
    assert dates.written("about", "1928", recorded=True) == "1928~"


# --- what is said of a date that cannot be read -------------------------------------------------------

MARKED = [  # typed under "about", kept
    ("1928", "1928~"), ("1928~", "1928~"), ("1928?", "1928%"), ("1928%", "1928%"), ("1931-21", "1931-21~"), ("1931-21~", "1931-21~"),
    ("193X", "193X~"), ("~1928", "~1928"), ("?1928", "%1928"), ("1928-05~", "1928-05~"),
]


@pytest.mark.parametrize("typed, kept_as", MARKED)
def test_about_doubles_no_mark(typed, kept_as):
    assert dates.written("about", typed) == kept_as
    assert edtf.parse(kept_as).approximate


CHOSEN = ("", "exact", "about", "before", "after", "between")
LOOSE = ["Spring of 1931", "1930s", "1900s", "circa 1928", "c. 1931?", "1931?~", "circa 1925-30", "1925-1930", "1928-35", "before 1930", "after 1930", "between 1925 and 1930",
         "19th century", "17 May, 1928?", "28/05/1931", "May 1931 to June 1932", "1920..", "?", "n.d.", "1928 or 1930", "1928 5", "1928-13", "1929-02-29", "1928-W05", "nothing of the kind"]
BY_LABEL = {"in or on": "exact", "about": "about", "in or before": "before", "in or after": "after", "between": "between", "looked for, not found": "unknown", "in the written form": "written"}


def advised(how, sentence):
    """(choice, first, second) of everything that a refusal tells people to do."""
    advice = sentence.rpartition(": ")[2].removesuffix(".")
    for label, first, second in re.findall(r"choose “([^”]+)”(?: with ([^ ]+)(?: and ([^ ]+))?)?", advice):
        yield BY_LABEL[label], first, second
    for one in re.findall(r"(?:type|a year such as|a month such as|a day such as) ([-0-9X?~%/{}.,\[\]]+)", advice):
        yield how, one.rstrip(","), ("9000" if how == "between" else "")


@pytest.mark.parametrize("how", CHOSEN)
@pytest.mark.parametrize("typed", LOOSE)
def test_the_advice_can_be_followed(how, typed):
    with pytest.raises(BadDate) as refused:
        dates.written(how, typed, "9000" if how == "between" else "")
    sentence = str(refused.value)
    assert sentence.startswith(f"“{typed}” ") and "EDTF" not in sentence, sentence
    ways = list(advised(how, sentence))
    assert ways, sentence
    for way in ways:
        text = dates.written(*way)
        assert dates.reading(text), (sentence, way)


@pytest.mark.parametrize("how, typed, advice", [
    ("about", "Spring of 1931", "type 1931-21 (spring 1931"),
    ("about", "1930s", "type 193X (some day in 1930-1939)"),
    ("exact", "circa 1928", "choose “about” with 1928."),
    ("before", "1925-1930", "choose “between” with 1925 and 1930."),
    ("before", "before 1930", "type 1929 or type 1930."),
    ("about", "unknown", "choose “looked for, not found”."),
    ("after", "XXXX", "choose “looked for, not found”."),
    ("about", "1925/1930", "choose “between” with 1925 and 1930."),
    ("before", "1930,1940", "choose “in the written form” with [1930,1940]."),
    ("about", "-0044", "choose “in or before” with 0001."),
    ("exact", "1929-02-29", "because February 1929 has days 01 to 28: type a year"),
])
def test_the_advice_is_for_the_chosen_way(how, typed, advice):
    with pytest.raises(BadDate) as refused:
        dates.written(how, typed)
    assert advice in str(refused.value) and f"“{typed}”" in str(refused.value)


def test_the_written_form_is_refused_with_the_written_form():
    with pytest.raises(BadDate, match=r"'Spring of 1931' cannot be read .* write 1931-21"):
        dates.reading(dates.written("written", "Spring of 1931"))


@pytest.mark.parametrize("text", ["[1925~..1930~]", "[..1928?]", "[1928%..]"])
def test_a_doubtful_bound_comes_back_as_its_choice(text):
    how, first, second = dates.choice(text)
    assert how in ("between", "before", "after") and dates.written(how, first, second) == text


# --- through the pages --------------------------------------------------------------------------------

def beside(answer, path):
    return answer.page.one("p", id=f"{path}-wrong").text


@pytest.mark.parametrize("page, path", [("ask?fact=created", "created"), ("ask?fact=died", "creators.0.died"), ("edit", "created"), ("edit", "creators.0.died"), ("edit", "publications.0.date")])
@pytest.mark.parametrize("how, first, second, sentence", [("exact", "1925", "1955", TWO), ("", "", "1955", SECOND), ("unknown", "1925", "", NOT_FOUND)])
def test_what_was_typed_stays_in_the_form(site, catalogue, page, path, how, first, second, sentence):
    works.add(catalogue, {"title": "Scrap", "creators": [{"name": "Ann Example"}]}, key="scrap")
    typed = {f"{path}.how": how, f"{path}.one": first, f"{path}.two": second}
    sent = site.post(f"/work/scrap/{page}", form_of(site.get(f"/work/scrap/{page}"), **typed))
    assert sent.status == 400 and beside(sent, path) == sentence
    assert typed.items() <= dict(form_of(sent)).items()
    assert works.get(catalogue, "scrap").version == 1


@pytest.mark.parametrize("page", ["ask?fact=created", "edit"])
def test_a_recorded_doubt_is_not_lost_by_the_choice_alone(site, catalogue, page):
    works.add(catalogue, {"title": "Scrap", "created": "[1930..]"}, key="scrap")
    sent = site.post(f"/work/scrap/{page}", form_of(site.get(f"/work/scrap/{page}"), **{"created.how": ""}))
    assert sent.status == 400 and beside(sent, "created") == NOT_LOOKED
    assert works.get(catalogue, "scrap").facts["created"] == "[1930..]"
    again = site.post(f"/work/scrap/{page}", form_of(sent, **{"created.one": ""}))
    assert again.status == 303 and "created" not in works.get(catalogue, "scrap").facts


def test_a_first_date_without_a_choice_is_kept(site, catalogue):
    works.add(catalogue, {"title": "Scrap"}, key="scrap")
    assert site.post("/work/scrap/ask?fact=created", form_of(site.get("/work/scrap/ask?fact=created"), **{"created.one": "1928"})).status == 303
    assert works.get(catalogue, "scrap").facts["created"] == "1928"


def test_the_script_is_told_the_same(site):
    for how, first, second, sentence in [*REFUSED, ("about", "-0044", "", "“-0044” reaches back before the year 1")]:
        found = json.loads(site.get("/date?" + urlencode({"how": how, "one": first, "two": second})).text)
        assert found["error"].startswith(sentence) and found["written"] is None, (how, first, second)


# --- facts that contradict each other -----------------------------------------------------------------

AGAINST = [  # facts, what the page of questions shows of them
    ({"created": "1955", "publications": [{"date": "1931", "country": "US"}]}, ["Made: 1955 change", "Publication: date of publication: 1931 change"]),
    ({"created": "[1955..]", "creators": [{"name": "Ann Example", "died": "1931~"}]}, ["Made: not before 1955 change", "Ann Example: died: about 1931 change"]),
    ({"created": "1925", "publications": [{"date": "1931", "country": "US"}]}, []),
]


@pytest.mark.parametrize("facts, shown", AGAINST)
def test_facts_that_contradict_each_other_are_shown_with_their_values(site, catalogue, facts, shown):
    works.add(catalogue, {**kept.SCRAP, **facts}, key="scrap")
    boxes = site.get("/work/scrap/ask?in=US,GB").page.all("div", class_="contradiction")
    assert [one.text for box in boxes for one in box.all("li")] == shown
    for box in boxes:
        assert box.one("strong").text == "These two facts contradict each other."
        for link in box.all("a"):
            assert site.get(link["href"]).page.one("input", name="fact")["value"] in link["href"]
