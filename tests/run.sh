#!/usr/bin/env bash
# Installs what is missing, builds everything and runs all tests. Usage: tests/run.sh [PRESET], default release.
set -euo pipefail
root=$(cd "$(dirname "$0")/.." && pwd)
preset=${1:-release}

bash "$root/.ci/install" --tests
cd "$root"
cmake --preset "$preset" -DBUILD_TESTING=ON >/dev/null
cmake --build "build/$preset"
ctest --preset "$preset" -j "$(nproc)"
