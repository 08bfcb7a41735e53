#!/usr/bin/env bash
# Drives a headless Vim with ALE over a copy of the demo manuscript:
#   check.sh PROGRAM MANUSCRIPT
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
program=$(realpath "$1")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cp "$2" "$folder/demo.verse"
cd "$folder"
"$program" check -f json demo.verse >found.json
"$program" scan -f json demo.verse >scanned.json
# The editor writes what it saw into a file: its own output is full of its screen.
status=0
DANDLE=$program DANDLE_SETUP=$here timeout 120 vim.nox -es -N -n -u "$here/test/check.vim" -i NONE demo.verse >screen.txt 2>&1 || status=$?
cat seen.txt || cat screen.txt
exit "$status"
