package words

import "math"

// A Crowd is a set of words to measure nearness against. Nearness is a product
// of vectors, so its mean over the crowd is the product with the mean vector,
// and its spread comes from the products of the crowd's dimensions with each
// other: neither needs the words one by one again. It never changes once made.
type Crowd struct {
	size     float64
	sum      [Dimensions]float64
	products [Dimensions][Dimensions]float64 // of every two dimensions, summed
	member   map[Word]bool
}

// NewCrowd gathers words that have vectors; others count as near to nothing.
func NewCrowd(list []Word) *Crowd {
	c := &Crowd{size: float64(len(list)), member: make(map[Word]bool, len(list))}
	for _, w := range list {
		c.member[w] = true
		v := w.vector()
		for i := range len(v) {
			x := float64(int8(v[i]))
			c.sum[i] += x
			for k := range len(v) {
				c.products[i][k] += x * float64(int8(v[k]))
			}
		}
	}
	return c
}

// Around is the mean and the standard deviation of the nearness of a word to
// the crowd; to itself it counts as 0.
func (c *Crowd) Around(w Word) (mean, deviation float64) {
	var v [Dimensions]float64
	self := 0.0
	for i, x := range []byte(w.vector()) {
		v[i] = float64(int8(x))
		self += v[i] * v[i]
	}
	if !c.member[w] {
		self = 0
	}
	const scale = vectorLength * vectorLength
	return c.spread(&v, self, scale)
}

// AroundTheme is the same of a theme; 0 where it has no direction.
func (c *Crowd) AroundTheme(t *Theme) (mean, deviation float64) {
	if t.length == 0 {
		return 0, 0
	}
	var v [Dimensions]float64
	for i, x := range t.sum {
		v[i] = float64(x)
	}
	return c.spread(&v, 0, t.length*vectorLength)
}

// spread is the mean and the standard deviation of the products of v with the
// crowd's vectors over scale, one product of this size left out of the sums.
func (c *Crowd) spread(v *[Dimensions]float64, without, scale float64) (mean, deviation float64) {
	sum, squares := -without, -without*without
	for i := range v {
		sum += v[i] * c.sum[i]
		across := 0.0
		for k := range v {
			across += v[k] * c.products[i][k]
		}
		squares += v[i] * across
	}
	mean = sum / scale / c.size
	return mean, math.Sqrt(max(squares/(scale*scale)/c.size-mean*mean, 0))
}
