"""Work in the worker process: the whole assessment, a day, charts; and what is told from it."""

from __future__ import annotations

import re
import time
from html import unescape

import pytest

from coldwright.build import loads
from coldwright.verdict.glance import glance
from support.assessed import assessed
from support.builds import build_text
from support.shelf import client_of, folder_with

CHEESE = build_text("cheese")


@pytest.fixture(scope="module")
def client(tmp_path_factory):
    with client_of(folder_with(tmp_path_factory.mktemp("work"), "cheese")) as found:
        yield found


@pytest.fixture(scope="module")
def report(client):
    answer = client.post("/api/assess", json={"name": "cheese", "units": "si"})
    assert answer.status_code == 200
    return answer.json()


def test_the_report_is_that_of_the_library(report):
    judged = assessed("cheese").judgement
    assert report["verdict"] == judged.verdict
    assert report["sentences"] == list(judged.sentences)


def test_the_quick_answer_agrees_with_the_report(report):
    quick = glance(loads(CHEESE))
    for path in ("cycling.run_fraction", "cycling.while_on.power_W", "cabinet.heat_gain_W"):
        here, there = quick, report
        for key in path.split("."):
            here, there = here[key], there[key]
        # One lane alone and beside others stops at its own step: equal within the balance's.
        assert here == pytest.approx(there, rel=1e-4)


def test_the_page_tells_the_report_in_sentences(client, report):
    page = client.get("/b/cheese/balance").text
    assert 'data-state="full"' in page
    assert "Nineteen in twenty boxes" in page
    assert report["sentences"][1] in page
    assert "Not worked out yet" not in client.get("/").text


@pytest.mark.parametrize("stage", ["cabinet", "cold-side", "machine", "balance"])
def test_every_figure_that_can_be_asked_is_explained(client, report, stage):
    page = client.get(f"/b/cheese/{stage}").text
    paths = set(re.findall(r"/explain\?(?:[^\"]*&amp;)?path=([\w.]+)", page))
    assert len(paths) >= 3
    for path in paths:
        answer = client.get(f"/b/cheese/explain?path={path}&part=1")
        assert answer.status_code == 200
        assert "In the report" in answer.text
    assert client.get("/b/cheese/explain?path=nonsense").status_code == 422


def test_the_api_tells_faults_with_entry_and_line(client):
    text = CHEESE.replace('thickness = "60 mm"', 'thickness = "-60 mm"')
    for page in ("check", "assess", "day"):
        answer = client.post(f"/api/{page}", json={"text": text})
        (fault,) = answer.json()["faults"]
        assert fault["field"] == "cabinet.layers[2].thickness"
        assert fault["line"] == text[: text.index('"-60 mm"')].count("\n") + 1
        assert answer.status_code == (200 if page == "check" else 422)
    assert client.post("/api/check", json={"text": CHEESE}).json() == {"sound": True, "faults": []}
    assert client.post("/api/check", json={}).status_code == 422
    assert client.post("/api/check", json={"name": "cheese", "x": 1}).status_code == 422
    assert client.post("/api/assess", json={"name": "nobody"}).status_code == 404


def test_the_api_loads_a_build_with_its_quantities(client):
    assert client.get("/api/builds").json()[0]["title"] == "Cheese cupboard"
    data = client.get("/api/builds/cheese").json()
    layer = data["quantities"]["cabinet.layers[2].thickness"]
    assert layer["value_SI"] == pytest.approx(0.06)
    assert not layer["assumed"]
    assert data["quantities"]["cabinet.contents.moisture_per_day"]["kind"] == "mass_flow"


def test_the_description_names_every_answer_and_gives_examples(client):
    data = client.get("/openapi.json").json()
    assert set(data["paths"]) == {
        "/api/builds",
        "/api/builds/{name}",
        "/api/check",
        "/api/assess",
        "/api/day",
    }
    for path in data["paths"].values():
        for call in path.values():
            schema = call["responses"]["200"]["content"]["application/json"]["schema"]
            named = schema.get("$ref") or schema["items"]["$ref"]
            assert named.startswith("#/components/schemas/")
            assert call["description"]
    assert data["components"]["schemas"]["AssessAsked"]["properties"]["name"]["examples"]


def test_a_day_is_run_followed_and_found_again(client):
    sent = {"hours": "30 min", "from": "warm"}
    place = client.post("/b/cheese/day/run", data=sent).headers["location"]
    assert "hours=30" in place
    page = client.get(place).text
    assert 'class="job"' in page
    key = page.split('data-job="')[1].split('"')[0]
    started = time.monotonic()
    while client.get(f"/jobs/{key}").json()["state"] in ("waiting", "working"):
        assert time.monotonic() - started < 120.0
        time.sleep(0.2)
    page = client.get(place).text
    assert "starts an hour" in page
    drawn = page.split('<img class="still" src="')[1].split('"')[0]
    picture = client.get(drawn)
    assert picture.headers["content-type"] == "image/svg+xml"
    assert picture.text.startswith("<svg")
    spec = client.get(drawn.replace(".svg", ".json")).json()
    assert "$schema" not in spec
    assert "vconcat" in spec
    asked = [unescape(each) for each in re.findall(r'class="ask" href="([^"]+of=day[^"]+)"', page)]
    assert any("path=run_fraction" in each for each in asked)
    for address in asked:
        answer = client.get(f"{address}&part=1")
        assert answer.status_code == 200
        assert "In the report" in answer.text
    unrun = client.get(asked[0].replace("hours=30", "hours=31"))
    assert unrun.status_code == 404
    assert "not worked out" in unrun.text
    with client_of(client.workshop.folder.root) as anew:
        assert "starts an hour" in anew.get(place).text


def test_the_charts_that_take_a_while_are_offered_and_can_be_stopped(client):
    page = client.get("/b/cheese/charts").text
    assert "a first start with the range" in page
    client.post("/b/cheese/charts/run", data={"set": "start"})
    page = client.get("/b/cheese/charts").text
    key = page.split('data-job="')[1].split('"')[0]
    assert client.post(f"/jobs/{key}/cancel").status_code in (200, 303)
    assert client.get(f"/jobs/{key}").json()["state"] == "cancelled"


@pytest.mark.parametrize("hours", ["0", "-3", "1000", "long", ""])
def test_hours_that_cannot_be_run_are_told_and_kept(client, hours):
    place = client.post("/b/cheese/day/run", data={"hours": hours}).headers["location"]
    page = client.get(place).text
    assert ("Hours must be" in page) == (hours != "")


def test_a_job_is_stopped_and_can_be_begun_again(client):
    sent = {"hours": "240", "from": "settled"}
    place = client.post("/b/cheese/day/run", data=sent).headers["location"]
    key = client.get(place).text.split('data-job="')[1].split('"')[0]
    while client.get(f"/jobs/{key}").json()["state"] == "waiting":
        time.sleep(0.05)
    client.post(f"/jobs/{key}/cancel", data={"back": "//elsewhere.example/"})
    assert client.get(f"/jobs/{key}").json()["state"] == "cancelled"
    assert "Stopped." in client.get(place).text
    # The next job finds a worker of its own.
    arguments = {"text": CHEESE.replace("28 g", "9 kg"), "revision": None, "system": "si"}
    jobs = client.workshop.jobs
    job = jobs.wait(jobs.start("assess", arguments))
    assert job.state == "faulty"
    assert job.faults[0]["field"] == "refrigerant.fill"


def test_work_that_no_page_looks_at_makes_room(client, monkeypatch):
    from coldwright.web import jobs as of_jobs

    jobs = client.workshop.jobs
    day = {"text": CHEESE, "revision": None, "system": "si", "hours": 90.0}
    day |= {"start": "settled", "swinging": False}
    left = jobs.start("day", day, is_watched=True)
    kept = jobs.start("day", {**day, "hours": 91.0})
    monkeypatch.setattr(of_jobs, "UNSEEN", 0.0)
    faulty = {"text": "name = 1", "revision": None, "system": "si"}
    jobs.start("assess", faulty)
    assert left.state == "cancelled"
    assert kept.state in ("waiting", "working")
    jobs.cancel(kept.key)


def test_side_by_side_what_differs_stands_first(client, report):
    place = client.post("/b/cheese/side/run", data={"right": "soldered plate"}).headers["location"]
    started = time.monotonic()
    while "What that changes" not in (page := client.get(place).text):
        assert time.monotonic() - started < 120.0
        time.sleep(0.3)
    assert page.index("cold_side.plate.bond") < page.index("What that changes")
    assert page.index("evaporating") < page.index("the same on both sides")
    assert "clipped" in page
    assert "soldered" in page
