-- Asks a language server, through Neovim's own client, for what an editor other than VS Code would ask:
-- diagnostics as they are published, then hover and completion at given places.
--
--   CHECK_REQUEST=request.json nvim --headless --clean -u NONE -c 'luafile check.lua'
--
-- request.json: { "cmd": [...], "root": path, "file": path, "hover": place, "completion": place },
-- a place being { "line": n, "character": n }, 0-based, in UTF-16 code units.
-- Prints one line of JSON: { "server", "diagnostics", "hover", "completion" }, the last three as the server sent
-- them. Ends with code 0, or with 1 and a sentence on standard error when something did not answer.

local ANSWER_TIMEOUT = 15000

local function read(path)
  local file = assert(io.open(path, "r"))
  local text = file:read("*a")
  file:close()
  return text
end

local function main()
  local request = vim.json.decode(read(assert(vim.env.CHECK_REQUEST, "CHECK_REQUEST is not set")))
  local uri = vim.uri_from_fname(request.file)
  local published

  vim.cmd("edit " .. vim.fn.fnameescape(request.file))
  local buffer = vim.api.nvim_get_current_buf()
  -- Without a configuration nothing detects the file type, and the client would send an empty languageId.
  vim.bo[buffer].filetype = "markdown"

  local exited
  local client_id = vim.lsp.start_client({
    name = "mendlog",
    cmd = request.cmd,
    root_dir = request.root,
    workspace_folders = { { uri = vim.uri_from_fname(request.root), name = "bench" } },
    handlers = {
      ["textDocument/publishDiagnostics"] = function(_, result)
        if result and result.uri == uri then
          published = result.diagnostics
        end
      end,
    },
    on_exit = function(code)
      exited = code
    end,
  })
  assert(client_id, "the server could not be started: " .. table.concat(request.cmd, " "))
  vim.lsp.buf_attach_client(buffer, client_id)

  local client
  local started = vim.wait(ANSWER_TIMEOUT, function()
    client = vim.lsp.get_client_by_id(client_id)
    return exited ~= nil or (client ~= nil and client.initialized == true)
  end, 20)
  assert(started and exited == nil, "the server did not answer initialize (exit code " .. tostring(exited) .. ")")

  local arrived = vim.wait(ANSWER_TIMEOUT, function()
    return published ~= nil and #published > 0
  end, 20)
  assert(arrived, published and "the server published an empty list only" or "no diagnostics were published")

  local function ask(method, place)
    local params = { textDocument = { uri = uri }, position = place }
    local answer, failure = client.request_sync(method, params, ANSWER_TIMEOUT, buffer)
    assert(answer, method .. ": " .. tostring(failure))
    assert(not answer.err, method .. ": " .. vim.inspect(answer.err))
    assert(answer.result ~= nil and answer.result ~= vim.NIL, method .. " answered null")
    return answer.result
  end

  local hover = ask("textDocument/hover", request.hover)
  local completion = ask("textDocument/completion", request.completion)

  client.stop()
  vim.wait(ANSWER_TIMEOUT, function()
    return exited ~= nil
  end, 20)
  assert(exited == 0, "after shutdown the server ended with " .. tostring(exited))

  io.stdout:write(vim.json.encode({
    server = client.server_capabilities,
    diagnostics = published,
    hover = hover,
    completion = completion,
  }) .. "\n")
end

local fine, failure = pcall(main)
if fine then
  vim.cmd("qall!")
else
  io.stderr:write(tostring(failure) .. "\n")
  vim.cmd("cquit 1")
end
