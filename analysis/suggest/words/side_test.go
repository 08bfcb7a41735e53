package words

import "testing"

// The pairs are those of every table of American and British spelling (common practice),
// as SCOWL's lists part them.
func TestSides(t *testing.T) {
	for american, british := range map[string]string{
		"harbor": "harbour", "neighborly": "neighbourly", "cozy": "cosy", "jeweled": "jewelled", "traveler": "traveller",
		"theater": "theatre", "gray": "grey", "plow": "plough", "realize": "realise",
	} {
		a, b := Find(american), Find(british)
		if a == None || b == None {
			t.Errorf("%s or %s is not known", american, british)
			continue
		}
		if a.Side() == British || b.Side() == American || a.Side() == b.Side() {
			t.Errorf("%s is of side %d, %s of side %d", american, a.Side(), british, b.Side())
		}
		if got := British.Spell(american); a.Side() == American && got != british {
			t.Errorf("%s is spelled %s in Britain, want %s", american, got, british)
		}
		if got := American.Spell(british); b.Side() == British && got != american {
			t.Errorf("%s is spelled %s in America, want %s", british, got, american)
		}
	}
	for _, text := range []string{"lantern", "spain", "xyzzyq"} {
		if got := British.Spell(text); got != text {
			t.Errorf("%s is spelled %s", text, got)
		}
	}
}
