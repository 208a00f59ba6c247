"""The JSON Schemas that the package ships, one for each JSON output.

After a change to the models write them anew: ``python -m stacklint.report.schemas``.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from stacklint.report.calendar_data import CalendarOutput
from stacklint.report.forecast_data import ForecastsOutput
from stacklint.report.json_output import Output, schema
from stacklint.report.rules_tested import RulesTestOutput
from stacklint.report.stack_figures import Model
from stacklint.report.tally import TallyOutput

OUTPUTS: Mapping[str, type[Model]] = MappingProxyType(
    {
        "findings.schema.json": Output,
        "tally.schema.json": TallyOutput,
        "forecast.schema.json": ForecastsOutput,
        "calendar.schema.json": CalendarOutput,
        "rules-test.schema.json": RulesTestOutput,
    }
)


def generated(name: str) -> str:
    """The text of the schema file ``name``, made from the models as they are."""
    return json.dumps(schema(OUTPUTS[name]), indent=1) + "\n"


if __name__ == "__main__":
    for name in OUTPUTS:
        Path(__file__).with_name(name).write_text(generated(name), encoding="utf-8")
