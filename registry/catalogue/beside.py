"""What stands beside copyright in a job: the marks on record that it comes near, and the cautions that apply.

The one place where kept marks and the shipped cautions meet a case; `clear` calls it for every answer.
"""

import hashlib
from dataclasses import replace

from registry.catalogue import mark_search
from registry.catalogue.mark_rules import caution_rules, mark_rules, products
from registry.clearance.markets import market
from registry.clearance.scene import founds, setting, with_marks


def beside(catalogue, given, ground, title="", listing=""):
    """The Case with its matches and cautions; `title` and `listing` are texts of the job that its Case does not hold."""
    where = setting(given, products(), ground.laws, ground.day, title, listing)
    codes = dict.fromkeys(code for name in given.job.markets for code in market(name, ground.groups, ground.names or None).codes)
    texts, marks = mark_search.near(catalogue, where.texts, where.shown)
    by_place, alike = founds(replace(where, texts=texts), marks, codes, ground.day, mark_rules())
    shown = {place: found[:mark_search.LISTED] for place, found in by_place.items()}
    return with_marks(where, shown, alike, caution_rules(), ground)


def marks_sha256(catalogue):
    """The SHA-256 over what is on record of all marks: a change in any may change the answer for a job."""
    whole = hashlib.sha256()
    for row in catalogue.db.execute("SELECT marks.id, words, office, classes, state, filed, registered, expires,"
                                    " group_concat(work) FROM marks"
                                    " LEFT JOIN mark_works ON mark = marks.id GROUP BY marks.id ORDER BY marks.id"):
        whole.update(repr(tuple(row)).encode("utf-8"))
    return whole.hexdigest()
