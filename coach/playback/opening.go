package playback

import (
	"encoding/json"
	"fmt"
	"strings"

	"halfturn/coach/callout"
	"halfturn/coach/command"
	"halfturn/coach/maneuver"
	"halfturn/coach/names"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/stream/pipeline"
)

// mark begins the comments of a recording that Halfturn wrote. JSON follows.
const mark = "halfturn "

// An Opening is the comment at the head of each file of a recording: whose session it is, and how the session was
// followed from its beginning.
type Opening struct {
	Version   int             `json:"version"` // of this layout: 1
	Program   string          `json:"program"` // Halfturn's version
	Session   string          `json:"session"`
	Station   string          `json:"station"`
	StationID string          `json:"stationId,omitempty"` // "" in recordings of earlier versions
	Address   string          `json:"address"`
	Student   string          `json:"student,omitempty"`
	Private   bool            `json:"private,omitempty"`
	Part      int             `json:"part"` // of the recording, from 1
	Choice    maneuver.Choice `json:"choice"`
	Settings  Settings        `json:"settings"`
}

// openingVersion is the version of the layout of Opening and of commands.
const openingVersion = 1

// Settings are the other options that change how a stream is coached.
type Settings struct {
	Deck                  float64 `json:"deck"`     // ft MSL
	Rate                  float64 `json:"rate"`     // words a second
	Reaction              float64 `json:"reaction"` // s
	BankSign              string  `json:"bankSign"`
	PitchSign             string  `json:"pitchSign"`
	GroundSpeedAsAirspeed bool    `json:"groundSpeedAsAirspeed,omitempty"`
	Prompts               string  `json:"prompts,omitempty"` // at its beginning; "" is "card"
	Cards                 string  `json:"cards"`             // a hash of all: with others the grades may differ
}

// SettingsOf returns the settings in the options of a session. cards is the hash of the cards and maps.
func SettingsOf(o *session.Options, cards string) Settings {
	return Settings{
		Deck:                  o.Coach.Deck,
		Rate:                  o.Coach.Voice.Rate,
		Reaction:              o.Coach.Voice.Reaction,
		BankSign:              o.Station.BankSign.String(),
		PitchSign:             o.Station.PitchSign.String(),
		GroundSpeedAsAirspeed: o.Station.GroundSpeedAsAirspeed,
		Prompts:               o.Coach.Prompts,
		Cards:                 cards,
	}
}

// Apply sets the settings in options. It returns an error for a sign that is not one.
func (s Settings) Apply(o *session.Options) error {
	var err error
	if o.Station.BankSign, err = pipeline.SignNamed(s.BankSign); err != nil {
		return fmt.Errorf("the recording's sign of bank %w", err)
	}
	if o.Station.PitchSign, err = pipeline.SignNamed(s.PitchSign); err != nil {
		return fmt.Errorf("the recording's sign of pitch %w", err)
	}
	o.Station.GroundSpeedAsAirspeed = s.GroundSpeedAsAirspeed
	o.Coach.Deck, o.Coach.Prompts = s.Deck, s.Prompts
	o.Coach.Voice = callout.Options{Rate: s.Rate, Reaction: s.Reaction}
	return nil
}

// Comment returns the opening as the text of a comment.
func (o Opening) Comment() string {
	o.Version = openingVersion
	return comment(o)
}

func comment(v any) string {
	b, err := json.Marshal(v)
	if err != nil {
		// It never happens: the members are strings and finite numbers.
		panic(fmt.Sprintf("playback: a comment cannot be written: %v", err))
	}
	return mark + string(b)
}

// ReadOpening reads the comment at the head of a recording. ours is false when Halfturn did not write it; the error
// says what is wrong with one that Halfturn wrote.
func ReadOpening(text string) (o Opening, ours bool, err error) {
	data, ours := strings.CutPrefix(text, mark)
	if !ours {
		return o, false, nil
	}
	if err := json.Unmarshal([]byte(data), &o); err != nil {
		return o, true, fmt.Errorf("the head of the recording cannot be read: %w", err)
	}
	if o.Version != openingVersion {
		return o, true, fmt.Errorf("the recording is of version %d, and this program reads version %d;"+
			" use the Halfturn that wrote it (%q), or a newer one", o.Version, openingVersion, o.Program)
	}
	o.Station, o.Address, o.Student = names.Tidy(o.Station), names.Tidy(o.Address), names.Tidy(o.Student)
	return o, true, nil
}

// CommandComment returns a command as the text of a comment. It is recorded with the next datagram, and takes effect
// before it.
func CommandComment(c command.Command) string { return comment(c) }

// A gap is the comment that counts missing datagrams.
type gap struct {
	Lost uint64 `json:"lost,omitempty"`
	Hole *hole  `json:"hole,omitempty"`
}

// LostComment returns the text of a comment that counts the datagrams that were coached but not recorded before it.
func LostComment(n uint64) string { return comment(gap{Lost: n}) }

// A hole is the comment that counts datagrams that were lost before they could be coached or recorded.
type hole struct {
	Own    uint64 `json:"own,omitempty"`
	Shared uint64 `json:"shared,omitempty"`
}

// HoleComment returns the text of a comment that counts datagrams that this machine received before the next one and
// could not keep: own of this station, shared of all stations at the same socket.
func HoleComment(own, shared uint64) string {
	return comment(gap{Hole: &hole{own, shared}})
}

// Plans finds cards by their names. For [coach.AutoManeuver] it also returns the plans that the flight is compared
// with.
type Plans func(c maneuver.Choice) (plan *plan.Plan, auto []*plan.Plan, err error)

// Options returns the options that the opening states, on top of base. It returns an error when a setting cannot be
// read or a card is missing.
func (o *Opening) Options(base session.Options, plans Plans) (session.Options, error) {
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
