#!/usr/bin/env bash
# Builds dandle-TARGET.vsix, which carries the server for one platform:
#   build.sh [linux-x64|linux-arm64|darwin-x64|darwin-arm64|win32-x64]
# It needs Go and Node 20, and fetches the packages that package.json pins.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
target=${1:-linux-x64}
export CGO_ENABLED=0 GOOS=${target%-*} GOARCH=${target#*-}
name=dandle
case $GOOS in win32) GOOS=windows name=dandle.exe ;; esac
case $GOARCH in x64) GOARCH=amd64 ;; esac
# Work in a copy, so that nothing is left behind in the repository.
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cp -r "$here/." "$work"
cp "$here/../../LICENSE" "$here/../../NOTICE" "$work/"
(cd "$here/../.." && go build -trimpath -ldflags=-s -o "$work/server/$name" ./cmd/dandle)
unset GOOS GOARCH
cd "$work"
npm ci --no-audit --no-fund --loglevel=error
npm run --silent types
npm run --silent bundle -- --log-level=warning --metafile=bundled.json
# The licences of what was bundled go along with it.
node -e '
	const { readdirSync, readFileSync } = require("node:fs");
	const files = Object.keys(JSON.parse(readFileSync("bundled.json", "utf8")).inputs);
	const packages = new Set(files.map((file) => /^node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(file)?.[1]).filter(Boolean));
	for (const name of [...packages].sort()) {
		const folder = `node_modules/${name}`;
		const licence = readdirSync(folder).find((file) => /^licen[cs]e/i.test(file));
		if (!licence) throw new Error(`${name} has no licence file`);
		console.log(`${name}\n\n${readFileSync(`${folder}/${licence}`, "utf8").trim()}\n`);
	}
' >LICENSES.txt
npx --no-install vsce package --target "$target" --no-dependencies --allow-missing-repository -o "$here/dandle-$target.vsix" >vsce.log || { cat vsce.log; exit 1; }
stat -c '%n, %s bytes' "$here/dandle-$target.vsix"
