package speech

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/testutil"
	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/message"
)

// A voice is a program of known pace: a quarter slower than what the speaker begins with.
type voice struct {
	said []spoken
	fail error
	hang bool
}

type spoken struct {
	words        string
	began, ended float64 // s since the beginning; ended is NaN when it was killed
}

// takes is how long the voice takes for words, s.
func takes(words string) float64 { return 1.25 * usual * 175 / 150 * beats(words) }

var epoch time.Time

func clock() float64 { return time.Since(epoch).Seconds() }

type line struct {
	end  chan error
	stop func() bool
}

func (l *line) done() <-chan error { return l.end }

func (l *line) kill() {
	if l.stop() {
		l.end <- errors.New("killed")
	}
}

func (v *voice) start(words string) (running, error) {
	if v.fail != nil {
		return nil, v.fail
	}
	i := len(v.said)
	v.said = append(v.said, spoken{words, clock(), math.NaN()})
	long := seconds(takes(words))
	if v.hang {
		long = time.Hour
	}
	l := &line{end: make(chan error, 1)}
	l.stop = time.AfterFunc(long, func() {
		v.said[i].ended = clock()
		l.end <- nil
	}).Stop
	return l, nil
}

// silent is an output where nobody listens.
type silent struct{ events, frames int }

func (s *silent) Event(message.Message)      { s.events++ }
func (s *silent) Frame(string, *coach.Frame) { s.frames++ }
func (s *silent) Watched(string) bool        { return false }
func ptr[T any](v T) *T                      { return &v }
func call(c *coach.Callout) message.Message {
	return message.Message{Station: "seat", Body: message.Callout{Callout: c}}
}
func cue(to, due float64, w string) *coach.Callout {
	return &coach.Callout{
		Time:  clock(),
		Kind:  coach.Cue,
		ID:    fmt.Sprint("cue-", to),
		Words: w,
		To:    ptr(to),
		Due:   ptr(due),
	}
}

// speak runs a speaker in a bubble of its own time, where stream time is that since the beginning.
func speak(t *testing.T, v *voice, cfg Config, do func(s *Speaker)) (log string) {
	t.Helper()
	var out bytes.Buffer
	synctest.Test(t, func(t *testing.T) {
		epoch = time.Now()
		cfg.Rate, cfg.Log = 150, zerolog.New(&out)
		s, err := newSpeaker(cfg, v, &silent{}, prometheus.NewRegistry())
		if err != nil {
			t.Fatal(err)
		}
		ctx, stop := context.WithCancel(t.Context())
		ended := make(chan struct{})
		go func() { s.Run(ctx); close(ended) }()
		at(5) // the greeting is over
		do(s)
		stop()
		<-ended
	})
	return out.String()
}

// at waits, in the bubble's time, until this many seconds after the beginning.
func at(t float64) {
	<-time.After(time.Until(epoch.Add(seconds(t))))
	synctest.Wait()
}

// fly sends a frame ten times a second, turning 10°/s from 0° at a time, until another.
func fly(s *Speaker, from, until, to float64) {
	for now := clock(); now < until; now += 0.1 {
		at(now)
		turn := (clock() - from) * 10
		f := &coach.Frame{Time: clock(), State: "leg", Turn: turn}
		if turn < to {
			f.Cues = []coach.NextCue{{To: to, Seconds: (to - turn) / 10}}
		}
		s.Frame("seat", f)
	}
}

// words lists what was spoken after the greeting, and what became of it.
func words(v *voice) string {
	var b strings.Builder
	for _, s := range v.said[1:] {
		end := "killed"
		if !math.IsNaN(s.ended) {
			end = "ended"
			if math.Abs(s.ended-s.began-takes(s.words)) > 0.01 {
				end = fmt.Sprintf("ended after %.2f s", s.ended-s.began)
			}
		}
		fmt.Fprintf(&b, "%.1f %s: %s\n", s.began, s.words, end)
	}
	return b.String()
}

// A cue's words end as its checkpoint comes, within the 0.4 s of a prompt callout (common practice, no source).
func TestCueEndsAtItsCheckpoint(t *testing.T) {
	v := &voice{}
	speak(t, v, Config{}, func(s *Speaker) {
		for i, w := range []string{"Roll out slowly", "Highest nose now, bank thirty", "Look for the point"} {
			from := 6 + 20*float64(i)
			at(from)
			s.Event(call(cue(90, from+9, w)))
			fly(s, from, from+12, 90)
			last := v.said[len(v.said)-1]
			if last.words != w || math.Abs(last.ended-(from+9)) > tolerance {
				t.Errorf(
					"%q was spoken from %.2f to %.2f; its checkpoint came at %.2f",
					last.words,
					last.began,
					last.ended,
					from+9,
				)
			}
		}
	})
}

func TestWhatGivesWay(t *testing.T) {
	after := func(id, w string) *coach.Callout {
		return &coach.Callout{Time: clock(), Kind: coach.After, ID: id, Words: w}
	}
	safety := func() *coach.Callout {
		return &coach.Callout{Time: clock(), Kind: coach.Safety, ID: "stall", Words: "Stall margin, lower the nose"}
	}
	result := func() *coach.Callout {
		return &coach.Callout{Time: clock(), Kind: coach.Result, ID: "leg", Words: "Good, exit ten late"}
	}
	said := func(w string) *coach.Callout {
		return &coach.Callout{Time: clock(), Kind: coach.Said, ID: "said", Words: w, By: "Mo Example"}
	}
	tests := []struct {
		name string
		cfg  Config
		do   func(s *Speaker)
		want string
	}{
		{"safety interrupts", Config{}, func(s *Speaker) {
			s.Event(call(result()))
			at(5.5)
			s.Event(call(safety()))
			at(10)
		}, "5.0 Good, exit ten late: killed\n5.5 Stall margin, lower the nose: ended\n"},
		{"that it was stopped is said after safety", Config{}, func(s *Speaker) {
			s.Event(call(safety()))
			s.Event(call(result()))
			at(12)
		}, "5.0 Stall margin, lower the nose: ended\n8.0 Good, exit ten late: ended\n"},
		{"a person interrupts a result, and waits for safety", Config{Level: Tones}, func(s *Speaker) {
			s.Event(call(result()))
			s.Event(call(said("Eyes outside")))
			s.Event(call(safety()))
			s.Event(call(said("-w Less rudder")))
			at(12)
		}, "5.0 Eyes outside: killed\n5.0 Stall margin, lower the nose: ended\n8.0 -w Less rudder: ended\n"},
		{"what a person said waits for safety that comes again, but not for long", Config{}, func(s *Speaker) {
			s.Event(call(safety()))
			s.Event(call(said("Eyes outside")))
			at(7)
			s.Event(call(said("Less rudder")))
			at(7.5)
			s.Event(call(safety()))
			at(14)
		}, "5.0 Stall margin, lower the nose: killed\n7.5 Stall margin, lower the nose: ended\n" +
			"10.5 Less rudder: ended\n"},
		{"safety stops when it is clear", Config{}, func(s *Speaker) {
			s.Event(call(safety()))
			at(6)
			s.Event(call(&coach.Callout{Time: clock(), Kind: coach.Clear, ID: "stall"}))
			at(10)
		}, "5.0 Stall margin, lower the nose: killed\n"},
		{"a result waits", Config{Level: Full}, func(s *Speaker) {
			s.Event(call(after("bank", "Less bank")))
			at(5.2)
			s.Event(call(result()))
			at(10)
		}, "5.0 Less bank: ended\n6.2 Good, exit ten late: ended\n"},
		{"a correction while something is said is dropped", Config{Level: Full}, func(s *Speaker) {
			s.Event(call(result()))
			at(5.2)
			s.Event(call(after("bank", "Less bank")))
			at(10)
		}, "5.0 Good, exit ten late: ended\n"},
		{"corrections are not wanted", Config{}, func(s *Speaker) {
			s.Event(call(after("bank", "Less bank")))
			at(10)
		}, ""},
		{"another station's are not spoken", Config{Station: "other"}, func(s *Speaker) {
			s.Event(call(safety()))
			at(10)
		}, ""},
		{"old ones are not", Config{}, func(s *Speaker) {
			s.Event(call(result()))
			at(8)
			s.Frame("seat", &coach.Frame{Time: 8, State: "set-up"})
			s.Event(call(&coach.Callout{Time: 5, Kind: coach.Result, ID: "leg", Words: "Long ago"}))
			at(10)
		}, "5.0 Good, exit ten late: ended\n"},
		{"cues of a leg that is over are not", Config{}, func(s *Speaker) {
			s.Event(call(cue(90, 9, "Roll out")))
			at(6)
			s.Frame("seat", &coach.Frame{Time: 6, State: "after"})
			at(12)
		}, ""},
		{"cues wait while the simulator stands", Config{}, func(s *Speaker) {
			s.Event(call(cue(90, 9, "Roll out")))
			at(6)
			f := &coach.Frame{Time: 6, State: "leg", Turn: 60, Cues: []coach.NextCue{{To: 90, Seconds: 2}}}
			s.Frame("seat", f)
			s.Event(message.Message{Station: "seat", Body: &message.Station{Name: "seat", Link: "paused"}})
			at(16)
			s.Frame("seat", f)
			at(20)
		}, "16.9 Roll out: ended\n"},
		{"cues of before the simulator began again are not", Config{}, func(s *Speaker) {
			s.Event(call(cue(90, 9, "Roll out")))
			at(6)
			s.Frame(
				"seat",
				&coach.Frame{Time: 2, State: "leg", Turn: 40, Cues: []coach.NextCue{{To: 90, Seconds: 0.5}}},
			)
			at(12)
		}, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			v := &voice{}
			speak(t, v, tt.cfg, tt.do)
			if got := words(v); got != tt.want {
				t.Errorf("spoken:\n%swanted:\n%s", got, tt.want)
			}
		})
	}
}

func TestFailingProgram(t *testing.T) {
	v := &voice{fail: errors.New("no sound card")}
	log := speak(t, v, Config{}, func(s *Speaker) {
		for i := range 5 {
			s.Event(call(&coach.Callout{Time: clock(), Kind: coach.Result, Words: "Good"}))
			at(6 + float64(i))
		}
		if n := testutil.ToFloat64(s.counts.WithLabelValues("failed")); n != 6 {
			t.Errorf("%g failures counted, wanted 6", n)
		}
	})
	if n := strings.Count(log, "no sound card"); n != 1 {
		t.Errorf("complained %d times, wanted once:\n%s", n, log)
	}
}

func TestHungProgram(t *testing.T) {
	v := &voice{hang: true}
	log := speak(t, v, Config{}, func(s *Speaker) {
		at(60)
		v.hang = false
		s.Event(call(&coach.Callout{Time: clock(), Kind: coach.Result, Words: "Good"}))
		at(70)
	})
	if last := v.said[len(v.said)-1]; last.words != "Good" || math.IsNaN(last.ended) ||
		!strings.Contains(log, "stopped") {
		t.Errorf("spoken %s, log %s", words(v), log)
	}
}

// A session never waits for the speaker, however much it says.
func TestNeverHoldsUp(t *testing.T) {
	s, err := newSpeaker(Config{Rate: 150}, &voice{}, &silent{}, prometheus.NewRegistry())
	if err != nil {
		t.Fatal(err)
	}
	for range 10 * backlog { // nobody runs it
		s.Event(call(&coach.Callout{Kind: coach.Result, Words: "Good"}))
		s.Frame("seat", &coach.Frame{})
	}
	if n := testutil.ToFloat64(s.counts.WithLabelValues("overrun")); n != 9*backlog {
		t.Errorf("%g dropped, wanted %d", n, 9*backlog)
	}
	if next := s.Output.(*silent); next.events != 10*backlog || next.frames != 0 {
		t.Errorf("passed on %d events and %d frames", next.events, next.frames)
	}
}
