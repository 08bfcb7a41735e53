package lsp

import (
	"context"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dandle/lsp/protocol317"

	"github.com/google/go-cmp/cmp"
	"go.lsp.dev/uri"
)

// An answer that would change the text is withheld when the text has changed
// while it was worked out.
func TestEditsForAnOldVersionAreWithheld(t *testing.T) {
	s := newServer(t.Context(), nil, newStream(strings.NewReader(""), nil), newLogger(Config{}, nil), Config{}, func() {})
	s.workspace.install(demo, "verse", 1, newMapper("The lamp went out.", protocol317.UTF16))
	meanwhile := func() {}
	r := route(func(*server, json.RawMessage) (work, error) {
		return func(context.Context) (any, error) { meanwhile(); return "edits", nil }, nil
	}).orStale()
	ask := func() (any, error) {
		job, err := r(s, json.RawMessage(`{"textDocument":{"uri":"`+demo+`"}}`))
		if err != nil {
			t.Fatal(err)
		}
		return job(t.Context())
	}
	if got, err := ask(); got != "edits" || err != nil {
		t.Errorf("unchanged: %v, %v", got, err)
	}
	meanwhile = func() { s.workspace.reread() }
	if got, err := ask(); got != "edits" || err != nil {
		t.Errorf("other rules, same text: %v, %v", got, err)
	}
	meanwhile = func() {
		_, _ = s.workspace.update(demo, func(d *document) (*document, error) { return d.apply([]change{{Text: "x"}}, 2) })
	}
	if _, err := ask(); err != errStale { //nolint:errorlint // the value itself goes out
		t.Errorf("changed: %v", err)
	}
	meanwhile = func() { s.workspace.remove(demo) }
	if _, err := ask(); err != errStale { //nolint:errorlint // the value itself goes out
		t.Errorf("closed: %v", err)
	}
}

// Deltas lead from what the client has to what it would get fresh (LSP 3.17,
// "Requesting semantic token delta for a whole file").
func TestTokenDeltas(t *testing.T) {
	e := connect(t)
	e.initialize(`{}`)
	doc := map[string]any{"textDocument": document0(demo)}
	m := model(encodeUTF16(scriptText))
	e.open(demo, 0, m.String())
	have := callInto[protocol317.SemanticTokens](e, "textDocument/semanticTokens/full", doc)
	r := rand.New(rand.NewPCG(7, 7))
	for v := 1; v <= 30; v++ {
		var changes []change
		changes, m = randomChanges(r, m)
		e.notify("textDocument/didChange", protocol317.DidChangeTextDocumentParams{
			TextDocument: protocol317.VersionedTextDocumentIdentifier{URI: demo, Version: int32(v)}, ContentChanges: changes,
		})
		delta := callInto[protocol317.SemanticTokensDelta](e, "textDocument/semanticTokens/full/delta", map[string]any{
			"textDocument": document0(demo), "previousResultId": have.ResultID,
		})
		for _, edit := range delta.Edits {
			have.Data = slices.Concat(have.Data[:edit.Start], edit.Data, have.Data[edit.Start+edit.DeleteCount:])
		}
		fresh := callInto[protocol317.SemanticTokens](e, "textDocument/semanticTokens/full", doc)
		if diff := cmp.Diff(fresh.Data, append([]uint32{}, have.Data...)); diff != "" {
			t.Fatalf("version %d: (-fresh +delta)\n%s", v, diff)
		}
		have = fresh
	}
	e.shutdown()
}

const guilty = "And the very old ladder went up to the light\nWhere the goat had been polishing glass the whole night.\n"

// codes waits for the first publication after a place in the log that holds as
// many findings as wanted.
func (e *editor) findings(after int, uri string, want int) int {
	e.t.Helper()
	_, next := e.await(after, fmt.Sprintf("%d findings", want), func(p passed) bool {
		var got protocol317.PublishDiagnosticsParams
		return p.Method == "textDocument/publishDiagnostics" && json.Unmarshal(p.Params, &got) == nil &&
			string(got.URI) == uri && len(got.Diagnostics) == want
	})
	return next
}

// Rules come from initializationOptions, from the settings, pulled or pushed, and
// from dandle.yaml; a change of any is heard at once.
func TestSettingsAndHouseRules(t *testing.T) {
	folder := t.TempDir()
	rules := filepath.Join(folder, "dandle.yaml")
	write := func(text string) {
		t.Helper()
		if err := os.WriteFile(rules, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	root := "file://" + folder
	book := root + "/chapter/book.verse"
	changed := map[string]any{"changes": []any{map[string]any{"uri": root + "/dandle.yaml", "type": 2}}}

	t.Run("pushed", func(t *testing.T) {
		write("allow: [word/filler]\n")
		e := connect(t)
		e.call("initialize", map[string]any{
			"processId": nil, "rootUri": root, "capabilities": map[string]any{},
			"initializationOptions": map[string]any{"inlayHints": map[string]any{"rhymes": false}},
		})
		e.notify("initialized", map[string]any{})
		e.open(book, 1, guilty)
		next := e.findings(0, book, 0)
		hints := map[string]any{"textDocument": document0(book), "range": span(0, 0, 9, 0)}
		if got := callInto[[]protocol317.InlayHint](e, "textDocument/inlayHint", hints); got[0].Label != "4" {
			t.Errorf("hint %q, want beats alone", got[0].Label)
		}
		write("")
		e.notify("workspace/didChangeWatchedFiles", changed)
		next = e.findings(next, book, 1)
		e.notify("workspace/didChangeConfiguration", map[string]any{"settings": map[string]any{"dandle": map[string]any{"severities": map[string]any{"word": "off"}, "codeLens": false}}})
		next = e.findings(next, book, 0)
		if got := callInto[[]protocol317.CodeLens](e, "textDocument/codeLens", hints); len(got) != 0 {
			t.Errorf("lenses %v, want none", got)
		}
		e.notify("workspace/didChangeConfiguration", map[string]any{"settings": nil})
		e.findings(next, book, 1)
		e.shutdown()
	})
	t.Run("pulled", func(t *testing.T) {
		write("")
		e := connect(t)
		settings := make(chan any, 8)
		settings <- map[string]any{"allow": []any{"word/filler"}}
		settings <- nil
		e.answers["workspace/configuration"] = func(json.RawMessage) any { return []any{<-settings} }
		e.call("initialize", map[string]any{
			"processId": nil, "rootUri": root,
			"capabilities": map[string]any{"workspace": map[string]any{"configuration": true, "didChangeConfiguration": map[string]any{"dynamicRegistration": true}}},
		})
		e.open(book, 1, guilty)
		next := e.findings(0, book, 1)
		e.notify("initialized", map[string]any{})
		next = e.findings(next, book, 0)
		e.await(0, "registration", func(p passed) bool { return p.Method == "client/registerCapability" })
		settings <- map[string]any{"allow": []any{}}
		e.notify("workspace/didChangeConfiguration", map[string]any{"settings": nil}) // null: what held holds on
		e.notify("workspace/didChangeConfiguration", map[string]any{"settings": nil})
		e.findings(next, book, 1)
		e.shutdown()
	})
	t.Run("faults in dandle.yaml are shown in it", func(t *testing.T) {
		write("severities: { word/filler: loud }\n")
		e := connect(t)
		e.call("initialize", map[string]any{"processId": nil, "rootUri": root, "capabilities": map[string]any{}})
		e.notify("initialized", map[string]any{})
		e.open(book, 1, guilty)
		e.notify("workspace/didChangeWatchedFiles", changed)
		next := e.findings(0, root+"/dandle.yaml", 1)
		write("severities: { word/filler: hint }\n")
		e.notify("workspace/didChangeWatchedFiles", changed)
		e.findings(next, root+"/dandle.yaml", 0)
		e.shutdown()
	})
	t.Run("settings that cannot be read are told", func(t *testing.T) {
		e := connect(t)
		e.initialize(`{}`)
		e.notify("workspace/didChangeConfiguration", map[string]any{"settings": map[string]any{"dandle": map[string]any{"dialect": "moonish"}}})
		e.await(0, "a message that names it", func(p passed) bool {
			return p.Method == "window/showMessage" && strings.Contains(string(p.Params), "moonish")
		})
		e.shutdown()
	})
}

// folderOf makes a folder of so many short manuscripts.
func folderOf(t *testing.T, manuscripts int) string {
	t.Helper()
	folder := t.TempDir()
	for i := range manuscripts {
		if err := os.WriteFile(filepath.Join(folder, fmt.Sprintf("%d.verse", i)), []byte("# Moon\n\nThe moon rows over, soft and slow.\n"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return folder
}

// progressKinds are the reports under each token, in order.
func (e *editor) progressKinds() map[string][]string {
	e.mu.Lock()
	defer e.mu.Unlock()
	kinds := map[string][]string{}
	for _, p := range e.log {
		var progress struct {
			Token string
			Value struct{ Kind string }
		}
		if p.fromServer && p.Method == "$/progress" && json.Unmarshal(p.Params, &progress) == nil {
			kinds[progress.Token] = append(kinds[progress.Token], progress.Value.Kind)
		}
	}
	return kinds
}

// Progress is told under the token that the client gave, and can be cancelled.
func TestProgress(t *testing.T) {
	e := connect(t)
	e.call("initialize", map[string]any{"processId": nil, "rootUri": "file://" + folderOf(t, 5), "capabilities": map[string]any{}})
	e.notify("initialized", map[string]any{})
	found := callInto[[]protocol317.SymbolInformation](e, "workspace/symbol", map[string]any{"query": "MOON", "workDoneToken": "t"})
	if len(found) != 10 { // the title and the stanza of each
		t.Errorf("found %d symbols, want 10", len(found))
	}
	if kinds := e.progressKinds()["t"]; len(kinds) != 7 || kinds[0] != "begin" || kinds[6] != "end" {
		t.Errorf("progress %v", kinds)
	}
	e.notify("window/workDoneProgress/cancel", map[string]any{"token": "t"}) // too late, and no harm
	e.shutdown()
}

// Long work that the client gave no token for is told under one of the server's
// own, to clients that show such (LSP 3.17, "Server Initiated Progress"); the
// same work once more is short, and not told.
func TestProgressOfTheServersOwn(t *testing.T) {
	for _, shows := range []bool{true, false} {
		e := connect(t)
		e.call("initialize", map[string]any{"processId": nil, "rootUri": "file://" + folderOf(t, longErrand), "capabilities": map[string]any{
			"window": map[string]any{"workDoneProgress": shows},
		}})
		e.notify("initialized", map[string]any{})
		want := 0
		if shows {
			want = 1
		}
		for range 2 {
			e.call("workspace/symbol", map[string]any{"query": "moon"})
			if kinds := e.progressKinds(); len(kinds) != want {
				t.Errorf("window.workDoneProgress %v: progress %v", shows, kinds)
			}
		}
		e.mu.Lock()
		asked := slices.ContainsFunc(e.log, func(p passed) bool { return p.Method == "window/workDoneProgress/create" })
		e.mu.Unlock()
		if asked != shows {
			t.Errorf("window.workDoneProgress %v: asked for a token: %v", shows, asked)
		}
		e.shutdown()
	}
}

// What is taught is written as a writer would write it, and heard from then on.
func TestTeach(t *testing.T) {
	for _, test := range []struct{ name, text, want string }{
		{"no front matter", "The lamp.\n", "---\npronounce: { \"Oban\": \"OH-bn\" }\n---\n\nThe lamp.\n"},
		{"front matter", "---\ntitle: x\n---\nThe lamp.\n", "---\npronounce: { \"Oban\": \"OH-bn\" }\ntitle: x\n---\nThe lamp.\n"},
		{"taught words in braces", "---\npronounce: { Skye: \"SKY\" }\n---\n", "---\npronounce: { \"Oban\": \"OH-bn\", Skye: \"SKY\" }\n---\n"},
		{"no taught words yet", "---\npronounce: {}\n---\n", "---\npronounce: { \"Oban\": \"OH-bn\" }\n---\n"},
		{"taught words on lines", "---\r\npronounce:\r\n  Skye: SKY\r\n---\r\n", "---\r\npronounce:\r\n  \"Oban\": \"OH-bn\"\r\n  Skye: SKY\r\n---\r\n"},
	} {
		t.Run(test.name, func(t *testing.T) {
			v := view{document: openText(test.text, protocol317.UTF16)}
			edit := v.teaching("Oban", "OH-bn")
			got := test.text[:edit.Span.Start] + edit.Text + test.text[edit.Span.End:]
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
			m := openText(got, protocol317.UTF16).snapshot().Manuscript()
			if m.Front.Pronounce["oban"] != "OH-bn" || len(m.Problems) > 0 {
				t.Errorf("read back as %v, %v", m.Front.Pronounce, m.Problems)
			}
		})
	}
}

func TestAllowThroughout(t *testing.T) {
	for _, test := range []struct{ name, text, want string }{
		{"no front matter", "The lamp.\n", "---\nallow: [word/weak]\n---\n\nThe lamp.\n"},
		{"a byte order mark", "\ufeffThe lamp.\n", "\ufeff---\nallow: [word/weak]\n---\n\nThe lamp.\n"},
		{"front matter", "---\ntitle: x\n---\n", "---\nallow: [word/weak]\ntitle: x\n---\n"},
		{"a list in brackets", "---\nallow: [meter]\n---\n", "---\nallow: [word/weak,meter]\n---\n"},
		{"an empty list", "---\nallow: []\n---\n", "---\nallow: [word/weak]\n---\n"},
		{"a list on lines", "---\nallow:\n  - meter\n---\n", "---\nallow:\n  - word/weak\n  - meter\n---\n"},
		{"one code alone", "---\nallow: meter\n---\n", "---\nallow: [meter, word/weak]\n---\n"},
	} {
		t.Run(test.name, func(t *testing.T) {
			v := view{document: openText(test.text, protocol317.UTF16)}
			edit := v.allowThroughout("word/weak")
			got := test.text[:edit.Span.Start] + edit.Text + test.text[edit.Span.End:]
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
			m := openText(got, protocol317.UTF16).snapshot().Manuscript()
			if !slices.Contains(m.Front.Allow, "word/weak") || len(m.Problems) > 0 {
				t.Errorf("read back as %v, %v", m.Front.Allow, m.Problems)
			}
		})
	}
}

func TestTeachThroughTheClient(t *testing.T) {
	e := connect(t)
	applied := make(chan json.RawMessage, 1)
	e.answers["workspace/applyEdit"] = func(p json.RawMessage) any {
		applied <- p
		return map[string]any{"applied": true}
	}
	e.initialize(`{"workspace":{"applyEdit":true}}`)
	e.open(demo, 1, "The boat for Oban left at ten.\n")
	e.call("workspace/executeCommand", map[string]any{"command": commandTeach, "arguments": []any{demo, "Oban", "OH-bn"}})
	if got := string(<-applied); !strings.Contains(got, `OH-bn`) {
		t.Errorf("applied %s", got)
	}
	e.answers["workspace/applyEdit"] = func(json.RawMessage) any {
		return map[string]any{"applied": false, "failureReason": "read only"}
	}
	e.refused(-32803, "workspace/executeCommand", map[string]any{"command": commandTeach, "arguments": []any{demo, "Oban", "OH-bn"}})
	e.shutdown()
}

func TestCompareWithTheSavedManuscript(t *testing.T) {
	folder := t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, "a.verse"), []byte(guilty), 0o600); err != nil {
		t.Fatal(err)
	}
	u := "file://" + folder + "/a.verse"
	e := connect(t)
	e.initialize(`{}`)
	e.open(u, 1, guilty)
	compare := map[string]any{"command": commandCompare, "arguments": []any{u}}
	if got := callInto[string](e, "workspace/executeCommand", compare); !strings.HasPrefix(got, "Nothing") {
		t.Errorf("unchanged: %s", got)
	}
	e.change(u, 2, map[string]any{"range": span(0, 8, 0, 16), "text": "rickety"})
	got := callInto[string](e, "workspace/executeCommand", compare)
	for _, want := range []string{"## Mended\n\n- line 1: “Very”", "1 reworded, 1 kept", "Reworded, line 1 → line 1:\n\n```text\n", "rick"} {
		if !strings.Contains(got, want) {
			t.Errorf("mended, without %q:\n%s", want, got)
		}
	}
	if strings.Contains(got, "## New") {
		t.Errorf("mended: %s", got)
	}
	e.change(u, 3, map[string]any{"range": span(1, 0, 2, 0), "text": ""})
	if got := callInto[string](e, "workspace/executeCommand", compare); !strings.Contains(got, "Cut, line 2:") {
		t.Errorf("cut: %s", got)
	}
	e.open("untitled:a", 1, guilty)
	e.refused(-32803, "workspace/executeCommand", map[string]any{"command": commandCompare, "arguments": []any{"untitled:a"}})
	e.shutdown()
}

func TestCompareWithTheLastCommit(t *testing.T) {
	if _, err := exec.LookPath("git"); err != nil {
		t.Skip("git is not installed")
	}
	folder := t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, "a.verse"), []byte(guilty), 0o600); err != nil {
		t.Fatal(err)
	}
	u := "file://" + folder + "/a.verse"
	e := connect(t)
	e.initialize(`{}`)
	e.open(u, 1, strings.Replace(guilty, "very", "rather", 1))
	compare := map[string]any{"command": commandCompare, "arguments": []any{u, "commit"}}
	e.refused(-32803, "workspace/executeCommand", compare)
	for _, args := range [][]string{{"init", "-q"}, {"add", "."}, {"commit", "-q", "-m", "A draft"}} {
		command := exec.CommandContext(t.Context(), "git", append([]string{"-c", "user.name=Nobody", "-c", "user.email=nobody@example.org", "-c", "commit.gpgsign=false"}, args...)...)
		command.Dir = folder
		if out, err := command.CombinedOutput(); err != nil {
			t.Fatalf("git %v: %v\n%s", args, err, out)
		}
	}
	got := callInto[string](e, "workspace/executeCommand", compare)
	if !strings.HasPrefix(got, "# Since the last commit\n") || !strings.Contains(got, "1 reworded, 1 kept") {
		t.Errorf("got %s", got)
	}
	e.refused(-32602, "workspace/executeCommand", map[string]any{"command": commandCompare, "arguments": []any{u, "yesterday"}})
	e.shutdown()
}

func TestOpenTheLetter(t *testing.T) {
	t.Setenv("XDG_CACHE_HOME", t.TempDir()) // where a Linux system keeps what can be made again
	e := connect(t)
	shown := make(chan string, 1)
	e.answers["window/showDocument"] = func(p json.RawMessage) any {
		shown <- string(p)
		return map[string]any{"success": true}
	}
	e.initialize(`{"window":{"showDocument":{"support":true}}}`)
	e.open(demo, 1, guilty)
	open := map[string]any{"command": commandOpen, "arguments": []any{demo}}
	e.call("workspace/executeCommand", open)
	var asked struct {
		URI      string `json:"uri"`
		External bool   `json:"external"`
	}
	if err := json.Unmarshal([]byte(<-shown), &asked); err != nil || !asked.External {
		t.Errorf("asked to show %+v, %v", asked, err)
	}
	path, ok := localPath(uri.URI(asked.URI))
	if data, err := os.ReadFile(path); !ok || err != nil || !strings.HasPrefix(string(data), "<!DOCTYPE html>") {
		t.Errorf("at %s: %v", asked.URI, err)
	}
	e.shutdown()
}

func TestWhereTheLetterLies(t *testing.T) {
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	e := connect(t)
	e.initialize(`{}`)
	e.open(demo, 1, guilty)
	open := map[string]any{"command": commandOpen, "arguments": []any{demo}}
	place := callInto[string](e, "workspace/executeCommand", open)
	if again := callInto[string](e, "workspace/executeCommand", open); again != place || !strings.HasSuffix(place, ".html") {
		t.Errorf("the first lies at %s, the second at %s", place, again)
	}
	e.shutdown()
}

// The letter is Markdown, in which what the writer typed is no markup (CommonMark
// 0.31, 2.4), and it can be had of any text, an empty one too.
func TestCritiqueIsTheLetter(t *testing.T) {
	e := connect(t)
	e.initialize(`{}`)
	ask := func(text string) string {
		t.Helper()
		e.open(demo, 1, text)
		defer e.notify("textDocument/didClose", map[string]any{"textDocument": document0(demo)})
		return callInto[string](e, "workspace/executeCommand", map[string]any{"command": commandCritique, "arguments": []any{demo}})
	}
	got := ask("# The *Lamp*\n\n" + guilty)
	for _, want := range []string{"# A letter about “The \\*Lamp\\*”", "\n## ", "**Line 3.** “Very”"} {
		if !strings.Contains(got, want) {
			t.Errorf("without %q:\n%s", want, got)
		}
	}
	if got := ask(""); !strings.HasPrefix(got, "# A letter about your manuscript\n") {
		t.Errorf("about nothing: %s", got)
	}
	e.shutdown()
}

// The words for a refactoring are worked out when the menu of them is opened.
func TestOtherWaysToSayAWord(t *testing.T) {
	e := connect(t)
	e.initialize(`{"textDocument":{"codeAction":{"dataSupport":true,"resolveSupport":{"properties":["edit"]},"codeActionLiteralSupport":{"codeActionKind":{"valueSet":[]}}}}}`)
	e.open(demo, 1, "I read the note and put it in the drawer,\nAnd then I read it all again once more.\n")
	ask := func(only ...string) []protocol317.CodeAction {
		return callInto[[]protocol317.CodeAction](e, "textDocument/codeAction", map[string]any{
			"textDocument": document0(demo), "range": span(0, 3, 0, 3), "context": map[string]any{"diagnostics": []any{}, "only": only},
		})
	}
	if got := ask(); len(got) != 0 {
		t.Errorf("unasked: %v", got)
	}
	if got := ask("source"); len(got) != 0 {
		t.Errorf("source actions: %v", got)
	}
	var say []protocol317.CodeAction
	for _, a := range ask("refactor") {
		if strings.HasPrefix(a.Title, "Say “read” as /") {
			say = append(say, a)
		}
	}
	if len(say) == 0 || say[0].Edit != nil || say[0].Kind != "refactor.rewrite" {
		t.Fatalf("got %+v, want another way to say it, its edit left for later", say)
	}
	resolved := callInto[protocol317.CodeAction](e, "codeAction/resolve", say[0])
	if resolved.Edit == nil || !strings.Contains(resolved.Edit.Changes[demo][0].NewText, `"read": "R `) {
		t.Errorf("resolved %+v", resolved)
	}
	e.change(demo, 2, map[string]any{"text": "x"})
	e.refused(codeStale, "codeAction/resolve", say[0])
	e.shutdown()
}

// A client without code action literals gets commands, which have it apply the
// edit.
func TestActionsAsCommands(t *testing.T) {
	e := connect(t)
	applied := make(chan struct{}, 1)
	e.answers["workspace/applyEdit"] = func(json.RawMessage) any {
		applied <- struct{}{}
		return map[string]any{"applied": true}
	}
	e.initialize(`{"workspace":{"applyEdit":true}}`)
	e.open(demo, 1, guilty)
	actions := callInto[[]protocol317.Command](e, "textDocument/codeAction", map[string]any{
		"textDocument": document0(demo), "range": span(0, 9, 0, 9), "context": map[string]any{"diagnostics": []any{}},
	})
	if len(actions) == 0 {
		t.Fatal("no actions")
	}
	e.call("workspace/executeCommand", map[string]any{"command": actions[0].Command, "arguments": actions[0].Arguments})
	<-applied
	e.shutdown()
}

// At a line's end the words that answer its mate are offered, best first, and
// what one is in full comes with its resolution.
func TestRhymesAtALineEnd(t *testing.T) {
	e := connect(t)
	e.initialize(`{"textDocument":{"completion":{"completionItem":{"insertReplaceSupport":true,"labelDetailsSupport":true,"resolveSupport":{"properties":["documentation"]}}}}}`)
	text := "The kettle sang, the window steamed,\nThe badger put the spoons away,\nHe stacked the plates, he swept, he dreamed,\nAnd slept until another "
	e.open(demo, 1, text)
	list := callInto[protocol317.CompletionList](e, "textDocument/completion", map[string]any{
		"textDocument": document0(demo), "position": map[string]any{"line": 3, "character": 24},
	})
	var labels []string
	for i, item := range list.Items {
		labels = append(labels, item.Label)
		if i > 0 && item.SortText <= list.Items[i-1].SortText {
			t.Errorf("%q sorts before %q", item.Label, list.Items[i-1].Label)
		}
	}
	if !slices.Contains(labels, "day") || slices.Contains(labels, "spoon") {
		t.Fatalf("offered %v, want day among them", labels)
	}
	resolved := callInto[protocol317.CompletionItem](e, "completionItem/resolve", list.Items[slices.Index(labels, "day")])
	if resolved.Label != "day" || resolved.TextEdit == nil || list.Items[slices.Index(labels, "day")].Data != nil && resolved.Documentation == nil {
		t.Errorf("resolved %+v", resolved)
	}
	inside := callInto[protocol317.CompletionList](e, "textDocument/completion", map[string]any{
		"textDocument": document0(demo), "position": map[string]any{"line": 2, "character": 14},
	})
	if len(inside.Items) > 0 {
		t.Errorf("inside a line: %v", inside.Items)
	}
	e.shutdown()
}

// On a word in the middle of a line, others that scan there are offered, under the
// name of the one that they would replace; behind it, where one types, none are.
func TestWordsInTheMiddleOfALine(t *testing.T) {
	e := connect(t)
	e.initialize(`{"textDocument":{"completion":{"completionItem":{"labelDetailsSupport":true}}}}`)
	e.open(demo, 1, "The kettle sang, the window steamed,\nThe badger went along the bay,\nHe stacked the plates, he swept, he dreamed,\nAnd slept until another day.\n")
	at := func(character int) []protocol317.CompletionItem {
		return callInto[protocol317.CompletionList](e, "textDocument/completion", map[string]any{
			"textDocument": document0(demo), "position": map[string]any{"line": 1, "character": character},
		}).Items
	}
	for _, character := range []int{11, 13} { // before the word, and in it
		items := at(character)
		if len(items) == 0 {
			t.Fatalf("nothing is offered for went at %d", character)
		}
		for _, item := range items {
			if item.FilterText != "went" || item.LabelDetails == nil || item.LabelDetails.Description != "" {
				t.Errorf("offered %+v", item)
			}
		}
	}
	if items := at(15); len(items) > 0 {
		t.Errorf("behind the word: %v", items)
	}
	e.shutdown()
}

// What stands between the fences, and what a text says, is the manuscript's and
// not Markdown's or HTML's (CommonMark, "Fenced code blocks" and "Backslash
// escapes").
func TestManuscriptsCannotWriteMarkdown(t *testing.T) {
	block := fenced("a\n```\n<script>\n````\n")
	if want := "`````text\na\n```\n<script>\n````\n`````\n"; block != want {
		t.Errorf("got %q, want %q", block, want)
	}
	for text, want := range map[string]string{
		"“<img src=x>” & [a](b)": "“&lt;img src=x>” &amp; \\[a\\](b)",
		"# no heading":           "\\# no heading",
		"two\n\nparagraphs":      "two paragraphs",
		"a *b* `c` _d_ ~e~ \\":   "a \\*b\\* \\`c\\` \\_d\\_ \\~e\\~ \\\\",
	} {
		if got := escapedMarkdown(text); got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}

func TestPlainTextHasNoMarks(t *testing.T) {
	const text = "**day** *(noun)* a `turn` of 2 \\* 12 hours"
	if got := (client{}).completionDoc(text).Value; got != "day (noun) a turn of 2 * 12 hours" {
		t.Errorf("got %q", got)
	}
}

// The same finding lies at other numbers in each encoding of positions: before
// it stand an emoji (4 bytes, 2 units, 1 character) and curly quotes (3, 1, 1).
func TestFindingsInEachEncoding(t *testing.T) {
	text := "“😀” " + guilty
	for encoding, want := range map[string]uint32{"utf-8": 11 + 8, "utf-16": 5 + 8, "utf-32": 4 + 8} {
		e := connect(t)
		e.initialize(`{"general":{"positionEncodings":["` + encoding + `"]}}`)
		e.open(demo, 1, text)
		found := e.published(demo, 1).Diagnostics
		if len(found) != 1 || found[0].Range.Start.Character != want || found[0].Range.End.Character != want+4 {
			t.Errorf("%s: %+v, want “very” at %d", encoding, found, want)
		}
		// And back: a hover at that place is on the word.
		h := callInto[*protocol317.Hover](e, "textDocument/hover", map[string]any{
			"textDocument": document0(demo), "position": map[string]any{"line": 0, "character": want + 1},
		})
		if h == nil || h.Range == nil || h.Range.Start.Character != want {
			t.Errorf("%s: hover %+v", encoding, h)
		}
		e.shutdown()
	}
}

// Markdown is prose unless its front matter says that it holds verse.
func TestMarkdownIsReadOnlyWhenItSaysSo(t *testing.T) {
	for text, want := range map[string]int{guilty: 0, "---\ndandle: verse\n---\n" + guilty: 1} {
		d := newDocument(demo, "markdown", 1, newMapper(text, protocol317.UTF16), newVoice(openText("", protocol317.UTF16).voice.options))
		if got := len(notes(d)); got != want {
			t.Errorf("%.20q: %d findings, want %d", text, got, want)
		}
	}
}

// The log is for people who help: it holds no verse unless it is asked for.
func TestTheLogHoldsNoVerse(t *testing.T) {
	var log strings.Builder
	session := frame(`{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"processId":null,"rootUri":null,"capabilities":{}}}`) +
		frame(`{"jsonrpc":"2.0","method":"initialized","params":{}}`) +
		frame(`{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":{"uri":"file:///secret.verse","languageId":"verse","version":1,"text":"The moon rows over very slow."}}}`) +
		frame(`{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":{"text":"The moon rows over","version":"x"}}}`) +
		frame(`{"jsonrpc":"2.0","id":2,"method":"shutdown"}`) + frame(`{"jsonrpc":"2.0","method":"exit"}`)
	in := strings.NewReader(session)
	code, err := Serve(t.Context(), in, new(strings.Builder), Config{Log: &log})
	if code != 0 || err != nil {
		t.Errorf("exit code %d, %v", code, err)
	}
	if got := log.String(); !strings.Contains(got, "ready") || strings.Contains(got, "moon") || strings.Contains(got, "secret") {
		t.Errorf("log:\n%s", got)
	}
	in.Reset(session)
	log.Reset()
	if _, err := Serve(t.Context(), in, new(strings.Builder), Config{Log: &log, Debug: true}); err != nil {
		t.Error(err)
	}
	if got := log.String(); !strings.Contains(got, "moon") || !strings.Contains(got, "sent") {
		t.Errorf("with debug it holds every message, but:\n%s", got)
	}
}

// FuzzSession: whatever bytes come in, the server ends, and what it says is
// framed JSON.
func FuzzSession(f *testing.F) {
	start := frame(`{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"capabilities":{}}}`)
	f.Add([]byte(start + frame(`{"jsonrpc":"2.0","method":"exit"}`)))
	f.Add([]byte(start + frame(`{"jsonrpc":"2.0","id":"a","method":"textDocument/hover","params":{"textDocument":{"uri":"file:///a"},"position":{"line":0,"character":0}}}`)))
	f.Add([]byte("Content-Length: 2\r\n\r\n{}Content-Length: -1\r\n\r\n"))
	f.Add([]byte("content-length:5\n\n[1,2]"))
	f.Fuzz(func(t *testing.T, data []byte) {
		var out strings.Builder
		_, _ = Serve(t.Context(), strings.NewReader(string(data)), &out, Config{})
		replies := newStream(strings.NewReader(out.String()), nil)
		for replies.in.Buffered() > 0 || out.Len() > 0 {
			length, err := readHeader(replies.in)
			if err != nil {
				break
			}
			body := make([]byte, length)
			if _, err := replies.in.Read(body); err != nil || !json.Valid(body) {
				t.Fatalf("%q: %v", body, err)
			}
		}
	})
}
