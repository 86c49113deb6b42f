package desk

import "halfturn/coach/logbook"

// cards are the texts of all cards by which a session may be graded from its beginning to its
// end: another maneuver or standard can be chosen in between.
func (d *Desk) cards() []logbook.Card {
	var all []logbook.Card
	add := func(kind, name string) {
		if o, ok := d.cfg.Library.Origin(kind, name); ok {
			all = append(all, logbook.Card{Kind: kind, Name: name, Text: o.Text})
		}
	}
	for _, c := range d.cfg.Library.Cards() {
		add("maneuvers", c.Name)
	}
	for _, s := range d.cfg.Library.Standards() {
		add("standards", s.Name)
	}
	for _, a := range d.cfg.Library.Aircraft() {
		add("aircraft", a.Name)
	}
	return all
}
