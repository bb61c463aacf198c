"""Random facts objects and random narrowings of them, from a seed: raw material of the property tests."""

PLACES = ("US", "GB", "CA", "DE", "FR", "ES", "IT", "NL", "IE", "MX", "AU", "NZ", "JP", "IN", "BR", "RU")
KINDS = ("drawing", "painting", "print", "photograph", "text", "map", "film", "sculpture", "applied_art", "lettering")
ASKED = ("us_notice", "us_renewed", "us_registered", "us_notice_cured", "us_published_within_30_days",
         "simple_photograph", "maker_named_on_copies", "negative_owned_by_company", "photograph_marked",
         "home_protected_on_restoration", "dramatic_film", "subject_three_dimensional")

# Silence about these is not ignorance: a recorded status at home overrides the replay of the home law, and
# a body's copies are taken to name nobody where nobody is on record.
PRESUMED = ("home_protected_on_restoration", "maker_named_on_copies")


def some_date(dice, low, high):
    """EDTF text of some exactness between two years."""
    year = dice.randint(low, high)
    forms = [f"{year}", f"{year}", f"{year}-{dice.randint(1, 12):02d}-{dice.randint(1, 28):02d}", f"{str(year)[:3]}X",
             f"{year}/{year + dice.randint(1, 30)}", f"[..{year}]", f"{year}~", f"{year}?", f"[{year},{year + 7}]", f"{year}-{dice.randint(1, 12):02d}"]
    return dice.choice(forms)


def some_facts(dice, number=0):
    """A facts object whose parts are independent of each other; it may contradict itself."""
    made = dice.randint(1850, 2005)
    facts = {"id": f"R{number}", "kind": dice.choice(KINDS), "creators": [_creator(dice, made)]}
    if dice.random() < 0.2:
        facts["creators"].append(_creator(dice, made))
    if dice.random() < 0.8:
        facts["authorship"] = dice.choice(("individual", "individual", "individual", "joint", "anonymous", "pseudonymous", "corporate", "government"))
    if dice.random() < 0.7:
        facts["created"] = some_date(dice, made - 2, made)
    if dice.random() < 0.8:
        facts["publications"] = [_publication(dice, made)]
        if dice.random() < 0.2:
            facts["publications"].append(_publication(dice, made))
    elif dice.random() < 0.5:
        facts["published"] = dice.random() < 0.3
    for name in ASKED:
        if dice.random() < 0.35:
            facts[name] = dice.choice((True, False))
    return facts


def _creator(dice, made):
    one = {}
    if dice.random() < 0.75:
        one["died"] = some_date(dice, made + 1, made + 60)
    if dice.random() < 0.7:
        one["nationality"] = [dice.choice(PLACES)]
    if dice.random() < 0.1:
        one["author_untraceable"] = True
    if dice.random() < 0.1:
        one["legal_person"] = True
    return one


def _publication(dice, made):
    one = {"date": some_date(dice, made, min(2010, made + dice.choice((0, 0, 1, 5, 40))))}
    if dice.random() < 0.9:
        one["country"] = dice.choice(PLACES)
    return one


def _since_1978(publication, edtf):
    latest = edtf.parse(publication["date"]).latest
    return latest is None or latest >= edtf.day("1978-01-01")


def narrowed(dice, facts, edtf):
    """A copy that says strictly more, and never the opposite of a presumption; None when nothing was left to say."""
    import copy

    more = copy.deepcopy(facts)
    holders = [(more, "created")] + [(c, "died") for c in more["creators"]] + [(p, "date") for p in more.get("publications", ())]
    wide = [(h, k) for h, k in holders if k in h and edtf.parse(h[k]).earliest != edtf.parse(h[k]).latest]
    # of a work never published (there it is shown as a thing to confirm), or published without notice or since 1978,
    # silence about registration is taken as none; a registration or renewal on record tells of an earlier copyright
    lone = more.get("published") is False or more.get("us_notice") is False or any(_since_1978(p, edtf) for p in more.get("publications", ()))
    taken = (*PRESUMED, "us_registered", "us_renewed") if lone else PRESUMED
    silent = [name for name in ASKED if name not in more and name not in taken]
    if not wide and not silent:
        return None
    if wide and (not silent or dice.random() < 0.6):
        holder, key = dice.choice(wide)
        span = edtf.parse(holder[key])
        low = span.earliest if span.earliest is not None else span.latest - 20000
        high = span.latest if span.latest is not None else low + 20000
        holder[key] = edtf.iso(dice.randint(low, high))
    else:
        more[dice.choice(silent)] = dice.choice((True, False))
    return more
