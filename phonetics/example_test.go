package phonetics_test

import (
	"fmt"

	"dandle/phonetics"
	"dandle/phonetics/grammar"
)

func ExampleReader_Pronounce() {
	r := phonetics.NewReader(phonetics.EnUS, nil)
	for _, word := range []string{"lantern", "Moonmoth", "sooooo", "o’er"} {
		p := r.Pronounce(word, phonetics.Context{})[0]
		fmt.Print(word, ": ", p.Sounds, ", ", p.Source, ",")
		for _, s := range p.Syllables {
			fmt.Print(" ", word[s.Start:s.End])
		}
		fmt.Println()
	}
	// Output:
	// lantern: L AE1 N T ER0 N, lexicon, lan tern
	// Moonmoth: M UW1 N M AO2 TH, compound, Moon moth
	// sooooo: S OW1, imitation, sooooo
	// o’er: AO1 R, lexicon, o’er
}

// A homograph's sounds follow the part it plays in its sentence.
func ExampleReader_Pronounce_homograph() {
	r := phonetics.NewReader(phonetics.EnUS, nil)
	for _, tag := range []grammar.Tag{grammar.Noun, grammar.Verb} {
		p := r.Pronounce("record", phonetics.Context{Tag: tag})[0]
		fmt.Println(p.Sounds)
	}
	// Output:
	// R EH1 K ER0 D
	// R AH0 K AO1 R D
}

// A weak syllable that may be said or not is a second way, with its cost.
func ExampleReader_Pronounce_optional() {
	r := phonetics.NewReader(phonetics.EnUS, nil)
	for _, p := range r.Pronounce("heaven", phonetics.Context{}) {
		fmt.Println(p.Sounds, p.Cost)
	}
	// Output:
	// HH EH1 V AH0 N 0
	// HH EH1 V N 1.5
}

func ExampleParseSpoken() {
	for _, text := range []string{"OH-bn", "OW1 B AH0 N", "/ˈoʊbən/", "oh-bn"} {
		sounds, err := phonetics.ParseSpoken(text)
		fmt.Println(sounds, err)
	}
	// Output:
	// OW1 B AH0 N <nil>
	// OW1 B AH0 N <nil>
	// OW1 B AH0 N <nil>
	//  no syllable is loud; write the loud one in capitals (OH-bn), with a 1 (OW1 B AH0 N) or behind a stress mark (ˈoʊbən)
}

func ExamplePronunciation_IPA() {
	for _, d := range []phonetics.Dialect{phonetics.EnUS, phonetics.EnGB} {
		p := phonetics.NewReader(d, nil).Pronounce("lighthouse-keeper", phonetics.Context{})[0]
		fmt.Println(d, p.IPA(d))
	}
	// Output:
	// en-US ˈlaɪtˌhaʊsˌkiːpɚ
	// en-GB ˈlaɪtˌhaʊsˌkiːpə
}
