// Package menu holds what can be chosen at a station: the cards of the library, and the plans made from them.
package menu

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"sync"
	"sync/atomic"

	"halfturn/coach"
	"halfturn/coach/aircraft"
	"halfturn/coach/brief"
	"halfturn/coach/drill"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/stream/phrase"
	"halfturn/web"
)

// A Menu makes plans of choices, and keeps them: making one takes milliseconds. It is safe for concurrent use.
type Menu struct {
	maps    string
	offered atomic.Pointer[offer] // replaced, never changed

	mu    sync.Mutex
	plans map[maneuver.Choice]*plan.Plan // bounded by the number of cards
}

// An offer is the cards of a menu at one time.
type offer struct {
	cards *maneuver.Library
	kept  []logbook.KeptCard
	hash  string
}

// New returns the menu of a library. Maps is a hash of the user's column maps, which decide how streams are read.
func New(library *maneuver.Library, maps string) *Menu {
	m := &Menu{maps: maps, plans: map[maneuver.Choice]*plan.Plan{}}
	m.offer(library)
	return m
}

// Next returns the menu of a library that was read again, for sessions that begin from now on; it is this menu where no
// card has changed. The error names a card that is gone: a station may have chosen it.
func (m *Menu) Next(library *maneuver.Library) (*Menu, error) {
	next := New(library, m.maps)
	if next.Hash() == m.Hash() {
		return m, nil
	}
	for _, k := range m.Kept() {
		if _, there := library.Origin(k.Kind, k.Name); !there {
			return nil, fmt.Errorf("the card %s/%s.toml is gone, and stations may fly by it; a restart does without it",
				k.Kind, k.Name)
		}
	}
	return next, nil
}

// offer puts the cards of a library on the menu.
func (m *Menu) offer(library *maneuver.Library) {
	o := &offer{cards: library, kept: logbook.CardsOf(library)}
	h := sha256.New()
	for i := range o.kept {
		h.Write([]byte(o.kept[i].Hash()))
	}
	h.Write([]byte(m.maps))
	o.hash = hex.EncodeToString(h.Sum(nil))
	m.offered.Store(o)
}

// cards are those that can be chosen now.
func (m *Menu) cards() *maneuver.Library { return m.offered.Load().cards }

// AddAircraft puts one more aircraft card on the menu, under a name that no other has. The error says what is wrong
// with its text; file is what it names.
func (m *Menu) AddAircraft(file string, text []byte) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	more, err := m.cards().With("aircraft", file, text)
	if err == nil {
		m.offer(more)
	}
	return err
}

// Hash identifies the cards and column maps: sessions are graded alike only where it is the same.
func (m *Menu) Hash() string { return m.offered.Load().hash }

// Kept returns the cards as a session keeps them.
func (m *Menu) Kept() []logbook.KeptCard { return m.offered.Load().kept }

// Others returns the maneuvers that may be flown instead of the chosen one.
func (m *Menu) Others() []*maneuver.Card { return m.cards().Distinct() }

// Aircraft returns the cards that one is proposed from where none was chosen.
func (m *Menu) Aircraft() []*aircraft.Aircraft { return m.cards().Aircraft() }

// Plans finds the plans of a choice, as playback.Plans: the one to fly, and for [coach.AutoManeuver] those of all
// cards, among which the maneuver is recognized. The one to fly is then shown until it is. The error names a card that
// does not exist.
func (m *Menu) Plans(c maneuver.Choice) (*plan.Plan, []*plan.Plan, error) {
	if c.Maneuver != coach.AutoManeuver {
		p, err := m.plan(c)
		return p, nil, err
	}
	var all []*plan.Plan
	for _, card := range m.cards().Distinct() {
		c.Maneuver = card.Name
		p, err := m.plan(c)
		if err != nil {
			return nil, nil, err
		}
		all = append(all, p)
	}
	return all[0], all, nil
}

// plan returns the plan of one maneuver.
func (m *Menu) plan(c maneuver.Choice) (*plan.Plan, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if p := m.plans[c]; p != nil {
		return p, nil
	}
	card, err := m.cards().Judged(c.Maneuver, c.Standard)
	if err != nil {
		return nil, err
	}
	aircraft, err := m.cards().AircraftNamed(c.Aircraft)
	if err != nil {
		return nil, err
	}
	m.plans[c] = plan.New(card, aircraft)
	return m.plans[c], nil
}

// Drilled is the choice in which a cause is drilled: a building block of the maneuver, or the maneuver itself. The
// error says that it cannot be drilled there.
func (m *Menu) Drilled(c maneuver.Choice, cause string) (maneuver.Choice, error) {
	if c.Maneuver == coach.AutoManeuver {
		return c, phrase.DrillAuto.Error()
	}
	if err := m.Check(c); err != nil {
		return c, err
	}
	c.Maneuver = drill.Where(m.cards(), c.Maneuver, c.Standard, cause)
	p, err := m.plan(c)
	if err != nil {
		return c, err
	}
	_, err = drill.New(p, cause)
	return c, err
}

// Check returns an error that names a card of a choice that does not exist.
func (m *Menu) Check(c maneuver.Choice) error {
	_, _, err := m.Plans(c)
	return err
}

// ChoiceOf names the cards of plans, as Plans returns them.
func ChoiceOf(p *plan.Plan, auto []*plan.Plan) maneuver.Choice {
	c := p.Choice()
	if auto != nil {
		c.Maneuver = coach.AutoManeuver
	}
	return c
}

// Cards lists the cards that can be chosen.
func (m *Menu) Cards() web.Cards {
	c := web.Cards{Auto: brief.Title{Name: coach.AutoManeuver, Title: coach.AutoTitle}}
	for _, k := range m.cards().Cards() {
		c.Maneuvers = append(c.Maneuvers, brief.Title{Name: k.Name, Title: k.Title, Summary: k.Summary})
	}
	for _, k := range m.cards().Standards() {
		c.Standards = append(c.Standards, brief.Title{Name: k.Name, Title: k.Title, Summary: k.Summary})
	}
	for _, a := range m.cards().Aircraft() {
		c.Aircraft = append(c.Aircraft, web.AircraftTitle{
			Title: brief.Title{Name: a.Name, Title: a.Title},
			Entry: a.Entry,
			Apex:  a.Apex,
			Stall: a.Stall,
		})
	}
	return c
}

// Brief returns the sheet for the maneuver and aircraft of a choice.
func (m *Menu) Brief(c maneuver.Choice) (*brief.Sheet, error) {
	p, _, err := m.Plans(c)
	if err != nil {
		return nil, err
	}
	return brief.New(p), nil
}
