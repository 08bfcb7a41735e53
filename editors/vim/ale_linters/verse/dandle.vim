" ALE finds this file on the runtimepath. let g:dandle_program names another
" program than the one on the PATH.
"
" ALE (3.3) takes the protocol's positions for bytes, and gives bytes; the server
" is told so, that a mark may stand under its word after a curly quote too. For a
" release that counts in UTF-16: let g:dandle_position_encoding = 'utf-16'.
"
" let g:dandle_settings = {'dialect': 'en-GB'} sets what editors/README.md lists.
call ale#linter#Define('verse', {
\   'name': 'dandle',
\   'lsp': 'stdio',
\   'executable': {-> get(g:, 'dandle_program', 'dandle')},
\   'command': '%e serve',
\   'language': 'verse',
\   'initialization_options': {-> extend(
\     {'positionEncoding': get(g:, 'dandle_position_encoding', 'utf-8')},
\     get(g:, 'dandle_settings', {}))},
\   'project_root': {buffer -> s:Root(buffer)},
\})

" The folder whose house rules hold: the nearest with dandle.yaml upwards, else
" the manuscript's own.
function! s:Root(buffer) abort
  let l:folder = fnamemodify(bufname(a:buffer), ':p:h')
  let l:rules = findfile('dandle.yaml', escape(l:folder, ' ,;') . ';')
  return empty(l:rules) ? l:folder : fnamemodify(l:rules, ':p:h')
endfunction
