package take

import "halfturn/stream/phrase"

// A List is the result of importing captures, as JSON.
type List struct {
	Version  int             `json:"version"`
	Sessions []Imported      `json:"sessions"`
	Notes    []phrase.Phrase `json:"notes"` // on what was not imported
}

// NewList makes the list of results.
func NewList(all ...*Taken) *List {
	l := &List{Version: 1, Sessions: []Imported{}, Notes: []phrase.Phrase{}}
	for _, taken := range all {
		l.Sessions = append(l.Sessions, taken.Sessions...)
		l.Notes = append(l.Notes, taken.Notes...)
		if taken.Damage != nil {
			l.Notes = append(l.Notes, phrase.OfError(taken.Damage))
		}
	}
	return l
}
