"""A publication right stands beside a contested main term: whoever first published a work late may still hold it."""

import pytest
from rows import answer

DAY = "2026-07-01"


def late(place, home, published, died=1930):
    return answer({"id": "late", "kind": "drawing", "authorship": "individual", "created": "1925", "published": True,
                   "creators": [{"died": str(died), "nationality": [home]}], "publications": [{"date": str(published), "country": home}]}, place, DAY)


@pytest.mark.parametrize(("place", "home"), [("ES", "GB"), ("LU", "US"), ("GI", "GI"), ("IM", "IM")])
def test_a_late_first_publication_protects_for_25_years_more(place, home):
    assert late(place, home, 2015)["status"] == "in_copyright"


@pytest.mark.parametrize(("place", "home"), [("ES", "GB"), ("LU", "US"), ("GI", "GI")])
def test_the_25_years_end(place, home):
    assert late(place, home, 2000)["status"] == "public_domain"


def test_where_the_main_term_may_have_gone_on_the_later_right_is_only_possible():
    # Isle of Man: dead in 1950, published 2015: free since 2001 and the new right on top, or 70 years and no such right
    got = late("IM", "IM", 2015, died=1950)
    assert (got["status"], got["undetermined_because"]) == ("undetermined", "contested_law")
