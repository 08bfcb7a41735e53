" Verse keeps its lines: wrap on the screen only, at words.
if exists('b:did_ftplugin')
  finish
endif
let b:did_ftplugin = 1
setlocal textwidth=0 wrap linebreak
setlocal commentstring=<!--%s-->
" A reviewer's note goes on in its next line; the apostrophe belongs to its word.
setlocal comments=n:> formatoptions-=t formatoptions+=ro iskeyword+=39 matchpairs+=“:”
if !empty(globpath(&runtimepath, 'autoload/ale/completion.vim'))
  setlocal omnifunc=ale#completion#OmniFunc
endif
let b:undo_ftplugin = 'setlocal textwidth< wrap< linebreak< commentstring< comments< formatoptions< iskeyword< matchpairs< omnifunc<'
