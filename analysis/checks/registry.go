package checks

// All lists every check, in the order of their codes. It is a value that can
// be read and compared; no check registers itself.
var All = []*Check{
	bookFullSpread,      // book/full-spread
	bookOpening,         // book/opening
	bookReadingLevel,    // book/reading-level
	bookSpreads,         // book/spreads
	bookWordCount,       // book/word-count
	imageStray,          // image/stray
	markApostrophe,      // mark/apostrophe
	markCapital,         // mark/capital
	markDash,            // mark/dash
	markEnd,             // mark/end
	markQuote,           // mark/quote
	markSpace,           // mark/space
	meterCrowdedStress,  // meter/crowded-stress
	meterExtraBeat,      // meter/extra-beat
	meterMissingBeat,    // meter/missing-beat
	meterPatternChange,  // meter/pattern-change
	meterSlackRun,       // meter/slack-run
	meterWrenchedStress, // meter/wrenched-stress
	noteCount,           // note/count
	noteInside,          // note/inside
	noteLabel,           // note/label
	noteRedundant,       // note/redundant
	noteTooLong,         // note/too-long
	praiseAlliteration,  // praise/alliteration
	praiseAssonance,     // praise/assonance
	praiseConsonance,    // praise/consonance
	praiseInternalRhyme, // praise/internal-rhyme
	praisePageTurn,      // praise/page-turn
	praiseRefrain,       // praise/refrain
	praiseSoundWord,     // praise/sound-word
	praiseVariation,     // praise/variation
	refrainDrift,        // refrain/drift
	rhymeHomophone,      // rhyme/homophone
	rhymeNear,           // rhyme/near
	rhymeNone,           // rhyme/none
	rhymeOverusedSound,  // rhyme/overused-sound
	rhymeSameWord,       // rhyme/same-word
	rhymeWellWornPair,   // rhyme/well-worn-pair
	rhymeWrenched,       // rhyme/wrenched
	soundTongueTangle,   // sound/tongue-tangle
	stanzaUnmatched,     // stanza/unmatched
	wordFiller,          // word/filler
	wordInvertedOrder,   // word/inverted-order
	wordPaddingDo,       // word/padding-do
	wordWeak,            // word/weak
}
