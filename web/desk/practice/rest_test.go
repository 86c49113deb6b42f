package practice

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"sync/atomic"
	"testing"
	"time"

	"halfturn/coach/command"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/stream"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

// A simulator sends to one station.
type simulator struct {
	t       *testing.T
	bench   *bench
	station *Practice
	encoder encode.Encoder
	sample  stream.Sample
	start   time.Time
	n       int // datagrams sent
	now     float64
}

const sent = 20 // datagrams a second

func fliesTo(t *testing.T) *simulator {
	t.Helper()
	b := recordingOn(t, t.TempDir(), new(atomic.Bool))
	s := &simulator{t: t, bench: b, station: b.station(), start: time.Now().Add(-time.Hour)}
	var err error
	if s.encoder, err = encode.New("json"); err != nil {
		t.Fatal(err)
	}
	return s
}

// send sends the sample as it is.
func (s *simulator) send() {
	s.station.Datagram(s.encoder.Append(nil, &s.sample), s.start.Add(time.Duration(s.n)*time.Second/sent))
	s.n++
}

// fly flies a wing-over each way.
func (s *simulator) fly() {
	s.t.Helper()
	pilot, err := trainer.New(trainer.Flight{Maneuver: "wing-over", Direction: "both"})
	if err != nil {
		s.t.Fatal(err)
	}
	from := s.now
	for more := true; more; {
		more = pilot.Step(1./sent, &s.sample)
		s.now = from + s.sample.Value(stream.Time)
		s.sample.Put(stream.Time, s.now)
		s.send()
	}
}

// goOn sends some seconds of what is flown now: straight on, or what set makes of it.
func (s *simulator) goOn(seconds int, set func(*stream.Sample)) message.Station {
	for range seconds * sent {
		s.now += 1. / sent
		s.sample.Put(stream.Time, s.now)
		if set != nil {
			set(&s.sample)
		}
		s.send()
	}
	return s.station.session.Info(0)
}

func (s *simulator) end() (id string) {
	s.t.Helper()
	id = s.station.id
	if err := do(s.station, command.End{}); err != nil {
		s.t.Fatal(err)
	}
	return id
}

// folders returns how many sessions have a folder, once those that ended are on the disk.
func (s *simulator) folders() int {
	s.t.Helper()
	s.bench.Wait()
	entries, err := os.ReadDir(s.bench.book.Dir())
	if err != nil {
		s.t.Fatal(err)
	}
	return len(entries)
}

// Who ended a session and flies on straight, or parks, has begun no other. The next one begins with the maneuver that
// is entered, its set-up in the recording, and is graded from that as it was live.
func TestRestUntilManeuver(t *testing.T) {
	s := fliesTo(t)
	s.fly()
	if err := do(s.station, command.Student{Name: "Ada Example"}); err != nil {
		t.Fatal(err)
	}
	ended := s.end()
	if err := do(s.station, command.End{}); err == nil {
		t.Error("a session that is over can be ended again")
	}
	if info := s.goOn(200, nil); info.Session != "" || info.Ended != ended || info.Recording != message.Resting ||
		info.Student != "Ada Example" ||
		s.folders() != 1 {
		t.Errorf("flying straight on it says %+v with %d sessions", info, s.folders())
	}
	if n := len(s.station.before); n > int(mostRest.Seconds()+1)*sent {
		t.Errorf("%d datagrams are held", n)
	}
	s.fly()
	id, legs, n := s.station.id, s.station.session.Legs(), s.n
	if info := s.station.session.Info(0); id == "" || id == ended || info.Session != id || info.Ended != "" ||
		info.Recording != "on" ||
		legs != 2 {
		t.Errorf("after another series it says %+v, %d legs in %q", info, legs, id)
	}
	if told := s.bench.hub.Stations(); len(told) != 1 || told[0].Session != id ||
		told[0].Recording != "on" ||
		told[0].Ended != "" {
		t.Errorf("the pages are told %+v", told)
	}
	s.station.End(false)
	if n := s.folders(); n != 2 {
		t.Errorf("there are %d sessions", n)
	}
	if count, _ := readBack(t, filepath.Join(s.bench.book.Dir(), id)); count > n-200*sent || count < 60*sent {
		t.Errorf("%d of %d datagrams were recorded", count, n)
	}
	summary := filepath.Join(s.bench.book.Dir(), id, "summary.json")
	live, err := os.ReadFile(summary)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(summary); err != nil {
		t.Fatal(err)
	}
	again := recordingOn(t, filepath.Dir(s.bench.book.Dir()), new(atomic.Bool))
	resume(t, again.Common, time.Now())
	if played, err := os.ReadFile(summary); err != nil || !bytes.Equal(live, played) {
		t.Errorf("%v; graded live\n%.2000s\nand again\n%.2000s", err, live, played)
	}
}

// After a pause, a stand on the ground, a silence, a jump and a choice it begins with the first sample that is flown.
func TestRestEnds(t *testing.T) {
	ground := func(on float64) func(*stream.Sample) {
		return func(x *stream.Sample) { x.Put(stream.OnGround, on); x.Put(stream.Airspeed, 130-110*on) }
	}
	for what, meanwhile := range map[string]func(*simulator){
		"pause": func(s *simulator) {
			s.goOn(10, func(x *stream.Sample) { s.now -= 1. / sent; x.Put(stream.Time, s.now) })
		},
		"ground": func(s *simulator) {
			s.goOn(10, ground(1))
			s.sample.Put(stream.OnGround, 0)
			s.sample.Put(stream.Airspeed, 130)
		},
		"silence": func(s *simulator) { s.n += 10 * sent },
		"jump":    func(s *simulator) { s.now += 500 },
		"choice": func(s *simulator) {
			if err := do(s.station, command.Choose{Choice: maneuver.Choice{Maneuver: "lazy-eight"}}); err != nil {
				s.t.Fatal(err)
			}
		},
	} {
		t.Run(what, func(t *testing.T) {
			s := fliesTo(t)
			s.goOn(10, level)
			ended := s.end()
			if info := s.goOn(10, nil); info.Session != "" {
				t.Fatalf("before, it says %+v", info)
			}
			meanwhile(s)
			if n := s.folders(); n != 1 {
				t.Errorf("there are %d sessions", n)
			}
			if info := s.goOn(1, nil); info.Session == "" || info.Session == ended || info.Recording != "on" {
				t.Errorf("then it says %+v", info)
			}
			s.station.End(true)
		})
	}
}

// level is straight and level flight.
func level(x *stream.Sample) {
	for c, v := range map[stream.Channel]float64{stream.Heading: 90, stream.Pitch: 2, stream.Bank: 0,
		stream.Airspeed: 130, stream.Altitude: 5000} {
		x.Put(c, v)
	}
}

// What is held of a stream at rest is bounded, however fast it is.
func TestRestIsBounded(t *testing.T) {
	s := &live{rest: &rest{}}
	now := time.Now()
	for n := range 4 * mostRestCount {
		s.hold(datagram{bytes: fmt.Append(nil, n), received: now})
	}
	if n := len(s.before); n != mostRestCount {
		t.Errorf("%d are held", n)
	}
	for range 100 {
		s.hold(datagram{bytes: make([]byte, 64<<10), received: now})
	}
	if s.waiting > mostRestBytes {
		t.Errorf("%d bytes are held", s.waiting)
	}
}
