#!/usr/bin/env bash
# Makes the word-processor files of this folder anew, from the same story written
# down twice: pandoc.docx with pandoc (2.17), its stanzas in paragraphs with soft
# breaks; libreoffice.docx with LibreOffice Writer (7.4), its lines in paragraphs,
# with the head of a manuscript, a table and a comment.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"
pandoc -f markdown -t docx -o pandoc.docx library.md
soffice --headless --convert-to 'docx:Office Open XML Text' --outdir . library.fodt >/dev/null
mv library.docx libreoffice.docx
