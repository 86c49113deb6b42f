package track

// A recent caches the latest answers of a ring, since several judges ask for the same at the same sample.
type recent[Asked comparable, Answer any] struct {
	list   [4]remembered[Asked, Answer]
	oldest int
}

type remembered[Asked comparable, Answer any] struct {
	added  uint64 // samples in the ring when it was computed
	asked  Asked
	answer Answer
	full   bool // the past reached back that far
}

// find returns the place of an answer in the cache; known is false when the answer is still to be put there. It stays
// there until four others were asked for. added is the number of samples in the ring so far.
func (m *recent[Asked, Answer]) find(added uint64, asked Asked) (k *remembered[Asked, Answer], known bool) {
	for i := range m.list {
		if k := &m.list[i]; k.added == added && k.asked == asked {
			return k, true
		}
	}
	k = &m.list[m.oldest]
	m.oldest = (m.oldest + 1) % len(m.list)
	k.added, k.asked = added, asked
	return k, false
}
