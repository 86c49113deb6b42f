package logbook

import (
	"time"

	"halfturn/stream/phrase"
)

// FormatVersion is of the answers.
const FormatVersion = 1

// How many sessions a list holds.
const (
	UsualLimit = 50
	MostLimit  = 200
)

// A Filter selects sessions; the zero value selects all.
type Filter struct {
	Student  string
	Maneuver string // name of its card
	Aircraft string // name of its card
	Grade    string // of the session
	Text     string // words in its remarks; each may be the beginning of one
	From, To time.Time
	Stations []string // names of the stations where it was flown; nil is all, and an empty list none
	Flown    bool     // only those with a leg, and those that are under way, are kept or have a remark
	Limit    int      // of a list; 0 is 50, at most 200
	After    string   // SessionList.Next of the answer before
}

// A Named is a card by its name, and its title as it stood when it was flown.
type Named struct {
	Name  string `json:"name"`
	Title string `json:"title"`
}

// A SessionList is sessions, newest first, and what the whole logbook holds to filter by.
type SessionList struct {
	Version   int          `json:"version"`
	Total     int          `json:"total"`   // that match, up to 10,000, or fewer where counting takes long
	More      bool         `json:"more"`    // more match than Total
	Unflown   int          `json:"unflown"` // that match but for Filter.Flown, up to 10,000
	Sessions  []SessionRow `json:"sessions"`
	Next      string       `json:"next"`     // for Filter.After, "" at the end
	Students  []string     `json:"students"` // the one who flew last first, up to 500
	Maneuvers []Named      `json:"maneuvers"`
	Aircraft  []Named      `json:"aircraft"`
	LeftOut   LeftOut      `json:"leftOut"`
}

// LeftOut lists the session folders that could not be entered in the logbook. They stay as they are.
type LeftOut struct {
	Total    int              `json:"total"`
	Sessions []LeftOutSession `json:"sessions"` // the newest of them
}

// A LeftOutSession is a folder that is not in the logbook.
type LeftOutSession struct {
	ID  string        `json:"id"`
	Why phrase.Phrase `json:"why"`
}

// A SessionRow is what a list shows of a session, by its first grading.
type SessionRow struct {
	ID        string        `json:"id"`
	Began     string        `json:"began"` // RFC 3339
	Ended     string        `json:"ended"` // "" while it is being flown
	Station   string        `json:"station"`
	Student   string        `json:"student"`
	Keep      bool          `json:"keep"`
	Maneuvers []Named       `json:"maneuvers"` // flown
	Standard  string        `json:"standard"`
	Aircraft  Named         `json:"aircraft"` // name "" is none
	Verdicts  []string      `json:"verdicts"` // of its legs in the order flown, the first 100
	Legs      int           `json:"legs"`
	Score     *float64      `json:"score"`    // mean of the legs that were judged, null without one
	Grade     string        `json:"grade"`    // of the middle leg, the lower of two
	Headline  phrase.Phrase `json:"headline"` // what that grade rests on; nothing from before there were any
	Change    phrase.Phrase `json:"change"`
	Remarks   int           `json:"remarks"`
	Found     string        `json:"found"` // the remark that holds Filter.Text, shortened
}

// A SessionDetail is all there is about one session, its legs apart: see Report.
type SessionDetail struct {
	SessionRow
	Version  int           `json:"version"`
	Server   string        `json:"server"`  // version of the program that recorded it
	Problem  phrase.Phrase `json:"problem"` // why the recording cannot be shown; nothing when it can
	Left     phrase.Phrase `json:"left"`    // that it was ended without its home; nothing when it was not
	Said     []Remark      `json:"said"`
	Regrades []Regrade     `json:"regrades"`
	Judging  Judging       `json:"judging"`
}

// A Regrade is another grading of a session, beside the first.
type Regrade struct {
	At          string          `json:"at"` // RFC 3339
	Server      string          `json:"server"`
	Maneuver    string          `json:"maneuver"`
	Standard    string          `json:"standard"`
	Aircraft    string          `json:"aircraft"`
	Score       *float64        `json:"score"`
	Grade       string          `json:"grade"`
	Headline    phrase.Phrase   `json:"headline"`
	Differences []phrase.Phrase `json:"differences"` // to the first
}

// A Trend shows a maneuver from session to session.
type Trend struct {
	Version  int          `json:"version"`
	Maneuver *Named       `json:"maneuver"` // null when nothing matches
	Sessions int          `json:"sessions"` // that it is of: the latest, up to 1,000
	More     bool         `json:"more"`     // there are earlier ones, which count for nothing
	Legs     int          `json:"legs"`
	Checks   []TrendCheck `json:"checks"` // in the order of the turn
	Streak   Streak       `json:"streak"`
	Things   []Thing      `json:"things"` // the most frequent things to change
}

// A Streak counts finished legs in a row of grade good or better.
type Streak struct {
	Now     int    `json:"now"` // up to the latest
	Best    int    `json:"best"`
	Session string `json:"session"` // of the last leg of the best, "" without
}

// A Thing is one thing to change, and how often it was.
type Thing struct {
	Words    phrase.Phrase `json:"words"`
	Legs     int           `json:"legs"`
	Sessions int           `json:"sessions"`
	Session  string        `json:"session"` // the latest
}

// A TrendCheck is a check over sessions, with aim and bands as of the latest.
type TrendCheck struct {
	ID     string       `json:"id"`
	Label  string       `json:"label"`
	Unit   string       `json:"unit"`
	Aim    *float64     `json:"aim"`
	Met    [2]*float64  `json:"met"` // null is an open end
	Near   [2]*float64  `json:"near"`
	Points []TrendPoint `json:"points"` // oldest first
}

// A TrendPoint is a check over the finished legs of a session on which it was measured.
type TrendPoint struct {
	Session string  `json:"session"`
	Began   string  `json:"began"` // RFC 3339
	Legs    int     `json:"legs"`
	Met     int     `json:"met"`
	Low     float64 `json:"low"`
	Q1      float64 `json:"q1"` // quartiles: linear between order statistics
	Median  float64 `json:"median"`
	Q3      float64 `json:"q3"`
	High    float64 `json:"high"`

	Judged
}

// Judged is what the values of a check were compared with: its aim, and the bands in which it is met
// and near. A null end of a band is open; without an aim, and for a band open at both ends, nothing is written.
type Judged struct {
	Aim  *float64    `json:"aim,omitzero"`
	Met  [2]*float64 `json:"metBand,omitzero"`
	Near [2]*float64 `json:"nearBand,omitzero"`
}

// DayStart reads a date of the local time zone, such as 2031-05-04.
func DayStart(s string) (time.Time, error) {
	t, err := time.ParseInLocation(time.DateOnly, s, time.Local)
	if err != nil {
		return t, Refuse(phrase.BadDate.Of(phrase.Name("date", s)))
	}
	return t, nil
}

// Zulu formats a time as the answers do: RFC 3339 in UTC.
func Zulu(t time.Time) string { return t.UTC().Format(time.RFC3339) }

// A Model is a leg to lay over another one.
type Model struct {
	Session string  `json:"session"`
	Leg     int     `json:"n"`     // in its session, from 1
	Began   string  `json:"began"` // of the session, RFC 3339
	Student string  `json:"student"`
	Score   float64 `json:"score"`
	Grade   string  `json:"grade"`
}

// Models are finished legs of other sessions that a leg can be held against: of the same maneuver, flown to the same
// side.
type Models struct {
	Version int    `json:"version"`
	Best    *Model `json:"best"` // of the same student in the same aircraft, the latest of equals; null without one
	// Kept has the best leg of each session that is marked keep and was flown by somebody else: those in the same
	// aircraft first, then the latest.
	Kept []Model `json:"kept"`
}
