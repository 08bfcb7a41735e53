package ear

import (
	"math"
	"sync"
)

// A Model is the weight of every feature. It never changes once made.
type Model struct {
	w [featureCount]float32

	once  sync.Once
	bills [familyCount]bill

	trails sync.Pool // of *trail: the room of one is used for the next
}

// A bill is the tolls of a family, by the break before the beat's syllable.
type bill [breaks]tolls

// bill is what beats cost a family, added up when it is first asked for.
func (m *Model) bill(f family) *bill {
	m.once.Do(func() {
		for f := range m.bills {
			for before := range m.bills[f] {
				m.bills[f][before] = m.tolls(family(f), before)
			}
		}
	})
	return &m.bills[f]
}

// none is the score of what cannot be.
const none = float32(math.MaxFloat32 * -0.5)

// lift is how much a syllable wants a beat, in each family: the sum of its
// features' weights. 0 is indifferent, 1 is about three to one for a beat.
func (m *Model) lift(s *syllable) (sum [familyCount]float32) {
	shared := float32(0)
	for _, f := range s.list[:s.count] {
		shared += m.w[f]
	}
	for f := range sum {
		sum[f] = shared
		for _, i := range s.familyFeatures(family(f)) {
			sum[f] += m.w[i]
		}
	}
	return sum
}

// gapWeight is how much a gap between beats is liked.
func (m *Model) gapWeight(f family, gap int16, before int) float32 {
	return m.w[atGap+int(f)*gapFeatures+int(gap)] + m.w[atGapBreak+before*gaps+int(gap)%gaps]
}

// LengthCost is what it costs to read a line with another number of beats
// than its place calls for; never above 0.
func (m *Model) LengthCost(beats, wanted int) float32 {
	return m.w[atLength] * float32(max(beats-wanted, wanted-beats))
}
