package scansion

// ranked is the number that would stand at place k if the list were in order,
// found by parting it again and again (Hoare, Algorithm 65: Find, 1961). It
// changes the order of the list.
func ranked(list []float64, k int) float64 {
	for from, to := 0, len(list); ; {
		pivot := list[from+(to-from)/2]
		// What is less comes first, then what is equal, then what is more.
		less, more := from, to
		for i := from; i < more; {
			switch x := list[i]; {
			case x < pivot:
				list[i], list[less] = list[less], x
				less++
				i++
			case x > pivot:
				more--
				list[i], list[more] = list[more], x
			default:
				i++
			}
		}
		switch {
		case k < less:
			to = less
		case k >= more:
			from = more
		default:
			return pivot
		}
	}
}
