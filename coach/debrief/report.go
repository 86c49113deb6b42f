// Package debrief puts what was flown into the shape that is kept, sent and printed.
package debrief

import (
	"halfturn/coach"
)

// A Report is what grading gives: of recordings, or of one live session.
type Report struct {
	Version int           `json:"version"` // of this format: 1
	Caution []string      `json:"cautions"`
	Session *SessionDates `json:"session,omitempty"` // of a live session
	Files   []FileReport  `json:"files"`
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
	By       *JudgedBy       `json:"by,omitempty"`    // by which cards a recording was judged
	Notes    []string        `json:"notes,omitempty"` // what was left out of it, or judged by other cards than it was flown by
	Stations []StationReport `json:"stations"`
}

// JudgedBy says by which cards a recording was judged, and where it was chosen.
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

// Where it may have been said by what a recording is judged.
const (
	FromFlag    = "flag"
	FromRecord  = "recording" // chosen while it was flown
	FromSession = "session"   // noted with the session when it was taken in
	FromConfig  = "configuration"
)

// A StationReport is what one station flew.
type StationReport struct {
	Station  string         `json:"station"`
	Format   string         `json:"format"`
	Advice   string         `json:"advice,omitempty"` // when nothing could be read
	Samples  uint64         `json:"samples"`
	Duration float64        `json:"duration"` // s of stream time
	Channels []string       `json:"channels"`
	Derived  []string       `json:"derived"`
	Drops    map[string]int `json:"drops,omitempty"` // datagrams that gave no sample, by reason
	Series   []coach.Series `json:"series"`
	Summary  *Summary       `json:"summary,omitempty"` // null when no leg was flown
}

// New makes an empty report.
func New() *Report {
	return &Report{Version: 1, Caution: coach.Cautions[:], Files: []FileReport{}}
}
