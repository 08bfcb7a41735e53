package grammar

// closedClass gives the words of the closed classes, and the contractions by
// their heads. The classes are those of the Penn Treebank's guidelines
// (Santorini 1990); the old forms of verse (thou, hath, ere, o'er) are from
// Webster's Unabridged Dictionary (1913). The word is in lower case with
// straight apostrophes.
func closedClass(word string) Tag {
	switch word {
	case "a", "an", "the", "th'", "no", "every", "ev'ry", "each", "another", "any", "some", "either", "neither", "these", "those", "this":
		return Determiner
	case "all", "both", "half", "such", "many":
		return Predeterminer
	case "i", "you", "he", "she", "it", "we", "they", "me", "him", "us", "them", "'em", "thou", "thee", "ye",
		"myself", "yourself", "himself", "herself", "itself", "ourselves", "yourselves", "themselves", "thyself",
		"mine", "yours", "hers", "ours", "theirs",
		"i'm", "i'll", "i'd", "i've", "you're", "you'll", "you'd", "you've", "he's", "he'll", "he'd", "she's", "she'll", "she'd",
		"it's", "it'll", "it'd", "we're", "we'll", "we'd", "we've", "they're", "they'll", "they'd", "they've",
		"'tis", "'twas", "'twere", "'twill", "'twould", "thou'rt", "thou'lt", "let's":
		return Pronoun
	case "my", "your", "his", "her", "its", "our", "their", "thy", "thine":
		return Possessive
	case "who", "whom", "whose", "what", "who's", "what's", "who'd", "who'll", "whoever", "whatever":
		return WhPronoun
	case "which", "whichever":
		return WhDeterminer
	case "when", "where", "why", "how", "whence", "whither", "wherever", "whenever", "where's", "how's", "when's", "why's":
		return WhAdverb
	case "and", "or", "but", "nor", "yet", "&", "'n'", "an'":
		return Conjunction
	case "to":
		return To
	case "of", "in", "on", "at", "by", "for", "from", "with", "without", "into", "onto", "upon", "under", "over", "o'er",
		"above", "below", "beneath", "'neath", "beside", "between", "'twixt", "betwixt", "among", "amongst", "'mongst",
		"amid", "amidst", "through", "thro'", "toward", "towards", "behind", "beyond", "against", "'gainst", "across",
		"after", "before", "ere", "since", "until", "till", "'til", "while", "whilst", "although", "though", "tho'",
		"because", "'cause", "if", "unless", "than", "as", "like", "near", "along", "around", "'round", "past", "inside", "outside",
		"within", "during", "whether", "lest", "o'", "that":
		return Preposition
	case "up", "down", "out", "off", "away":
		return Particle
	case "there", "there's", "there'll", "there'd":
		return There
	case "can", "could", "may", "might", "must", "shall", "should", "will", "would", "ought", "shalt", "wilt", "canst", "couldst",
		"wouldst", "shouldst", "mayst", "mightst", "can't", "cannot", "couldn't", "won't", "wouldn't", "shan't", "shouldn't",
		"mustn't", "mightn't", "needn't":
		return Modal
	case "be":
		return Verb
	case "am", "are", "do", "have", "aren't", "don't", "haven't", "ain't", "art", "dost", "hast":
		return VerbPresent
	case "is", "does", "has", "isn't", "doesn't", "hasn't", "hath", "doth":
		return VerbThird
	case "was", "were", "did", "had", "wasn't", "weren't", "didn't", "hadn't", "wast", "wert", "didst", "hadst", "went", "came",
		"saw", "took", "gave", "knew", "grew", "flew", "blew", "threw", "ate", "began", "sang", "ran", "rang", "swam", "drank",
		"fell", "wrote", "rode", "rose", "drove", "woke", "broke", "spoke", "chose", "froze", "stole", "wore", "tore", "swore",
		"got", "forgot", "shook", "became":
		return VerbPast
	case "been", "done", "gone", "seen", "taken", "given", "known", "grown", "flown", "blown", "thrown", "eaten", "begun", "sung",
		"drunk", "fallen", "written", "ridden", "driven", "broken", "spoken", "chosen", "frozen", "stolen", "worn", "torn", "shaken":
		return VerbParticiple
	case "not", "n't", "never", "ne'er", "ever", "e'er", "always", "often", "oft", "soon", "now", "then", "here", "too", "so", "just",
		"quite", "very", "still", "again", "once", "twice", "thrice", "almost", "even", "ev'n", "perhaps", "maybe", "well",
		"rather", "together", "back", "home", "today", "tonight", "thus", "hence", "thence", "hither", "thither", "forth", "only", "also", "far":
		return Adverb
	case "more", "less":
		return AdverbMore
	case "most", "least":
		return AdverbMost
	case "oh", "o", "ah", "hey", "hush", "lo", "alas", "hooray", "hurrah", "yes", "please", "hello", "wow", "oops", "ouch", "shh", "ho", "hark":
		return Interjection
	case "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen", "fourteen",
		"fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty", "thirty", "forty", "fifty", "sixty", "seventy",
		"eighty", "ninety", "hundred", "thousand", "million":
		return Number
	case "'s", "'":
		return PossessiveEnd
	}
	return Unknown
}
