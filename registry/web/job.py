"""The list of jobs and the page of one job: what it uses and the answer per market."""

from registry.catalogue import answers, jobs, settings, store, works
from registry.web.page import page, read, render


@page
async def listing(request, datasette):
    """The page /jobs."""
    found = await read(datasette, jobs.listed)
    return await render(datasette, request, "jobs", {"jobs": found})


@page
async def show(request, datasette):
    """The page /job/KEY."""
    key = request.url_vars["key"]

    def collect(catalogue):
        job, day = jobs.get(catalogue, key), store.today()
        codes = settings.opened(catalogue, job.markets)
        return {"job": job, "day": day, "answer": answers.answer_job(catalogue, job, codes, day),
                "works": {use.work: works.get(catalogue, use.work) for use in job.uses}}

    return await render(datasette, request, "job", await read(datasette, collect))
