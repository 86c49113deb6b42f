package coach

import (
	"encoding/json"
	"maps"
	"slices"

	"halfturn/stream/phrase"
)

// An Event is something found in the samples: a Setup, Phase, Callout, Leg or Series.
type Event interface{ event() }

// Events is a queue of events. The zero value is empty.
type Events struct{ fresh, taken []Event }

// Put adds an event.
func (q *Events) Put(e ...Event) { q.fresh = append(q.fresh, e...) }

// Take returns the events since the last call. The slice is valid until the next call; then what it holds is let go.
func (q *Events) Take() []Event {
	clear(q.taken)
	q.fresh, q.taken = q.taken[:0], q.fresh
	return q.taken
}

// A Gate is one condition of a good set-up: wings-level, height-held, entry-speed, ball, hard-deck, clearing-turns or
// on-the-line.
type Gate struct {
	ID    string        `json:"id"`
	Label phrase.Phrase `json:"label"` // as read by people
	Want  phrase.Phrase `json:"want"`  // the condition, with its unit
	Value *float64      `json:"value"` // null when the stream lacks the channel
	Unit  string        `json:"unit"`
	OK    bool          `json:"ok"`
	// Optional gates are shown but are not needed to be ready.
	Optional bool `json:"optional,omitempty"`
}

// Setup reports that a gate opened or closed while the aircraft was level.
type Setup struct {
	Time  float64 `json:"time"`
	Ready bool    `json:"ready"` // every gate that can be judged is open, optional ones aside
	Gates []Gate  `json:"gates"`
}

// Phase reports that a named span of the turn began. The names come from the card; "set-up" and
// "after" are the spans before and after a leg.
type Phase struct {
	Time      float64 `json:"time"`
	Phase     string  `json:"phase"`
	Turn      float64 `json:"turn"`
	Direction string  `json:"direction"` // "right", "left" or ""
}

// The kinds of callout, from the one that interrupts everything to the one that waits.
const (
	Safety    = "safety" // a limit: said at once and again, shown until a Clear with the same ID
	Clear     = "clear"  // an earlier safety callout is over, or a cue that was sent is not to be said; no words
	Said      = "said"   // what a person says to the pilot
	Watch     = "watch"  // an error that grows now
	Cue       = "cue"    // said before a checkpoint, timed to end as it comes
	After     = "after"  // how a point that was passed went: a tone
	Result    = "result" // how the leg went
	NextTime  = "next"   // what to do in the next leg: said after "Next time", between legs
	SetUpSaid = "set-up" // what the set-up lacks, or that it is ready: for those who fly by ear
	Done      = "done"   // what was asked for was done: for those who look outside
	Again     = "again"  // what was said last, once more, since it was asked for
)

// A Callout is something to say.
type Callout struct {
	Time  float64 `json:"time"`
	Kind  string  `json:"kind"`
	ID    string  `json:"id"`    // of the check, checkpoint or limit it is about
	Words string  `json:"words"` // at most five words, those of a person aside; "" for tones only
	// Phrase holds the same words where they have arguments, or are a sentence of the program's.
	Phrase phrase.Phrase `json:"phrase,omitzero"`
	By     string        `json:"by,omitempty"` // the person who says it; "" is the coach
	Tone   string        `json:"tone"`         // "met", "missed", "safety" or ""
	Turn   float64       `json:"turn"`
	// Only for cues, which are sent early enough for a slow voice: the turn angle of the checkpoint
	// (for the exit, a little before the full turn), and the stream time at which the checkpoint is
	// expected and the words should end. Each listener starts when its own voice needs to.
	To  *float64 `json:"to,omitempty"`
	Due *float64 `json:"due,omitempty"`
}

// A Point holds the channels at one moment of a leg, bank and ball positive toward the turn.
// The channels depend on the stream.
type Point struct {
	Turn   float64            `json:"turn"`
	Time   float64            `json:"time"`
	Values map[string]float64 `json:"-"` // written as members of the JSON object itself
}

// The verdicts on a check, a leg or a series.
const (
	Met         = "met"
	Near        = "near"
	Missed      = "missed"
	NotMeasured = "not-measured"
)

// A Check is the result of one check of the card.
type Check struct {
	ID      string        `json:"id"`
	Label   string        `json:"label"`
	Kind    string        `json:"kind"`
	Channel string        `json:"channel,omitempty"`
	Turn    *float64      `json:"turn,omitempty"` // where it was judged, for a check with a place
	At      *float64      `json:"at,omitempty"`   // the turn angle of the value found, for extremes
	Value   *float64      `json:"value"`          // null when not measured
	Unit    string        `json:"unit"`
	Aim     *float64      `json:"aim,omitempty"`
	Met     [2]*float64   `json:"met"` // null leaves that end open
	Near    [2]*float64   `json:"near"`
	Weight  float64       `json:"weight"`
	Verdict string        `json:"verdict"`
	Score   float64       `json:"score"` // 0 to 100
	Words   string        `json:"words"` // the correction, "" when met
	Reason  phrase.Phrase `json:"reason,omitzero"`
	Note    phrase.Phrase `json:"note,omitzero"` // more about the value: the worst moment, the shares
	// The turn angle of the checkpoint that the check belongs to, 0 for the entry; null is the leg as a whole.
	Post *float64 `json:"post,omitempty"`
	// The value lies past a limit of the card: farther off than any standard allows.
	PastLimit bool `json:"pastLimit,omitempty"`
	// Only for a coarsely sampled leg: how far off the value may be, and what that could change.
	Uncertainty *float64 `json:"uncertainty,omitempty"`
	Doubt       string   `json:"doubt,omitempty"`

	Judged
}

// Judged is what people made of a computed verdict. Nothing of it is written where nobody overruled anything.
type Judged struct {
	// Computed is the grade that was computed, where another stands beside it now.
	Computed *Computed `json:"computed,omitempty"`
	// Overruled says who gave the verdict that stands there, and why.
	Overruled *Overruled `json:"overruled,omitempty"`
}

// A Computed is a verdict as it was computed.
type Computed struct {
	Verdict string  `json:"verdict"`
	Score   float64 `json:"score"`
	Grade   string  `json:"grade,omitempty"` // of a leg or a series
}

// An Overruled says who overruled a computed verdict.
type Overruled struct {
	By     string `json:"by"`
	At     string `json:"at"` // RFC 3339
	Reason string `json:"reason"`
	After  bool   `json:"afterSigning,omitempty"` // the session had been signed
}

// A Post is the verdict at a checkpoint: the worst of the checks that belong to it.
type Post struct {
	Turn    *float64 `json:"turn"` // of the checkpoint, 0 for the entry; null is the leg as a whole
	Verdict string   `json:"verdict"`
}

// A Cause is a likely reason why checks were missed.
type Cause struct {
	ID       string        `json:"id"`
	Leg      int           `json:"leg"`   // number within the series; 0 is the whole series
	Share    float64       `json:"share"` // of the lost score, 0 to 1
	Evidence phrase.Phrase `json:"evidence"`
	Advice   phrase.Phrase `json:"advice"`
	Minor    bool          `json:"minor,omitempty"` // nothing was missed, or there is little to gain
}

// The grades, lowest first. Good means within standard (CNATRAINST 1542.157 and 1542.145 p. VIII-1). Package score says
// how verdict, score and grade go together.
const (
	Unable    = "unable"
	Fair      = "fair"
	Good      = "good"
	Excellent = "excellent"
)

// The ids of the limits: of their callouts, and of what knocked a leg off.
const (
	LimitStall = "stall"
	LimitDeck  = "hard-deck"
	LimitNever = "never-exceed"
	LimitLoad  = "load"
	LimitBank  = "bank-limit"
)

// KnockedOff is the id of the callout by which a person stops the pilot.
const KnockedOff = "knock-off"

// The outcomes of a leg.
const (
	Finished  = "finished"
	BrokenOff = "broken-off"
	KnockOff  = "knock-off"
)

// Another is a maneuver that was flown instead of the chosen one.
type Another struct {
	Maneuver string `json:"maneuver"` // its card
	Title    string `json:"title"`
}

// A Proposal is the aircraft card that the numbers of a flight fit, where none was chosen.
type Proposal struct {
	Aircraft string  `json:"aircraft"` // the card
	Title    string  `json:"title"`
	Entry    float64 `json:"entry"`           // kt: the airspeed at the entry
	Stall    float64 `json:"stall,omitempty"` // kt: the measured stall; 0 where none was flown
}

// A Leg is one course reversal.
type Leg struct {
	Number    int           `json:"number"` // within its series, from 1
	Direction string        `json:"direction"`
	Outcome   string        `json:"outcome"`
	Reason    phrase.Phrase `json:"reason"` // why it was broken off or stopped
	Limit     string        `json:"-"`      // the limit that knocked it off, LimitDeck and so on; "" in a leg read back
	Start     float64       `json:"start"`
	End       float64       `json:"end"`
	Entry     Point         `json:"entry"`
	Points    []Point       `json:"points"`
	Exit      *Point        `json:"exit"` // null unless finished
	Checks    []Check       `json:"checks"`
	Posts     []Post        `json:"posts,omitempty"`
	Causes    []Cause       `json:"causes"`
	Change    phrase.Phrase `json:"change"` // the one thing to change; nothing when nothing was missed
	Verdict   string        `json:"verdict"`
	Score     float64       `json:"score"`
	Grade     string        `json:"grade"`             // the score in a word; "" when nothing was measured
	Headline  phrase.Phrase `json:"headline,omitzero"` // what the verdict rests on
	Another   *Another      `json:"another,omitempty"` // what was flown instead of the chosen maneuver
	Propose   *Proposal     `json:"propose,omitempty"` // the aircraft card to grade it by
	About     *About        `json:"about,omitempty"`   // what it was flown about on the ground
	Drill     *Drilled      `json:"drill,omitempty"`   // how the drill stands that it was flown in
	Said      int           `json:"corrections"`       // corrections given during the leg
	Trace     []Trace       `json:"trace,omitempty"`   // one entry per degree of turn, for drawing

	Judged
}

// Drilled is how a drill on one cause stands after a leg.
type Drilled struct {
	Cause   string `json:"cause"`
	Verdict string `json:"verdict"` // of the checks that show the cause
	Row     int    `json:"row"`     // good legs in a row
	Want    int    `json:"want"`    // that end the drill
	// Change is what to change where it was not met; nothing else is said of the leg.
	Change phrase.Phrase `json:"change,omitzero"`
}

// About is the point on the ground that a leg was flown about.
type About struct {
	What      string  `json:"what"`             // "center" or "pylon"
	Chosen    bool    `json:"chosen,omitempty"` // by a person; else it was found from the flight
	Latitude  float64 `json:"latitude"`
	Longitude float64 `json:"longitude"`
	Along     float64 `json:"along"`  // ft over the ground from the entry, as in the trace
	Across    float64 `json:"across"` // ft likewise
	Radius    float64 `json:"radius"` // ft, the mean distance from it
	// Within is how far off it may be, ft, by about one time in twenty more: two standard errors of what the flight
	// tells of it; 0 where it was chosen, and in records from before it was worked out.
	Within float64 `json:"within,omitempty"`
	Wind   *Wind   `json:"wind"` // the mean over the leg; null when it is not known
}

// Trace is the flight at one turn angle, for drawing. Height is the change since the entry.
type Trace struct {
	Turn     float64  `json:"turn"`
	Time     float64  `json:"time"` // stream time, s
	Bank     float64  `json:"bank"`
	Pitch    float64  `json:"pitch"`
	Airspeed *float64 `json:"airspeed"`
	Height   *float64 `json:"height"`
	Along    *float64 `json:"along"`  // ft over the ground from the entry, along its heading; null without position
	Across   *float64 `json:"across"` // ft likewise, toward the side of the turn
	// Off is how far the flight was off what the leg was flown about: % of the mean distance from a center, ft above
	// the pivotal altitude at a pylon; null in other legs, and where it is not known.
	Off *float64 `json:"off,omitempty"`
}

// A Series is a number of legs that belong together.
type Series struct {
	Maneuver string        `json:"maneuver"`
	Standard string        `json:"standard"`
	Aircraft string        `json:"aircraft"`
	Verdict  string        `json:"verdict"`
	Score    float64       `json:"score"`
	Grade    string        `json:"grade"`
	Headline phrase.Phrase `json:"headline,omitzero"` // what the verdict rests on
	Checks   []Check       `json:"checks"`
	Causes   []Cause       `json:"causes"` // those that only the legs together show
	Change   phrase.Phrase `json:"change"` // the one thing to change; nothing when nothing was missed
	Legs     []Leg         `json:"legs"`
	// What the card asks for and was not flown: "1 of 2 legs finished, one to the left is missing"; nothing
	// when the series is complete.
	Missing phrase.Phrase `json:"missing,omitzero"`
	// Set when the maneuver was found from the flight, not chosen.
	Decision *Decision `json:"decision,omitempty"`

	Judged
}

// WithoutTraces copies a series without the traces of its legs: pictures come from the leg's own event, or from the
// recording.
func (s *Series) WithoutTraces() *Series {
	bare := *s
	bare.Legs = slices.Clone(s.Legs)
	for i := range bare.Legs {
		bare.Legs[i].Trace = nil
	}
	return &bare
}

// Finished returns the legs that were flown to their end.
func (s *Series) Finished() (list []*Leg) {
	for i := range s.Legs {
		if s.Legs[i].Outcome == Finished {
			list = append(list, &s.Legs[i])
		}
	}
	return list
}

func (*Setup) event()   {}
func (*Phase) event()   {}
func (*Callout) event() {}
func (*Leg) event()     {}
func (*Series) event()  {}

// MarshalJSON writes the point with its channels as members.
func (p Point) MarshalJSON() ([]byte, error) {
	all := make(map[string]float64, len(p.Values)+2)
	maps.Copy(all, p.Values)
	all["turn"], all["time"] = p.Turn, p.Time
	return json.Marshal(all)
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (p *Point) UnmarshalJSON(b []byte) error {
	all := map[string]float64{}
	if err := json.Unmarshal(b, &all); err != nil {
		return err
	}
	p.Turn, p.Time = all["turn"], all["time"]
	delete(all, "turn")
	delete(all, "time")
	p.Values = all
	return nil
}
