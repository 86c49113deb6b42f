package story

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"slices"
	"sync"
	"time"

	"halfturn/coach"
	"halfturn/coach/message"
)

// A numbered event is known by its station, its numbering and its number in it.
type numbered struct {
	station, run string
	seq          uint64
}

// A digest is of the content of a message.
type digest [8]byte

func digestOf(v any) (d digest) {
	text, err := json.Marshal(v)
	if err != nil {
		panic(err) // what was read from JSON
	}
	sum := sha256.Sum256(text)
	copy(d[:], sum[:])
	return d
}

// A ledger is what all viewers got.
type ledger struct {
	mu      sync.Mutex
	events  map[numbered]digest
	legs    map[string]map[string]bool // of each station, those that ended
	shown   map[string][]time.Time     // when something new of a station was shown first, anywhere
	newest  map[string]float64         // of that, the time of its stream
	counts  counts
	trouble []string
	apart   int // of these, events that differ
}

// counts are of what came to viewers.
type counts struct {
	events  int // all viewers together
	resumed int // viewers that went to another node, with the number of the last event
	lost    int // events that a viewer did not get
	doubled int // that it got twice
	differs int // that two viewers got under one number with different contents
	greeted int // viewers that were shown everything again
}

func (c counts) minus(d counts) counts {
	return counts{c.events - d.events, c.resumed - d.resumed, c.lost - d.lost, c.doubled - d.doubled,
		c.differs - d.differs, c.greeted - d.greeted}
}

func newLedger() *ledger {
	return &ledger{
		events: map[numbered]digest{},
		legs:   map[string]map[string]bool{},
		shown:  map[string][]time.Time{},
		newest: map[string]float64{},
	}
}

// mostTrouble bounds what is kept of what went wrong.
const mostTrouble = 40

// note notes something wrong. mu is held.
func (l *ledger) note(format string, args ...any) {
	if len(l.trouble) < mostTrouble {
		l.trouble = append(l.trouble, fmt.Sprintf("%s "+format, append([]any{time.Now().Format("15:04:05.000")},
			args...)...))
	}
}

// frame notes that a viewer was shown a moment of a flight.
func (l *ledger) frame(station string, at float64) {
	l.mu.Lock()
	defer l.mu.Unlock()
	newest, is := l.newest[station]
	if is && at <= newest && at > newest-5 { // who is a little later; far less is the next flight
		return
	}
	l.newest[station] = at
	l.shown[station] = append(l.shown[station], time.Now())
}

// event notes an event that a viewer got, and how it follows those before.
func (l *ledger) event(v *viewer, m message.Message) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.counts.events++
	switch {
	case m.Seq <= v.seq:
		l.counts.doubled++
		l.note("%v gets event %d again after %d: %s", v, m.Seq, v.seq, m.Type())
	case m.Seq > v.seq+1:
		l.counts.lost += int(m.Seq - v.seq - 1)
		l.note("%v gets event %d after %d", v, m.Seq, v.seq)
	}
	key, d := numbered{m.Station, v.run, m.Seq}, digestOf(m)
	if is, ok := l.events[key]; ok && is != d {
		l.counts.differs++
		if l.apart++; l.apart <= mostTrouble/4 {
			l.note("%v gets another event %d than others: %s", v, m.Seq, m.Type())
		}
	}
	l.events[key] = d
	if leg, ok := m.Body.(message.Leg); ok {
		key := keyOf(leg.Leg)
		if l.legs[m.Station] == nil {
			l.legs[m.Station] = map[string]bool{}
		}
		l.legs[m.Station][key] = true
		v.seen[key] = true
		if v.legs[key]++; v.legs[key] > 1 {
			l.counts.doubled++
			l.note("%v gets a leg %d times: %s", v, v.legs[key], key)
		}
	}
}

// keyOf tells the legs of a station apart, by when they were flown and how they were graded.
func keyOf(leg *coach.Leg) string {
	return fmt.Sprintf("%v-%v %s %s %v", leg.Start, leg.End, leg.Direction, leg.Verdict, leg.Score)
}

func (l *ledger) now() counts {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.counts
}

// A gap is a time in which nothing new of a station was shown anywhere although it flew.
type gap struct {
	station string
	from    time.Time
	lasts   time.Duration
}

// settling is how long after its beginning a flight need not be shown: the nodes agree on who coaches it.
const settling = 3 * time.Second

// worst is the longest gap that ends within a time, of those seats for which want holds.
func (l *ledger) worst(seats []*seat, from, to time.Time, want func(*seat) bool) (worst gap) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, s := range seats {
		shown := l.shown[s.name]
		if len(shown) == 0 || !want(s) {
			continue
		}
		for _, f := range s.history() {
			began, ended := f.began.Add(settling), f.ended
			if ended.IsZero() {
				ended = time.Now()
			}
			last := began
			i, _ := slices.BinarySearchFunc(shown, began, time.Time.Compare)
			for _, at := range append(slices.Clone(shown[i:]), ended) {
				if at.After(ended) {
					at = ended
				}
				if g := at.Sub(last); g > worst.lasts && at.After(from) && !at.After(to) {
					worst = gap{s.name, last, g}
				}
				if last = at; at.Equal(ended) {
					break
				}
			}
		}
	}
	return worst
}
