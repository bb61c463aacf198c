"""The page of one work: picture, versions beneath, facts, the answer per place with reasons and questions."""

from registry.catalogue import answers, evidence, jobs, store, works
from registry.web.page import markets, page, read, render


@page
async def show(request, datasette):
    """The page /work/KEY with ?in= (places)."""
    key = request.url_vars["key"]

    def collect(catalogue):
        record = works.get(catalogue, key)
        codes, day = markets(catalogue, request), store.today()
        layers = [record, *works.beneath(catalogue, record)]
        return {"record": record, "layers": layers, "codes": codes, "day": day,
                "answers": answers.answer_work(record, codes, day),
                "evidence": evidence.of_work(catalogue, record.key),
                "jobs": [jobs.get(catalogue, name) for name in jobs.of_work(catalogue, record.key)]}

    return await render(datasette, request, "work", await read(datasette, collect))
