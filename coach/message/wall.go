package message

import (
	"halfturn/coach"
	"halfturn/stream/phrase"
)

// A Wall is what changed at the stations of a wall since the viewer's last one. A Wall is of no single station: the
// member station of the message is "".
type Wall struct {
	Run    string   `json:"run"`    // the numbering that mark is of
	Mark   uint64   `json:"mark"`   // how far this goes; a viewer that comes back repeats run and mark
	Time   int64    `json:"time"`   // of the server, ms since 1970
	Names  []string `json:"names"`  // all stations of the wall, in the order they came; null as before
	Sheets []Sheet  `json:"sheets"` // of the stations where something changed
}

func (*Wall) kind() Type { return TypeWall }

// A Sheet is what changed of one station's sheet on the wall, in parts that change together. What is left out is as
// before.
type Sheet struct {
	Name  string           `json:"name"`
	Plan  *SheetPlan       `json:"plan,omitempty"`
	Info  *SheetInfo       `json:"info,omitempty"`
	Last  *SheetLeg        `json:"last,omitempty"`
	Stage *SheetStage      `json:"stage,omitempty"`
	Trace []SheetPoint     `json:"trace,omitempty"` // replaces the one before: a turn has begun, or some was missed
	Said  []*coach.Callout `json:"said,omitempty"`  // what the viewer has not had, oldest first
	Now   *SheetNow        `json:"now,omitempty"`   // while a leg is shown as it is flown
	Ticks string           `json:"ticks,omitempty"` // see SheetTicks
	// Private says that the pilot shares the station with nobody: there is nothing else in this Sheet.
	Private bool `json:"private,omitempty"`
}

// SheetTicks is the number of ticks of a sheet: one for each half second, the latest last. A tick is a digit, the
// share of the data that came, from 0 to 9 for all; TickUnknown while nobody looked.
const (
	SheetTicks  = 28
	TickUnknown = '-'
)

// SheetInfo is what a sheet says of the station itself.
type SheetInfo struct {
	Student   string        `json:"student"`
	Link      string        `json:"link"`  // as in Station
	Since     int64         `json:"since"` // when the link became that, ms since 1970 by the server's clock
	Rate      float64       `json:"rate"`
	Advice    phrase.Phrase `json:"advice"`
	Recording string        `json:"recording"`
	Session   string        `json:"session"`
	Auto      bool          `json:"auto"`
	// Trouble is as in Station.
	Trouble phrase.Phrase `json:"trouble,omitzero"`
	// Behind is how many seconds of the recording are still to come from a station at home.
	Behind float64 `json:"behind,omitempty"`
}

// SheetPlan is a Chart as small as a sheet draws it.
type SheetPlan struct {
	Maneuver string      `json:"maneuver"`
	Title    string      `json:"title"`
	Turn     float64     `json:"turn"`
	Legs     int         `json:"legs"`
	Posts    []SheetPost `json:"posts"`
	Lanes    []SheetLane `json:"lanes"` // bank, pitch, airspeed, height
}

// A SheetPost is a checkpoint.
type SheetPost struct {
	Turn  float64 `json:"turn"`
	Label string  `json:"label"`
}

// A SheetLane is a Lane whose corridor holds turn, low and high every six degrees.
type SheetLane struct {
	Channel  string       `json:"channel"`
	Unit     string       `json:"unit"`
	Low      float64      `json:"low"`
	High     float64      `json:"high"`
	Corridor [][3]float64 `json:"corridor"`
}

// SheetStage is where the flight stands; it changes a few times in a leg.
type SheetStage struct {
	State     string `json:"state"` // as in a frame
	Direction string `json:"direction"`
	Phase     string `json:"phase"`
	Ready     bool   `json:"ready"`
	Unclear   bool   `json:"unclear"`
	Awaited   bool   `json:"awaited"` // a leg was flown and has no verdict yet
	// Holds is the gate of the set-up that is shut, "" when none is; Gate is its name for people.
	Holds string        `json:"holds"`
	Gate  phrase.Phrase `json:"gate"`
}

// SheetLeg is a leg that is over.
type SheetLeg struct {
	Number    int           `json:"number"`
	Direction string        `json:"direction"`
	Outcome   string        `json:"outcome"`
	Verdict   string        `json:"verdict"`
	Score     float64       `json:"score"`
	Headline  phrase.Phrase `json:"headline"`
	Posts     []coach.Post  `json:"posts"`
}

// SheetNow is the moment: the turn angle, and the values of the lanes bank, pitch, airspeed and height; null where the
// stream lacks one.
type SheetNow struct {
	Turn  float64     `json:"turn"`
	Lanes [4]*float64 `json:"lanes"`
}

// A SheetPoint is a moment of the trace: the turn angle, then the values of the lanes as in SheetNow.
type SheetPoint [5]*float64

// corridorApart is the least between two places of a sheet's corridor, °.
const corridorApart = 6

// NewSheetPlan returns a chart as a sheet draws it.
func NewSheetPlan(c *Chart) *SheetPlan {
	p := &SheetPlan{Maneuver: c.Maneuver, Title: c.Title, Turn: c.Turn, Legs: c.Legs,
		Posts: []SheetPost{}, Lanes: []SheetLane{}}
	for _, k := range c.Checkpoints {
		p.Posts = append(p.Posts, SheetPost{Turn: k.Turn, Label: k.Label})
	}
	for i := range c.Lanes {
		l := &c.Lanes[i]
		if l.Channel == LaneRadius || l.Channel == LanePivotal { // a sheet has the four lanes of every maneuver
			continue
		}
		lane := SheetLane{Channel: l.Channel, Unit: l.Unit, Low: l.Low, High: l.High, Corridor: [][3]float64{}}
		for n, at := range l.Corridor {
			k := len(lane.Corridor)
			if k == 0 || at.Turn-lane.Corridor[k-1][0] >= corridorApart || n == len(l.Corridor)-1 {
				lane.Corridor = append(lane.Corridor, [3]float64{at.Turn, at.Low, at.High})
			}
		}
		p.Lanes = append(p.Lanes, lane)
	}
	return p
}

// NewSheetLeg returns a leg as a sheet shows it.
func NewSheetLeg(l *coach.Leg) *SheetLeg {
	return &SheetLeg{
		Number:    l.Number,
		Direction: l.Direction,
		Outcome:   l.Outcome,
		Verdict:   l.Verdict,
		Score:     l.Score,
		Headline:  l.Headline,
		Posts:     l.Posts,
	}
}

// NewSheetStage returns where a frame stands.
func NewSheetStage(f *coach.Frame) SheetStage {
	s := SheetStage{
		State:     f.State,
		Direction: f.Direction,
		Phase:     f.Phase,
		Ready:     f.Ready,
		Unclear:   f.Unclear,
		Awaited:   f.Awaited != nil,
	}
	for i := range f.Gates {
		if g := &f.Gates[i]; !g.OK && !g.Optional {
			s.Holds, s.Gate = g.ID, g.Label
			break
		}
	}
	return s
}

// SameAs reports whether two stages are the same; a gate is known by its id.
func (s *SheetStage) SameAs(o *SheetStage) bool {
	return s.State == o.State && s.Direction == o.Direction && s.Phase == o.Phase && s.Ready == o.Ready &&
		s.Unclear == o.Unclear && s.Awaited == o.Awaited && s.Holds == o.Holds
}
