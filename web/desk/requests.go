package desk

import (
	"context"
	"time"

	"halfturn/coach"
	"halfturn/coach/command"
	"halfturn/coach/debrief"
	"halfturn/coach/maneuver"
	"halfturn/coach/names"
	"halfturn/coach/session"
	"halfturn/stream/ingest"
	"halfturn/stream/phrase"
)

// A request is what a seat is asked in its own goroutine. The set is closed: orders, questions, and the handing over of
// a session.
type request interface {
	ingest.Request
	// of carries the request out, and tells whether the seat ends with it.
	of(s *seat) (ends bool)
}

// asked makes a type a request.
type asked struct{}

// Request marks it for ingest.
func (asked) Request() {}

// An order is a command on its way to a seat, and what became of it.
type order struct {
	asked
	command command.Command
	id      string // of the station
	wrong   error  // its words are shown to whoever asked
}

func (o *order) of(s *seat) bool {
	if s.given || s.name != o.command.Station { // another one has taken its place since
		o.wrong = gone(o.command.Station)
		return false
	}
	o.id = s.identify(time.Now())
	o.wrong = o.command.Do(ordered{s})
	if o.wrong == nil && o.command.Recorded() {
		s.control(session.CommandComment(o.command))
	}
	return false
}

// A legsQuestion asks what was flown so far.
type legsQuestion struct {
	asked
	answer debrief.StationReport
}

func (q *legsQuestion) of(s *seat) bool {
	q.answer = s.session.Report()
	return false
}

// A probeQuestion asks for everything known of the stream.
type probeQuestion struct {
	asked
	answer session.Probe
}

func (q *probeQuestion) of(s *seat) bool {
	q.answer = s.session.Probe(Seconds(time.Now()))
	return false
}

// A handOver asks a silent seat for its session, for a seat that takes its name.
type handOver struct {
	asked
	desk     *Desk
	from, to *seat
	goes     *sitting // nil when it stays
}

func (h *handOver) of(s *seat) bool { // what it was asked for may have changed since
	if s != h.from || s.given || !h.desk.fellSilent(s) {
		return false
	}
	h.goes = s.give()
	h.desk.mu.Lock()
	defer h.desk.mu.Unlock()
	h.desk.seats[s.name] = h.to
	return true
}

// ordered carries out commands at a seat.
type ordered struct{ *seat }

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

// Do carries out a command at its station. The error's words are shown to whoever asks.
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

// prepared does for a command what takes long or needs the logbook, so that no station waits for it, and puts in what it
// leaves to the server.
func (d *Desk) prepared(ctx context.Context, c command.Command) (command.Command, error) {
	switch a := c.Action.(type) {
	case command.Choose:
		plan, auto, err := d.plansFor(a.Choice)
		if err != nil {
			return c, err
		}
		c.Action = command.Choose{Choice: choiceOf(plan, auto)} // a recording names the standard that was the server's own
	case command.Student:
		name, err := names.Person(a.Name)
		if err != nil {
			return c, err
		}
		c.Action = command.Student{Name: d.spelling(ctx, name)}
	}
	return c, nil
}

// gone tells that a station has left since it was listed.
func gone(station string) error {
	return phrase.StationGone.Error(phrase.Name("station", station))
}
