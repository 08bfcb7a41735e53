package analysis

import (
	"dandle/analysis/critique"
	"dandle/analysis/manuscript"
	"dandle/analysis/revision"
	"dandle/analysis/scansion"
)

// Parts are what a letter about this version is written from.
func (s *Snapshot) Parts() critique.Parts {
	return critique.Parts{
		Manuscript: s.manuscript, Poem: s.Poem(), Stanzas: s.Stanzas(), Findings: s.Findings(), Fixes: s.Fixes,
		Again: func(text string) (*manuscript.Manuscript, *scansion.Poem) {
			again := s.With(text)
			return again.manuscript, again.Poem()
		},
	}
}

// Letter is what an editor would write about this version.
func (s *Snapshot) Letter(tone critique.Tone) critique.Letter { return critique.Write(s.Parts(), tone) }

// Draft is this version as one of two that are laid side by side.
func (s *Snapshot) Draft() revision.Draft {
	return revision.Draft{Manuscript: s.manuscript, Poem: s.Poem(), Findings: s.Raised()}
}
