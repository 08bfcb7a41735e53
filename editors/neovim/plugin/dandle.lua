-- Starts dandle for manuscripts of verse. Works from Neovim 0.7 on.
--
-- Settings, before this file is read (in init.lua):
--   vim.g.dandle_command = { 'dandle', 'serve' }   how to start the server
--   vim.g.dandle_settings = { dialect = 'en-GB' }   as editors/README.md lists them
if vim.g.loaded_dandle then return end
vim.g.loaded_dandle = true

-- The folder whose house rules hold: the nearest with dandle.yaml upwards,
-- else the manuscript's own.
local function root(file)
  local folder = vim.fn.fnamemodify(file, ':p:h')
  local rules = vim.fn.findfile('dandle.yaml', vim.fn.escape(folder, ' ,;') .. ';')
  if rules ~= '' then return vim.fn.fnamemodify(rules, ':p:h') end
  return folder
end

-- Keys for what Neovim has none of its own for in old releases. A key that
-- is taken stays as it is.
local function keys(buffer)
  local function set(key, action)
    if vim.fn.mapcheck(key, 'n') == '' then
      vim.keymap.set('n', key, action, { buffer = buffer })
    end
  end
  set('K', vim.lsp.buf.hover)
  set('gra', vim.lsp.buf.code_action) -- Neovim's own from 0.11
  set('gl', vim.diagnostic.open_float)
end

local clients = {} -- by root, for Neovim 0.7

local function start(event)
  local config = {
    name = 'dandle',
    cmd = vim.g.dandle_command or { 'dandle', 'serve' },
    root_dir = root(event.file),
    init_options = vim.g.dandle_settings,
    on_attach = function(_, buffer)
      vim.bo[buffer].omnifunc = 'v:lua.vim.lsp.omnifunc'
      keys(buffer)
    end,
    -- Verse is read line by line: a finding moves as soon as a word does.
    flags = { debounce_text_changes = 150 },
  }
  if vim.fn.executable(config.cmd[1]) == 0 then
    vim.notify_once('dandle: the program ' .. config.cmd[1] .. ' is not on the PATH; set vim.g.dandle_command', vim.log.levels.WARN)
    return
  end
  if vim.lsp.start then -- from 0.8: one server for all manuscripts of a root
    vim.lsp.start(config, { bufnr = event.buf })
    return
  end
  local id = clients[config.root_dir]
  if not id or not vim.lsp.get_client_by_id(id) then
    id = vim.lsp.start_client(config)
    clients[config.root_dir] = id
  end
  if id then vim.lsp.buf_attach_client(event.buf, id) end
end

vim.api.nvim_create_autocmd('FileType', { pattern = 'verse', callback = start })
