package analysis_test

import (
	"os"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"
	"time"
	"unsafe"

	"dandle/analysis"
	"dandle/phonetics"
)

// TestOldTextsAreForgotten types for a while and counts the versions of the text
// that something still holds on to: whoever remembers a word as a piece of the
// text that it was read from keeps the whole of it.
func TestOldTextsAreForgotten(t *testing.T) {
	demo, err := os.ReadFile("../testdata/manuscripts/hedgehog-and-the-clock.verse")
	if err != nil {
		t.Fatal(err)
	}
	text := string(demo)
	var held atomic.Int64
	watched := func() string {
		version := strings.Clone(text)
		held.Add(1)
		runtime.AddCleanup(unsafe.StringData(version), func(int) { held.Add(-1) }, 0)
		return version
	}
	// A reader of few words forgets and passes on all the time, as one of many
	// words does in the course of a day.
	s := analysis.New(watched(), analysis.Options{Readers: &phonetics.Readers{Words: 300}})
	const edits = 200
	for n := range edits {
		at := n * 997 % len(demo)
		at += strings.Index(string(demo[at:])+" ", " ")
		text = string(demo[:at]) + " " + string(rune('a'+n%26)) + "ome" + string(rune('a'+n/26)) + string(demo[at:])
		s = s.With(watched())
		for _, f := range s.Findings() {
			s.Fixes(&f)
		}
	}
	const few = 3 // the last, and what was asked for last
	for deadline := time.Now().Add(5 * time.Second); held.Load() > few && time.Now().Before(deadline); {
		runtime.GC()
		time.Sleep(time.Millisecond)
	}
	if n := held.Load(); n > few {
		t.Errorf("%d of %d texts are held; want at most %d", n, edits, few)
	}
	runtime.KeepAlive(s)
}
