package train

import (
	"maps"
	"runtime"
	"slices"
	"sync"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/lexicon"
	"dandle/phonetics/spelling/internal/graphone"
)

// Settings are all that a training depends on besides the dictionary.
type Settings struct {
	Models Options // of the two models that are kept
	Trials Options // of the models that only make the judge's trials
	Judge  Options
	Log    func(format string, args ...any)
}

// Standard is the settings that the embedded weights were trained with. They
// were chosen on the tenth of the dictionary that Tuning names, with that tenth
// kept from training. The number of weights is what 2 MB hold.
func Standard() Settings {
	models := Options{Rounds: 6, Settle: 4, Rate: 0.4, Sparse: 3, Shrink: 1, AtLeast: 2, Most: 304_000}
	trials := models
	trials.Rounds, trials.Settle = 4, 1
	return Settings{
		Models: models,
		Trials: trials,
		Judge:  Options{Rounds: 5, Settle: 1, Rate: 0.1, Sparse: 0.3, Shrink: 1, AtLeast: 10, Most: 4_000},
		Log:    func(string, ...any) {},
	}
}

// folds is the number of parts that the judge's trials come from: each part is
// read by models that learnt from the others.
const folds = 3

func fold(word string) int { return Part(word) % folds }

// Reader trains a reader on the known words of a dictionary and packs it.
func Reader(dictionary map[string][]arpabet.Sounds, known func(string) bool, s Settings) ([]byte, error) {
	examples := Examples(dictionary, known)
	visible := func(word string) []arpabet.Sounds {
		if !known(word) {
			return nil
		}
		return dictionary[word]
	}
	var (
		jobs   sync.WaitGroup
		slots  = make(chan struct{}, max(1, runtime.GOMAXPROCS(0)/2)) // for memory's sake
		trials [folds][]Trial
		errs   [folds]error
	)
	for part := range folds {
		jobs.Go(func() {
			slots <- struct{}{}
			defer func() { <-slots }()
			trials[part], errs[part] = makeTrials(examples, part, s)
		})
	}
	slots <- struct{}{}
	s.Log("%d examples", len(examples))
	inv, forward, backward := fitBoth(examples, s.Models, s.Log)
	<-slots
	jobs.Wait()
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	judge := FitJudge(slices.Concat(trials[:]...), visible, s.Judge, s.Log)
	return graphone.PackReader(inv, forward, backward, graphone.Pack(judge)), nil
}

// Examples are the pronunciations of the known words, in the order of the
// words' bytes and then in the dictionary's.
func Examples(dictionary map[string][]arpabet.Sounds, known func(string) bool) []Example {
	var examples []Example
	for _, word := range slices.Sorted(maps.Keys(dictionary)) {
		if !known(word) {
			continue
		}
		for _, sounds := range dictionary[word] {
			examples = append(examples, Example{word, sounds, 1 / float32(len(dictionary[word]))})
		}
	}
	return examples
}

// fitBoth learns the forward and the backward model.
func fitBoth(examples []Example, o Options, log func(string, ...any)) (inv *graphone.Inventory, forward, backward []byte) {
	aligned, inv := Align(examples)
	log("%d examples aligned", len(aligned))
	var both sync.WaitGroup
	both.Go(func() { forward = graphone.Pack(Fit(aligned, inv, o, log)) })
	both.Go(func() { backward = graphone.Pack(Fit(Reverse(aligned), inv.Reversed(), o, log)) })
	both.Wait()
	return inv, forward, backward
}

// makeTrials lets models which learnt from the other parts read one part.
func makeTrials(examples []Example, part int, s Settings) ([]Trial, error) {
	var others []Example
	for _, e := range examples {
		if fold(e.Word) != part {
			others = append(others, e)
		}
	}
	inv, forward, backward := fitBoth(others, s.Trials, func(string, ...any) {})
	r, err := graphone.OpenReader(string(graphone.PackReader(inv, forward, backward, nil)))
	if err != nil {
		return nil, err
	}
	var trials []Trial
	for i, e := range examples {
		if fold(e.Word) != part {
			continue
		}
		if i > 0 && examples[i-1].Word == e.Word {
			last := &trials[len(trials)-1]
			last.Answers = append(last.Answers, e.Sounds)
			continue
		}
		letters := graphone.Letters(e.Word)
		trials = append(trials, Trial{e.Word, letters, r.Read(letters, nil, graphone.Wide), []arpabet.Sounds{e.Sounds}})
	}
	return trials, nil
}

// Evaluate scores a packed reader on those words of the embedded dictionary
// that are to be scored. Words that are not known are hidden from it, so that
// none of them helps as kin; without kin it reads by the letters alone.
func Evaluate(packed string, known, scored func(string) bool, kin bool) (Score, error) {
	var s Score
	r, err := graphone.OpenReader(packed)
	if err != nil {
		return s, err
	}
	var dictionary graphone.Dictionary
	if kin {
		dictionary = func(word string) []arpabet.Sounds {
			if !known(word) {
				return nil
			}
			return ways(lexicon.Lookup(word))
		}
	}
	for word, entries := range lexicon.All() {
		if !scored(word) {
			continue
		}
		guess := arpabet.Sounds("")
		if list := r.Read(graphone.Letters(word), dictionary, graphone.Quick); len(list) > 0 {
			guess = list[0].Sounds
		}
		s.Add(guess, ways(entries))
	}
	return s, nil
}

func ways(entries lexicon.Entries) []arpabet.Sounds {
	if entries.Len() == 0 {
		return nil
	}
	list := make([]arpabet.Sounds, 0, entries.Len())
	for _, s := range entries.All() {
		list = append(list, s)
	}
	return list
}
