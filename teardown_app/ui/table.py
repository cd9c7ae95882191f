"""All screens and all forms, by name."""

from __future__ import annotations

from teardown_app.ui.form import Form
from teardown_app.ui.forms import (
    assembly,
    backup,
    check,
    cleaning,
    inspection,
    instrument,
    joint,
    labels,
    office,
    person,
    teardown,
)
from teardown_app.ui.screen import Screen
from teardown_app.ui.screens.assembly import Assembly
from teardown_app.ui.screens.cleaning import Cleaning
from teardown_app.ui.screens.found import Found
from teardown_app.ui.screens.jobs import Jobs
from teardown_app.ui.screens.labels import Labels
from teardown_app.ui.screens.office import Office
from teardown_app.ui.screens.part import Part
from teardown_app.ui.screens.photograph import Photograph
from teardown_app.ui.screens.points import Points
from teardown_app.ui.screens.sign_on import SignOn
from teardown_app.ui.screens.teardown import Teardown
from teardown_app.ui.screens.tray import Tray
from teardown_app.ui.screens.trend import Trend

SCREENS: dict[str, type[Screen]] = {
    one.name: one
    for one in (
        SignOn,
        Jobs,
        Teardown,
        Cleaning,
        Assembly,
        Part,
        Points,
        Office,
        Labels,
        Found,
        Photograph,
        Tray,
        Trend,
    )
}
FORMS: dict[str, Form] = {
    form.name: form
    for topic in (assembly, backup, check, cleaning, inspection, instrument, joint, labels, office, person, teardown)
    for form in topic.FORMS
}
