package record

import "sync"

// Totals sum up the recorders of a program, those that are closed among them. The zero value is ready for use.
type Totals struct {
	mu     sync.Mutex
	open   map[*Recorder]struct{}
	closed Sum
}

// A Sum is what many recorders did.
type Sum struct {
	Waiting int    // datagrams that wait to be written
	Written uint64 // datagrams that are on the disk
	Lost    uint64 // datagrams that were not recorded
}

func (s *Sum) add(r *Recorder) {
	st := r.Status()
	s.Waiting += r.Waiting()
	s.Written += st.Written
	s.Lost += st.Lost
}

// Sum is what the recorders have done so far.
func (t *Totals) Sum() Sum {
	t.mu.Lock()
	defer t.mu.Unlock()
	sum := t.closed
	for r := range t.open {
		sum.add(r)
	}
	return sum
}

func (t *Totals) begin(r *Recorder) {
	if t == nil {
		return
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.open == nil {
		t.open = map[*Recorder]struct{}{}
	}
	t.open[r] = struct{}{}
}

func (t *Totals) end(r *Recorder) {
	if t == nil {
		return
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	delete(t.open, r)
	t.closed.add(r)
}
