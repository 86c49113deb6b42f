package desk

import (
	"context"
	"time"

	"halfturn/coach/command"
	"halfturn/coach/debrief"
	"halfturn/coach/names"
	"halfturn/coach/probe"
	"halfturn/stream/ingest"
	"halfturn/stream/phrase"
	"halfturn/web/desk/menu"
	"halfturn/web/desk/practice"
)

// A request is what a station is asked in its own goroutine. The set is closed: orders, questions, and the handing over
// of a session.
type request interface {
	ingest.Request
	// of carries out the request, and tells whether the station ends with it.
	of(s *station) (ends bool)
	refuse()
	wasRefused() bool
}

// asked is embedded in requests.
type asked struct{ refused bool }

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
	o.id, o.wrong = s.practice.Do(o.command, time.Now())
	return false
}

// A legsQuestion asks what was flown so far.
type legsQuestion struct {
	asked
	answer debrief.StationReport
}

func (q *legsQuestion) of(s *station) bool {
	q.answer = s.practice.Report()
	return false
}

// A probeQuestion asks for everything known of the stream.
type probeQuestion struct {
	asked
	answer probe.Probe
}

func (q *probeQuestion) of(s *station) bool {
	q.answer = s.practice.Probe(s.practice.Now())
	return false
}

// A handOver asks a silent station to give its session to another sender's.
type handOver struct {
	asked
	desk     *Desk
	from, to *station
	goes     *practice.Practice // nil when it stays
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
		if _, shown := prepared.Action.(command.Demonstrate); shown {
			d.demonstrator().End()
		}
		return o.wrong
	}
	if choose, ok := c.Action.(command.Choose); ok {
		d.directory.Chose(c.By, c.Station, o.id, choose.Choice)
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
		plan, auto, err := d.menu.Load().Plans(a.Choice)
		if err != nil {
			return c, err
		}
		// A recording names the standard, also where it is the server's default.
		c.Action = command.Choose{Choice: menu.ChoiceOf(plan, auto)}
	case command.Student:
		name, err := names.Person(a.Name)
		if err != nil {
			return c, err
		}
		c.Action = command.Student{Name: d.spelling(ctx, name)}
	case command.Start:
		if a.Student == nil {
			return c, nil
		}
		name, err := names.Person(*a.Student)
		if err != nil {
			return c, err
		}
		c.Action = command.Start{Student: new(d.spelling(ctx, name))}
	case command.Demonstrate:
		shown, err := d.demonstrate(ctx, c.Station, a.Choice)
		if err != nil {
			return c, err
		}
		c.Action = command.Demonstrate{Choice: shown.Choice, Shown: shown.Station}
	}
	return c, nil
}

// spelling returns a student's name as the logbook spells it, or unchanged for a new student.
func (d *Desk) spelling(ctx context.Context, name string) string {
	if d.cfg.Book == nil {
		return name
	}
	known, err := d.cfg.Book.Spelling(ctx, name)
	if err != nil { // the logbook matches the name again when the session is entered
		return name
	}
	return known
}

// gone is the error for a station that has left.
func gone(station string) error {
	return phrase.StationGone.Error(phrase.Name("station", station))
}
