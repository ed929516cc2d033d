-- Works in a log as a person at Neovim does, with the set-up of a clean configuration: quick fix, rename, formatting,
-- references, signature help and a command of the server that the set-up gives a name. Every edit is made by Neovim itself.
--
-- Run in the log's buffer. Prints one line of JSON, { step = what was seen }; ends with code 0, or with 1 and a sentence.

local PATIENCE = 15000

local function await(what, look)
  local seen
  local there = vim.wait(PATIENCE, function()
    seen = look()
    return seen
  end, 20)
  assert(there, what .. " did not come")
  return seen
end

local function main()
  local buffer = vim.api.nvim_get_current_buf()
  local uri = vim.uri_from_bufnr(buffer)
  local client = await("the server", function()
    for _, one in pairs(vim.lsp.buf_get_clients(buffer)) do
      return one.initialized and one
    end
  end)

  local function text(of)
    return table.concat(vim.api.nvim_buf_get_lines(of or buffer, 0, -1, false), "\n")
  end
  -- 0-based; `into` characters into the words.
  local function place(words, into)
    for n, line in ipairs(vim.api.nvim_buf_get_lines(buffer, 0, -1, false)) do
      local at = line:find(words, 1, true)
      if at then
        return { line = n - 1, character = at - 1 + (into or 0) }
      end
    end
    error(words .. " is not in the log")
  end
  local function go(words, into)
    local at = place(words, into)
    vim.api.nvim_win_set_cursor(0, { at.line + 1, at.character })
    return { textDocument = { uri = uri }, position = at }
  end
  local function ask(method, params)
    local answer, failure = client.request_sync(method, params, PATIENCE, buffer)
    assert(answer, method .. ": " .. tostring(failure))
    assert(not answer.err, method .. ": " .. vim.inspect(answer.err))
    return answer.result
  end
  local function found(code)
    for _, one in ipairs(vim.diagnostic.get(buffer)) do
      if one.code == code or (one.user_data and one.user_data.lsp and one.user_data.lsp.code == code) then
        return one
      end
    end
  end

  local seen = {}
  await("the finding", function()
    return found("unreadable-value")
  end)
  seen.findings = #vim.diagnostic.get(buffer)

  -- As vim.lsp.buf.code_action does, without its menu.
  local at = place("O.58")
  local range = { start = at, ["end"] = at }
  local actions = ask("textDocument/codeAction", {
    textDocument = { uri = uri },
    range = range,
    context = { diagnostics = vim.lsp.diagnostic.get_line_diagnostics(buffer, at.line) },
  })
  for _, action in ipairs(actions) do
    if action.kind == "quickfix" and not seen.fix then
      seen.fix = action.title
      vim.lsp.util.apply_workspace_edit(action.edit, client.offset_encoding)
    end
  end
  seen.fixed = text()
  await("the end of the finding", function()
    return not found("unreadable-value")
  end)

  go("U14", 1)
  local references = ask("textDocument/references", vim.tbl_extend("force", go("U14", 1), {
    context = { includeDeclaration = true },
  }))
  seen.references = #references
  local help = ask("textDocument/signatureHelp", go("0.58"))
  seen.signature = help.signatures[1].label

  go("U14", 1)
  vim.lsp.buf.rename("U77")
  await("the new name", function()
    return text():find("U77", 1, true) and not text():find("U14", 1, true)
  end)
  seen.renamed = text()
  for _, other in ipairs(vim.api.nvim_list_bufs()) do
    if vim.api.nvim_buf_get_name(other):find("board.yaml", 1, true) then
      seen.board = text(other)
    end
  end

  vim.api.nvim_buf_set_text(buffer, place("| 1.42").line, 0, place("| 1.42").line, 1, { "|   " })
  seen.ragged = text()
  vim.lsp.buf.formatting_sync({}, PATIENCE)
  seen.formatted = text()

  -- Neovim tells of the board file's new name a moment after it is there; until then its part is not known.
  local function written()
    return text():find("## Suspects", 1, true)
  end
  await("the suspects", function()
    vim.cmd("MendlogSuspects")
    return vim.wait(500, written, 20)
  end)
  seen.written = text()

  io.stdout:write(vim.json.encode(seen) .. "\n")
end

local fine, failure = pcall(main)
if fine then
  vim.cmd("qall!")
else
  io.stderr:write(tostring(failure) .. "\n")
  vim.cmd("cquit 1")
end
