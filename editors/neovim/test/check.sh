#!/usr/bin/env bash
# Drives a headless Neovim, set up as the README of this folder says, over a
# copy of the demo manuscript:  check.sh PROGRAM MANUSCRIPT
# Exits 0 when everything that test/check.lua looks for was seen.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
program=$(realpath "$1")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cp "$2" "$folder/demo.verse"
mkdir -p "$folder/data/nvim/site/pack/verse/start" "$folder/config" "$folder/state"
cp -r "$here" "$folder/data/nvim/site/pack/verse/start/dandle"
cd "$folder"
export XDG_DATA_HOME=$folder/data XDG_CONFIG_HOME=$folder/config XDG_STATE_HOME=$folder/state XDG_CACHE_HOME=$folder/state
DANDLE=$program timeout 120 nvim --headless -i NONE -n \
	--cmd "lua vim.g.dandle_command = { os.getenv('DANDLE'), 'serve' }" \
	-c "luafile $here/test/check.lua" demo.verse
