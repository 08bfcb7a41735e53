package lsp

import (
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dandle/lsp/protocol317"
)

// scriptText has every part of a manuscript, marks outside the BMP, and lines
// that lose the meter. The verse is ours.
const scriptText = `---
title: The Owl Who Kept the Ferry
meter: iambic tetrameter
allow: [word/weak]
---
# The Owl Who Kept the Ferry

## Spread 1

The ferry waits beside the stone, [Owl in a cap 🦉, see sketch.png]
the river hums a silver tone,
and Owl is winding up the rope --
a very, very big tall hope.

> Does the second stanza need the moon?

## Spread 2

The moon rows over, soft and slow, <!-- dandle: allow meter/missing-beat -->
to where the willow branches grow;
O row me home, said Owl to the tide,
the night is long, the water wide.

The otter came with a lantern and a loaf,
the mole came last.
O row me home, said Owl to the tide,
‘tis late, and all the frogs have cried.
`

func clientFixtures(t *testing.T) map[string]json.RawMessage {
	t.Helper()
	files, err := filepath.Glob("testdata/initialize/*.json")
	if err != nil || len(files) < 5 {
		t.Fatalf("fixtures: %v %v", files, err)
	}
	out := map[string]json.RawMessage{}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		out[strings.TrimSuffix(filepath.Base(f), ".json")] = data
	}
	return out
}

// runScript goes through all that a server of 3.17 offers, as one client.
func runScript(t *testing.T, params json.RawMessage) *editor {
	t.Helper()
	folder := t.TempDir()
	for name, text := range map[string]string{
		"dandle.yaml":  "dialect: en-US\nseverities: { word/filler: hint }\nsurprise: 1\n",
		"other.verse":  "# Another\n\nThe kettle hums upon the hob,\nthe badger has a baker's job.\n",
		"sketch.png":   "",
		"ferry.verse":  scriptText,
		"notes.verse2": "none of ours",
	} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	root := "file://" + folder
	ferry := root + "/ferry.verse"
	var start map[string]any
	if err := json.Unmarshal(params, &start); err != nil {
		t.Fatal(err)
	}
	start["processId"] = os.Getpid()
	start["rootUri"] = root
	if start["workspaceFolders"] != nil {
		start["workspaceFolders"] = []any{map[string]any{"uri": root, "name": "manuscripts"}}
	}
	e := connect(t)
	e.answers["workspace/configuration"] = func(json.RawMessage) any {
		return []any{map[string]any{"inlayHints": map[string]any{"beats": true, "rhymes": true}}}
	}
	e.answers["workspace/applyEdit"] = func(json.RawMessage) any { return map[string]any{"applied": true} }
	var r protocol317.InitializeResult
	if err := json.Unmarshal(e.call("initialize", start), &r); err != nil {
		t.Fatal(err)
	}
	e.notify("initialized", map[string]any{})
	pulls := r.Capabilities.DiagnosticProvider != nil
	e.open(ferry, 1, scriptText)
	e.change(ferry, 2, map[string]any{"range": span(9, 0, 9, 0), "text": "😀 "}, map[string]any{"range": span(9, 0, 9, 3), "text": ""})
	if !pulls {
		e.published(ferry, 2)
	}
	doc := map[string]any{"textDocument": document0(ferry)}
	with := func(key string, value any) map[string]any {
		out := map[string]any{"textDocument": document0(ferry)}
		for k, v := range map[string]any{key: value} {
			out[k] = v
		}
		return out
	}
	for line := range 30 {
		position := map[string]any{"line": line, "character": 14}
		for _, method := range []string{"textDocument/hover", "textDocument/completion", "textDocument/documentHighlight", "textDocument/definition", "textDocument/prepareRename"} {
			e.call(method, with("position", position))
		}
		p := with("position", position)
		p["context"] = map[string]any{"includeDeclaration": line%2 == 0}
		e.call("textDocument/references", p)
	}
	// At the ends of lines, where rhymes are offered, each offer resolved.
	for _, line := range []int{10, 12, 18} {
		list := callInto[struct{ Items []json.RawMessage }](e, "textDocument/completion", with("position", map[string]any{"line": line, "character": 200}))
		for _, item := range list.Items[:min(3, len(list.Items))] {
			e.call("completionItem/resolve", item)
		}
	}
	for _, position := range []map[string]any{{"line": 1, "character": 0}, {"line": 2, "character": 8}} {
		e.call("textDocument/completion", with("position", position))
	}
	whole := span(0, 0, 99, 0)
	actions := with("range", whole)
	actions["context"] = map[string]any{"diagnostics": []any{}}
	for _, action := range callInto[[]map[string]any](e, "textDocument/codeAction", actions) {
		if action["data"] != nil {
			e.call("codeAction/resolve", action)
		}
	}
	for _, method := range []string{"documentSymbol", "foldingRange", "codeLens", "documentLink", "semanticTokens/full"} {
		e.call("textDocument/"+method, doc)
	}
	e.call("textDocument/inlayHint", with("range", whole))
	e.call("textDocument/semanticTokens/range", with("range", span(9, 0, 12, 0)))
	tokens := callInto[protocol317.SemanticTokens](e, "textDocument/semanticTokens/full", doc)
	e.call("textDocument/semanticTokens/full/delta", with("previousResultId", tokens.ResultID))
	e.call("textDocument/selectionRange", with("positions", []any{map[string]any{"line": 10, "character": 5}, map[string]any{"line": 0, "character": 0}}))
	options := map[string]any{"tabSize": 4, "insertSpaces": true}
	e.call("textDocument/formatting", with("options", options))
	format := with("options", options)
	format["range"] = whole
	e.call("textDocument/rangeFormatting", format)
	rename := with("position", map[string]any{"line": 11, "character": 5})
	rename["newName"] = "Bartholomew"
	e.call("textDocument/rename", rename)
	e.call("workspace/symbol", map[string]any{"query": "moon", "workDoneToken": "looking"})
	if pulls {
		report := callInto[struct{ ResultID string }](e, "textDocument/diagnostic", doc)
		e.call("textDocument/diagnostic", with("previousResultId", report.ResultID))
		e.call("workspace/diagnostic", map[string]any{"previousResultIds": []any{map[string]any{"uri": ferry, "value": report.ResultID}}, "workDoneToken": 7})
	}
	for _, c := range [][]any{{commandExplain, "meter/missing-beat"}, {commandScan, ferry}, {commandScan, ferry, 1}, {commandCritique, ferry}, {commandCompare, ferry}} {
		e.call("workspace/executeCommand", map[string]any{"command": c[0], "arguments": c[1:]})
	}
	if applies, _ := start["capabilities"].(map[string]any)["workspace"].(map[string]any)["applyEdit"].(bool); applies {
		e.call("workspace/executeCommand", map[string]any{"command": commandTeach, "arguments": []any{ferry, "Oban", "OH-bn"}})
	}
	e.notify("textDocument/didSave", doc)
	e.notify("workspace/didChangeConfiguration", map[string]any{"settings": map[string]any{"dandle": map[string]any{"dialect": "en-GB", "ages": 7}}})
	e.notify("workspace/didChangeConfiguration", map[string]any{"settings": map[string]any{"dandle": map[string]any{"dialect": "en-XX"}}})
	e.notify("workspace/didChangeWatchedFiles", map[string]any{"changes": []any{map[string]any{"uri": root + "/dandle.yaml", "type": 2}}})
	e.notify("workspace/didChangeWorkspaceFolders", map[string]any{"event": map[string]any{"added": []any{}, "removed": []any{}}})
	e.notify("textDocument/didClose", doc)
	if !pulls {
		e.await(0, "the findings taken back", func(p passed) bool {
			return p.Method == "textDocument/publishDiagnostics" && compact(t, p.Params) == `{"uri":"`+ferry+`","diagnostics":[]}`
		})
	}
	e.shutdown()
	return e
}

// Every message of a full session is what the specification describes, and
// nothing that is not in it, for the initialize parameters of real clients. The
// sessions leave out no request that the server serves.
func TestConformance(t *testing.T) {
	model, err := loadMetaModel()
	if err != nil {
		t.Fatal(err)
	}
	asked, sessions := map[string]bool{}, 0
	clients := clientFixtures(t)
	for name, params := range clients {
		t.Run(name, func(t *testing.T) {
			e := runScript(t, params)
			e.mu.Lock()
			defer e.mu.Unlock()
			l := ledger{t: t, model: model, open: map[string]metaMessage{}, methods: map[string]bool{}}
			for _, p := range e.log {
				l.enter(p)
			}
			if len(l.open) > 0 {
				t.Errorf("never answered: %v", l.open)
			}
			maps.Copy(asked, l.methods)
			sessions++
			t.Logf("%s: %d messages from the client and %d from the server, %d methods; %d params and %d results held against the specification",
				name, l.client, l.server, len(l.methods), l.params, l.results)
			if l.client < 200 || l.server < 200 {
				t.Error("too few messages to say anything")
			}
		})
	}
	for method := range routes {
		if sessions == len(clients) && !asked[method] { // else only some were chosen
			t.Errorf("no session asks %s", method)
		}
	}
}

// A ledger holds the messages of a session against the specification.
type ledger struct {
	t       *testing.T
	model   *metaModel
	open    map[string]metaMessage // requests without an answer yet, by side and id
	methods map[string]bool        // that have passed

	client, server, params, results int
}

func (l *ledger) enter(p passed) {
	side, other := "client ", "server "
	l.client++
	if p.fromServer {
		side, other = other, side
		l.client--
		l.server++
	}
	var whole map[string]any
	if err := json.Unmarshal(p.raw, &whole); err != nil {
		l.t.Fatal(err)
	}
	if whole["jsonrpc"] != "2.0" {
		l.t.Errorf("%s", p.raw)
	}
	if p.Method == "" {
		l.answer(p, other+string(p.ID), whole)
		return
	}
	l.methods[p.Method] = true
	message, known := l.model.notification(p.Method)
	if p.ID != nil {
		message, known = l.model.request(p.Method)
		l.open[side+string(p.ID)] = message
	}
	switch {
	case !known || message.Since == "3.18.0":
		l.t.Errorf("%sdoes not say %q in 3.17", side, p.Method)
	case message.Params == nil:
		if whole["params"] != nil {
			l.t.Errorf("%s has no params: %.200s", p.Method, p.raw)
		}
	default:
		l.params++
		if err := l.model.check(p.Method, *message.Params, whole["params"], p.fromServer); err != nil {
			l.t.Errorf("%v\nin %.300s", err, p.raw)
		}
	}
}

// answer enters an answer to the request that stands open under a key.
func (l *ledger) answer(p passed, key string, whole map[string]any) {
	message, known := l.open[key]
	delete(l.open, key)
	result, given := whole["result"]
	if p.Error != nil || !given || !known {
		l.t.Errorf("answer without result, or to nothing: %.200s", p.raw)
		return
	}
	l.results++
	if err := l.model.check(message.Method+" result", *message.Result, result, p.fromServer); err != nil {
		l.t.Errorf("%v\nin %.300s", err, p.raw)
	}
}

// The validator is worth nothing if it lets faults pass.
func TestValidatorRefuses(t *testing.T) {
	model, err := loadMetaModel()
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct{ structure, value string }{
		{"PublishDiagnosticsParams", `{"uri":"file:///a","diagnostics":null}`},
		{"PublishDiagnosticsParams", `{"diagnostics":[]}`},
		{"Position", `{"line":-1,"character":0}`},
		{"Position", `{"line":0.5,"character":0}`},
		{"Position", `{"line":0,"character":0,"column":1}`},
		{"Diagnostic", `{"range":{"start":{"line":0,"character":0},"end":{"line":0,"character":0}},"message":"x","severity":9}`},
		{"Hover", `{"contents":{"kind":"html","value":""}}`},
		{"CompletionItem", `{"label":3}`},
		{"InlayHint", `{"position":{"line":0,"character":0}}`},
	} {
		var value any
		if err := json.Unmarshal([]byte(test.value), &value); err != nil {
			t.Fatal(err)
		}
		if model.check("", metaType{Kind: "reference", Name: test.structure}, value, true) == nil {
			t.Errorf("%s: let %s pass", test.structure, test.value)
		}
	}
}

// What each client is offered follows from what it says it can do.
func TestOffersByClient(t *testing.T) {
	for name, params := range clientFixtures(t) {
		var p protocol317.InitializeParams
		if err := json.Unmarshal(params, &p); err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		c := newClient(p)
		caps := capabilities(c)
		vscode := strings.HasPrefix(name, "vscode")
		plain := strings.HasPrefix(name, "vim") || strings.HasPrefix(name, "emacs")
		positions := protocol317.UTF16
		if strings.HasPrefix(name, "vim") {
			positions = protocol317.UTF8 // which our set-up asks for
		}
		if c.encoding != positions || caps.PositionEncoding != positions {
			t.Errorf("%s: positions in %s", name, caps.PositionEncoding)
		}
		if (caps.DiagnosticProvider != nil) != vscode {
			t.Errorf("%s: pulled diagnostics offered: %v", name, caps.DiagnosticProvider != nil)
		}
		if (c.hoverFormat() == "plaintext") != plain {
			t.Errorf("%s: hover as %s", name, c.hoverFormat())
		}
		if c.resolves("edit") != (vscode || strings.HasPrefix(name, "neovim")) {
			t.Errorf("%s: code actions resolved later: %v", name, c.resolves("edit"))
		}
	}
}
