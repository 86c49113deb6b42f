package practice

import (
	"encoding/json"
	"maps"
	"net/netip"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/archive/play"
	"halfturn/coach/command"
	"halfturn/coach/course"
	"halfturn/coach/ids"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/session"
	"halfturn/coach/who"
	"halfturn/stream"
	"halfturn/stream/pipeline"
	"halfturn/stream/trainer"
)

var mo = who.Who{Name: "Mo Example"}

// An ear keeps what sessions publish, one list for each session.
type ear struct{ sessions [][]message.Message }

func (e *ear) Event(m message.Message) {
	if m.Seq == 1 {
		e.sessions = append(e.sessions, nil)
	}
	last := len(e.sessions) - 1
	e.sessions[last] = append(e.sessions[last], m)
}
func (*ear) Frame(string, *coach.Frame) {}
func (*ear) Watched(string) bool        { return false }

// coached are the events of a session as JSON, without what is said of the station and the recording itself. The plan
// is told again when a station wakes.
func coached(t *testing.T, all []message.Message) (lines []string) {
	t.Helper()
	for _, m := range all {
		switch m.Type() {
		case message.TypeStation, message.TypeSession, message.TypePlan:
			continue
		}
		m.Seq = 0
		line, err := json.Marshal(m)
		if err != nil {
			t.Fatal(err)
		}
		lines = append(lines, string(line))
	}
	return lines
}

// told gives commands at a station and keeps their ids.
type told struct {
	s    *simulator
	byID map[string]command.Kind
}

func (g *told) give(actions ...command.Action) {
	g.s.t.Helper()
	for _, a := range actions {
		now := time.Now()
		c := command.New(ids.New(now), now, g.s.station.name, mo, a)
		if _, err := g.s.station.Do(c, now); err != nil {
			g.s.t.Errorf("%s: %v", c.Kind(), err)
		}
		g.byID[c.ID] = c.Kind()
	}
}

// flyTold flies a wing-over each way; between and inLeg give commands before the first leg, and two seconds into each.
func (g *told) flyTold(between func(), inLeg ...func()) {
	s := g.s
	s.t.Helper()
	pilot, err := trainer.New(trainer.Flight{Maneuver: "wing-over", Direction: "both"})
	if err != nil {
		s.t.Fatal(err)
	}
	from, steps, inLegFor := s.now, 0, 0
	for more := true; more; steps++ {
		more = pilot.Step(1./sent, &s.sample)
		s.now = from + s.sample.Value(stream.Time)
		s.sample.Put(stream.Time, s.now)
		s.send()
		if inLegFor++; !s.station.Flying() {
			inLegFor = 0
		}
		if steps == 2*sent {
			between()
		}
		if inLegFor == 2*sent && len(inLeg) > 0 {
			inLeg[0]()
			inLeg = inLeg[1:]
		}
	}
	if len(inLeg) > 0 {
		s.t.Fatalf("%d legs were not flown", len(inLeg))
	}
}

// A session in which every command is given gives the same events from its recording as it gave live, to the byte; so
// does the one that was begun in its middle. The moments that were marked are kept under the ids of the commands.
func TestEveryCommandReplayed(t *testing.T) {
	s := fliesTo(t)
	var live ear
	s.bench.Output = &live
	s.station = s.bench.station()
	g := &told{s, map[string]command.Kind{}}
	heading, bo := 90.0, "Bo Example"
	other := maneuver.Choice{Maneuver: "lazy-eight", Standard: "check"}
	task := course.Task{Course: "first", Step: "wing-over", Choice: maneuver.Choice{Maneuver: "wing-over"},
		Prompts: "all", Good: 5, Of: 6, Sides: course.EachSide, Slip: 3, Stands: course.Standing{State: course.Open}}
	g.flyTold(func() {
		g.give(command.Student{Name: "Ada Example"}, command.Line{LineChoice: coach.LineChoice{Heading: &heading}},
			command.About{AboutChoice: coach.AboutChoice{Where: "right"}}, command.Step{Task: task},
			command.Prompt{How: "all"}, command.Private{On: true}, command.Private{},
			command.Demonstrate{Choice: other, Shown: "Demonstration"}, command.Mark{}, command.Say{Words: "Your turn"})
	}, func() {
		g.give(command.Say{Words: "Eyes outside"}, command.Again{}, command.Mark{Words: "Late with the foot"})
		if err := do(s.station, command.Demonstrate{Choice: other}); err == nil {
			t.Error("a leg is taken out of its pilot's sight")
		}
	}, func() { g.give(command.Stop{}) })
	g.give(command.Choose{Choice: other}, command.Choose{Choice: maneuver.Choice{Maneuver: "wing-over"}})
	first := s.station.id
	g.give(command.Start{Student: &bo})
	if s.station.rest != nil || s.station.opening.Student != bo {
		t.Error("the next session does not begin at once, with who was named")
	}
	g.flyTold(func() {
		g.give(command.Say{Words: "Once more"},
			command.Drill{Choice: maneuver.Choice{Maneuver: "wing-over"}, Cause: "rolled-out-late"})
	}, func() { g.give(command.Stop{}) })
	second := s.station.id
	g.give(command.End{})
	s.bench.Wait()
	given := slices.Collect(maps.Values(g.byID))
	for _, name := range command.Names() {
		if !slices.Contains(given, command.Kind(name)) {
			t.Errorf("no %s is given", name)
		}
	}
	for id, heard := range map[string][]message.Message{first: live.sessions[0], second: live.sessions[2]} {
		events := coached(t, heard)
		if n := strings.Count(strings.Join(events, "\n"), `"type":"leg"`); n != 2 {
			t.Errorf("%s has %d legs", id, n)
		}
		if d := cmp.Diff(events, coached(t, replay(t, s.bench, id))); d != "" {
			t.Errorf("from its recording %s says something else (-live +replayed):\n%s", id, d)
		}
	}
	remarks := keptRemarks(t, s.bench, first, 2)
	for i, want := range []logbook.Remark{{Words: logbook.Marked}, {Words: "Late with the foot"}} {
		r := remarks[i]
		if r.Words != want.Words || r.By != "Mo Example" || g.byID[r.Key] != command.KindMark || r.Time == nil ||
			*r.Time <= 0 || *r.Time > 100 {
			t.Errorf("the mark is kept as %+v", r)
		}
	}
}

// replay plays the recording of a session and returns what it publishes.
func replay(t *testing.T, b *bench, id string) []message.Message {
	t.Helper()
	r, err := play.Open(t.Context(), filepath.Join(b.book.Dir(), id))
	if err != nil {
		t.Fatal(err)
	}
	var e ear
	player, err := r.Play(t.Context(), play.Following{
		Options: b.Options(pipeline.Options{}),
		Plans:   b.Menu().Plans,
		Output:  func(netip.AddrPort) session.Output { return &e },
	})
	if err != nil {
		t.Fatal(err)
	}
	defer player.Close()
	if err := player.Run(nil); err != nil {
		t.Error(err)
	}
	if len(e.sessions) != 1 {
		t.Fatalf("the recording holds %d sessions", len(e.sessions))
	}
	return e.sessions[0]
}

// keptRemarks waits until a number of remarks is kept with a session.
func keptRemarks(t *testing.T, b *bench, id string, n int) []logbook.Remark {
	t.Helper()
	for t.Context().Err() == nil {
		if d, err := b.book.Session(t.Context(), id); err == nil && len(d.Said) == n {
			return d.Said
		}
		runtime.Gosched()
	}
	t.Fatal("the remarks are not kept")
	return nil
}

// At a station that rests a person can speak, mark and stop without beginning the next session; it stays private, and
// the next session is too.
func TestPersonAtRest(t *testing.T) {
	s := fliesTo(t)
	s.goOn(10, level)
	if err := do(s.station, command.Start{}); err != nil {
		t.Fatal(err)
	}
	s.goOn(10, nil)
	s.end()
	s.goOn(5, nil)
	for _, a := range []command.Action{command.Say{Words: "Eyes outside"}, command.Mark{}, command.Stop{},
		command.Private{On: true}} {
		if err := do(s.station, a); err != nil {
			t.Error(err)
		}
	}
	if info := s.goOn(1, nil); info.Session != "" || !info.Private || info.Recording != message.Resting {
		t.Errorf("it says %+v", info)
	}
	if err := do(s.station, command.Start{}); err != nil {
		t.Fatal(err)
	}
	if info := s.goOn(1, nil); info.Session == "" || !info.Private || !s.station.opening.Private {
		t.Errorf("begun, it says %+v", info)
	}
	s.station.End(true)
}

// What is private stays so when the server is started again in the middle of the session.
func TestPrivateOutlastsTheServer(t *testing.T) {
	data := t.TempDir()
	s := fliesTo(t)
	s.bench = recordingOn(t, data, new(atomic.Bool))
	s.station, s.start = s.bench.station(), time.Now().Add(-20*time.Second)
	s.goOn(5, level)
	if err := do(s.station, command.Private{On: true}); err != nil {
		t.Fatal(err)
	}
	s.goOn(10, nil)
	s.station.End(false)
	again := recordingOn(t, data, new(atomic.Bool))
	waiting := resume(t, again.Common, time.Now())
	if len(waiting) != 1 || !waiting[0].Info().Private {
		t.Fatalf("%d sessions wait, and are not private", len(waiting))
	}
	waiting[0].End(true)
}
