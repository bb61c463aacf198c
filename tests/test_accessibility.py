"""What makes the pages readable for everybody, asserted over every page: headings, labels, words, order, contrast.

The rules, in short: one h1 and no step left out; every control has a label, every picture words or an empty alt;
every id stands once and every reference finds it; links and buttons have words; no meaning by colour alone; nothing
inline and nothing from elsewhere; text on its background has a contrast of 4.5 to 1 at least, in light and dark.
"""

import json
import re
from functools import lru_cache
from itertools import product
from pathlib import Path

import pytest
import stocked

STYLE = Path(__file__).resolve().parent.parent / "registry/web/static/registry.css"
CONTROLS = ("input", "select", "textarea")


@pytest.fixture(scope="session")
def pages(stocked_site):
    """Gives the page of an address, each asked for once."""
    return lru_cache(maxsize=None)(lambda path: stocked_site.get(path).page)


def every(rule):
    """A test of one rule on every page."""
    return pytest.mark.parametrize("path", stocked.PAGES)(rule)


def test_no_page_is_forgotten():
    assert stocked.forgotten() == []


def test_each_example_is_of_its_route():
    for pattern, paths in {**stocked.EXAMPLES, **stocked.PAPERS}.items():
        found = [real for real, _view in stocked.routes.ROUTES if stocked.plain(real) == pattern]
        assert len(found) == 1, pattern
        for path in paths:
            assert re.match(found[0], path.partition("?")[0]), path


# --- structure ----------------------------------------------------------------------------------------

@every
def test_the_page_has_a_language_a_title_and_landmarks(pages, path):
    page = pages(path)
    assert page.one("html")["lang"] == "en" and len(page.one("head").one("title").text) > 3
    assert page.one("main")["id"] == "main" and page.one("header") and page.one("footer")
    assert all(nav["aria-label"] for nav in page.all("nav"))
    assert page.one("meta", name="viewport")["content"].startswith("width=device-width")
    assert "Not legal advice" in page.one("footer").text


@every
def test_the_first_link_leads_to_the_content(pages, path):
    first = pages(path).all("a")[0]
    assert (first["href"], first["class"]) == ("#main", "skip") and pages(path).one("main")["tabindex"] == "-1"


@every
def test_one_h1_and_no_step_left_out(pages, path):
    levels = [int(one.tag[1]) for one in pages(path).all("h1", "h2", "h3", "h4", "h5", "h6")]
    assert levels.count(1) == 1 and levels[0] <= 2
    inside = [int(one.tag[1]) for one in pages(path).one("main").all("h1", "h2", "h3", "h4", "h5", "h6")]
    assert inside[0] == 1
    assert all(after <= before + 1 for before, after in zip(inside, inside[1:])), inside
    assert all(one.text for one in pages(path).all("h1", "h2", "h3", "h4"))


@every
def test_every_id_stands_once_and_every_reference_finds_it(pages, path):
    page = pages(path)
    ids = [one["id"] for one in page if one["id"] is not None]
    assert len(ids) == len(set(ids)), sorted({one for one in ids if ids.count(one) > 1})
    for one in page:
        for name in ("for", "aria-labelledby", "aria-describedby", "list", "form"):
            for target in (one[name] or "").split() if not (name == "form" and one.tag == "form") else ():
                assert target in ids, f"{name}={target}"
        if one.tag == "a" and (one["href"] or "").startswith("#"):
            assert one["href"][1:] in ids, one["href"]


# --- words --------------------------------------------------------------------------------------------

def label_of(page, control):
    """The words that name a control: of its label, of a label around it, or said beside it."""
    if control["aria-label"]:
        return control["aria-label"]
    beside = [one.text for one in page.all("label") if control["id"] and one["for"] == control["id"]]
    around = [one.text for one in control.within if one.tag == "label"]
    return " ".join(beside + around)


@every
def test_every_control_has_a_label(pages, path):
    page = pages(path)
    for control in page.all(*CONTROLS):
        if control["type"] not in ("hidden", "submit"):
            assert label_of(page, control).strip(), control.attributes
            assert control["name"], control.attributes


@every
def test_groups_of_fields_have_a_name(pages, path):
    for group in pages(path).all("fieldset"):
        legends = [one for one in group.children if getattr(one, "tag", "") == "legend"]
        assert len(legends) == 1 and legends[0].text
    for one in pages(path).all("details"):
        summaries = [child for child in one.children if getattr(child, "tag", "") == "summary"]
        assert len(summaries) == 1 and summaries[0].text


@every
def test_every_picture_has_words_or_says_that_it_needs_none(pages, path):
    for one in pages(path).all("img"):
        assert one["alt"] is not None, one.attributes
        beside = next(iter(one.within))
        assert one["alt"] or beside.text or any(around.text for around in one.within), one.attributes
    for one in pages(path).all("svg"):
        assert one["role"] == "img" and one.one("title").text and one.one("desc").text


@every
def test_links_and_buttons_have_words(pages, path):
    for one in pages(path).all("a", "button"):
        assert one.text or any(picture["alt"] for picture in one.all("img")), one.attributes
    for one in pages(path).all("a"):
        assert one["href"], one.text
        assert one.text.lower() not in ("here", "click here", "link", "more"), one.text


@every
def test_tables_name_their_columns_and_rows(pages, path):
    for table in pages(path).all("table"):
        assert all(cell["scope"] in ("col", "row") for cell in table.all("th")), table.text[:80]
        assert table.all("th"), table.text[:80]


@every
def test_meaning_is_never_by_colour_alone(pages, path):
    """Everything that is coloured by its status says it in words too."""
    for one in pages(path):
        classes = set((one["class"] or "").split())
        if classes & {"stamp", "problem", "wrong", "note", "done", "terms", "beware"}:
            assert len(one.text) > 3, one.attributes


@every
def test_what_is_wrong_is_tied_to_its_field(pages, path):
    page = pages(path)
    for one in page.all("p", class_="wrong"):
        field = [control for control in page if one["id"] and one["id"] in (control["aria-describedby"] or "").split()]
        assert field and all(control["aria-invalid"] == "true" or control.tag == "fieldset" for control in field), one.text


# --- keyboard, script, style --------------------------------------------------------------------------------

@every
def test_the_order_of_the_keyboard_is_that_of_the_page(pages, path):
    assert [one.attributes for one in pages(path) if (one["tabindex"] or "0") not in ("0", "-1")] == []
    for one in pages(path):
        if one["tabindex"] == "0":  # a part that scrolls
            assert one["aria-label"] or one.tag == "pre", one.attributes
    assert [one.attributes for one in pages(path) if one["accesskey"] is not None or one["autofocus"] is not None] == []


@every
def test_nothing_inline_and_nothing_from_elsewhere(pages, path):
    for one in pages(path):
        assert one.tag not in ("style", "iframe", "object", "embed", "base")
        assert not [name for name in one.attributes if name == "style" or name.startswith("on")], one.attributes
        if one.tag == "script" and one["type"] == "application/ld+json":  # data, which no browser runs
            assert one["src"] is None and json.loads(one.text)
            continue
        if one.tag == "script":
            assert one["src"].startswith("/-/static-plugins/") and one["defer"] is not None and one.text == ""
        if one.tag in ("img", "link", "script", "source"):
            address = one["src"] or one["href"]
            assert address.startswith("/") and not address.startswith("//"), address
        if one.tag == "form":
            assert (one["action"] or "/").startswith("/") and one["method"] in ("get", "post")
            assert one.all("button") or any(button["form"] == one["id"] for button in pages(path).all("button")), one.attributes


@every
def test_every_own_page_says_what_it_may_load(stocked_site, path):
    headers = stocked_site.get(path).headers
    assert headers["content-security-policy"].startswith("default-src 'none'; img-src 'self'; style-src 'self'; script-src 'self'")
    assert "unsafe-inline" not in headers["content-security-policy"]
    assert (headers["x-content-type-options"], headers["referrer-policy"], headers["cache-control"]) == ("nosniff", "same-origin", "no-store")


@pytest.mark.parametrize("path", [path for paths in stocked.PAPERS.values() for path in paths])
def test_the_papers_are_in_order_too(stocked_site, path):
    page = stocked_site.get(path).page
    assert page.one("html")["lang"] == "en" and len(page.all("h1")) == 1
    levels = [int(one.tag[1]) for one in page.all("h1", "h2", "h3", "h4")]
    assert all(after <= before + 1 for before, after in zip(levels, levels[1:])), levels
    assert all(one["alt"] is not None for one in page.all("img")) and all(one["type"] == "application/ld+json" for one in page.all("script"))
    assert "Not legal advice" in page.text


# --- the style sheet ------------------------------------------------------------------------------------------

def blocks(text):
    """(selector, {property: value}) of every rule outside of @-rules, and those inside each @-rule by its name."""
    text, plain, inside = re.sub(r"/\*.*?\*/", "", text, flags=re.S), [], {}
    for name, body in re.findall(r"(@[^{]+)\{((?:[^{}]*\{[^{}]*\})*)\s*\}", text):
        inside.setdefault(name.strip(), []).extend(_rules(body))
    text = re.sub(r"@[^{]+\{(?:[^{}]*\{[^{}]*\})*\s*\}", "", text)
    return _rules(text), inside


def _rules(text):
    return [(selector.strip(), dict(map(str.strip, line.split(":", 1)) for line in body.split(";") if ":" in line)) for selector, body in re.findall(r"([^{}]+)\{([^{}]*)\}", text)]


RULES, INSIDE = blocks(STYLE.read_text(encoding="utf-8"))
LIGHT = next(values for selector, values in RULES if selector == ":root")
DARK = {**LIGHT, **next(values for selector, values in INSIDE["@media (prefers-color-scheme: dark)"] if selector == ":root")}
SCHEMES = {"light": LIGHT, "dark": DARK}


def luminance(colour):
    """Relative luminance of #rrggbb (WCAG 2.2)."""
    parts = [int(colour[n:n + 2], 16) / 255 for n in (1, 3, 5)]
    return sum(weight * (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4) for weight, part in zip((0.2126, 0.7152, 0.0722), parts))


def contrast(one, other):
    """Contrast of two colours, from 1 to 21."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_the_measure_of_contrast():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)  # a known near miss


def test_colours_are_named_once():
    """Every colour stands in :root, so that both schemes are complete and the pairs below are all there are."""
    for selector, values in [*RULES, *(rule for rules in INSIDE.values() for rule in rules)]:
        if selector != ":root":
            assert not re.search(r"#[0-9a-f]{3}|rgb|hsl", " ".join(values.values())), selector
    dark = next(values for selector, values in INSIDE["@media (prefers-color-scheme: dark)"] if selector == ":root")
    assert set(dark) == {name for name in LIGHT if name.startswith("--")}


GROUNDS = ("--paper", "--sheet", "--open-bg", "--bad-bg", "--good-bg")  # whatever a text may stand on
PAIRS = [*product(("--ink", "--soft", "--stain"), GROUNDS), ("--on-stain", "--stain"), ("--good", "--good-bg"), ("--bad", "--bad-bg"), ("--open", "--open-bg")]


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("text, ground", PAIRS)
def test_text_has_contrast(scheme, text, ground):
    colours = SCHEMES[scheme]
    assert contrast(colours[text], colours[ground]) >= 4.5


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("ground", ("--paper", "--sheet"))
def test_edges_and_focus_have_contrast(scheme, ground):
    colours = SCHEMES[scheme]
    for edge in ("--focus", "--soft", "--good", "--bad", "--open", "--stain"):
        assert contrast(colours[edge], colours[ground]) >= 3, edge


def test_no_rule_pairs_colours_that_are_not_measured():
    """A rule that sets text and background sets a measured pair; one that sets text alone sets one for every ground."""
    measured = set(PAIRS)
    for selector, values in RULES:
        text, ground = (re.search(r"var\((--[a-z-]+)\)", values.get(name, "")) for name in ("color", "background"))
        if text and ground:
            assert (text[1], ground[1]) in measured, selector
        elif text:
            own = [pair for pair in measured if pair[0] == text[1]]
            assert all((text[1], one) in measured for one in ("--paper", "--sheet")) or len(own) == 1, selector


def test_focus_is_seen():
    focus = next(values for selector, values in RULES if selector == ":focus-visible")
    assert focus["outline"].startswith("3px solid var(--focus)")
    for selector, values in RULES:
        if values.get("outline") == "none":
            assert selector == "main:focus", selector  # the target of the skip link, which is no control


def test_nothing_is_loaded_from_elsewhere():
    assert "url(" not in STYLE.read_text(encoding="utf-8").replace("url(#hatch)", "") and "@import" not in STYLE.read_text(encoding="utf-8")
