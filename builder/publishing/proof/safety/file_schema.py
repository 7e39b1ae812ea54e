"""The published schema of ``proof.json`` (JSON Schema, draft 2020-12)."""

import json
from typing import Any

from builder.resources import find_templates


def read_proof_schema() -> dict[str, Any]:
    """Return the schema as it is shipped."""
    path = find_templates() / "proof" / "proof.schema.json"
    schema: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return schema
