" A manuscript's outward form; what is heard in it comes from the server.
if exists('b:current_syntax')
  finish
endif
syntax region verseFrontMatter start=/\%1l^---\s*$/ end=/^---\s*$/ contains=verseKey
syntax match verseKey /^\s*[[:alnum:]_-]\+\ze:/ contained
syntax match verseHeading /^#\{1,6}\s.*$/
syntax match verseArtNote /\[[^\]]*\]/
syntax match verseRemark /^\s*>.*$/
syntax match verseStressed /\*[^*[:space:]][^*]*\*/
syntax region verseComment start=/<!--/ end=/-->/
highlight default link verseFrontMatter PreProc
highlight default link verseKey Identifier
highlight default link verseHeading Title
highlight default link verseArtNote Comment
highlight default link verseRemark SpecialComment
" No underline, which is how findings are marked.
highlight default verseStressed term=bold cterm=bold gui=bold
highlight default link verseComment Comment
let b:current_syntax = 'verse'
