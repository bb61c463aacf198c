"""What stands beside copyright in a job: the marks on record that it comes near, and the cautions that apply.

The one place where kept marks and the shipped cautions meet a case; `clear` calls it for every answer.
"""

import hashlib

from registry.catalogue import marks
from registry.catalogue.mark_rules import caution_rules, mark_rules, products
from registry.clearance.markets import market
from registry.clearance.marks import Mark
from registry.clearance.scene import founds, setting, with_marks


def beside(catalogue, given, ground, title="", listing=""):
    """The Case with its matches and cautions; `title` and `listing` are texts of the job that its Case does not hold."""
    where = setting(given, products(), ground.laws, ground.day, title, listing)
    codes = dict.fromkeys(code for name in given.job.markets for code in market(name, ground.groups, ground.names or None).codes)
    by_place, near = founds(where, kept(catalogue), codes, ground.day, mark_rules())
    return with_marks(where, by_place, near, caution_rules(), ground)


def marks_sha256(catalogue):
    """The SHA-256 over what is on record of all marks: a change in any may change the answer for a job."""
    whole = hashlib.sha256()
    for row in catalogue.db.execute("SELECT marks.id, words, office, classes, state, filed, registered, expires, group_concat(work) FROM marks"
                                    " LEFT JOIN mark_works ON mark = marks.id GROUP BY marks.id ORDER BY marks.id"):
        whole.update(repr(tuple(row)).encode("utf-8"))
    return whole.hexdigest()


def kept(catalogue):
    """The marks on record, as clearance compares them; their keys are m1, m2 and so on."""
    return [Mark(f"m{one.id}", one.words, one.kind, one.owner, one.office, one.number, one.filed, one.registered, one.expires,
                 one.classes, one.status_words, one.state, one.goods, one.avoid, one.works) for one in marks.listed(catalogue)]
