package lsp

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"dandle/lsp/protocol317"
	"dandle/testdata/manuscripts"

	"go.lsp.dev/protocol"
)

// longBook is a manuscript of about as many words, in lines of seven.
func longBook(words int) string { return manuscripts.Long(words/7, 1) }

// times are how long each round of a benchmark took. A mean hides what a hand
// feels: how long one usually waits, and how long at worst.
type times []time.Duration

// loop runs a benchmark's rounds and takes the time of each.
func loop(b *testing.B, round func()) {
	b.ReportAllocs()
	t := make(times, 0, 1<<16)
	for b.Loop() {
		start := time.Now()
		round()
		t = append(t, time.Since(start))
	}
	t.report(b)
}

// report adds the median and the 99th percentile.
func (t times) report(b *testing.B) {
	slices.Sort(t)
	b.ReportMetric(float64(t[len(t)/2]), "ns-median")
	b.ReportMetric(float64(t[len(t)*99/100]), "ns-p99")
}

// BenchmarkKeystroke is one letter typed in a line in the middle, to its
// diagnostics, with the text changed each time.
func BenchmarkKeystroke(b *testing.B) {
	for _, words := range []int{200, 1000, 10_000} {
		b.Run(fmt.Sprintf("%d words", words), func(b *testing.B) {
			d := openText(longBook(words), protocol317.UTF16)
			line := uint32(d.lines()/2/5*5 + 2)
			diagnostics(d, client{})
			n := 0
			loop(b, func() {
				n++
				next := change{Range: at(line, 4, line, 4), Text: "x"}
				if n%2 == 0 {
					next = change{Range: at(line, 4, line, 5)}
				}
				var err error
				if d, err = d.apply([]change{next}, int32(n)); err != nil {
					b.Fatal(err)
				}
				diagnostics(d, client{})
			})
		})
	}
}

// BenchmarkApply is what a keystroke costs here before anybody reads the verse.
func BenchmarkApply(b *testing.B) {
	d := openText(longBook(1000), protocol317.UTF16)
	line := uint32(d.lines()/2/5*5 + 2)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := d.apply([]change{{Range: at(line, 4, line, 4), Text: "x"}}, 2); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkDiagnostics is what a keystroke costs here once the findings are
// known.
func BenchmarkDiagnostics(b *testing.B) {
	d := openText(strings.Replace(longBook(1000), " in the ", " that was in the ", 15), protocol317.UTF16)
	n := len(diagnostics(d, client{}))
	b.ReportAllocs()
	for b.Loop() {
		diagnostics(d, client{})
	}
	b.ReportMetric(float64(n), "diagnostics")
}

func BenchmarkInlayHints(b *testing.B) {
	v := benchView(1000)
	p := protocol317.InlayHintParams{Range: v.rangeOf(v.everything())}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := inlayHints(b.Context(), v, p); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCodeLens(b *testing.B) {
	v := benchView(1000)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := codeLens(b.Context(), v, protocol.CodeLensParams{}); err != nil {
			b.Fatal(err)
		}
	}
}

func benchView(words int) view {
	return view{document: openText(longBook(words), protocol317.UTF16), settings: defaultSettings(), memory: newMemory()}
}

func BenchmarkHover(b *testing.B) {
	v := benchView(1000)
	p := protocol.HoverParams{TextDocumentPositionParams: protocol.TextDocumentPositionParams{Position: protocol.Position{Line: 2, Character: 6}}}
	diagnostics(v.document, client{})
	loop(b, func() {
		if h, err := hover(b.Context(), v, p); err != nil || h == nil {
			b.Fatal(err)
		}
	})
}

func BenchmarkCompletion(b *testing.B) {
	v := benchView(1000)
	p := protocol.CompletionParams{TextDocumentPositionParams: protocol.TextDocumentPositionParams{Position: protocol.Position{Line: 3, Character: 35}}}
	loop(b, func() {
		if _, err := completion(b.Context(), v, p); err != nil {
			b.Fatal(err)
		}
	})
}

func BenchmarkSemanticTokens(b *testing.B) {
	v := benchView(1000)
	b.ReportAllocs()
	for b.Loop() {
		v.encode(v.tokens(v.everything()))
	}
}

func BenchmarkColdOpen(b *testing.B) {
	text := longBook(1000)
	loop(b, func() { diagnostics(openText(text, protocol317.UTF16), client{}) })
}

func BenchmarkSplice(b *testing.B) {
	m := newMapper(longBook(10_000), protocol317.UTF16)
	b.ReportAllocs()
	for b.Loop() {
		m.splice(len(m.text)/2, len(m.text)/2, "x")
	}
}
