package claim

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"
)

// Times of the nodes below, in milliseconds: those of a cluster as it is delivered.
const (
	tick  = 50
	beat  = 250
	dead  = 1000
	calm  = 6000 // at the end, in which nothing happens any more
	story = 40000
)

// A said is a sign of life on its way.
type said struct {
	from     string
	at       int // when it arrives
	holds    bool
	claim    Claim
	hearsNow bool
}

// A lease is what the store has.
type lease struct {
	node  string
	fence uint64
}

// An asked is something asked of the store: a claim after a fence, or whether a fence still holds.
type asked struct {
	claim  bool
	after  uint64
	comes  int // when the store does it
	answer int // when the answer is there; the question was lost where it is negative
	done   bool
	got    lease // as the store has it then
	ok     bool
}

// A member is a node of the world below. What is real in it is Decide alone.
type member struct {
	name    string
	last    map[string]said // of each other node, with when it came
	inbox   []said
	coaches bool
	lease   lease // the last that is known
	refused *Refusal
	left    int
	doubt   bool
	told    int
	stir    bool
	asks    *asked
	mishap
}

// A mishap is what happens to a member.
type mishap struct {
	ran     int // when it ran last
	listens int // until when
	frozen  int // until when
	cut     int // until when nothing reaches it, and nothing leaves it
	deaf    int // likewise, of signs of life
	there   int // since when none of that, and it holds the station by its lease
}

// A world is nodes that all hear a station, the network between them, and the store.
type world struct {
	rand    *rand.Rand
	now     int
	nodes   []*member
	store   lease
	away    int // until when the store does not answer
	slow    int // the most that a sign of life is under way
	harsh   bool
	log     []string
	lateTo  map[string]int // from and to: when the last sign of life arrives, as they do not overtake
	longest int            // that nobody coached although somebody could
	stolen  int            // leases taken from nodes that were there
	since   int            // since when nobody does
}

func (w *world) note(format string, args ...any) {
	if w.log = append(w.log, fmt.Sprintf("%6d ", w.now)+fmt.Sprintf(format, args...)); len(w.log) > 60 {
		w.log = w.log[1:]
	}
}

func moment(ms int) time.Time { return time.UnixMilli(int64(ms)) }

func (m *member) claim() Claim {
	return Claim{Fence: m.lease.fence, Over: m.lease.node != m.name, Doubt: m.doubt}
}

// sight is what a member knows.
func (m *member) sight(now int) *Sight {
	s := &Sight{Name: m.name, Coaches: m.coaches, Claim: m.claim(), Refused: m.refused, Hears: true,
		Listens: now < m.listens || m.coaches && now < m.deaf}
	if r := m.refused; r != nil {
		c := *r
		c.Waited = moment(now).Sub(r.At) > dead*time.Millisecond
		s.Refused = &c
	}
	if m.left > 0 {
		s.Left = moment(m.left)
	}
	for _, from := range []string{"a", "b", "c"} {
		if l, ok := m.last[from]; ok && now-l.at < dead {
			s.Others = append(s.Others, Other{from, moment(l.at), l.holds, l.claim, l.hearsNow})
		}
	}
	return s
}

// act has a member do what the rule says.
func (w *world) act(m *member) {
	do, to := m.sight(w.now).Decide()
	switch do {
	case Take:
		w.learn(m)
		w.note("%s takes the station over from %+v", m.name, m.lease)
		m.coaches, m.doubt, m.asks, m.stir = true, false, nil, true
	case Leave:
		w.note("%s leaves the station to %s", m.name, to)
		m.coaches, m.refused, m.left, m.stir = false, nil, w.now, true
	case Renew:
		w.note("%s takes the lease again after %d", m.name, m.refused.Fence)
		m.lease, m.refused, m.asks = lease{m.refused.Node, m.refused.Fence}, nil, nil
		if m.lease.node == m.name {
			m.lease.node = ""
		}
	}
}

// learn has a member that takes the station over know the lease: that of the store, or what was said of it where the
// store does not answer.
func (w *world) learn(m *member) {
	if w.now >= w.away && w.now >= m.cut {
		m.lease = w.store
		return
	}
	for _, s := range m.last {
		if s.claim.Fence > m.lease.fence && !s.claim.Over {
			m.lease = lease{s.from, s.claim.Fence}
		}
	}
}

// run has a member do what is due.
func (w *world) run(m *member) {
	if w.now < m.frozen {
		return
	}
	if w.now-m.ran > dead {
		m.listens, m.doubt = w.now+dead, m.coaches
	}
	if m.ran < m.deaf && w.now >= m.deaf {
		m.listens = max(m.listens, w.now+dead)
	}
	m.ran = w.now
	for len(m.inbox) > 0 && m.inbox[0].at <= w.now && w.now >= m.deaf {
		s := m.inbox[0]
		m.inbox = m.inbox[1:]
		s.at = w.now
		m.last[s.from] = s
		if m.coaches {
			w.act(m)
		}
	}
	w.asks(m)
	w.act(m)
	if w.now-m.told >= beat || m.stir {
		m.told, m.stir = w.now, false
		if w.now >= m.deaf {
			w.tell(m)
		}
	}
}

// tell sends a sign of life.
func (w *world) tell(m *member) {
	for _, to := range w.nodes {
		if to == m {
			continue
		}
		under := 1 + w.rand.IntN(20)
		if w.now < story-calm && w.slow > 0 && w.rand.IntN(12) == 0 {
			under = w.rand.IntN(w.slow)
		}
		key := m.name + to.name
		at := max(w.now+under, w.lateTo[key])
		w.lateTo[key] = at
		s := said{m.name, at, m.coaches, m.claim(), w.now >= m.listens}
		i, _ := slices.BinarySearchFunc(to.inbox, at+1, func(s said, at int) int { return s.at - at })
		to.inbox = slices.Insert(to.inbox, i, s)
	}
}

// asks has a member that coaches claim the lease, or keep something under it. A claim that is under way goes on also
// when the station was left.
func (w *world) asks(m *member) {
	if a := m.asks; a != nil {
		switch {
		case w.now < a.answer || !a.done:
			return
		case a.answer < 0 && w.now < a.comes+700:
			return // nobody answers: it is given up
		}
		m.asks = nil
		switch {
		case a.answer < 0:
		case a.claim && a.ok, a.got.node == m.name && a.got.fence > m.lease.fence:
			w.note("%s has the lease %d", m.name, a.got.fence)
			m.lease, m.doubt = a.got, false
		case !a.claim && a.ok:
			m.doubt = false
		case !a.ok && m.coaches && (m.refused == nil || m.refused.Fence != a.got.fence):
			w.note("%s is refused: the store has %+v", m.name, a.got)
			m.refused = &Refusal{Node: a.got.node, Fence: a.got.fence, At: moment(w.now)}
		}
	}
	if !m.coaches || w.now < m.listens || w.now < m.deaf {
		return
	}
	after := m.lease.fence
	m.asks = &asked{claim: m.lease.node != m.name && m.refused == nil, after: after, comes: w.now + 1 + w.rand.IntN(60)}
	m.asks.answer = m.asks.comes + 1 + w.rand.IntN(60)
	if w.now < story-calm && w.rand.IntN(10) == 0 {
		m.asks.answer += w.rand.IntN(600)
	}
	if w.now < story-calm && w.harsh && w.rand.IntN(20) == 0 {
		m.asks.answer = -1
	}
}

// serve has the store do what is asked for.
func (w *world) serve() {
	for _, m := range w.nodes {
		a := m.asks
		if a == nil || a.done || w.now < a.comes || w.now < w.away || w.now < m.cut {
			continue
		}
		a.done = true
		a.ok = w.store.fence == a.after
		if a.claim && a.ok {
			w.steal(m, a)
			w.store = lease{m.name, w.store.fence + 1}
		}
		if a.got = w.store; a.answer >= 0 {
			a.answer = max(a.answer, w.now+1)
		}
	}
}

// steal notes when a lease is taken from a node that holds the station by it, and could be heard before that was asked.
func (w *world) steal(by *member, a *asked) {
	for _, m := range w.nodes {
		if m != by && m.holds(w) && a.comes-m.there > 2*dead {
			w.note("%s takes the lease %d of %s, which is there", by.name, w.store.fence, m.name)
			w.stolen++
		}
	}
}

// holds reports whether a member coaches by the lease that the store has.
func (m *member) holds(w *world) bool {
	return m.coaches && m.lease == w.store && m.name == w.store.node
}

// befall has something happen to the nodes.
func (w *world) befall() {
	if w.now >= story-calm-2*dead || !w.harsh || w.rand.IntN(40) > 0 {
		return
	}
	m := w.nodes[w.rand.IntN(len(w.nodes))]
	lasts := w.rand.IntN(3000)
	switch w.rand.IntN(3) {
	case 0:
		m.frozen = max(m.frozen, w.now+lasts)
		w.note("%s stands still for %d", m.name, lasts)
	case 1:
		m.cut = max(m.cut, w.now+lasts)
		m.deaf = max(m.deaf, m.cut+w.rand.IntN(2500)) // its connections come back one after the other
		w.note("%s is cut off for %d, and from the others until %d", m.name, lasts, m.deaf)
	case 2:
		w.away = w.now + lasts
		w.note("the store is away for %d", lasts)
	}
}

// watch notes for how long nobody coached although a node could: one that has run for long enough to know that the
// others are gone.
func (w *world) watch() {
	coached, able := false, false
	for _, m := range w.nodes {
		if w.now < m.frozen {
			continue
		}
		coached = coached || m.coaches
		able = able || w.now >= m.listens && w.now-m.listens > dead
	}
	if coached || !able {
		w.since = w.now
	}
	if w.now-w.since > w.longest {
		w.longest = w.now - w.since
		if w.longest > 8*tick {
			w.note("nobody coaches")
		}
	}
}

// tell a story of some nodes.
func tellStory(seed uint64, nodes, slow int, harsh bool) *world {
	w := &world{rand: rand.New(rand.NewPCG(seed, 7)), slow: slow, harsh: harsh, lateTo: map[string]int{}}
	for i := range nodes {
		m := &member{name: string(rune('a' + i)), last: map[string]said{}, mishap: mishap{listens: dead}}
		m.told = -w.rand.IntN(beat)
		w.nodes = append(w.nodes, m)
	}
	w.since = 3 * dead
	for ; w.now < story; w.now += tick {
		w.serve()
		w.befall()
		for _, i := range w.rand.Perm(nodes) {
			w.run(w.nodes[i])
		}
		for _, m := range w.nodes {
			if w.now < max(m.frozen, m.cut, m.deaf) || !m.holds(w) {
				m.there = w.now
			}
		}
		if w.now > 3*dead {
			w.watch()
		}
	}
	return w
}

// TestSomebodyCoaches: in whatever order signs of life, claims and their answers come, and whoever stands still or is
// cut off, a station is coached by somebody, and in the end by one node, which has the lease.
func TestSomebodyCoaches(t *testing.T) {
	for _, c := range []struct {
		name  string
		slow  int
		harsh bool
		most  int  // that nobody coaches, in milliseconds
		takes bool // leases of nodes that are there
	}{
		{"nothing happens", 0, false, 0, false},
		{"signs of life are late, so that nodes are taken for dead that are not", 3000, false, beat + 2*tick, true},
		{"nodes stand still and are cut off, and the store is away", 500, true, dead + 500 + beat + 4*tick,
			false},
	} {
		worst, stories := 0, 0
		for seed := range uint64(500) {
			w := tellStory(seed, 2+int(seed%2), c.slow, c.harsh)
			stories++
			var coach []string
			for _, m := range w.nodes {
				if m.coaches {
					coach = append(coach, m.name)
				}
			}
			worst = max(worst, w.longest)
			if w.longest > c.most || len(coach) != 1 || w.store.node != coach[0] || w.stolen > 0 && !c.takes {
				t.Errorf("%s: story %d: nobody coached for %d ms, and %d leases were taken from nodes that are "+
					"there; in the end %v coach, and the store has %+v", c.name, seed, w.longest, w.stolen, coach,
					w.store)
				for _, line := range w.log {
					t.Log(line)
				}
				break
			}
		}
		t.Logf("%s: at most %d ms without a coach in %d stories", c.name, worst, stories)
	}
}
