package scansion_test

import (
	"fmt"
	"strings"
	"testing"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/phonetics"
)

// BenchmarkLine is the whole of hearing one line that was never heard before:
// its words' sounds, and its scores under every meter.
func BenchmarkLine(b *testing.B) {
	reader := phonetics.NewReader(phonetics.EnUS, nil)
	m := manuscript.Parse("The harbour was silver, the harbour was wide,\n")
	b.ReportAllocs()
	for b.Loop() {
		scansion.Scan(m, scansion.NewMemo(reader))
	}
}

// BenchmarkKeystroke is one line changed in a manuscript of about 1,000 words.
func BenchmarkKeystroke(b *testing.B) {
	reader := phonetics.NewReader(phonetics.EnUS, nil)
	text := strings.Repeat(steady+"\n", 15)
	memo := scansion.NewMemo(reader)
	versions := make([]*manuscript.Manuscript, 64)
	for i := range versions {
		versions[i] = manuscript.Parse(strings.Replace(text, "kettle", fmt.Sprintf("kettle%c%c", 'a'+i%26, 'a'+i/26), 1))
	}
	i := 0
	b.ReportAllocs()
	for b.Loop() {
		scansion.Scan(versions[i%len(versions)], memo)
		i++
	}
}
