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

// find returns the answer from the cache, or computes and caches it. added is the number of samples in the ring so far.
func (m *recent[Asked, Answer]) find(added uint64, asked Asked, work func(Asked) (Answer, bool)) (_ Answer, full bool) {
	for i := range m.list {
		if k := &m.list[i]; k.added == added && k.asked == asked {
			return k.answer, k.full
		}
	}
	k := &m.list[m.oldest]
	m.oldest = (m.oldest + 1) % len(m.list)
	k.added, k.asked = added, asked
	k.answer, k.full = work(asked)
	return k.answer, k.full
}
