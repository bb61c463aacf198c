"""A doubt that turns on a contested law at home adds its reading to the others instead of leaving everything open."""

from rows import answer

PRINT = {"kind": "drawing", "authorship": "individual", "created": "1928", "published": True,
         "publications": [{"date": "1928-05-17", "country": "US"}], "us_notice": False, "us_renewed": True}


def asked(died, day="2026-07-01"):
    """Published in the US without notice, yet renewed: whether it was ever protected there is contested."""
    return answer({"id": "home", **PRINT, "creators": [{"died": str(died), "nationality": ["US"]}]}, "GB", day)


def test_both_readings_over_is_free():
    got = asked(1950)
    assert (got["status"], got["free_from_latest"]) == ("public_domain", "2021-01-01")
    assert "gb.us-lapsed" in [rule["id"] for rule in got["why"]]


def test_one_reading_running_is_open():
    got = asked(1990)
    assert (got["status"], got["undetermined_because"]) == ("undetermined", "contested_law")


def test_the_longer_reading_ends_after_its_last_day():
    assert [asked(1950, day)["status"] for day in ("2020-12-31", "2021-01-01")] == ["undetermined", "public_domain"]
