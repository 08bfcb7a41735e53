package manuscript

import "testing"

func TestSample(t *testing.T) {
	m := Parse("---\ntitle: The Goat\nages: 3-6\ndialect: en-GB\npronounce: { Oban: \"OH-bn\" }\nallow: [word/weak, sound]\n---\n# The Goat\n\n## Spread 1\n\nThe lamp on the headland went out with a cough,\n[Goat = hat]\nand ’tis *so very* cold o’er the snow-soft rock ’n’ roll—goin’ home. [note]\n> think\n> again\n“What NOW?” said the goats’ mum, “I owe $5 & 1,000 more\nat 7:30 a.m. sharp...” <!-- dandle: allow word/filler -->\n")
	for _, l := range m.Lines {
		t.Log(l.Number, l.Stanza, l.Place, l.Span.In(m.Text))
		for _, w := range l.Words {
			t.Logf("   %q %+v", w.Text, w)
		}
	}
	t.Logf("%+v\n%+v\n%+v\n%+v %+v", m.Front, m.Notes, m.Allowances, m.Problems, m.Spreads)
}
