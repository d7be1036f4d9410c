#!/usr/bin/env bash
# Remakes both locks from pyproject.toml. Needs uv (python3 -m pip install uv). No address gets into a lock.     (tools/lock.sh)
# Versions already in the locks are kept where they still fit; `tools/lock.sh --upgrade` takes the newest.
set -euo pipefail
cd "$(dirname "$0")/.."

common=(--quiet --universal --python-version 3.11 --generate-hashes --no-emit-index-url --no-header "$@")
uv pip compile "${common[@]}" --output-file requirements.lock pyproject.toml
# The development lock holds the whole core at the same versions, or the tests would prove another program.
uv pip compile "${common[@]}" --constraints requirements.lock --group dev --output-file requirements-dev.lock pyproject.toml

if grep -n '://' requirements.lock requirements-dev.lock; then
    echo "an address got into a lock" >&2
    exit 1
fi
