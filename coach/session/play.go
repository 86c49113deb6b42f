package session

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/command"
	"halfturn/coach/maneuver"
	"halfturn/coach/names"
	"halfturn/coach/plan"
	"halfturn/stream/phrase"
	"halfturn/stream/pipeline"
)

// mark begins the comments of a recording that are Halfturn's own. JSON follows.
const mark = "halfturn "

// ChoiceOf names the cards of a plan.
func ChoiceOf(p *plan.Plan) maneuver.Choice {
	return maneuver.Choice{Maneuver: p.Card.Name, Standard: p.Card.Standard, Aircraft: p.Aircraft.Name}
}

// An Opening stands at the head of each file of a recording: whose it is, and how the session
// was followed from its beginning.
type Opening struct {
	Version   int             `json:"version"` // of this shape: 1
	Program   string          `json:"program"` // Halfturn's version
	Session   string          `json:"session"`
	Station   string          `json:"station"`
	StationID string          `json:"stationId,omitempty"` // whatever its name; "" in recordings of earlier versions
	Address   string          `json:"address"`
	Student   string          `json:"student,omitempty"`
	Part      int             `json:"part"` // of the recording, from 1
	Choice    maneuver.Choice `json:"choice"`
	Settings  Settings        `json:"settings"`
}

// openingVersion is that of the shape of Opening and Control.
const openingVersion = 1

// Settings are what else decides what the coach makes of a stream.
type Settings struct {
	Deck                  float64 `json:"deck"`     // ft MSL
	Rate                  float64 `json:"rate"`     // words a second
	Reaction              float64 `json:"reaction"` // s
	BankSign              string  `json:"bankSign"`
	PitchSign             string  `json:"pitchSign"`
	GroundSpeedAsAirspeed bool    `json:"groundSpeedAsAirspeed,omitempty"`
	Cards                 string  `json:"cards"` // stands for the text of all cards and maps: other ones grade otherwise
}

// SettingsOf reads the settings out of the options of a session. cards stands for their text.
func SettingsOf(o *Options, cards string) Settings {
	return Settings{Deck: o.Coach.Deck, Rate: o.Coach.Voice.Rate, Reaction: o.Coach.Voice.Reaction, BankSign: o.Station.BankSign.String(),
		PitchSign: o.Station.PitchSign.String(), GroundSpeedAsAirspeed: o.Station.GroundSpeedAsAirspeed, Cards: cards}
}

// Apply lays the settings over options.
func (s Settings) Apply(o *Options) error {
	var err error
	if o.Station.BankSign, err = pipeline.SignNamed(s.BankSign); err != nil {
		return fmt.Errorf("the recording's sign of bank %w", err)
	}
	if o.Station.PitchSign, err = pipeline.SignNamed(s.PitchSign); err != nil {
		return fmt.Errorf("the recording's sign of pitch %w", err)
	}
	o.Station.GroundSpeedAsAirspeed = s.GroundSpeedAsAirspeed
	o.Coach.Deck = s.Deck
	o.Coach.Voice = callout.Options{Rate: s.Rate, Reaction: s.Reaction}
	return nil
}

// Comment writes the opening as a comment.
func (o Opening) Comment() string {
	o.Version = openingVersion
	return comment(o)
}

func comment(v any) string {
	b, err := json.Marshal(v)
	if err != nil {
		panic(fmt.Sprintf("session: a comment cannot be written: %v", err)) // its members are strings and finite numbers
	}
	return mark + string(b)
}

// ReadOpening reads the comment at the head of a recording; false when it is none of Halfturn's. The
// error tells what is wrong with one that is.
func ReadOpening(text string) (Opening, bool, error) {
	var o Opening
	data, ours := strings.CutPrefix(text, mark)
	if !ours {
		return o, false, nil
	}
	if err := json.Unmarshal([]byte(data), &o); err != nil {
		return o, true, fmt.Errorf("the head of the recording cannot be read: %w", err)
	}
	if o.Version != openingVersion {
		return o, true, fmt.Errorf("the recording is of version %d, and this program reads version %d; use the Halfturn that wrote it (%q), or a newer one", o.Version, openingVersion, o.Program)
	}
	o.Station, o.Address, o.Student = names.Tidy(o.Station), names.Tidy(o.Address), names.Tidy(o.Student)
	return o, true, nil
}

// CommandComment writes a command as a comment. It stands with the next datagram, and takes effect before it.
func CommandComment(c command.Command) string { return comment(c) }

// gap is the comment that tells of datagrams that are missing.
type gap struct {
	Lost uint64 `json:"lost"`
}

// LostComment writes as a comment how many datagrams were coached but not recorded before it.
func LostComment(n uint64) string { return comment(gap{n}) }

// Plans finds cards by their names. For [coach.AutoManeuver] it also returns the plans among which
// the maneuver is found.
type Plans func(c maneuver.Choice) (plan *plan.Plan, auto []*plan.Plan, err error)

// Options lays what the opening says over other options.
func (o *Opening) Options(base Options, plans Plans) (Options, error) {
	if err := o.Settings.Apply(&base); err != nil {
		return base, err
	}
	plan, auto, err := plans(o.Choice)
	if err != nil {
		return base, err
	}
	base.Coach.Plan, base.Auto = plan, auto
	return base, nil
}

// A Play plays a recording into a session: the same datagrams, receive times and controls give the
// same events and the same report as they gave live.
type Play struct {
	Session *Session
	Student string // who flies now
	Lost    uint64 // datagrams that were coached live and are not in the recording
	plans   Plans
}

// NewPlay plays into a session. With plans nil, what was chosen in mid-session is passed over:
// all of it is judged by the session's own cards.
func NewPlay(s *Session, plans Plans) *Play { return &Play{Session: s, plans: plans} }

// Feed takes a datagram, received at a time in seconds of any epoch, with its comments. The error
// tells of a comment that could not be followed; the datagram is taken all the same.
func (p *Play) Feed(b []byte, received float64, comments []string) (pipeline.Result, error) {
	err := p.Apply(comments)
	return p.Session.Feed(b, received), err
}

// Apply does what comments say. Those of others are passed over.
func (p *Play) Apply(comments []string) error {
	var failed error
	for _, text := range comments {
		data, ours := strings.CutPrefix(text, mark)
		if !ours {
			continue
		}
		if err := p.follow([]byte(data)); err != nil {
			failed = err
		}
	}
	return failed
}

// follow does what a comment of Halfturn's own says.
func (p *Play) follow(data []byte) error {
	var lost gap
	if err := json.Unmarshal(data, &lost); err != nil {
		return fmt.Errorf("a change in mid-session cannot be read: %w", err)
	}
	p.Lost += lost.Lost
	c, err := command.Decode(data)
	switch {
	case errors.Is(err, command.ErrNone):
		return nil
	case err != nil:
		return fmt.Errorf("a change in mid-session cannot be read: %w", err)
	}
	return c.Do(played{p})
}

// played carries out the commands of a recording.
type played struct{ *Play }

var _ command.Target = played{}

// Choose chooses as it was chosen live, unless all is judged by the session's own cards.
func (p played) Choose(c maneuver.Choice) error {
	if p.plans == nil {
		return nil
	}
	plan, auto, err := p.plans(c)
	if err != nil {
		return fmt.Errorf("what was chosen in mid-session is not there: %w", err)
	}
	p.Session.Choose(plan, auto)
	return nil
}

// Line sets the ground line as it was set live.
func (p played) Line(c coach.LineChoice) error { return p.Session.SetLine(c) }

// Student says who flies from here on.
func (p played) Student(name string) error {
	p.Play.Student = names.Tidy(name)
	p.Session.SetStudent(p.Play.Student)
	return nil
}

// End has nothing to do: the recording ends there.
func (p played) End() error { return nil }

// End ends the session after the comments at the end of the recording.
func (p *Play) End(rest []string) error {
	err := p.Apply(rest)
	p.Session.End(phrase.SessionEnded.Of())
	return err
}
