"""Which page answers which address. The order matters: the first that fits."""

import re

from registry.web import (
    ask, calendar, check, complaint_new, complaints, date, due, evidence, home, job, law, mark_edit, marks, marks_table,
    papers, permissions, picture, places, settings, work, work_edit, work_new, works_table,
)

KEY = r"(?P<key>[^/]+)"
ROUTES = [
    (r"^/$", home.show),
    (r"^/works/table$", works_table.bring),
    (r"^/date$", date.show),
    (r"^/work/new$", work_new.new),
    (rf"^/work/{KEY}$", work.show),
    (rf"^/work/{KEY}/edit$", work_edit.edit),
    (rf"^/work/{KEY}/ask$", ask.ask),
    (rf"^/work/{KEY}/picture$", picture.give),
    (rf"^/work/{KEY}/evidence$", evidence.add),
    (rf"^/work/{KEY}/places$", places.show),
    (rf"^/work/{KEY}/label\.json$", papers.label),
    (r"^/jobs$", job.listing),
    (r"^/check$", check.show),
    (r"^/job/new$", job.new),
    (rf"^/job/{KEY}$", job.show),
    (rf"^/job/{KEY}/edit$", job.edit),
    (rf"^/job/{KEY}/decide$", job.decide),
    (rf"^/job/{KEY}/sheet$", papers.provenance),
    (rf"^/job/{KEY}/card$", papers.card),
    (rf"^/job/{KEY}/package\.zip$", papers.package),
    (r"^/marks$", marks.listing),
    (r"^/marks/search$", marks.search),
    (r"^/marks/searched$", mark_edit.searched),
    (r"^/marks/table$", marks_table.table),
    (r"^/mark/new$", mark_edit.new),
    (rf"^/mark/{KEY}$", marks.show),
    (rf"^/mark/{KEY}/edit$", mark_edit.edit),
    (r"^/permissions$", permissions.listing),
    (r"^/permission/new$", permissions.new),
    (r"^/permission/(?P<number>[0-9]{1,15})$", permissions.show),
    (r"^/complaints$", complaints.listing),
    (r"^/complaint/new$", complaint_new.new),
    (rf"^/complaint/{KEY}$", complaints.show),
    (rf"^/complaint/{KEY}/answer$", complaint_new.answer),
    (rf"^/complaint/{KEY}/folder\.zip$", complaints.folder),
    (r"^/calendar$", calendar.show),
    (r"^/calendar\.ics$", calendar.file),
    (r"^/due$", due.show),
    (r"^/due/proof$", due.proof),
    (r"^/settings$", settings.show),
    (r"^/law$", law.listing),
    (r"^/law/(?P<code>[A-Za-z]{2})$", law.show),
    (r"^/picture/(?P<sha>[0-9a-f]{64})$", picture.show),
    (r"^/file/(?P<sha>[0-9a-f]{64})$", picture.document),
    (r"^/held/(?P<token>[A-Za-z0-9_-]{1,64})$", picture.waiting),
]
_OWN = [re.compile(pattern) for pattern, _view in ROUTES]


def is_own(path):
    """True for an address of one of our pages."""
    return any(pattern.match(path) for pattern in _OWN)
