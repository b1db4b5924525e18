#!/usr/bin/env bash
# Installs what the tests need where it may, names what is missing where it may not, builds everything and runs every test.
# ./test.sh --long adds the long kill, fuzz and calibration runs.
set -euo pipefail
cd "$(dirname "$0")"
export DOTNET_NOLOGO=1 DOTNET_CLI_TELEMETRY_OPTOUT=1
[ "${1:-}" = "--long" ] && export UNDERCROFT_LONG=1

command -v dotnet >/dev/null || { echo "The .NET 10 SDK is missing: install it, then run this again." >&2; exit 1; }

# What the tests call, and the package that brings it.
missing=()
command -v chromium >/dev/null || missing+=(chromium)
command -v pdftoppm >/dev/null || missing+=(poppler-utils)
if [ ${#missing[@]} -gt 0 ]; then
  if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
    echo "Installing ${missing[*]} for the tests."
    apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null || true
  fi
  for package in "${missing[@]}"; do
    program=$package; [ "$package" = poppler-utils ] && program=pdftoppm
    command -v "$program" >/dev/null && continue
    if [ -n "${CI:-}" ]; then
      echo "Missing and not installable here: $package. The tests cannot run whole." >&2; exit 1
    fi
    echo "Missing: $package (as root: apt-get install $package). The tests of $([ "$package" = chromium ] && echo pages in a browser || echo papers) will fail without it." >&2
  done
fi

dotnet build -c Release -v q Undercroft.slnx

passed=0 failed=0 skipped=0
log=$(mktemp); trap 'rm -f "$log"' EXIT
for project in tests/*.Tests; do
  name=$(basename "$project")
  echo "== $name"
  status=0
  "artifacts/bin/$name/release/$name" -noColor 2>&1 | tee "$log" || status=$?
  summary=$(grep -E 'Total: [0-9]+, Errors: [0-9]+, Failed: [0-9]+, Skipped: [0-9]+' "$log" | tail -n 1 || true)
  if [ -z "$summary" ]; then
    echo "$name ended without a summary (exit code $status)."; failed=$((failed + 1)); continue
  fi
  count() { sed -E "s/.*$1: ([0-9]+).*/\1/" <<<"$summary"; }
  bad=$(( $(count Errors) + $(count Failed) ))
  failed=$((failed + bad)); skipped=$((skipped + $(count Skipped)))
  passed=$((passed + $(count Total) - $(count Failed) - $(count Skipped)))
  [ "$status" = 0 ] || [ "$bad" -gt 0 ] || { echo "$name failed outside its tests (exit code $status)."; failed=$((failed + 1)); }
done

if [ -n "${CI:-}" ] && [ "$skipped" -gt 0 ]; then
  echo "A test was skipped, which CI does not allow."; failed=$((failed + 1))
fi
[ "$passed" -gt 0 ] || { echo "No test passed."; failed=$((failed + 1)); }
echo "$passed passed, $failed failed, $skipped skipped"
[ "$failed" = 0 ]
