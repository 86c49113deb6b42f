package web

import (
	"context"
	"net/http"
	"slices"
	"strings"
	"time"

	"halfturn/coach"
	"halfturn/coach/command"
	"halfturn/coach/ids"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/permit"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
)

// The acts that are asked for without a body: by a button box, which can send a request or a line to the UDP port and
// nothing more. POST /do/{act}, and the line "halfturn ACT", do the same; both may name the station.
//
// Mute is a page's own: it is sent to the pages of the station. The others are commands, and enter the stream of the
// station like those of the pages.
var acts = map[string]func(*Server, context.Context, who.Who, message.Station) error{
	message.ActMute: func(s *Server, _ context.Context, _ who.Who, at message.Station) error {
		s.hub.Tell(message.Message{Station: at.Name, Body: &message.Act{Act: message.ActMute}})
		return nil
	},
	"mark":    bare(command.Mark{}),
	"stop":    bare(command.Stop{}),
	"point":   bare(command.About{AboutChoice: coach.AboutChoice{Where: coach.AboutWing}}),
	"repeat":  bare(command.Again{}),
	"end":     bare(command.End{}),
	"next":    (*Server).nextManeuver,
	"step":    (*Server).nextStep,
	"student": (*Server).nextStudent,
}

// bare does a command that needs nothing said.
func bare(a command.Action) func(*Server, context.Context, who.Who, message.Station) error {
	return func(s *Server, ctx context.Context, by who.Who, at message.Station) error {
		return s.give(ctx, by, at.Name, a)
	}
}

// An ActDone is the answer to POST /do/{act}.
type ActDone struct {
	Act     string `json:"act"`
	Station string `json:"station"`
}

// act does what the path names, at the station in the query or the only live one.
func (s *Server) act(w http.ResponseWriter, r *http.Request) error {
	if err := guard.Sent(r); err != nil {
		return err
	}
	done, err := s.Act(r.Context(), callerOf(r), r.PathValue("act"), r.URL.Query().Get("station"))
	if err != nil {
		return err
	}
	return guard.WriteJSON(w, done)
}

// Line does an act that came as a line, "mark" or "mark Seat 3". The error's words are for the log.
func (s *Server) Line(ctx context.Context, line string) error {
	act, station, _ := strings.Cut(strings.TrimSpace(line), " ")
	_, err := s.Act(ctx, permit.Owner(), act, strings.TrimSpace(station))
	return err
}

// Act does an act at a station for whoever asks; "" is the only live station. The error is a [guard.Problem] with words
// for them.
func (s *Server) Act(ctx context.Context, by permit.Caller, act, station string) (ActDone, error) {
	do, ok := acts[act]
	if !ok {
		return ActDone{}, &guard.Problem{
			Status: http.StatusNotFound,
			Phrase: phrase.NoAct.Of(phrase.Name("act", act)),
		}
	}
	at, err := s.pick(station)
	if err != nil {
		return ActDone{}, err
	}
	if !by.MayAt(permit.Fly, at.Name) {
		return ActDone{}, forbidden()
	}
	if err := s.mayReach(by.Who, at.Name); err != nil {
		return ActDone{}, err
	}
	if err := do(s, ctx, by.Who, at); err != nil {
		return ActDone{}, refused(err)
	}
	return ActDone{act, at.Name}, nil
}

// pick returns the station of a name, or the only live one.
func (s *Server) pick(name string) (message.Station, error) {
	var live []message.Station
	for _, at := range s.hub.Stations() {
		if at.Name == name {
			return at, nil
		}
		if at.Link == "live" {
			live = append(live, at)
		}
	}
	switch {
	case name != "":
		return message.Station{}, noStation(name)
	case len(live) != 1:
		return message.Station{}, &guard.Problem{
			Status: http.StatusConflict,
			Phrase: phrase.WhichStation.Of(phrase.Int("live", len(live))),
		}
	}
	return live[0], nil
}

// give has a command done at a station, by whoever asks.
func (s *Server) give(ctx context.Context, by who.Who, station string, a command.Action) error {
	now := time.Now()
	return s.desk.Do(ctx, command.New(ids.New(now), now, station, by, a))
}

// nextManeuver chooses the maneuver after the present one in the list, with the same standard and aircraft.
func (s *Server) nextManeuver(ctx context.Context, by who.Who, at message.Station) error {
	cards := s.desk.Cards()
	if len(cards.Maneuvers) == 0 {
		return nil
	}
	i := 0
	for k := range cards.Maneuvers {
		if cards.Maneuvers[k].Name == at.Maneuver && !at.Auto {
			i = (k + 1) % len(cards.Maneuvers)
		}
	}
	c := maneuver.Choice{Maneuver: cards.Maneuvers[i].Name, Aircraft: at.Aircraft}
	if p := s.hub.Plan(at.Name); p != nil {
		c.Standard = p.Standard
	}
	return s.give(ctx, by, at.Name, command.Choose{Choice: c})
}

// nextStudent names the student after the present one in the order of the alphabet.
func (s *Server) nextStudent(ctx context.Context, by who.Who, at message.Station) error {
	b := s.cfg.Logbook
	if b == nil {
		return &guard.Problem{Status: http.StatusNotFound, Phrase: phrase.NoLogbook.Of()}
	}
	names, err := b.Students(ctx, mostStudents)
	if err != nil {
		return told(err)
	}
	if len(names) == 0 {
		return &guard.Problem{Status: http.StatusConflict, Phrase: phrase.NobodyNamed.Of()}
	}
	slices.Sort(names)
	next := (slices.Index(names, at.Student) + 1) % len(names)
	return s.give(ctx, by, at.Name, command.Student{Name: names[next]})
}

// nextStep sets up what the student at the station flies next in the course.
func (s *Server) nextStep(ctx context.Context, by who.Who, at message.Station) error {
	switch {
	case s.cfg.Courses == nil:
		return &guard.Problem{Status: http.StatusNotFound, Phrase: phrase.NoLogbook.Of()}
	case at.Student == "":
		return &guard.Problem{Status: http.StatusConflict, Phrase: phrase.NobodyFlies.Of()}
	}
	rec, err := s.cfg.Courses.Record(ctx, CourseQuestion{Student: at.Student})
	if err != nil {
		return told(err)
	}
	if len(rec.Plan.Items) == 0 {
		return &guard.Problem{Status: http.StatusConflict, Phrase: phrase.NothingNext.Of()}
	}
	task := rec.Plan.Items[0].Task
	task.Aircraft = at.Aircraft
	return s.give(ctx, by, at.Name, command.Step{Task: task})
}
