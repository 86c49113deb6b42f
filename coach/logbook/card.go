package logbook

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"

	"halfturn/coach/maneuver"
	"halfturn/configs/strict"
)

// A KeptCard is the text of a card, kept as it stood.
type KeptCard struct {
	Kind string // "maneuvers", "standards" or "aircraft"
	Name string
	Text []byte // TOML
}

// CardsOf returns the texts of all cards of a library: by any of them a session may be graded before it ends, since
// others can be chosen on the way.
func CardsOf(l *maneuver.Library) []KeptCard {
	var all []KeptCard
	add := func(kind, name string) {
		if o, ok := l.Origin(kind, name); ok {
			all = append(all, KeptCard{Kind: kind, Name: name, Text: o.Text})
		}
	}
	for _, c := range l.Cards() {
		add("maneuvers", c.Name)
	}
	for _, s := range l.Standards() {
		add("standards", s.Name)
	}
	for _, a := range l.Aircraft() {
		add("aircraft", a.Name)
	}
	return all
}

// Hash is what a card is kept under: the SHA-256 of kind, name and text, each ended by a zero byte, in hex.
func (c *KeptCard) Hash() string {
	h := sha256.New()
	for _, part := range [][]byte{[]byte(c.Kind), []byte(c.Name), c.Text} {
		h.Write(part)
		h.Write([]byte{0})
	}
	return hex.EncodeToString(h.Sum(nil))
}

// Title is the card's title, its name where it has none.
func (c *KeptCard) Title() string {
	return cmp.Or(strict.Top(c.Text)["title"], c.Name)
}
