"""Law as pages: the grid of places, and the conditions of the rules in plain words, made from the data."""

from datetime import date

import pytest

from registry.rulebook import covered, place_names, rulebook
from registry.web import conditions

OWN = [code for code in covered() if rulebook().laws.law(code).code == code]


@pytest.mark.parametrize("table, words", [
    ({"kind": ["film"]}, "the kind is film"),
    ({"kind": ["applied_art", "print", "map"]}, "the kind is applied art, print or map"),
    ({"authorship": ["anonymous", "pseudonymous"], "author_untraceable": True}, "the credit is anonymous or pseudonymous and “Maker not traceable” is yes"),
    ({"origin": "AR"}, "the country of origin is Argentina"),
    ({"author_nationality": ["@EEA"]}, "a maker is a national of a country of the group EEA"),
    ({"domicile": "@us-restoration"}, "a maker lives in a country of the table us-restoration"),
    ({"government_of": "none"}, "no government made it"),
    ({"government_of": ["CA"]}, "it was made for the government of Canada"),
    ({"published": False}, "it was never published"),
    ({"natural_author": False}, "only bodies are on record as makers"),
    ({"us_renewed": True}, "“Renewed (US)” is yes"),
    ({"rehabilitated_year": True}, "“Year of rehabilitation” has come"),
    ({"identity_disclosed": False}, "“Name of the maker made known” has not come"),
    ({"publication_before": date(1978, 1, 1)}, "first publication came before 1 January 1978"),
    ({"creation_from": date(1996, 1, 1)}, "the making came on or after 1 January 1996"),
    ({"death:known_before": date(1989, 8, 1)}, "the death of the last maker who can be traced came before 1 August 1989"),
    ({"secured_before": date(1964, 1, 1)}, "“secured” came before 1 January 1964"),
    ({"nameless": True}, "it is “nameless”"),
    ({"nameless": False, "kind": "text"}, "it is not “nameless” and the kind is text"),
    ({"any": [{"kind": "film"}, {"kind": "text", "published": True}]}, "either the kind is film, or the kind is text and it was published"),
    ({"published": True, "any": [{"kind": "film"}, {"kind": "text"}]}, "it was published and (either the kind is film, or the kind is text)"),
    ({"not": {"kind": "film", "published": True}}, "not (the kind is film and it was published)"),
    ({"not": {"any": [{"kind": "film"}, {"kind": "text"}]}}, "not (either the kind is film, or the kind is text)"),
    ({"all": [{"any": [{"kind": "film"}, {"kind": "map"}]}, {"published": True}]}, "(either the kind is film, or the kind is map) and it was published"),
    ({"within": {"event": "disclosure", "after": "creation", "years": 70}}, "the first making available came no later than 70 years after the making"),
    ({"within": {"event": "publication", "after": "death", "years": 0}}, "first publication came no later than the year of the death of the last maker"),
    ({"beyond": {"event": "publication", "after": "death", "years": 1}}, "first publication came more than 1 year after the death of the last maker"),
    ({"beyond": {"event": "publication", "after": "death", "years": 0}}, "first publication came after the year of the death of the last maker"),
    ({"years_between": {"from": "publication", "to": "us_notice_year", "at_least": 2}}, "“Year in the notice (US)” lies at least 2 calendar years after first publication"),
    ({"years_between": {"from": "publication", "to": "us_notice_year", "at_most": -1}}, "“Year in the notice (US)” lies at least 1 calendar year before first publication"),
    ({"recorded": "identity_disclosed"}, "“Name of the maker made known” is on record"),
    ({"always": False}, "never"),
])
def test_a_condition_in_plain_words(table, words):
    assert conditions.phrase(table, {"nameless"}) == words


@pytest.mark.parametrize("code", OWN)
def test_every_rule_stands_beside_its_own_condition(code):
    laws = rulebook().laws
    law = laws.law(code)
    said = conditions.of_law(law, laws)
    assert len(said["acts"]) == len(law.acts)
    for (applies, revive, terms), act in zip(said["acts"], law.acts):
        assert (bool(applies), bool(revive)) == (act.applies is not None, act.revive_when is not None)
        assert [bool(one) for one in terms] == [term.when is not None for term in act.terms]
    for name in ("never", "doubts", "related", "also"):
        assert [bool(one) for one in said[name]] == [entry.when is not None for entry in getattr(law, name)]
    text = repr(said)
    assert not [sign for sign in ("@", "_from", "_before", "datetime") if sign in text]


def test_taken_over_terms_stand_after_the_own_ones():
    laws = rulebook().laws
    law = laws.law("US")
    position = [act.rule.id for act in law.acts].index("us.1976")
    terms = dict(zip([term.rule.id for term in law.acts[position].terms], conditions.of_law(law, laws)["acts"][position][2]))
    assert terms["us.1976.nameless"] == "it is “nameless” and it is “newer”" and terms["us.1976.published"] == ""


# --- pages --------------------------------------------------------------------------------------------

def test_the_page_of_a_place_shows_conditions_words_and_otherwise(site):
    page = site.get("/law/gb").page
    texts = [one.text for one in page.all("p", class_="when")]
    assert "It concerns a work when the making came before 1 January 1996." in texts and "Taken when it is “crown”." in texts and "Otherwise" in texts
    assert "“crown”" in [one.text for one in page.one("dl").all("dt")]
    assert len(page.one("ol", class_="acts").all("h3")) == len(rulebook().laws.law("GB").acts)
    for link in page.one("nav", aria_label="On this page").all("a"):
        assert [one for one in page if one["id"] == link["href"][1:]], link["href"]


def test_a_territory_and_a_place_without_rules(site):
    gap = next(code for code in place_names() if rulebook().laws.law(code) is None)
    assert "Not covered." in site.get(f"/law/{gap}").page.text
    territory = next(code for code in covered() if rulebook().laws.law(code).code != code)
    assert f"/law/{rulebook().laws.law(territory).code}" in [one["href"] for one in site.get(f"/law/{territory}").page.all("a")]
    assert site.get("/law/ZZ").status == 404


@pytest.mark.parametrize("query, codes", [
    ("q=germany", {"DE"}), ("q=DE", {"DE"}), ("q=nowhere", set()), ("q=ireland", {"GB", "IE"} & {code for code, name in place_names().items() if "ireland" in name.lower()}),
    ("show=not", {code for code in place_names() if code not in covered()}), ("show=covered", set(covered())), ("show=own", set(OWN)), ("show=else", set(place_names())), ("", set(place_names()))])
def test_the_grid_is_narrowed(site, query, codes):
    page = site.get(f"/law?{query}").page
    found = {one["href"].removeprefix("/law/") for item in page.all("ul", class_="lands") for one in item.all("a")}
    if query == "q=DE":  # a code finds its place, and names that hold the letters
        assert codes <= found and all("de" in place_names()[code].lower() for code in found - codes)
    else:
        assert found == codes
    assert bool(page.all("p", class_="empty")) is not bool(found)


def test_the_grid_goes_by_name(site):
    names = [one.text for one in site.get("/law").page.one("ul", class_="lands").all("a")]
    assert names == sorted(names)
