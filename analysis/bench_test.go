package analysis_test

import (
	"runtime"
	"testing"

	"dandle/analysis"
	"dandle/testdata/manuscripts"
)

// BenchmarkThousandLines hears a thousand lines of verse for the first time,
// with all that is found in them.
func BenchmarkThousandLines(b *testing.B) {
	text := manuscripts.Long(1000, 1)
	analysis.New(text, analysis.Options{}).Findings() // tables are unpacked once for each process
	b.ReportAllocs()
	for b.Loop() {
		analysis.New(text, analysis.Options{}).Findings()
	}
}

// BenchmarkMemoryHeld reports what an open manuscript of a thousand words holds
// on to: "held-kB" is what the garbage collector leaves.
func BenchmarkMemoryHeld(b *testing.B) {
	const documents = 16
	heap := func() uint64 {
		runtime.GC()
		var stats runtime.MemStats
		runtime.ReadMemStats(&stats)
		return stats.HeapAlloc
	}
	var held uint64
	for b.Loop() {
		analysis.New(manuscripts.Long(140, 99), analysis.Options{}).Findings()
		before := heap()
		open := make([]*analysis.Snapshot, documents)
		for i := range open {
			open[i] = analysis.New(manuscripts.Long(140, uint64(i)), analysis.Options{})
			open[i].Findings()
		}
		held = (heap() - before) / documents
		runtime.KeepAlive(open)
	}
	b.ReportMetric(float64(held)/1024, "held-kB")
}
