#!/usr/bin/env bash
# Drives Kate, under a virtual X server, over a copy of the demo manuscript:
#   check.sh PROGRAM MANUSCRIPT [PICTURE]
# What Kate shows cannot be asked for, so a wrapper round the program keeps what
# was said: the manuscript is opened, findings come, a hover is answered where Kate asks for one, a change
# is sent and findings come again. The picture shows the rest.
set -euo pipefail
if [ "${4:-}" != once ]; then
	# Kate's session bus does not always come up in a container: one more try.
	"$0" "$1" "$2" "${3:-/dev/null}" once || { echo "kate: once more" && "$0" "$1" "$2" "${3:-/dev/null}" once; }
	exit
fi
here=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
program=$(realpath "$1")
home=$(mktemp -d)
picture=$3
[ "$picture" != /dev/null ] || picture=$home/picture.png
cp "$2" "$home/demo.verse"
kate='' xvfb=''
finish() {
	kill $kate $xvfb 2>/dev/null || true
	wait 2>/dev/null || true
	# What the session bus started may still write a moment longer.
	rm -rf "$home" 2>/dev/null || { sleep 1; rm -rf "$home" 2>/dev/null || true; }
}
trap finish EXIT
export HOME=$home XDG_CONFIG_HOME=$home/config XDG_DATA_HOME=$home/data XDG_RUNTIME_DIR=$home/run QT_QPA_PLATFORM=xcb
mkdir -p "$XDG_CONFIG_HOME/kate/lspclient" "$XDG_DATA_HOME/org.kde.syntax-highlighting/syntax" "$XDG_DATA_HOME/kate" "$XDG_RUNTIME_DIR" "$home/bin"
chmod 700 "$XDG_RUNTIME_DIR"
cat >"$home/bin/dandle" <<WRAPPER
#!/usr/bin/env bash
tee "$home/asked" | "$program" "\$@" | tee "$home/said"
WRAPPER
chmod +x "$home/bin/dandle"
export PATH=$home/bin:$PATH
cp "$here/verse.xml" "$XDG_DATA_HOME/org.kde.syntax-highlighting/syntax/"
cp "$here/settings.json" "$XDG_CONFIG_HOME/kate/lspclient/settings.json"
# Plugins are a session's matter, and the anonymous session has a file of its
# own; the second section answers what Kate would ask before it starts a server.
printf '[Kate Plugins]\nlspclientplugin=true\n[lspclient]\nAllowedServerCommandLines=%s serve\nAutoHover=true\n' "$home/bin/dandle" |
	tee "$XDG_CONFIG_HOME/katerc" >"$XDG_DATA_HOME/kate/anonymous.katesession"
mkfifo "$home/display"
Xvfb -displayfd 3 -screen 0 1100x700x24 -nolisten tcp 3>"$home/display" >/dev/null 2>&1 &
xvfb=$!
read -r number <"$home/display"
export DISPLAY=:$number
dbus-run-session -- kate --startanon "$home/demo.verse" >"$home/kate.log" 2>&1 &
kate=$!

# waits WHAT FILE PATTERN [COUNT]: until the pattern was said so often.
waits() {
	for _ in $(seq 150); do
		[ "$(grep -aoE "$3" "$home/$2" 2>/dev/null | wc -l)" -ge "${4:-1}" ] && { echo "kate: $1"; return 0; }
		sleep 0.2
	done
	import -window root "$picture" || true
	echo "kate: FAIL: not $1" >&2
	tail -5 "$home/kate.log" >&2
	return 1
}
waits 'the manuscript is opened' asked '"textDocument/didOpen"'
# No window manager is there to give the window its place.
for window in $(xdotool search --onlyvisible --class kate); do
	xdotool windowmove "$window" 0 0 windowsize "$window" 1100 700
done
waits 'findings are shown' said '"textDocument/publishDiagnostics"'
sleep 1
# The pointer rests on one line after the other until it lies over a word of verse.
for y in $(seq 304 17 389) $(seq 423 17 474); do
	xdotool mousemove 500 100 sleep 0.2
	for x in 140 144 147 149 150; do
		xdotool mousemove "$x" "$y" sleep 0.05
	done
	sleep 1.2
	grep -aq '"contents":' "$home/said" && break
done
# Kate asks for a hover only while the pointer moves as a hand moves it, which a
# loaded machine does not always bring about; what is answered is tested elsewhere.
if grep -aq '"contents":' "$home/said"; then
	echo 'kate: a hover is answered'
else
	echo 'kate: it asked for no hover this time'
fi
sleep 1
import -window root "$picture"
before=$(grep -aoE '"textDocument/publishDiagnostics"' "$home/said" | wc -l)
xdotool click 1 key End type ' a'
waits 'a change is sent' asked '"textDocument/didChange"'
waits 'findings follow the change' said '"textDocument/publishDiagnostics"' $((before + 1))
echo "kate: ok, in $(kate --version 2>/dev/null | tail -1)"
