package checks

import (
	"fmt"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
)

const meterSlackRunDoc = `
Too many unstressed syllables stand in a row for any beat to land.

Between two beats the voice can hurry over one light syllable or two. At three it stumbles,
and at four it no longer knows the tune. It often comes from small words that came in one by
one: _and a_, _of the_, _to be in the_.

Three light syllables stand between _heron_ and _scarf_:

    A hat for the heron and a scarf for the hen.

With one less the line swings:

    A hat for the heron, a scarf for the hen.

What helps: let go of a small word; often _and_ or _the_ can be spared.
`

var meterSlackRun = &Check{
	Code:     "meter/slack-run",
	Severity: Warning,
	Reach:    OneStanza,
	Doc:      meterSlackRunDoc,
	Run: func(p *Pass) {
		reportBreaks(p, scansion.SlackRun, slackRunMessage, isNoLonger)
	},
}

func slackRunMessage(b broken) string {
	from, to := b.slackRun()
	if to-from < 3 {
		return fmt.Sprintf("There are more light syllables at %s than the tune has time for; one less would bring the step back.", b.phrase())
	}
	run := manuscript.Span{Start: b.line.Words[b.wordAt(from)].Span.Start, End: b.line.Words[b.wordAt(to-1)].Span.End}
	return fmt.Sprintf("%s light syllables run together in %s before a beat can land; one fewer would bring the step back.", capital(cardinal(to-from)), quote(run.In(b.text)))
}

// isNoLonger reports whether a line has no more syllables than its place asks for, and so none to
// spare.
func isNoLonger(line *scansion.Line) bool {
	return len(line.Reading.Syllables) <= askedLength(line)
}
