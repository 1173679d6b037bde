"""Validates a folder as RO-Crate 1.2 with `roc-validator`, without the network.

The validator fetches the JSON-LD context of RO-Crate from the web. Here it gets the one that the package `rocrate` brings, whatever
version that is of: contexts only gain names from version to version.
"""

import io
import json
import sys
from importlib.resources import files

import rdflib.plugins.shared.jsonld.context as jsonld
from rocrate_validator import models, services
from rocrate_validator.utils import http

CONTEXT = files("rocrate").joinpath("data/ro-crate.jsonld").read_bytes()


class Answer:
    """What the validator asks of an answer from the web."""

    status_code = 200
    content = CONTEXT
    text = CONTEXT.decode()
    headers = {"Content-Type": "application/ld+json"}
    ok = True

    def json(self):
        return json.loads(CONTEXT)

    def raise_for_status(self):
        return None


http.HttpRequester.get = lambda *_args, **_named: Answer()
jsonld.source_to_json = lambda *_args, **_named: (json.loads(CONTEXT), None)

settings = services.ValidationSettings(
    rocrate_uri=sys.argv[1],
    profile_identifier="ro-crate-1.2",
    requirement_severity=models.Severity.RECOMMENDED,
    skip_availability_check=True,
)
result = services.validate(settings)
issues = result.get_issues(models.Severity.RECOMMENDED)
for issue in issues:
    print(f"{issue.severity.name} {issue.check.identifier}: {issue.message}")
print(f"{sys.argv[1]}: {len(issues)} issues")
sys.exit(bool([issue for issue in issues if issue.severity == models.Severity.REQUIRED]))
