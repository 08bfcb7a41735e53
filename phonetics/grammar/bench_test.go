package grammar

import "testing"

func BenchmarkTags(b *testing.B) {
	line := []Token{{"The", ""}, {"goat", ""}, {"at", ""}, {"the", ""}, {"lighthouse", ""}, {"has", ""}, {"swallowed", ""}, {"it", ".\n"}}
	b.ReportAllocs()
	for b.Loop() {
		Tags(line)
	}
}

func BenchmarkTagsOldWords(b *testing.B) {
	line := []Token{{"’Tis", ""}, {"o’er", ""}, {"th’", ""}, {"heav’n", ""}, {"thou", ""}, {"wand’rest", ","}, {"nooo", ""}, {"snow-soft", "!"}}
	b.ReportAllocs()
	for b.Loop() {
		Tags(line)
	}
}
