package lsp

import (
	"cmp"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"dandle/lsp/protocol317"

	gocmp "github.com/google/go-cmp/cmp"
	"go.lsp.dev/protocol"
	"golang.org/x/tools/txtar"
)

var update = flag.Bool("update", false, "rewrite golden files")

// A marker test is a txtar archive: a sentence saying why, files, and goldens.
// Marks stand in comments at the ends of lines, and are taken out before the
// text is opened:
//
//	The lamp on the headland went out <!-- @hover("headland", feet) -->
//
// asks at that word and compares with the golden @feet; "" asks at the line's
// end. A golden whose name is a request of the whole document, such as @symbols,
// needs no mark. client.json holds the client's capabilities, dandle.yaml the
// house rules.
var (
	marks = regexp.MustCompile(`[ \t]*<!--((?:[ \t]*@[a-z]+\([^)]*\))+)[ \t]*-->`)
	mark  = regexp.MustCompile(`@([a-z]+)\("([^"]*)"((?:,[ \t]*[^,)]+)*)\)`)
)

type marked struct {
	request string
	place   protocol.Position // the first letter of the word
	within  protocol.Position // inside the word, or the line's end
	rest    []string
}

func TestMarkers(t *testing.T) {
	files, err := filepath.Glob("testdata/marker/*/*.txtar")
	if err != nil || len(files) == 0 {
		t.Fatalf("no marker tests: %v", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(strings.TrimPrefix(filepath.ToSlash(file), "testdata/marker/"), ".txtar"), func(t *testing.T) {
			runMarkers(t, file)
		})
	}
}

func runMarkers(t *testing.T, file string) {
	t.Helper()
	archive, err := txtar.ParseFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if strings.TrimSpace(string(archive.Comment)) == "" {
		t.Error("the test does not say why it is there")
	}
	folder := t.TempDir()
	capabilities := `{"textDocument":{"hover":{"contentFormat":["markdown"]},"codeAction":{"codeActionLiteralSupport":{"codeActionKind":{"valueSet":[]}}},"documentSymbol":{"hierarchicalDocumentSymbolSupport":true}}}`
	goldens := map[string]string{}
	var name, text string
	for _, f := range archive.Files {
		switch {
		case strings.HasPrefix(f.Name, "@"):
			goldens[f.Name[1:]] = string(f.Data)
		case f.Name == "client.json":
			capabilities = string(f.Data)
		default:
			if strings.HasSuffix(f.Name, ".verse") && name == "" {
				name, text = f.Name, string(f.Data)
			}
			data := marks.ReplaceAll(f.Data, nil)
			if err := os.WriteFile(filepath.Join(folder, f.Name), data, 0o600); err != nil {
				t.Fatal(err)
			}
		}
	}
	var asks []marked
	var lines []string
	for n, line := range strings.SplitAfter(text, "\n") {
		body := marks.ReplaceAllString(line, "")
		for _, group := range marks.FindAllStringSubmatch(line, -1) {
			for _, m := range mark.FindAllStringSubmatch(group[1], -1) {
				asks = append(asks, ask(t, n, strings.TrimRight(body, "\r\n"), m))
			}
		}
		lines = append(lines, body)
	}
	e := connect(t)
	root := "file://" + folder
	callInto[protocol317.InitializeResult](e, "initialize", map[string]any{
		"processId": nil, "rootUri": root, "capabilities": json.RawMessage(capabilities),
	})
	e.notify("initialized", map[string]any{})
	m := &markerRun{editor: e, t: t, root: root, uri: root + "/" + name, text: strings.Join(lines, "")}
	m.lines = strings.Split(m.text, "\n")
	e.open(m.uri, 1, m.text)
	got := map[string]string{}
	for _, a := range asks {
		got[a.rest[len(a.rest)-1]] += m.at(a)
	}
	for golden := range goldens {
		if _, ok := got[golden]; !ok {
			got[golden] = m.whole(golden)
		}
	}
	e.shutdown()
	for _, key := range sortedKeys(got) {
		want, ok := goldens[key]
		if !ok && !*update {
			t.Errorf("there is no golden @%s", key)
			continue
		}
		if diff := gocmp.Diff(want, got[key]); diff != "" && !*update {
			t.Errorf("@%s (-want +got)\n%s", key, diff)
		}
	}
	if *update {
		rewrite(t, file, archive, got)
	}
}

func ask(t *testing.T, n int, line string, m []string) marked {
	t.Helper()
	at := strings.Index(line, m[2])
	if m[2] == "" {
		at = len(line)
	}
	if at < 0 {
		t.Fatalf("line %d has no %q", n+1, m[2])
	}
	a := marked{request: m[1], rest: strings.FieldsFunc(m[3], func(r rune) bool { return r == ',' || r == ' ' })}
	if len(a.rest) == 0 {
		t.Fatalf("line %d: the mark %s names no golden", n+1, m[0])
	}
	a.place = protocol.Position{Line: uint32(n), Character: uint32(len(encodeUTF16(line[:at])))}
	a.within = a.place
	if m[2] != "" {
		a.within.Character++
	}
	return a
}

func rewrite(t *testing.T, file string, archive *txtar.Archive, got map[string]string) {
	t.Helper()
	archive.Files = slices.DeleteFunc(archive.Files, func(f txtar.File) bool { return strings.HasPrefix(f.Name, "@") })
	for _, key := range sortedKeys(got) {
		archive.Files = append(archive.Files, txtar.File{Name: "@" + key, Data: []byte(got[key])})
	}
	if err := os.WriteFile(file, txtar.Format(archive), 0o644); err != nil {
		t.Fatal(err)
	}
}

func sortedKeys(m map[string]string) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// A markerRun asks in a session and writes answers for people to read.
type markerRun struct {
	*editor
	t               *testing.T
	root, uri, text string
	lines           []string
}

func (m *markerRun) params(more map[string]any) map[string]any {
	out := map[string]any{"textDocument": document0(m.uri)}
	for k, v := range more {
		out[k] = v
	}
	return out
}

// at answers a mark.
func (m *markerRun) at(a marked) string {
	m.t.Helper()
	here := m.params(map[string]any{"position": a.within})
	switch a.request {
	case "hover":
		h := callInto[*protocol317.Hover](m.editor, "textDocument/hover", here)
		if h == nil {
			return "nothing\n"
		}
		return h.Contents.Value + "\n"
	case "complete":
		list := callInto[protocol317.CompletionList](m.editor, "textDocument/completion", here)
		var b strings.Builder
		for _, item := range list.Items[:min(8, len(list.Items))] {
			fmt.Fprintf(&b, "%s  %s\n", item.Label, item.Detail)
		}
		return nonEmpty(b.String(), "nothing\n")
	case "highlight":
		list := callInto[[]protocol.DocumentHighlight](m.editor, "textDocument/documentHighlight", here)
		var b strings.Builder
		for _, h := range list {
			b.WriteString(m.place(h.Range))
		}
		return nonEmpty(b.String(), "nothing\n")
	case "references":
		here["context"] = map[string]any{"includeDeclaration": false}
		var b strings.Builder
		for _, l := range callInto[[]protocol317.Location](m.editor, "textDocument/references", here) {
			b.WriteString(m.place(l.Range))
		}
		return nonEmpty(b.String(), "nothing\n")
	case "definition":
		l := callInto[*protocol317.Location](m.editor, "textDocument/definition", here)
		if l == nil {
			return "nothing\n"
		}
		return m.place(l.Range)
	case "selection":
		list := callInto[[]*protocol.SelectionRange](m.editor, "textDocument/selectionRange", m.params(map[string]any{"positions": []any{a.within}}))
		var b strings.Builder
		for s := list[0]; s != nil; s = s.Parent {
			b.WriteString(m.place(s.Range))
		}
		return b.String()
	case "actions":
		return m.actions(a)
	case "rename":
		here["newName"] = a.rest[0]
		edit := callInto[protocol317.WorkspaceEdit](m.editor, "textDocument/rename", here)
		return m.edited(&edit)
	}
	m.t.Fatalf("no mark is called @%s", a.request)
	return ""
}

// actions lists the actions at a word, with what each would make of the lines
// that it changes.
func (m *markerRun) actions(a marked) string {
	m.t.Helper()
	shown := m.published(m.uri, 1).Diagnostics
	list := callInto[[]protocol317.CodeAction](m.editor, "textDocument/codeAction", m.params(map[string]any{
		"range": protocol.Range{Start: a.place, End: a.within}, "context": map[string]any{"diagnostics": shown},
	}))
	var b strings.Builder
	for _, action := range list {
		fmt.Fprintf(&b, "%s: %s", action.Kind, action.Title)
		if action.IsPreferred {
			b.WriteString(" (preferred)")
		}
		for _, d := range action.Diagnostics {
			var known struct{ Code string }
			_ = json.Unmarshal(d, &known)
			fmt.Fprintf(&b, " [%s]", known.Code)
		}
		b.WriteString("\n" + m.edited(action.Edit))
	}
	return nonEmpty(b.String(), "nothing\n")
}

// edited shows the lines that an edit changes, as it leaves them.
func (m *markerRun) edited(edit *protocol317.WorkspaceEdit) string {
	m.t.Helper()
	if edit == nil {
		return ""
	}
	var edits []protocol317.TextEdit
	for _, list := range edit.Changes {
		edits = append(edits, list...)
	}
	var b strings.Builder
	for _, d := range edit.DocumentChanges {
		edits = append(edits, d.Edits...)
	}
	after := m.apply(edits)
	was := strings.Split(m.text, "\n")
	for i, line := range strings.Split(after, "\n") {
		if i >= len(was) || was[i] != line {
			fmt.Fprintf(&b, "  %d: %s\n", i+1, strings.ReplaceAll(line, "\r", "␍"))
		}
	}
	for _, e := range edits {
		if note, ok := edit.ChangeAnnotations[e.AnnotationID]; ok {
			fmt.Fprintf(&b, "  %s%s: %s\n", m.place(e.Range), note.Label, note.Description)
		}
	}
	return b.String()
}

// apply applies edits as the specification says: all refer to the text before.
func (m *markerRun) apply(edits []protocol317.TextEdit) string {
	m.t.Helper()
	mapper := newMapper(m.text, protocol317.UTF16)
	sorted := slices.Clone(edits)
	slices.SortStableFunc(sorted, func(a, b protocol317.TextEdit) int {
		return cmp.Compare(mapper.offset(a.Range.Start), mapper.offset(b.Range.Start))
	})
	var b strings.Builder
	last := 0
	for _, e := range sorted {
		from, to := mapper.offset(e.Range.Start), mapper.offset(e.Range.End)
		if from < last {
			m.t.Errorf("edits overlap: %+v", edits)
			return m.text
		}
		b.WriteString(m.text[last:from])
		b.WriteString(e.NewText)
		last = to
	}
	b.WriteString(m.text[last:])
	return b.String()
}

// place shows a range with the text in it.
func (m *markerRun) place(r protocol.Range) string {
	mapper := newMapper(m.text, protocol317.UTF16)
	text := m.text[mapper.offset(r.Start):mapper.offset(r.End)]
	return fmt.Sprintf("%d:%d-%d:%d %q\n", r.Start.Line+1, r.Start.Character+1, r.End.Line+1, r.End.Character+1, opening(text))
}

// whole answers a request about the whole document.
func (m *markerRun) whole(request string) string {
	m.t.Helper()
	var b strings.Builder
	everything := span(0, 0, 9999, 0)
	switch request {
	case "diagnostics":
		for _, d := range m.published(m.uri, 1).Diagnostics {
			fmt.Fprintf(&b, "%d %s %s  %s", d.Severity, d.Code, d.Message, m.place(d.Range))
		}
	case "pull":
		report := callInto[protocol317.FullDocumentDiagnosticReport](m.editor, "textDocument/diagnostic", m.params(nil))
		fmt.Fprintf(&b, "%s\n", report.Kind)
		for _, d := range report.Items {
			fmt.Fprintf(&b, "%d %s  %s", d.Severity, d.Code, m.place(d.Range))
		}
		again := callInto[protocol317.FullDocumentDiagnosticReport](m.editor, "textDocument/diagnostic", m.params(map[string]any{"previousResultId": report.ResultID}))
		fmt.Fprintf(&b, "%s\n", again.Kind)
	case "symbols":
		for _, s := range callInto[[]protocol317.DocumentSymbol](m.editor, "textDocument/documentSymbol", m.params(nil)) {
			fmt.Fprintf(&b, "%s (%s) lines %d-%d\n", s.Name, s.Detail, s.Range.Start.Line+1, s.Range.End.Line+1)
			for _, c := range s.Children {
				fmt.Fprintf(&b, "  %s (%s) lines %d-%d\n", c.Name, c.Detail, c.Range.Start.Line+1, c.Range.End.Line+1)
			}
		}
	case "folding":
		for _, f := range callInto[[]protocol.FoldingRange](m.editor, "textDocument/foldingRange", m.params(nil)) {
			fmt.Fprintf(&b, "%d-%d %s\n", f.StartLine+1, f.EndLine+1, f.Kind)
		}
	case "lenses":
		for _, l := range callInto[[]protocol317.CodeLens](m.editor, "textDocument/codeLens", m.params(nil)) {
			fmt.Fprintf(&b, "%d: %s\n", l.Range.Start.Line+1, l.Command.Title)
		}
	case "hints":
		for _, h := range callInto[[]protocol317.InlayHint](m.editor, "textDocument/inlayHint", m.params(map[string]any{"range": everything})) {
			at := protocol.Range{Start: protocol.Position{Line: h.Position.Line}, End: h.Position}
			before := m.text[newMapper(m.text, protocol317.UTF16).offset(at.Start):newMapper(m.text, protocol317.UTF16).offset(at.End)]
			after := strings.TrimPrefix(m.lines[h.Position.Line], before)
			fmt.Fprintf(&b, "%s⟨%s⟩%s  (%s)\n", before, h.Label, after, h.Tooltip)
		}
	case "links":
		for _, l := range callInto[[]protocol.DocumentLink](m.editor, "textDocument/documentLink", m.params(nil)) {
			fmt.Fprintf(&b, "%s  %s", strings.Replace(string(l.Target), m.root, "ROOT", 1), m.place(l.Range))
		}
	case "format":
		edits := callInto[[]protocol317.TextEdit](m.editor, "textDocument/formatting", m.params(map[string]any{"options": map[string]any{"tabSize": 4, "insertSpaces": true}}))
		for line := range strings.Lines(m.apply(edits)) {
			fmt.Fprintf(&b, "%q\n", line)
		}
	case "tokens":
		for i, t := range m.tokens() {
			if i > 0 && t.line != m.tokens()[i-1].line {
				b.WriteString("\n")
			}
			b.WriteString(t.String())
		}
		b.WriteString("\n")
	case "found":
		for _, s := range callInto[[]protocol317.SymbolInformation](m.editor, "workspace/symbol", map[string]any{"query": "mn"}) {
			fmt.Fprintf(&b, "%s in %s, %s\n", s.Name, s.ContainerName, strings.Replace(string(s.Location.URI), m.root, "ROOT", 1))
		}
	default:
		m.t.Fatalf("no request is called @%s", request)
	}
	return nonEmpty(b.String(), "nothing\n")
}

type shownToken struct {
	line int
	text string
	kind string
}

func (s shownToken) String() string { return fmt.Sprintf("[%s %s]", s.text, s.kind) }

// tokens decodes the full tokens as the specification says.
func (m *markerRun) tokens() []shownToken {
	m.t.Helper()
	data := callInto[protocol317.SemanticTokens](m.editor, "textDocument/semanticTokens/full", m.params(nil)).Data
	var out []shownToken
	line, character := uint32(0), uint32(0)
	for i := 0; i+5 <= len(data); i += 5 {
		if data[i] > 0 {
			character = 0
		}
		line += data[i]
		character += data[i+1]
		kind := tokenLegend.TokenTypes[data[i+3]]
		for bit, name := range tokenLegend.TokenModifiers {
			if data[i+4]&(1<<bit) != 0 {
				kind += "." + name
			}
		}
		units := encodeUTF16(m.lines[line])
		out = append(out, shownToken{int(line), model(units[character : character+data[i+2]]).String(), kind})
	}
	return out
}
