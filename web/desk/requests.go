package desk

import (
	"context"
	"time"

	"halfturn/coach"
	"halfturn/coach/command"
	"halfturn/coach/debrief"
	"halfturn/coach/maneuver"
	"halfturn/coach/names"
	"halfturn/coach/playback"
	"halfturn/coach/probe"
	"halfturn/stream/ingest"
	"halfturn/stream/phrase"
)

// A request is what a station is asked in its own goroutine. The set is closed: orders, questions, and the handing over
// of a session.
type request interface {
	ingest.Request
	// of carries out the request, and tells whether the station ends with it.
	of(s *station) (ends bool)
}

// asked is embedded in requests.
type asked struct{}

// Request marks it for ingest.
func (asked) Request() {}

// An order is a command on its way to a station, and the result.
type order struct {
	asked
	command command.Command
	id      string // of the station
	wrong   error  // worded for whoever asked
}

func (o *order) of(s *station) bool {
	if s.given || s.name != o.command.Station { // another sender has taken over
		o.wrong = gone(o.command.Station)
		return false
	}
	o.id = s.identify(time.Now())
	o.wrong = o.command.Do(ordered{s})
	if o.wrong == nil && o.command.Recorded() {
		s.control(playback.CommandComment(o.command))
	}
	return false
}

// A legsQuestion asks what was flown so far.
type legsQuestion struct {
	asked
	answer debrief.StationReport
}

func (q *legsQuestion) of(s *station) bool {
	q.answer = s.session.Report()
	return false
}

// A probeQuestion asks for everything known of the stream.
type probeQuestion struct {
	asked
	answer probe.Probe
}

func (q *probeQuestion) of(s *station) bool {
	q.answer = s.session.Probe(Seconds(time.Now()))
	return false
}

// A handOver asks a silent station to give its session to another sender's.
type handOver struct {
	asked
	desk     *Desk
	from, to *station
	goes     *practice // nil when it stays
}

func (h *handOver) of(s *station) bool { // it may have received something since
	if s != h.from || s.given || !h.desk.fellSilent(s) {
		return false
	}
	h.goes = s.give()
	h.desk.mu.Lock()
	defer h.desk.mu.Unlock()
	h.desk.present[s.name] = h.to
	return true
}

// ordered carries out commands at a station.
type ordered struct{ *station }

var _ command.Target = ordered{}

// Choose sets what is flown from now on; a station that rests begins its next session.
func (s ordered) Choose(c maneuver.Choice) error {
	plan, auto, err := s.desk.plansFor(c)
	if err != nil {
		return err
	}
	s.touched()
	s.choose(plan, auto)
	return nil
}

// Line sets or clears the ground line; a station that rests begins its next session.
func (s ordered) Line(c coach.LineChoice) error {
	s.touched()
	return s.session.SetLine(c)
}

// Prompt sets how much is said in flight.
func (s ordered) Prompt(how string) error {
	if err := s.session.Prompt(how); err != nil {
		return err
	}
	s.prompts = how
	return nil
}

// Again says what was said last once more.
func (s ordered) Again() error {
	s.session.Again()
	return nil
}

// Student says who flies.
func (s ordered) Student(name string) error {
	s.setStudent(name)
	return nil
}

// End ends the session.
func (s ordered) End() error {
	if !s.next() {
		return phrase.NothingFlown.Error(phrase.Name("station", s.name))
	}
	return nil
}

// Do carries out a command at its station. Errors are worded for whoever asks.
func (d *Desk) Do(ctx context.Context, c command.Command) error {
	prepared, err := d.prepared(ctx, c)
	if err != nil {
		return err
	}
	o := &order{command: prepared}
	if err := d.ask(ctx, c.Station, o); err != nil {
		return err
	}
	if o.wrong != nil {
		return o.wrong
	}
	if choose, ok := c.Action.(command.Choose); ok {
		d.chose(c.By, c.Station, o.id, choose.Choice)
	}
	d.cfg.Log.Info().Str("station", c.Station).Str("command", string(c.Kind())).Str("id", c.ID).Str("by", c.By.Name).
		Interface("what", c.Action).Msg("done")
	return nil
}

// prepared does the parts of a command that take long or need the logbook, so that no station waits for them, and fills
// in defaults.
func (d *Desk) prepared(ctx context.Context, c command.Command) (command.Command, error) {
	switch a := c.Action.(type) {
	case command.Choose:
		plan, auto, err := d.plansFor(a.Choice)
		if err != nil {
			return c, err
		}
		// a recording names the standard, also where it is the server's default
		c.Action = command.Choose{Choice: choiceOf(plan, auto)}
	case command.Student:
		name, err := names.Person(a.Name)
		if err != nil {
			return c, err
		}
		c.Action = command.Student{Name: d.spelling(ctx, name)}
	}
	return c, nil
}

// gone is the error for a station that has left.
func gone(station string) error {
	return phrase.StationGone.Error(phrase.Name("station", station))
}
