" Verse keeps its lines: wrap on the screen only, at words.
if exists('b:did_ftplugin')
  finish
endif
let b:did_ftplugin = 1
setlocal textwidth=0 wrap linebreak
setlocal commentstring=<!--%s-->
let b:undo_ftplugin = 'setlocal textwidth< wrap< linebreak< commentstring<'
