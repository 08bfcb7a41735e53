#!/usr/bin/env bash
# Has others open the documents that the program writes:
#   check.sh PROGRAM MANUSCRIPT
# LibreOffice opens each and saves it anew; every comment and the whole text must
# be there still. pandoc must read as many comments (with -s, since it takes a title out of the text). What the program converts to a
# document must come back as it was.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
program=$(realpath "$1")
manuscript=$(realpath "$2")
for tool in soffice pandoc; do
	if ! command -v "$tool" >/dev/null; then
		echo "docx: skipped: $tool is not installed"
		exit 0
	fi
done
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"
export HOME=$work
failed=0
fault() {
	echo "docx: $*"
	failed=1
}

# How many comments a document has, by its own part for them.
comments() { { unzip -p "$1" word/comments.xml 2>/dev/null || true; } | { grep -o '<w:comment ' || true; } | wc -l; }

cp "$manuscript" story.verse
cp "$root"/testdata/docx/*.docx .
"$program" convert -o story.docx story.verse
"$program" convert -o back.verse story.docx
# A reviewer's note comes back below the line that it is about, so the verse and
# its marks are compared.
verse() { "$program" scan -f json "$1" | sed -e 's/"file":"[^"]*"//' -e 's/"line":[0-9]*,//g'; }
[ "$(verse story.verse)" = "$(verse back.verse)" ] || fault "the verse changed on its way through a document"

for name in story pandoc libreoffice; do
	"$program" critique -o "$name-letter.docx" "$name.docx" 2>/dev/null
	mkdir -p saved
	soffice --headless --convert-to 'docx:Office Open XML Text' --outdir saved "$name-letter.docx" >/dev/null 2>&1
	ours=$(comments "$name-letter.docx")
	((ours > $(comments "$name.docx"))) || fault "$name: no comment was added"
	((ours == $(comments "saved/$name-letter.docx"))) || fault "$name: LibreOffice kept $(comments "saved/$name-letter.docx") of $ours comments"
	[ "$(verse "$name.docx" 2>/dev/null)" = "$(verse "$name-letter.docx" 2>/dev/null)" ] || fault "$name: the verse changed when it was annotated"
	[ "$(verse "$name.docx" 2>/dev/null)" = "$(verse "saved/$name-letter.docx" 2>/dev/null)" ] || fault "$name: the verse changed when LibreOffice saved it"
	read=$(pandoc -s --track-changes=all -t native "$name-letter.docx" | grep -o '"comment-start"' | wc -l)
	((read == ours)) || fault "$name: pandoc reads $read of $ours comments"
	# Beside the comments and the text, every part is the same byte for byte.
	while IFS= read -r part; do
		case $part in word/document.xml | word/comments.xml | '[Content_Types].xml' | word/_rels/document.xml.rels) continue ;; esac
		cmp -s <(unzip -p "$name.docx" "$part") <(unzip -p "$name-letter.docx" "$part") || fault "$name: $part changed"
	done < <(unzip -Z1 "$name.docx")
	echo "docx: $name: $ours comments, all there after LibreOffice saved it; pandoc reads $read"
done
exit "$failed"
