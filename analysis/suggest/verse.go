package suggest

import "dandle/analysis/suggest/words"

// verse is the direction among the vectors from the news, whose words they
// were made of, to verse. It was fitted on the ends of lines by
// six poets of the Chicago Rhyming Poetry Corpus. It holds for the axes of
// the table as it is: who rebuilds that from other words must fit it anew.
var verse = words.Axis{
	0.74, 0.8, -0.51, -1.06, 0.3, 0.4, 0.68, -0.94, -1.1, -0.38,
	-0.18, 0.02, 0.49, -1.3, 0.64, -0.07, 0.4, 0.14, -0.82, 0.03,
	-0.9, -0.2, 0.01, 0.71, 0.38, 0.02, -0.08, 0.87, 0.24, -0.72,
	0.17, 0.3, -0.04, -0.57, 0.8, -0.15, -0.74, 0.05, 0.31, -0.63,
}
