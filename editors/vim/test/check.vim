" Looks, inside Vim with ALE, for what a writer would see in the demo
" manuscript; called by check.sh.
set nocompatible hidden noswapfile shortmess=aoOtTI nomore
execute 'set runtimepath^=/usr/share/vim-ale,' . $DANDLE_SETUP
execute 'set runtimepath+=/usr/share/vim-ale/after'
let g:dandle_program = $DANDLE
let g:ale_linters = {'verse': ['dandle']}
let g:ale_hover_to_preview = 1
let g:ale_completion_enabled = 0
filetype plugin on
syntax on

function! s:Fail(what) abort
  call writefile(['vim: FAIL: ' . a:what], 'seen.txt', 'a')
  cquit 1
endfunction

function! s:Say(what) abort
  call writefile(['vim: ' . a:what], 'seen.txt', 'a')
endfunction

function! s:Wait(what, Condition) abort
  for l:i in range(200)
    if a:Condition()
      return
    endif
    sleep 50m
  endfor
  call s:Fail('no ' . a:what . ' ' . execute('messages'))
endfunction

" A place with its column in bytes, from 1, as Vim counts.
function! s:Place(line, column, code) abort
  return printf('%d:%d %s', a:line, a:column, a:code)
endfunction

" The command counts columns in characters.
function! s:Bytes(line, column) abort
  return byteidx(getline(a:line), a:column - 1) + 1
endfunction

function! s:Shown() abort
  let l:list = map(copy(ale#engine#GetLoclist(bufnr(''))), {_, f -> s:Place(f.lnum, f.col, get(f, 'code', ''))})
  return sort(l:list)
endfunction

function! s:Preview() abort
  for l:w in range(1, winnr('$'))
    if getwinvar(l:w, '&previewwindow')
      return join(getbufline(winbufnr(l:w), 1, '$'), "\n")
    endif
  endfor
  return ''
endfunction

function! s:Check() abort
  if &filetype !=# 'verse'
    call s:Fail('the file type is ' . &filetype)
  endif
  let l:found = json_decode(join(readfile('found.json'), ''))['files'][0]['findings']
  let l:want = sort(map(l:found, {_, f -> s:Place(f.line, s:Bytes(f.line, f.column), f.code)}))
  if len(l:want) < 3
    call s:Fail('only ' . len(l:want) . ' findings in a manuscript with planted faults')
  endif
  call s:Wait('findings', {-> s:Shown() == l:want})
  call s:Say(len(l:want) . ' findings at the right lines and columns')

  let l:line = json_decode(join(readfile('scanned.json'), ''))['files'][0]['stanzas'][0]['lines'][0]
  call cursor(l:line.line, 2)
  ALEHover
  " However they are spaced.
  call s:Wait('hover with ' . l:line.feet, {-> stridx(substitute(s:Preview(), ' ', '', 'g'), l:line.feet) >= 0})
  pclose
  call s:Say('the hover of line ' . l:line.line . ' shows ' . l:line.feet)

  call setline(l:line.line, 'The clock chimed.')
  ALELint
  call s:Wait('finding after a line was broken', {-> len(s:Shown()) > len(l:want)})
  call setline(l:line.line, l:line.text)
  ALELint
  call s:Wait('end of that finding', {-> s:Shown() == l:want})
  call s:Say('a broken line is marked, and a mended one is not')
  call s:Say('ok, in Vim ' . v:version / 100 . '.' . v:version % 100 . ' with ALE ' . s:AleVersion())
  qall!
endfunction

function! s:AleVersion() abort
  let l:source = join(readfile('/usr/share/vim-ale/autoload/ale.vim'), "\n")
  let l:numbers = matchstr(l:source, 's:current_ale_version = \[\zs[^\]]*')
  return substitute(l:numbers, ', ', '.', 'g')
endfunction

autocmd VimEnter * call s:Check()
