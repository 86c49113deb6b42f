package tenures

import (
	"fmt"
	"slices"

	"halfturn/coach/playback"
	"halfturn/web/cluster/flow"
)

// A Flight is the record of a session as one node after another made it.
type Flight struct {
	Opening   playback.Opening
	Node      string          // that made the last tenure
	End       Point           // the last batch
	Kept      *Point          // the last one that was read from the store; nil where none was
	Published map[string]bool // the ids of its events
	parts     []*part
}

// flown puts the parts of a record together: that of the last batch, and those that it goes on from, each up to the
// batch after which the next one does. Another one is of a node that coached for a while, and left the station to that
// of the last batch.
func flown(list []*part) (*Flight, error) {
	f := &Flight{Published: map[string]bool{}}
	list = slices.DeleteFunc(slices.Clone(list), func(p *part) bool { return p.opening == nil }) // begins elsewhere
	head := -1
	for i, p := range list {
		if head < 0 || p.at >= list[head].at {
			head = i
		}
	}
	for i := head; i >= 0; {
		p := list[i]
		f.parts = append(f.parts, p)
		to := p.opening.After
		if to == nil { // the first, or its node goes on with its own
			i--
			continue
		}
		if i = slices.IndexFunc(list[:i], func(p *part) bool { return p.cut(to) }); i < 0 {
			return nil, fmt.Errorf("the record has a gap: batch %d of another node is missing", to.Number)
		}
	}
	if len(f.parts) == 0 {
		return nil, ErrNoRecord
	}
	slices.Reverse(f.parts)
	o, ours, err := playback.ReadOpening(f.parts[0].opening.Comment)
	switch {
	case err != nil:
		return nil, err
	case !ours:
		return nil, ErrNoRecord
	}
	f.Opening = o
	last := f.parts[len(f.parts)-1]
	f.Node, f.End = last.opening.Node, Point{last.opening.Tenure, last.last()}
	for _, p := range f.parts {
		for _, b := range p.batches {
			for i := range b.Events {
				f.Published[b.Events[i].ID] = true
			}
		}
	}
	return f, nil
}

// ErrNoRecord says that nothing is known of a session.
var ErrNoRecord = fmt.Errorf("nothing of the session was recorded by the cluster")

// cut drops what came after a batch. It returns false where the batch is not of this tenure.
func (p *part) cut(to *Point) bool {
	if p.opening.Tenure != to.Tenure {
		return false
	}
	for k, b := range p.batches {
		if b.Number == to.Number {
			p.batches = p.batches[:k+1]
			return true
		}
	}
	return false
}

// Each calls take with the batches of the record, until it fails.
func (f *Flight) Each(take func(at Point, b *flow.Batch) error) error {
	for _, p := range f.parts {
		for _, b := range p.batches {
			if err := take(Point{p.opening.Tenure, b.Number}, b); err != nil {
				return err
			}
		}
	}
	return nil
}

// Whole is the record of a session as it was told from its beginning; nil where the beginning was not heard. It is all
// of the record unless something was lost.
func Whole(heard []Told) (f *Flight, all bool) {
	told := parts(heard)
	if len(told) == 0 || told[0].opening == nil || told[0].opening.After != nil || told[0].batches[0].Number != 1 {
		return nil, false
	}
	f, _ = flown(told) // else it is to be read
	return f, f != nil && gapless(told)
}

// Join is the record of a session by what is kept of it, and what was told after that.
func Join(kept, heard []Told) (*Flight, error) {
	stored := parts(kept)
	var last *Point
	if n := len(stored); n > 0 && stored[n-1].opening != nil {
		last = &Point{stored[n-1].opening.Tenure, stored[n-1].last()}
	}
	f, err := flown(joined(stored, parts(heard)))
	if err == nil {
		f.Kept = last
	}
	return f, err
}
