#!/usr/bin/env bash
# Looks at the pages that the program writes in a real browser:
#   check.sh PROGRAM MANUSCRIPT [FOLDER FOR PICTURES]
# axe-core must find nothing against the accessibility guidelines, in light and
# dark, on a screen and on a phone; nothing may be loaded from elsewhere; the
# beats must stand under their syllables; and the letter must print on two pages.
# Needs Chromium and Node 20; axe-core comes from the package registry, into a
# cache. Where it cannot be had the check says so and ends with 0.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
program=$(realpath "$1")
manuscript=$(realpath "$2")
pictures=${3:-}
cache=${XDG_CACHE_HOME:-$HOME/.cache}/dandle-page/axe-core-4.14.1
if ! command -v chromium >/dev/null; then
	echo "page: skipped: Chromium is not installed"
	exit 0
fi
if [ ! -e "$cache/complete" ]; then
	mkdir -p "$cache"
	cp "$here/package.json" "$cache/"
	if ! (cd "$cache" && npm install --ignore-scripts --no-audit --no-fund --loglevel=error >install.log 2>&1); then
		echo "page: skipped: axe-core cannot be fetched here"
		exit 0
	fi
	touch "$cache/complete"
fi
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
"$program" critique -f html -o "$folder/critique.html" "$manuscript"
# A second draft, so that there is something to compare.
sed -e 's/ just / /' -e 's/very old/mossy/' "$manuscript" >"$folder/second.verse"
"$program" compare -f html -o "$folder/compare.html" "$manuscript" "$folder/second.verse"
# ES modules are found from the place of the script alone.
cp "$here/check.mjs" "$cache/check.mjs"
node "$cache/check.mjs" "$folder" "$pictures"
