// Package manuscripts holds the demo manuscripts, and makes longer ones for
// benchmarks.
package manuscripts

import (
	"math/rand/v2"
	"strings"
)

// The words that Long makes its lines of: each subject and object is a trochee
// with its article, each verb a trochee, each tail three syllables with a beat
// at either end. So every line is iambic pentameter, and no two are likely to
// be alike.
var (
	openings = []string{"The", "A", "Then", "So", "And", "But", "That", "One"}
	subjects = strings.Fields("otter badger heron rabbit beaver lizard ferret kitten sparrow weasel pigeon turtle puffin donkey spider beetle walrus miller baker weaver tailor sailor farmer potter carter plumber cobbler drummer painter pilot neighbor grocer piper hunter shepherd")
	doings   = strings.Fields("carried polished borrowed painted mended followed gathered counted balanced buttoned covered cornered flattened hollowed lettered measured numbered offered papered pestered planted pondered quartered rattled shouldered silvered sorted tangled threaded toppled traded tumbled twisted varnished whistled")
	objects  = strings.Fields("lanterns kettles ladders baskets buttons feathers blankets pebbles barrels bottles candles carpets cushions fiddles garments hammers helmets jackets jerseys marbles mittens napkins noodles paddles pockets puddles puppets ribbons saddles saucers shovels slippers teapots thimbles tickets trumpets whistles")
	tails    = [][]string{
		{"down the hill", "on the sill", "past the mill", "after Jill", "with a will"},
		{"by the sea", "after tea", "near the quay", "wild and free", "up the tree"},
		{"in the rain", "up the lane", "home again", "round the drain", "off to Spain"},
		{"all the night", "out of sight", "left and right", "by the light", "tied up tight"},
		{"through the snow", "in a row", "long ago", "high and low", "by the toe"},
		{"in a sack", "there and back", "on a rack", "painted black", "down the track"},
		{"half the day", "in the hay", "by the bay", "on the way", "made of clay"},
		{"from the ground", "safe and sound", "by the pound", "lost and found", "round and round"},
		{"in the hall", "one and all", "by the wall", "big and small", "for the ball"},
		{"at the door", "on the floor", "by the score", "nine or more", "on the shore"},
		{"on the stair", "in the air", "everywhere", "for the fair", "by the pair"},
		{"in the sun", "one by one", "on the run", "just for fun", "by the ton"},
	}
)

// Long is a manuscript of so many lines of verse, in couplets by four lines a
// stanza, the same for the same seed. It is for benchmarks and for tests that
// need much text: verse that scans, rhymes, and repeats itself no more than a
// long poem does.
func Long(lines int, seed uint64) string {
	r := rand.New(rand.NewPCG(seed, 0))
	pick := func(list []string) string { return list[r.IntN(len(list))] }
	var b strings.Builder
	b.WriteString("# The Long Ferry\n")
	for i := 0; i < lines; i += 2 {
		if i%4 == 0 {
			b.WriteString("\n")
		}
		rhymes := tails[r.IntN(len(tails))]
		first := r.IntN(len(rhymes))
		second := (first + 1 + r.IntN(len(rhymes)-1)) % len(rhymes)
		for k, tail := range []int{first, second} {
			end := []string{",\n", ".\n"}[k]
			b.WriteString(pick(openings) + " " + pick(subjects) + " " + pick(doings) + " " + pick(objects) + " " + rhymes[tail] + end)
		}
	}
	return b.String()
}
