#!/usr/bin/env bash
# Installs what is missing, builds everything and runs all tests. Usage: tests/run.sh [NAME], default release.
set -euo pipefail
root=$(cd "$(dirname "$0")/.." && pwd)

bash "$root/.ci/install" --tests
bash "$root/.ci/build" "${1:-release}" --test -DBUILD_TESTING=ON
