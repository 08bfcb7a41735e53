package analysis

import (
	"dandle/analysis/critique"
	"dandle/analysis/manuscript"
	"dandle/analysis/revision"
	"dandle/analysis/scansion"
)

// Letter is what an editor would write about this version.
func (s *Snapshot) Letter(tone critique.Tone) critique.Letter {
	return critique.Write(critique.Parts{
		Manuscript: s.manuscript, Poem: s.Poem(), Schemes: s.Schemes(), Findings: s.Findings(),
		Again: func(text string) (*manuscript.Manuscript, *scansion.Poem) {
			again := s.With(text)
			return again.manuscript, again.Poem()
		},
	}, tone)
}

// Draft is this version as one of two that are laid side by side.
func (s *Snapshot) Draft() revision.Draft {
	return revision.Draft{Manuscript: s.manuscript, Poem: s.Poem(), Findings: s.Findings()}
}
