#!/usr/bin/env bash
# Drives Emacs with Eglot, in batch, over a copy of the demo manuscript:
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
# -q, not -Q, which would hide the distribution's packages.
HOME=$folder DANDLE=$program timeout 120 emacs -q --batch -L "$here" -l "$here/test/check.el" 2>&1 |
	grep -v '^\($\|Loading\|Wrote\|\[jsonrpc\]\|\[eglot\]\)' || test "${PIPESTATUS[0]}" = 0
