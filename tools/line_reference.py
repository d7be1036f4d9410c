"""Write the JSON Schema and the reference page of the line file.     (tools/line_reference.py)

Run it after a change to `takeup.line.reading.schema`; the tests hold what it writes equal to the models.
"""

from __future__ import annotations

from pathlib import Path

import takeup.line.reading
from takeup.line.reading.reference import json_schema, reference_page

ROOM = Path(takeup.line.reading.__file__).parent
PAGES = Path(__file__).parents[1] / "docs" / "reference"


def main() -> None:
    """Write both files."""
    (ROOM / "line-file.schema.json").write_text(json_schema(), encoding="utf-8")
    example = (PAGES / "line-file-example.yaml").read_text(encoding="utf-8")
    (PAGES / "line-file.md").write_text(reference_page(example), encoding="utf-8")


if __name__ == "__main__":
    main()
