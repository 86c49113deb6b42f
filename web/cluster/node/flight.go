package node

import (
	"fmt"
	"slices"

	"halfturn/coach/playback"
	"halfturn/web/desk/practice"
)

// A flight is the record of a session as one node after another made it.
type flight struct {
	opening   playback.Opening
	parts     []*part
	end       *point          // the last batch
	kept      *point          // the last one that was read from the store; nil where none was
	published map[string]bool // the ids of its events
	over      bool
	ending    []held // the last datagrams
}

// flown puts the parts of a record together: that of the last batch, and those that it goes on from, each up to the
// batch after which the next one does. Another one is of a node that coached for a while, and left the station to that
// of the last batch.
func flown(list []*part) (*flight, error) {
	f := &flight{published: map[string]bool{}}
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
		return nil, errNoRecord
	}
	slices.Reverse(f.parts)
	o, ours, err := playback.ReadOpening(f.parts[0].opening.Comment)
	switch {
	case err != nil:
		return nil, err
	case !ours:
		return nil, errNoRecord
	}
	f.opening = o
	last := f.parts[len(f.parts)-1]
	f.end = &point{last.opening.Tenure, last.last()}
	for _, p := range f.parts {
		for _, b := range p.batches {
			for i := range b.Events {
				f.published[b.Events[i].ID] = true
			}
		}
	}
	return f, nil
}

var errNoRecord = fmt.Errorf("nothing of the session was recorded by the cluster")

// cut drops what came after a batch. It returns false where the batch is not of this tenure.
func (p *part) cut(to *point) bool {
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

// each calls take with the datagrams of the record.
func (f *flight) each(take func(d *practice.Datagram, head bool)) error {
	var r unpacker
	for _, p := range f.parts {
		for _, b := range p.batches {
			if err := r.batch(b, take); err != nil {
				return err
			}
		}
	}
	f.ending, f.over = r.ending, r.over
	return nil
}
