-- Neovim's built-in client on our server: opens the file, waits for findings, asks a few things, writes what it got.
local output = assert(os.getenv('CARDWRIGHT_OUTPUT'))
local buffer = vim.api.nvim_get_current_buf()
vim.bo[buffer].filetype = 'cardwright'

local id = vim.lsp.start_client({
  name = 'cardwright',
  cmd = { os.getenv('CARDWRIGHT_NODE'), os.getenv('CARDWRIGHT_SERVER'), '--stdio' },
  root_dir = vim.fn.getcwd(),
})
vim.lsp.buf_attach_client(buffer, id)

local function wait_for(what)
  return vim.wait(20000, what, 50)
end

local function codes()
  local found = {}
  for _, one in ipairs(vim.diagnostic.get(buffer)) do
    table.insert(found, one.code or one.user_data.lsp.code)
  end
  return found
end

local function cursor_on(text)
  vim.fn.cursor(1, 1)
  vim.fn.search('\\V' .. text)
end

local function ask(method, more)
  local params = vim.tbl_extend('force', vim.lsp.util.make_position_params(), more or {})
  local answers = vim.lsp.buf_request_sync(buffer, method, params, 20000) or {}
  return answers[id] and answers[id].result or vim.NIL
end

local result = {}
result.appeared = wait_for(function() return #codes() > 0 end)
result.before = codes()

cursor_on('the-cover removed')
result.hover = ask('textDocument/hover')
result.definition = ask('textDocument/definition')
result.symbols = ask('textDocument/documentSymbol')

cursor_on('set the-cover removed')
local range = vim.lsp.util.make_range_params()
range.context = { diagnostics = {} }
local actions = vim.lsp.buf_request_sync(buffer, 'textDocument/codeAction', range, 20000)[id].result
result.fix = actions[1].title
vim.lsp.util.apply_workspace_edit(actions[1].edit, 'utf-16')
result.mended = wait_for(function() return #codes() == 0 end)

cursor_on('drain open')
local renamed = ask('textDocument/rename', { newName = 'outlet' })
vim.lsp.util.apply_workspace_edit(renamed, 'utf-16')
result.text = table.concat(vim.api.nvim_buf_get_lines(buffer, 0, -1, false), '\n')

local file = assert(io.open(output, 'w'))
file:write(vim.json and vim.json.encode(result) or vim.fn.json_encode(result))
file:close()
vim.lsp.stop_client(id)
vim.cmd('qall!')
