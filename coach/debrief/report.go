// Package debrief holds the report of a grading: the shape in which it is kept, sent and printed, its summary, and how
// two gradings differ.
package debrief

import (
	"slices"

	"halfturn/coach"
	"halfturn/stream/phrase"
)

// A Report is the result of grading recordings or one live session.
type Report struct {
	Version int           `json:"version"` // of this format: 1
	Caution []string      `json:"cautions"`
	Session *SessionDates `json:"session,omitempty"` // of a live session
	Files   []FileReport  `json:"files"`
	Signed  []Signature   `json:"signed,omitempty"` // of a stored session
}

// A Signature says who signed the grades of a session, and whether they are as they were then.
type Signature struct {
	By      string `json:"by"`
	At      string `json:"at"`   // RFC 3339
	Hash    string `json:"hash"` // SHA-256, hex
	Holds   bool   `json:"holds"`
	After   int    `json:"addedAfter"`   // how much was added after it
	Removed int    `json:"namesRemoved"` // how many names were removed since
}

// SessionDates say when a live session was.
type SessionDates struct {
	ID    string `json:"id"`
	Began string `json:"began"` // RFC 3339
	Ended string `json:"ended"`
}

// A FileReport is one recording, or the live stream of a session.
type FileReport struct {
	File     string          `json:"file"`
	Error    string          `json:"error,omitempty"` // why it could not be read to its end
	By       *JudgedBy       `json:"by,omitempty"`    // the cards a recording was judged by
	Notes    []phrase.Phrase `json:"notes,omitempty"` // what was left out, or judged by other cards than flown by
	Stations []StationReport `json:"stations"`
}

// JudgedBy names the cards a recording was judged by, and where they were chosen.
type JudgedBy struct {
	Maneuver UsedCards `json:"maneuver"`
	Standard UsedCards `json:"standard"`
	Aircraft UsedCards `json:"aircraft"`
}

// UsedCards names cards of one kind in the order in which they were used; "" is none.
type UsedCards struct {
	Names []string `json:"names"`
	From  string   `json:"from"` // FromFlag and so on
}

// Where the cards to judge by may have been chosen.
const (
	FromFlag    = "flag"
	FromRecord  = "recording" // chosen while it was flown
	FromSession = "session"   // noted with the session when it was imported
	FromConfig  = "configuration"
)

// A StationReport is what one station flew.
type StationReport struct {
	Station  string         `json:"station"`
	Format   string         `json:"format"`
	Advice   phrase.Phrase  `json:"advice,omitzero"` // when nothing could be read
	Samples  uint64         `json:"samples"`
	Duration float64        `json:"duration"` // s of stream time
	Channels []string       `json:"channels"`
	Derived  []string       `json:"derived"`
	Drops    map[string]int `json:"drops,omitempty"` // datagrams that gave no sample, by reason
	Holes    []coach.Hole   `json:"holes,omitempty"` // where this machine lost datagrams, in order
	Series   []coach.Series `json:"series"`
	Summary  *Summary       `json:"summary,omitempty"` // null when no leg was flown
}

// New makes an empty report.
func New() *Report {
	return &Report{Version: 1, Caution: slices.Clone(coach.Cautions[:]), Files: []FileReport{}}
}
