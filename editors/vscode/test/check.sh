#!/usr/bin/env bash
# Drives the built extension in a real browser, over code-server with Chromium:
#   check.sh MANUSCRIPT [FOLDER FOR PICTURES]
# As root on Debian it installs what it needs; code-server goes into a cache,
# since it is compiled for minutes. Where it cannot be had, it says so and ends
# with 0: the extension itself is built and type-checked in any case.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
manuscript=$(realpath "$1")
pictures=${2:-}
cache=${XDG_CACHE_HOME:-$HOME/.cache}/dandle-editors/code-server-4.139.1
"$here/../build.sh" linux-x64

install() {
	if ! command -v chromium >/dev/null; then
		[ "$(id -u)" = 0 ] && apt-get -qq update && DEBIAN_FRONTEND=noninteractive apt-get -qq -y install --no-install-recommends chromium >/dev/null 2>&1 || return 1
	fi
	[ -e "$cache/complete" ] && return 0
	if [ "$(id -u)" = 0 ]; then # what code-server's native parts are compiled with
		DEBIAN_FRONTEND=noninteractive apt-get -qq -y install --no-install-recommends \
			g++ make python3 pkg-config libkrb5-dev libsecret-1-dev libx11-dev libxkbfile-dev >/dev/null 2>&1 || return 1
	fi
	mkdir -p "$cache"
	cd "$cache"
	[ -e package.json ] || echo '{"private":true}' >package.json
	npm install --no-audit --no-fund --loglevel=error node@24 playwright-core@1.65.1 >install.log 2>&1 || return 1
	# npm asks before it runs a package's own scripts from its release 11 on.
	PATH=$cache/node_modules/node/bin:$PATH npm install --no-audit --no-fund --loglevel=error --dangerously-allow-all-scripts code-server@4.139.1 >>install.log 2>&1 || return 1
	touch complete
}

if ! (install); then
	echo "vscode: skipped: code-server and Chromium cannot be installed here; the extension was built and type-checked"
	exit 0
fi
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
mkdir "$folder/book" "$folder/pictures"
cp "$manuscript" "$folder/book/demo.verse"
export PATH=$cache/node_modules/node/bin:$PATH
CODE_SERVER="node $cache/node_modules/code-server/out/node/entry.js" NODE_PATH=$cache/node_modules \
	EXTENSION=$here/../dandle-linux-x64.vsix PICTURES=${pictures:-$folder/pictures} \
	timeout 240 node "$here/check.mjs" "$folder/book"
