"""The same answers as plain data, for a program that asks."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from fastapi import APIRouter

from coldwright.build import loads
from coldwright.errors import ColdwrightError, Fault, InputError
from coldwright.web import models
from coldwright.web.folder import version_of
from coldwright.web.routes.given import Shop
from coldwright.web.workshop import Workshop

router = APIRouter(
    prefix="/api", responses={422: {"model": models.Faults}, 404: {"model": models.Faults}}
)


class NotFinishedError(ColdwrightError):
    """A piece of work was stopped or broke; the message says which."""


@router.get("/builds")
def builds(shop: Shop) -> list[models.BuildName]:
    """The builds of the folder."""
    found = []
    for name in shop.folder.builds():
        try:
            found.append(_named(name, shop.folder.read(name)))
        except InputError:
            row = {"name": name, "title": name, "version": "", "revisions": [], "sound": False}
            found.append(models.BuildName.model_validate(row))
    return found


@router.get("/builds/{name}")
def load(name: str, shop: Shop, revision: str | None = None) -> models.LoadedBuild:
    """One build as it is read, with every quantity in SI."""
    text = shop.folder.read(name)
    build = loads(text, revision=revision)
    quantities = {
        field: models.QuantityData(
            text=each.text,
            value_SI=each.value,
            standard_uncertainty_SI=each.standard_uncertainty,
            kind=str(each.kind),
            assumed=build.is_assumed(field),
        )
        for field, each in build.quantities.items()
    }
    return models.LoadedBuild(
        **_named(name, text).model_dump(), revision=revision, text=text, quantities=quantities
    )


@router.post("/check")
def check(asked: models.CheckAsked, shop: Shop) -> models.Checked:
    """Whether a build is sound, with all of its faults."""
    text = _text(asked, shop)
    try:
        loads(text, revision=asked.revision)
    except InputError as error:
        rows = [models.FaultData(**vars(fault)) for fault in error.faults]
        return models.Checked(sound=False, faults=rows)
    return models.Checked(sound=True, faults=[])


@router.post("/assess")
def assess(asked: models.AssessAsked, shop: Shop) -> models.Report:
    """The whole assessment; the answer comes when it is worked out (some seconds)."""
    arguments = _work(asked, shop)
    return models.Report.model_validate(_done(shop, "assess", arguments))


@router.post("/day")
def day(asked: models.DayAsked, shop: Shop) -> models.DayReport:
    """A day on the clock; the answer comes when it is worked out (some seconds to minutes)."""
    arguments = _work(asked, shop)
    arguments.update(hours=asked.hours, start=asked.start, swinging=asked.swinging)
    return models.DayReport.model_validate(_done(shop, "day", arguments)["report"])


def _named(name: str, text: str) -> models.BuildName:
    try:
        build = loads(text)
    except InputError:
        row = {"name": name, "title": name, "revisions": [], "sound": False}
        return models.BuildName.model_validate({**row, "version": version_of(text)})
    return models.BuildName(
        name=name,
        title=build.name,
        version=version_of(text),
        revisions=[each.name for each in build.revisions],
        sound=True,
    )


def _text(asked: models.Asked, shop: Workshop) -> str:
    if (asked.name is None) == (asked.text is None):
        message = "Either the name of a build or its text must be given, and not both."
        raise InputError(Fault("name", message))
    return shop.folder.read(asked.name) if asked.name is not None else str(asked.text)


def _work(asked: models.AssessAsked, shop: Workshop) -> dict[str, Any]:
    """What a job about the build is told; faults of the build are raised."""
    text = _text(asked, shop)
    build = loads(text, revision=asked.revision)
    return {"text": text, "revision": asked.revision, "system": asked.units or build.units}


def _done(shop: Workshop, kind: str, arguments: Mapping[str, Any]) -> dict[str, Any]:
    """The result of a job, once it has ended."""
    job = shop.jobs.wait(shop.jobs.start(kind, arguments))
    if job.state == "faulty":
        raise InputError(*(Fault(**fault) for fault in job.faults))
    result: dict[str, Any] | None = shop.jobs.result(job.key)
    if result is None:
        raise NotFinishedError(f"The work was not finished: {job.doing}.")
    return result
