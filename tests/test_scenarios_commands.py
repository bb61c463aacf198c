"""The worked jobs once more, typed in as a shop would: works, permissions, marks and jobs through the commands."""

import json

import clearing
import kept
import pytest

from registry.catalogue import marks, store

FILES = ("scenarios.jsonl", "own_scenarios.jsonl")
ROWS = [row for name in FILES for row in clearing.rows(name)]
LOOSE = {"S02", "S36"}  # name a trait in a way that the command refuses
YES = {True: "yes", False: "no"}


def _type_in(command, row, folder):
    """Types a row in; fails on the first command that does not end with 0."""
    def call(*words):
        code, _out, err = command(*words)
        assert code == 0, (words, err)

    for work in row["works"]:
        path = folder / f"{work['key']}.json"
        path.write_text(json.dumps(work["facts"]), encoding="utf-8")
        terms = work.get("terms_of_access")
        more = {"--based-on": work["based_on"], "--terms": terms and f"{terms['supplier']}: {terms['text']}", "--own": work.get("own_work") and "yes"}
        call("work", "add", "--key", work["key"], "--facts", str(path), "--originality", clearing.ORIGINALITY[work["new_expression"]],
             *(f"--trait={name}" for name in work["traits"]), *(part for name, value in more.items() if value for part in (name, value)))
    for one in row["permissions"]:
        call("permission", "add", one["work"], *_permission(one))
    catalogue = store.open_catalogue(command.folder)
    for one in row["marks"]:
        marks.add(catalogue, words=one["words"], owner=one["owner"], office=one["office"], number=one["number"], state=one["state"],
                  status_words=one["status_text"], classes=one["classes"], expires=one["expires"])
    catalogue.db.close()
    for number, one in enumerate(row.get("other_jobs", ())):
        _job(call, f"other{number}", {"product": "x", "purpose": "sale", **one})
    _job(call, "job", row["job"])


def _permission(one):
    kind = {"font licence": "licence", "open licence": "licence"}.get(one["kind"], one["kind"])
    texts = {"--kind": kind, "--licensor": one["grantor"], "--spdx": one.get("spdx"), "--quantity": one["quantity"] and str(one["quantity"]), "--from": one["from"],
             "--to": one["to"], "--credit-line": one["credit_line"], "--commercial": YES.get(one["commercial"]), "--changes-allowed": YES.get(one["changes_allowed"])}
    for name in ("uses", "places", "media"):
        texts[f"--{name}"] = one[name] if isinstance(one[name], str) else ",".join(one[name])
    return [part for name, value in texts.items() if value for part in (name, value)]


def _job(call, key, job):
    texts = {"--product": job["product"], "--purpose": job["purpose"], "--quantity": job["quantity"] and str(job["quantity"]), "--wording": job.get("wording"),
             "--due": job.get("due"), "--markets": ",".join(job["markets"])}
    call("job", "add", "--key", key, "--title", key, *(part for name, value in texts.items() if value for part in (name, value)))
    for use in job["uses"]:
        call("use", key, use["work"], "--part", use.get("part", "picture"), "--changes", use.get("changes", ""), *(f"--trait={name}" for name in use.get("traits", ())))


@pytest.mark.parametrize("row", [row for row in ROWS if row["id"] not in LOOSE], ids=[row["id"] for row in ROWS if row["id"] not in LOOSE])
def test_the_commands_give_the_same_answers(row, tmp_path, capsys):
    command = kept.Command(kept.new(tmp_path).folder, capsys)
    _type_in(command, row, tmp_path)
    code, out, err = command("check", "--job", "job", "--on", row["as_of"], "--json")
    assert err == "" and code in (0, 3), err
    found = json.loads(out)
    for market in found["markets"]:
        wanted = row["expected"][market["market"]]
        assert market["decision"] == wanted["decision"], market["sentence"]
        assert not wanted.get("free_from") or market["free_from"] == wanted["free_from"]
        assert market["leave_off"] == wanted.get("leave_off", market["leave_off"])
    assert code == (0 if all(one["decision"] == "no_bar_found" for one in row["expected"].values()) else 3)
    asked = [one["fact"] for one in (*found["next"], *found["do_first"])]
    assert (asked[0] if asked else None) == row["next_question"]
    text = command("check", "--job", "job", "--on", row["as_of"])[1]
    assert "Not legal advice." in text and max(map(len, text.splitlines())) <= 80


@pytest.mark.parametrize("ident", ["P08", "P20", "P30", "S16"])
def test_what_ifs_through_the_command(ident, tmp_path, capsys):
    row = next(row for row in ROWS if row["id"] == ident)
    command = kept.Command(kept.new(tmp_path).folder, capsys)
    _type_in(command, row, tmp_path)
    for wanted in row["suppose"]:
        texts = [f"--suppose={key}:{path}={str(value).lower()}" for key, facts in wanted["facts"].items() for path, value in facts.items()]
        found = json.loads(command("check", "--job", "job", "--on", row["as_of"], "--json", *texts)[1])
        decided = {market["market"]: market["decision"] for market in found["markets"]}
        assert {name: decided[name] for name in wanted["expected"]} == wanted["expected"]
