package ear

// A phase is where a reading stands between beats: before the first beat, how
// many slacks have gone by; after it, how many since the last beat, and the
// gap before that beat, which tells an inversion from a stumble.
type phase uint8

const (
	maxOpening = 3 // slacks before the first beat are counted up to this
	maxGap     = 4 // slacks between beats are counted up to this
	maxEnding  = 3 // slacks after the last beat are counted up to this

	gaps     = maxGap + 1
	openings = maxOpening + 1
	endings  = maxEnding + 1
	// A beat came before the gap: after a gap of 0 … 4, or as the first beat
	// after an opening of 0, 1, 2 and more.
	contexts    = gaps + 3
	gapFeatures = contexts * gaps

	phaseCount = openings + contexts*gaps
)

// inGap is the phase after g slacks since a beat in the context c.
func inGap(c, g int) phase { return phase(openings + c*gaps + g) }

// A step is what happens to a phase when a syllable is read.
type step struct {
	slack phase // the phase after a slack
	beat  phase // the phase after a beat
	// opening is the count of slacks that a first beat closes, else -1.
	opening int8
	// gap is the gap feature that a later beat adds: context and gap.
	gap int16
	// ending is the count of slacks after the last beat, if the line ends here.
	ending int8
}

// steps has the step of every phase.
var steps = makeSteps()

func makeSteps() (table [phaseCount]step) {
	for o := range openings {
		table[o] = step{
			slack:   phase(min(o+1, maxOpening)),
			beat:    inGap(gaps+min(o, 2), 0),
			opening: int8(o), gap: -1, ending: maxEnding,
		}
	}
	for c := range contexts {
		for g := range gaps {
			table[inGap(c, g)] = step{
				slack:   inGap(c, min(g+1, maxGap)),
				beat:    inGap(g, 0),
				opening: -1,
				gap:     int16(c*gaps + g),
				ending:  int8(min(g, maxEnding)),
			}
		}
	}
	return table
}
