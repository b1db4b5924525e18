#!/usr/bin/env bash
# Restores, builds and opens the demo cellar in the browser. Needs the .NET 10 SDK and nothing else.
set -euo pipefail
cd "$(dirname "$0")"
export DOTNET_NOLOGO=1 DOTNET_CLI_TELEMETRY_OPTOUT=1
command -v dotnet >/dev/null || { echo "The .NET 10 SDK is missing: install it, then run this again." >&2; exit 1; }

echo "Building (about a minute the first time) …"
dotnet build -c Release -v q -nologo src/Undercroft
program=artifacts/bin/Undercroft/release/undercroft

[ -e demo-cellar ] || "$program" demo --data demo-cellar

address=${UNDERCROFT_URL:-http://127.0.0.1:7420}
cat <<TEXT

The demo cellar is an invented household; its present is its own fixed day. It opens at $address
Ctrl+C ends it. To start a cellar of your own, in a folder of your own:

    $program serve --data my-cellar

TEXT
if [ -z "${UNDERCROFT_NO_BROWSER:-}" ]; then
  (for _ in $(seq 50); do
     sleep 0.2
     (exec 3<>"/dev/tcp/127.0.0.1/${address##*:}") 2>/dev/null && break
   done
   for opener in xdg-open open; do
     command -v "$opener" >/dev/null && "$opener" "$address" >/dev/null 2>&1 && break
   done) &
fi
exec "$program" serve --data demo-cellar --urls "$address"
