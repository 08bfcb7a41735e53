-- Looks, inside Neovim, for what a writer would see in the demo manuscript.
-- What the editor shows is held against what "dandle check" and "dandle scan"
-- print for the same text: two ways to the same findings, with positions in
-- UTF-16 units on one and in code points on the other.
local program = os.getenv('DANDLE')

local function say(text) io.stdout:write('neovim: ' .. text .. '\n') end

local function fail(text)
  io.stderr:write('neovim: FAIL: ' .. text .. '\n')
  vim.cmd('cquit 1')
end

local function wait_for(what, condition)
  if not vim.wait(10000, condition, 20) then fail('no ' .. what) end
end

local function run(...)
  local out = vim.fn.system({ program, ... })
  if vim.v.shell_error ~= 0 then fail(table.concat({ ... }, ' ') .. ': ' .. out) end
  return vim.fn.json_decode(out).files[1]
end

-- The findings of the text in the buffer, by the command: "line:byte code", lines and bytes from 0.
local function by_command()
  local file = vim.fn.tempname() .. '.verse'
  vim.fn.writefile(vim.api.nvim_buf_get_lines(0, 0, -1, true), file)
  local list = {}
  for _, f in ipairs(run('check', '-f', 'json', file).findings) do
    local column = vim.fn.byteidx(vim.fn.getline(f.line), f.column - 1)
    table.insert(list, ('%d:%d %s'):format(f.line - 1, column, f.code))
  end
  table.sort(list)
  return list
end

local function by_editor()
  local list = {}
  for _, d in ipairs(vim.diagnostic.get(0)) do
    table.insert(list, ('%d:%d %s'):format(d.lnum, d.col, d.code))
  end
  table.sort(list)
  return list
end

local function same(a, b) return table.concat(a, '\n') == table.concat(b, '\n') end

local function wait_for_findings(what)
  local want = by_command()
  vim.wait(10000, function() return same(want, by_editor()) end, 20)
  if not same(want, by_editor()) then
    fail(('%s: the command finds\n%s\nand the editor shows\n%s'):format(what, table.concat(want, '\n'), table.concat(by_editor(), '\n')))
  end
  return want
end

if vim.bo.filetype ~= 'verse' then fail('the file type is ' .. vim.bo.filetype) end
local client
wait_for('client', function()
  client = (vim.lsp.get_clients or vim.lsp.get_active_clients)()[1]
  return client and client.initialized
end)

local function ask(method, params)
  local replies = vim.lsp.buf_request_sync(0, method, params, 10000) or {}
  local reply = replies[client.id] or {}
  local err = reply.err or reply.error
  if err then fail(method .. ': ' .. vim.inspect(err)) end
  return reply.result
end

local function position(line, text)
  local start = vim.fn.getline(line):find(text, 1, true)
  if not start then fail(('no %q in line %d'):format(text, line)) end
  return { line = line - 1, character = vim.str_utfindex(vim.fn.getline(line), start - 1) }
end

local document = { uri = vim.uri_from_bufnr(0) }

-- 1. The findings stand where the command says.
local before = wait_for_findings('after opening')
if #before < 3 then fail('only ' .. #before .. ' findings in a manuscript with planted faults') end
say(('%d findings at the right lines and columns'):format(#before))

-- 2. A hover shows the feet that the command prints.
local scanned = run('scan', '-f', 'json', vim.fn.expand('%')).stanzas[1].lines[1]
local hover = ask('textDocument/hover', { textDocument = document, position = position(scanned.line, scanned.text) })
local text = hover and (type(hover.contents) == 'table' and hover.contents.value or hover.contents) or ''
local bare = text:gsub('[ \\]', '') -- however they are spaced
if not bare:find(scanned.feet, 1, true) then fail(('the hover of line %d lacks %s:\n%s'):format(scanned.line, scanned.feet, text)) end
say('the hover of line ' .. scanned.line .. ' shows ' .. scanned.feet)

-- 3. At the end of a line that lost its last word, its rhyme mate's rhymes are offered.
local line = vim.fn.getline(scanned.line + 1)
vim.fn.setline(scanned.line + 1, (line:gsub('%S+$', '')))
local list = ask('textDocument/completion', { textDocument = document, position = { line = scanned.line, character = vim.str_utfindex(vim.fn.getline(scanned.line + 1)) } })
local items = list and (list.items or list) or {}
if #items < 3 then fail('only ' .. #items .. ' rhymes offered at the end of line ' .. scanned.line + 1) end
local labels = {}
for i = 1, math.min(5, #items) do labels[i] = items[i].label end
say(('%d rhymes offered for the end of line %d: %s …'):format(#items, scanned.line + 1, table.concat(labels, ', ')))
vim.fn.setline(scanned.line + 1, line)
wait_for_findings('after the word came back')

-- 4. A fix that is taken makes its finding go.
-- Accepting a finding makes it go, too, but a fix that changes the line comes first.
local function fixable()
  local accepting
  for _, d in ipairs(vim.diagnostic.get(0)) do
    local range = { start = { line = d.lnum, character = vim.str_utfindex(vim.fn.getline(d.lnum + 1), d.col) } }
    range['end'] = range.start
    local found = ask('textDocument/codeAction', { textDocument = document, range = range, context = { diagnostics = {} } }) or {}
    for _, action in ipairs(found) do
      if (action.kind or ''):find('^quickfix') then
        if not action.title:find('^Accept') then return d, action end
        accepting = accepting or { d, action }
      end
    end
  end
  return unpack(accepting or {})
end
local finding, action = fixable()
if not finding then fail('no finding has a fix') end
-- The edit is made when the action is chosen.
if not action.edit then action = ask('codeAction/resolve', action) end
local gone = ('%d:%d %s'):format(finding.lnum, finding.col, finding.code)
vim.lsp.util.apply_workspace_edit(action.edit, client.offset_encoding)
local after = wait_for_findings('after a fix')
if vim.tbl_contains(after, gone) then fail(gone .. ' is still there after the fix ' .. action.title) end
say(('the fix %q makes %s go'):format(action.title, gone))

-- 5. Typing a line that keeps the meter makes its finding go; breaking one brings one.
local broken = vim.fn.getline(scanned.line)
vim.fn.setline(scanned.line, 'The clock chimed.')
local worse = wait_for_findings('after a line was broken')
if #worse <= #after then fail('a line of three syllables among tetrameters goes unmarked') end
vim.fn.setline(scanned.line, broken)
if not same(wait_for_findings('after the line was mended'), after) then fail('mending a line left something behind') end
say('a broken line is marked, and a mended one is not')

vim.cmd('set nomodified')
client.stop()
wait_for('end of the server', function() return client.is_stopped() end)
say('ok, in ' .. vim.fn.execute('version'):match('NVIM v[%d.]+'))
vim.cmd('qall!')
