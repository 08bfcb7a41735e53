package manuscript

// Parse reads a text. Any bytes parse; what cannot be read as meant is listed
// in Problems.
func Parse(text string) *Manuscript { return &Manuscript{Text: text} }
