package rhyme

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// What an outlook says of one line must be what the whole lattice says of a
// stanza in which nothing is heard of that line's end.
func TestOutlookIsTheLatticeOfADeafLine(t *testing.T) {
	chance := rand.New(rand.NewPCG(1, 2))
	for _, n := range []int{1, 2, 4, 5, 9, 14, 40} {
		t.Run(fmt.Sprintf("%d lines", n), func(t *testing.T) {
			heard := newTable(n)
			for i := range heard {
				for d := range min(reach, n-1-i) {
					heard[i][d] = 12*chance.Float64() - 6
				}
			}
			o := newOutlook(heard, anyForm())
			for line := range n {
				want := lattice(deafTo(heard, line), anyForm()).pairs
				got := o.mates(line)
				for k := max(0, line-reach); k <= min(n-1, line+reach); k++ {
					if k == line {
						continue
					}
					first, gap := min(k, line), max(k, line)-min(k, line)-1
					if math.Abs(got[reach+k-line]-want[first][gap]) > 1e-9 {
						t.Errorf("lines %d and %d: %v, not %v", line, k, got[reach+k-line], want[first][gap])
					}
				}
			}
		})
	}
}

// deafTo is a table that says nothing of a line.
func deafTo(heard table, line int) table {
	deaf := slices.Clone(heard)
	for d := range reach {
		deaf[line][d] = 0
		if i := line - d - 1; i >= 0 {
			deaf[i][d] = 0
		}
	}
	return deaf
}
