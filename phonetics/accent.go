package phonetics

// accent says a reading of General American in the dialect.
func (d Dialect) accent(word string, way reading) reading { return way }
