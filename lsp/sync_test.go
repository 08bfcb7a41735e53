package lsp

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"
	"unicode/utf8"

	"dandle/analysis"
	"dandle/analysis/checks"
	"dandle/lsp/protocol317"

	"github.com/google/go-cmp/cmp"
	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"
)

func itoa(n int) string { return strconv.Itoa(n) }

func at(line, from, toLine, to uint32) *protocol.Range {
	return &protocol.Range{Start: protocol.Position{Line: line, Character: from}, End: protocol.Position{Line: toLine, Character: to}}
}

type change = protocol317.TextDocumentContentChangeEvent

func openText(text string, encoding protocol317.PositionEncodingKind) *document {
	return newDocument(demo, "verse", 1, newMapper(text, encoding), newVoice(analysis.Options{}))
}

// The expected texts follow from LSP 3.17, "Position", "Text Documents" and
// "DidChangeTextDocument": lines end at \n, \r\n or \r; beyond a line's end
// means its end; characters are UTF-16 units; changes build on each other. That
// the inside of a surrogate pair means its start, and a line beyond the last the
// text's end, the specification leaves open; they are ours.
func TestChanges(t *testing.T) {
	for _, test := range []struct {
		name, text string
		changes    []change
		want       string
	}{
		{"after an emoji", "a😀b\r\nc", []change{{Range: at(0, 3, 0, 4), Text: "X"}}, "a😀X\r\nc"},
		{"inside a pair", "a😀b", []change{{Range: at(0, 2, 0, 3), Text: "X"}}, "aXb"},
		{"beyond the line", "ab\r\ncd", []change{{Range: at(0, 99, 0, 99), Text: "X"}}, "abX\r\ncd"},
		{"a lone carriage return", "ab\rcd", []change{{Range: at(1, 0, 1, 1), Text: "X"}}, "ab\rXd"},
		{"beyond the text", "ab", []change{{Range: at(9, 0, 9, 0), Text: "X"}}, "abX"},
		{"the whole text", "ab", []change{{Text: "whole"}}, "whole"},
		{"the start is no whole text", "ab", []change{{Range: at(0, 0, 0, 0), Text: "X"}}, "Xab"},
		{"each on the one before", "ab", []change{{Range: at(0, 0, 0, 0), Text: "1\n"}, {Range: at(1, 1, 1, 2), Text: "Z"}}, "1\naZ"},
		{"units, not what one sees", "é́", []change{{Range: at(0, 1, 0, 2), Text: ""}}, "é"},
		{"over line ends", "a\r\nb\r\nc", []change{{Range: at(0, 1, 2, 0), Text: ""}}, "ac"},
		{"a pair of line ends is made", "a\rb", []change{{Range: at(1, 0, 1, 1), Text: "\n"}, {Range: at(1, 0, 1, 0), Text: "x"}}, "a\r\nx"},
	} {
		t.Run(test.name, func(t *testing.T) {
			d, err := openText(test.text, protocol317.UTF16).apply(test.changes, 2)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(test.want, d.text); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
			if diff := cmp.Diff(newMapper(d.text, protocol317.UTF16).starts, d.starts); diff != "" {
				t.Errorf("line starts (-fresh +spliced)\n%s", diff)
			}
		})
	}
}

func TestRangeTheWrongWayRoundChangesNothing(t *testing.T) {
	d := openText("abcd", protocol317.UTF16)
	if _, err := d.apply([]change{{Text: "lost"}, {Range: at(0, 3, 0, 1), Text: "X"}}, 2); err == nil {
		t.Error("no error")
	}
}

// Offsets of the specification's own example: in "a𐐀b" they are 0, 1 and 3 in
// UTF-16 (LSP 3.17, "Text Documents"); UTF-8 and UTF-32 follow from Unicode.
func TestPositionsOfTheSpecification(t *testing.T) {
	const text = "a𐐀b"
	for encoding, want := range map[protocol317.PositionEncodingKind][]uint32{
		protocol317.UTF16: {0, 1, 3, 4},
		protocol317.UTF8:  {0, 1, 5, 6},
		protocol317.UTF32: {0, 1, 2, 3},
	} {
		m := newMapper(text, encoding)
		for i, offset := range []int{0, 1, 5, 6} {
			p, err := m.position(offset)
			if err != nil || p.Character != want[i] {
				t.Errorf("%s: offset %d is %d (%v), want %d", encoding, offset, p.Character, err, want[i])
			}
			if back := m.offset(p); back != offset {
				t.Errorf("%s: position %d is offset %d, want %d", encoding, p.Character, back, offset)
			}
		}
	}
	if _, err := newMapper(text, protocol317.UTF16).position(7); err == nil {
		t.Error("an offset outside the text made no error")
	}
}

// A model is the text as an editor that counts in UTF-16 keeps it. It shares
// nothing with the server but the rules of the specification.
type model []uint16

func (m model) String() string { return string(utf16.Decode(m)) }

func (m model) lineStarts() []int {
	starts := []int{0}
	for i, u := range m {
		if u == '\n' || u == '\r' && (i+1 == len(m) || m[i+1] != '\n') {
			starts = append(starts, i+1)
		}
	}
	return starts
}

func (m model) position(offset int) protocol.Position {
	starts := m.lineStarts()
	n := len(starts) - 1
	for starts[n] > offset {
		n--
	}
	return protocol.Position{Line: uint32(n), Character: uint32(offset - starts[n])}
}

// pick is an offset that an editor can put its cursor at: not inside a pair of
// surrogates, nor between \r and \n.
func (m model) pick(r *rand.Rand) int {
	for {
		i := r.IntN(len(m) + 1)
		if i < len(m) && i > 0 && (utf16.IsSurrogate(rune(m[i])) && m[i] >= 0xDC00 || m[i] == '\n' && m[i-1] == '\r') {
			continue
		}
		return i
	}
}

var scraps = []string{
	"", "a", "The lamp ", "\n", "\r\n", "\r", "😀", "é", "é", "’tis", "\n\n", "[note]", "𐐀𐐀", "\u2028", "## Spread\n", "word\r\nword", "<!-- x -->",
}

// randomChanges makes a notification's changes, and the text they lead to.
func randomChanges(r *rand.Rand, m model) ([]change, model) {
	var changes []change
	for range 1 + r.IntN(4) {
		text := scraps[r.IntN(len(scraps))]
		if r.IntN(40) == 0 {
			m = utf16.Encode([]rune(text + text))
			changes = append(changes, change{Text: m.String()})
			continue
		}
		from, to := m.pick(r), m.pick(r)
		if from > to {
			from, to = to, from
		}
		if r.IntN(3) > 0 {
			to = from
		}
		changes = append(changes, change{Range: &protocol.Range{Start: m.position(from), End: m.position(to)}, Text: text})
		next := append(model{}, m[:from]...)
		next = append(next, utf16.Encode([]rune(text))...)
		m = append(next, m[to:]...)
	}
	return changes, m
}

func TestRandomEditsEqualTheModel(t *testing.T) {
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 1))
		m := model(utf16.Encode([]rune("The lamp on the headland\r\nwent out with a cough\r\n")))
		d := openText(m.String(), protocol317.UTF16)
		for step := range 40 {
			var changes []change
			changes, m = randomChanges(r, m)
			next, err := d.apply(changes, int32(step))
			if err != nil {
				t.Fatalf("seed %d step %d: %v", seed, step, err)
			}
			d = next
			if d.text != m.String() {
				t.Fatalf("seed %d step %d: (-want +got)\n%s", seed, step, cmp.Diff(m.String(), d.text))
			}
			if diff := cmp.Diff(newMapper(d.text, d.encoding).starts, d.starts); diff != "" {
				t.Fatalf("seed %d step %d: line starts (-fresh +spliced)\n%s", seed, step, diff)
			}
		}
	}
}

// Through the protocol, an edited document says the same as one opened fresh.
func TestRandomEditsEqualAFreshOpen(t *testing.T) {
	e := connect(t)
	e.initialize(`{"textDocument":{"publishDiagnostics":{"relatedInformation":true}}}`)
	for seed := range uint64(40) {
		r := rand.New(rand.NewPCG(seed, 2))
		m := model(encodeUTF16(strings.ReplaceAll(scriptText, "\n", []string{"\n", "\r\n", "\r"}[seed%3])))
		edited := fmt.Sprintf("file:///edited%d.verse", seed)
		fresh := fmt.Sprintf("file:///fresh%d.verse", seed)
		e.open(edited, 0, m.String())
		version := 0
		for range 15 {
			var changes []change
			changes, m = randomChanges(r, m)
			version++
			e.notify("textDocument/didChange", protocol317.DidChangeTextDocumentParams{
				TextDocument:   protocol317.VersionedTextDocumentIdentifier{URI: uri.URI(edited), Version: int32(version)},
				ContentChanges: changes,
			})
			if version%3 == 0 { // so that a version between is read, too
				e.call("textDocument/codeLens", map[string]any{"textDocument": document0(edited)})
			}
		}
		e.open(fresh, version, m.String())
		got, want := e.published(edited, version), e.published(fresh, version)
		got.URI = want.URI
		for _, list := range [][]protocol317.Diagnostic{got.Diagnostics, want.Diagnostics} {
			for i := range list {
				for j := range list[i].RelatedInformation {
					list[i].RelatedInformation[j].Location.URI = ""
				}
			}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("seed %d: (-fresh +edited)\n%s", seed, diff)
		}
		// What else is heard in them must not depend on how they came about.
		for _, method := range []string{"semanticTokens/range", "inlayHint", "documentSymbol", "foldingRange", "codeLens"} {
			ask := func(u string) string {
				raw := e.call("textDocument/"+method, map[string]any{"textDocument": document0(u), "range": span(0, 0, 9999, 0)})
				return strings.ReplaceAll(string(raw), u, "")
			}
			if diff := cmp.Diff(ask(fresh), ask(edited)); diff != "" {
				t.Errorf("seed %d: %s (-fresh +edited)\n%s", seed, method, diff)
			}
		}
	}
	e.shutdown()
}

func TestABurstOfChangesIsReadOnce(t *testing.T) {
	e := connect(t)
	e.initialize(`{}`)
	e.open(demo, 0, "The lamp went out.\n")
	e.published(demo, 0)
	var burst strings.Builder
	for n := 1; n <= 200; n++ {
		fmt.Fprintf(&burst, "%s", frame(fmt.Sprintf(
			`{"jsonrpc":"2.0","method":"textDocument/didChange","params":{"textDocument":{"uri":%q,"version":%d},"contentChanges":[{"range":{"start":{"line":0,"character":3},"end":{"line":0,"character":3}},"text":"x"}]}}`,
			demo, n)))
	}
	e.raw(burst.String())
	e.published(demo, 200)
	e.shutdown()
	got := e.publications(demo)
	if len(got) > 3 { // the opening's and at most two
		t.Errorf("published versions %v", got)
	}
	if got[len(got)-1] != 200 {
		t.Errorf("published %v; the last has to be 200", got)
	}
}

func TestClosingTakesTheDiagnosticsBack(t *testing.T) {
	e := connect(t)
	e.initialize(`{}`)
	e.open(demo, 0, "The lamp went out.\n")
	e.published(demo, 0)
	e.notify("textDocument/didClose", map[string]any{"textDocument": document0(demo)})
	e.await(0, "an empty list", func(p passed) bool {
		return p.Method == "textDocument/publishDiagnostics" &&
			compact(t, p.Params) == `{"uri":"`+demo+`","diagnostics":[]}`
	})
	e.shutdown()
}

// Versions that go backwards are the client's business: what it sent last holds.
func TestVersionsGoingBackwards(t *testing.T) {
	e := connect(t)
	e.initialize(`{}`)
	e.open(demo, 9, "a")
	e.change(demo, -3, map[string]any{"text": "b"})
	e.published(demo, -3)
	e.change(demo, 0, map[string]any{"text": "c"})
	e.published(demo, 0)
	e.shutdown()
}

func FuzzMapper(f *testing.F) {
	f.Add("a😀b\r\nc\rd\n", uint32(1), uint32(2), uint32(3), uint32(1), "x\n")
	f.Add("", uint32(0), uint32(0), uint32(9), uint32(9), "\r")
	f.Fuzz(func(t *testing.T, text string, l1, c1, l2, c2 uint32, insert string) {
		text, insert = strings.ToValidUTF8(text, "?"), strings.ToValidUTF8(insert, "?")
		for _, encoding := range []protocol317.PositionEncodingKind{protocol317.UTF8, protocol317.UTF16, protocol317.UTF32} {
			m := newMapper(text, encoding)
			s, err := m.span(*at(l1, c1, l2, c2))
			if err != nil {
				continue
			}
			if s.Start < 0 || s.End > len(text) || !utf8.ValidString(text[:s.Start]) {
				t.Fatalf("span %v of a text of %d bytes", s, len(text))
			}
			for _, offset := range []int{s.Start, s.End} {
				p, err := m.position(offset)
				if err != nil {
					t.Fatal(err)
				}
				if back := m.offset(p); back != offset && !strings.HasPrefix(text[offset:], "\n") {
					t.Fatalf("%s: offset %d → %v → %d", encoding, offset, p, back)
				}
			}
			spliced := m.splice(s.Start, s.End, insert)
			if diff := cmp.Diff(newMapper(spliced.text, encoding).starts, spliced.starts); diff != "" {
				t.Fatalf("(-fresh +spliced)\n%s", diff)
			}
		}
	})
}

func encodeUTF16(s string) []uint16 { return utf16.Encode([]rune(s)) }

func uriOf(t *testing.T, text string) uri.URI {
	t.Helper()
	u, err := uri.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return u
}

func sortedEdits(edits []checks.Edit) []checks.Edit {
	out := slices.Clone(edits)
	slices.SortStableFunc(out, func(a, b checks.Edit) int { return a.Span.Start - b.Span.Start })
	return out
}
