package checks

import (
	"strings"
	"testing"
)

// TestClassesHaveNamesOfTheirOwn: of two sections with one name only the first
// would ever be read.
func TestClassesHaveNamesOfTheirOwn(t *testing.T) {
	seen := map[string]bool{}
	for line := range strings.Lines(classesText) {
		name, ok := strings.CutPrefix(strings.TrimSpace(line), "[")
		if !ok {
			continue
		}
		if seen[name] {
			t.Errorf("classes.txt has two sections [%s", name)
		}
		seen[name] = true
	}
	if len(seen) == 0 {
		t.Error("classes.txt has no sections")
	}
}
