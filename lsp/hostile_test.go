package lsp

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"dandle/analysis/checks"
	"dandle/analysis/critique"
	"dandle/lsp/protocol317"

	"go.lsp.dev/protocol"
)

// Every method answers a wrong type with an error and never with silence, and
// the session goes on.
func TestWrongTypesInEveryMethod(t *testing.T) {
	e := connect(t)
	e.initialize(`{}`)
	e.open(demo, 1, "The lamp went out.\n")
	var methods []string
	for method := range routes {
		if method != "shutdown" {
			methods = append(methods, method)
		}
	}
	slices.Sort(methods)
	wrong := []string{
		`null`, `[]`, `7`, `"x"`, `{}`, `{"textDocument":7}`, `{"textDocument":{"uri":7}}`, `{"textDocument":{"uri":""}}`,
		`{"textDocument":{"uri":"file:///not/open.verse"},"position":{"line":0,"character":0}}`,
		`{"textDocument":{"uri":"` + demo + `"},"position":{"line":-1,"character":0},"positions":[{"line":-1}],"range":{"start":{"line":-4}},"newName":7,"context":3,"previousResultId":9}`,
		`{"textDocument":{"uri":"` + demo + `"},"position":{"line":0.5,"character":1e99},"range":[],"positions":{},"options":[],"newName":{},"previousResultId":[]}`,
		`{"command":"dandle.none"}`, `{"command":7}`, `{"command":"dandle.explain","arguments":{}}`, `{"command":"dandle.explain","arguments":[7]}`,
		`{"command":"dandle.explain","arguments":["no/such"]}`, `{"command":"dandle.scan","arguments":["` + demo + `",99]}`,
		`{"command":"dandle.teach","arguments":["` + demo + `"," ","x"]}`, `{"data":{"uri":"` + demo + `","version":1,"start":-5,"end":-1,"offer":-3}}`,
		`{"data":{"uri":"` + demo + `","version":1,"start":0,"end":99999,"offer":9}}`, `{"query":7}`, `{"previousResultIds":7}`,
	}
	before := runtime.NumGoroutine()
	for _, method := range methods {
		errors := 0
		for _, params := range wrong {
			if p := e.answer(e.start(method, json.RawMessage(params))); p.Error != nil {
				errors++
				if p.Error.Code != codeInvalidParams && p.Error.Code != -32803 && p.Error.Code != codeStale {
					t.Errorf("%s %s: %s", method, params, p.raw)
				}
			}
		}
		if errors < 4 {
			t.Errorf("%s refused only %d of the wrong params", method, errors)
		}
	}
	for method := range notifications {
		for _, params := range wrong {
			if method != "exit" {
				e.notify(method, json.RawMessage(params))
			}
		}
	}
	e.open(demo, 2, "The lamp went out.\n") // one of them has closed it
	e.call("textDocument/hover", map[string]any{"textDocument": document0(demo), "position": map[string]any{"line": 0, "character": 0}})
	if after := runtime.NumGoroutine(); after > before+50 {
		t.Errorf("goroutines grew from %d to %d", before, after)
	}
	e.shutdown()
}

func TestPositionsOutside(t *testing.T) {
	e := connect(t)
	e.initialize(`{"textDocument":{"codeAction":{"codeActionLiteralSupport":{"codeActionKind":{"valueSet":[]}}}}}`)
	for i, text := range []string{"", "\n", "The lamp went out.", "😀", "---\n", "---\ntitle: x\n", "[", "<!--", "# ", "##"} {
		u := fmt.Sprintf("file:///outside%d.verse", i)
		e.open(u, 1, text)
		for _, p := range []map[string]any{{"line": 0, "character": 0}, {"line": 0, "character": 4294967295}, {"line": 4294967295, "character": 4294967295}, {"line": 0, "character": 1}} {
			doc := map[string]any{
				"textDocument": document0(u), "position": p, "positions": []any{p}, "newName": "Moll",
				"range": map[string]any{"start": p, "end": p}, "context": map[string]any{"diagnostics": []any{}, "includeDeclaration": true},
				"options": map[string]any{"tabSize": 4, "insertSpaces": true}, "previousResultId": "",
			}
			for method := range routes {
				if strings.HasPrefix(method, "textDocument/") && method != "textDocument/rename" {
					e.call(method, doc)
				}
			}
			e.answer(e.start("textDocument/rename", doc)) // refused or not: answered
		}
	}
	e.shutdown()
}

func TestTenThousandChangesWithoutWaiting(t *testing.T) {
	e := connect(t)
	e.initialize(`{}`)
	e.open(demo, 0, "The lamp went out.\n")
	const n = 10_000
	var burst strings.Builder
	for v := 1; v <= n; v++ {
		burst.WriteString(frame(fmt.Sprintf(`{"jsonrpc":"2.0","method":"textDocument/didChange","params":{"textDocument":{"uri":%q,"version":%d},"contentChanges":[{"range":{"start":{"line":0,"character":0},"end":{"line":0,"character":%d}},"text":"ab"}]}}`, demo, v, v%3)))
	}
	e.raw(burst.String())
	e.published(demo, n)
	e.shutdown()
	got := e.publications(demo)
	for i := 1; i < len(got); i++ {
		if got[i] <= got[i-1] {
			t.Fatalf("version %d after %d", got[i], got[i-1])
		}
	}
	t.Logf("%d publications for %d changes", len(got), n)
}

// A text that is no manuscript is kept and edited, not read, and the user is
// told so once.
func TestAVeryLongDocument(t *testing.T) {
	for name, text := range map[string]string{
		"20 MB in lines": strings.Repeat("The lamp on the headland went out with a cough,\n", 20<<20/48),
		"5 MB line":      strings.Repeat("lamp ", 1<<20),
	} {
		t.Run(name, func(t *testing.T) {
			e := connect(t)
			e.initialize(`{}`)
			e.open(demo, 0, text)
			e.await(0, "the notice", func(p passed) bool { return p.Method == "window/showMessage" })
			for v := 1; v <= 20; v++ {
				e.change(demo, v, map[string]any{"range": span(0, 1, 0, 1), "text": "x"})
			}
			if got := e.published(demo, 20); len(got.Diagnostics) != 0 {
				t.Errorf("%d findings", len(got.Diagnostics))
			}
			e.call("textDocument/hover", map[string]any{"textDocument": document0(demo), "position": map[string]any{"line": 0, "character": 3000}})
			e.shutdown()
			notices := 0
			for _, p := range e.log {
				if p.fromServer && p.Method == "window/showMessage" {
					notices++
				}
			}
			if notices != 1 {
				t.Errorf("told %d times", notices)
			}
		})
	}
}

// The longest text that is read, and lines of it that no verse has.
func TestTheLongestTextThatIsRead(t *testing.T) {
	for name, text := range map[string]string{
		"one line of words":   strings.Repeat("lamp ", maxAnalysed/5),
		"one word":            strings.Repeat("a", maxAnalysed),
		"one hyphenated word": strings.Repeat("a-", maxAnalysed/2),
		"nested brackets":     strings.Repeat("[", maxAnalysed),
		"open comments":       strings.Repeat("<!--", maxAnalysed/4),
		"marks of emphasis":   strings.Repeat("*a", maxAnalysed/2),
		"short lines":         strings.Repeat("a\n", maxAnalysed/16), // each line costs the same, and there is a scheme to find
		"headings":            strings.Repeat("## a\n", maxAnalysed/5),
	} {
		t.Run(name, func(t *testing.T) {
			e := connect(t)
			e.initialize(`{}`)
			e.open(demo, 0, text)
			e.published(demo, 0)
			e.shutdown()
		})
	}
}

func TestStrangeBytes(t *testing.T) {
	e := connect(t)
	e.initialize(`{}`)
	for i, text := range []string{
		"The lamp \u0000 went out.\n", "\ufeffThe lamp went out.\n", "\ufeff---\r\ntitle: x\r\n---\r\nThe lamp.\r\n",
		"---\na: &a [x,x,x,x,x,x,x,x,x]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a]\nc: &c [*b,*b,*b,*b,*b,*b,*b,*b]\nd: &d [*c,*c,*c,*c,*c,*c,*c,*c]\ne: &e [*d,*d,*d,*d,*d,*d,*d,*d]\nf: &f [*e,*e,*e,*e,*e,*e,*e,*e]\ng: &g [*f,*f,*f,*f,*f,*f,*f,*f]\npronounce: *g\nallow: *g\n---\nThe lamp.\n",
		"---\n" + strings.Repeat("a: {", 5000) + "\n---\nThe lamp.\n",
		"\u202eThe lamp\u202c \u200b went\u2028out\u2029\n",
	} {
		u := fmt.Sprintf("file:///strange%d.verse", i)
		e.open(u, 1, text)
		e.published(u, 1)
	}
	// A lone surrogate and bytes that are no UTF-8, as a broken client sends them.
	e.raw(frame(`{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":{"uri":"file:///lone.verse","languageId":"verse","version":1,"text":"The \ud800 lamp"}}}`))
	e.published("file:///lone.verse", 1)
	e.raw(frame("{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/didOpen\",\"params\":{\"textDocument\":{\"uri\":\"file:///bytes.verse\",\"languageId\":\"verse\",\"version\":1,\"text\":\"The \xff\xfe lamp\"}}}"))
	e.published("file:///bytes.verse", 1)
	e.shutdown()
}

func TestAThousandOpenDocuments(t *testing.T) {
	e := connect(t)
	e.initialize(`{}`)
	for i := range 1000 {
		e.open(fmt.Sprintf("untitled:Untitled-%d", i), 1, fmt.Sprintf("The lamp went out at %d.\nAnd nobody lit it again.\n", i))
	}
	for i := range 1000 {
		e.published(fmt.Sprintf("untitled:Untitled-%d", i), 1)
	}
	for i := range 1000 {
		e.notify("textDocument/didClose", map[string]any{"textDocument": document0(fmt.Sprintf("untitled:Untitled-%d", i))})
	}
	e.shutdown()
}

func TestOpenTwiceChangeUnknownCloseUnknown(t *testing.T) {
	e := connect(t)
	e.initialize(`{}`)
	e.change("file:///unknown.verse", 1, map[string]any{"text": "x"})
	e.notify("textDocument/didClose", map[string]any{"textDocument": document0("file:///unknown.verse")})
	e.open(demo, 1, "a")
	e.open(demo, 7, "b")
	e.published(demo, 7)
	e.shutdown()
}

// A client that no longer reads, and one whose ends are both closed, leave no
// goroutine behind (the end of connect looks for them).
func TestClosedPipes(t *testing.T) {
	e := connect(t)
	e.initialize(`{}`)
	e.open(demo, 1, "The lamp went out.")
	e.toServer.Close()
	<-e.ended
	if e.exit != 1 {
		t.Errorf("exit code %d", e.exit)
	}
}

// The client's process is gone while its pipe stays open.
func TestParentGone(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("the parent is watched on Unix only")
	}
	child := exec.Command(os.Args[0], "-test.run=^$")
	if err := child.Run(); err != nil {
		t.Fatal(err)
	}
	e := connect(t)
	e.start("initialize", map[string]any{"processId": child.Process.Pid, "rootUri": nil, "capabilities": map[string]any{}})
	<-e.ended
	if e.exit != 1 || e.err != ErrParentGone { //nolint:errorlint // the cause itself is wanted
		t.Errorf("exit code %d, %v", e.exit, e.err)
	}
}

// Paths that lead out of a manuscript's folder, or are no paths, are never
// looked at.
func TestPathsStayInside(t *testing.T) {
	folder := t.TempDir()
	inside := filepath.Join(folder, "book")
	if err := os.MkdirAll(inside, 0o700); err != nil {
		t.Fatal(err)
	}
	for _, f := range []string{filepath.Join(folder, "secret.png"), filepath.Join(inside, "sketch.png")} {
		if err := os.WriteFile(f, nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	// House rules above the workspace are none of the workspace's.
	if err := os.WriteFile(filepath.Join(folder, "dandle.yaml"), []byte("allow: [meter, word]\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	w := newWorkspace()
	w.folders = []string{inside}
	for u, want := range map[string]int{
		"file://" + inside + "/a.verse":              0,
		"file://" + inside + "/../a.verse":           0,
		"untitled:a":                                 0,
		"file:///%00/a.verse":                        0,
		"http://example.com" + inside + "/a.verse":   0,
		"file://example.com" + inside + "/sub.verse": 0,
	} {
		d := w.install(uriOf(t, u), "verse", 1, newMapper("[see ../secret.png]\n", protocol317.UTF16))
		if got := len(d.voice.options.House.Allow); got != want {
			t.Errorf("%s: %d rules from outside", u, got)
		}
	}
	for name, want := range map[string]bool{"sketch.png": true, "../secret.png": false, "../book/sketch.png": true, "/etc/passwd": false} {
		if _, ok := beside(uriOf(t, "file://"+inside+"/a.verse"), name); ok != want {
			t.Errorf("%s: found %v, want %v", name, ok, want)
		}
	}
}

// Windows' clients name a drive, with its colon written out or not, in either
// case, and shares. Elsewhere a drive is no place on the disk: nothing is looked
// for under such a name.
func TestPathsOfWindows(t *testing.T) {
	for u, want := range map[string]string{
		"file:///c%3A/Users/moll/book.verse": `c:\Users\moll\book.verse`,
		"file:///C:/Users/moll/book.verse":   `c:\Users\moll\book.verse`,
		"file://attic/books/book.verse":      `\\attic\books\book.verse`,
	} {
		path, ok := localPath(uriOf(t, u))
		switch {
		case runtime.GOOS == "windows" && (!ok || path != want):
			t.Errorf("%s is %q, %v; want %q", u, path, ok, want)
		case runtime.GOOS != "windows" && strings.Contains(u, ":/Users") && ok:
			t.Errorf("%s is %q here", u, path)
		}
		if got := strings.ReplaceAll(uriOf(t, u).FsPath(), "/", `\`); got != want {
			t.Errorf("%s: the path is %q, want %q", u, got, want)
		}
	}
	for _, name := range []string{`..\secret.png`, `c:\secret.png`, `\\attic\secret.png`} {
		if found, ok := beside(uriOf(t, "file:///c%3A/Users/moll/book.verse"), name); ok {
			t.Errorf("%s leads to %s", name, found)
		}
	}
}

// Every finding's span lies in the text and starts and ends between characters,
// or positions would lie.
func FuzzDiagnostics(f *testing.F) {
	f.Add("The lamp on the headland went out with a cough,\nAnd nobody knew what had put the light off.\n")
	f.Add(scriptText)
	f.Add("‘Twas -- 😀 very, very [note] <!-- dandle: allow word -->\r\n")
	f.Fuzz(func(t *testing.T, text string) {
		d := openText(strings.ToValidUTF8(text, "?"), protocol317.UTF16)
		for _, finding := range d.snapshot().Findings() {
			checkSpan(t, d, finding)
		}
		for _, diagnostic := range diagnostics(d, client{}) {
			if diagnostic.Range.End.Line < diagnostic.Range.Start.Line {
				t.Fatalf("%+v", diagnostic)
			}
		}
		v := view{document: d, settings: defaultSettings(), memory: newMemory()}
		previous := uint32(0)
		for i, n := range v.encode(v.tokens(v.everything())) {
			if i%5 < 3 && n > uint32(len(text))+previous {
				t.Fatalf("token number %d is %d", i, n)
			}
		}
		once := applyEdits(d.text, sortedEdits(v.tidy(v.everything())))
		again := view{document: openText(once, protocol317.UTF16), settings: defaultSettings(), memory: newMemory()}
		if edits := again.spaces(again.everything()); len(edits) > 0 {
			t.Fatalf("formatting %q gives %q, and that again %+v", text, once, edits)
		}
	})
}

// What is said about a text can be said about any: a hover lies on the line that
// was asked about, the letter opens as a letter, and a draft laid beside itself
// shows no change.
func FuzzWords(f *testing.F) {
	f.Add("The lamp on the headland went out with a cough,\nAnd nobody knew what had put the light off.\n", 6)
	f.Add(scriptText, 40)
	f.Add("---\nmeter: x\nages: 3-6\n---\n# A\n‘Twas -- 😀 very, very [note] 100%\r\n% ``` %\n", 30)
	f.Fuzz(func(t *testing.T, text string, at int) {
		text = strings.ToValidUTF8(text, "?")
		d := openText(text, protocol317.UTF16)
		at = max(0, min(at, len(text)))
		v := view{document: d, settings: defaultSettings(), memory: newMemory()}
		var p protocol.HoverParams
		p.Position = d.rangeOf(spanAt(at)).Start
		answer, err := hover(t.Context(), v, p)
		if err != nil {
			t.Fatal(err)
		}
		if h, ok := answer.(protocol317.Hover); ok {
			if h.Range != nil && (h.Range.Start.Line > p.Position.Line || h.Range.End.Line < p.Position.Line) {
				t.Fatalf("asked at %+v, answered for %+v", p.Position, *h.Range)
			}
		}
		if letter := critique.Markdown(d.snapshot().Letter(critique.Full)); !strings.HasPrefix(letter, "# A letter about ") {
			t.Fatalf("letter: %q", letter)
		}
		if same := changesText("it was saved", d.snapshot().Draft(), d.snapshot().Draft()); !strings.HasPrefix(same, "Nothing") {
			t.Fatalf("beside itself: %q", same)
		}
		changesText("it was saved", d.snapshot().Draft(), openText(strings.ToValidUTF8(text[at:], "?"), protocol317.UTF16).snapshot().Draft())
	})
}

func checkSpan(t *testing.T, d *document, f checks.Finding) {
	t.Helper()
	if f.Span.Start < 0 || f.Span.End > len(d.text) || f.Span.Start > f.Span.End {
		t.Fatalf("%s: span %v of a text of %d bytes", f.Code, f.Span, len(d.text))
	}
	for _, fix := range f.Fixes {
		applyEdits(d.text, sortedEdits(fix.Edits)) // panics where edits overlap or lie outside
	}
}
