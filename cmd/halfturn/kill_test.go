package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/gorilla/websocket"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/cmd/halfturn/demo"
	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/message"
	"halfturn/stream"
	"halfturn/stream/record"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

const (
	killsEach  = 5                    // kills of a session
	flownRate  = 12                   // datagrams a second of flight
	tick       = 5 * time.Millisecond // of time, at which it sends
	perTick    = 3                    // datagrams: a minute of flight takes little more than a second
	latestKill = 1500                 // datagrams after a start
	flushed    = time.Second          // after which what came is on the disk, as promised
	busy       = time.Second          // how late a busy machine may be with that: its timers and its disk
	mended     = 20 * time.Second     // within which a start has entered what was missing
)

var kills = flag.Int("kills", 15, "how often TestServerKilled kills the program; 200 take a quarter of an hour")

// A followed is a server and what its live socket told.
type followed struct {
	*process
	legs chan []seenLeg // of one message, once it has ended
}

// A seenLeg is a finished leg as the live socket told it.
type seenLeg struct {
	start float64
	at    time.Time
}

// beginFollowed starts the program on a data directory and listens to its live socket.
func beginFollowed(t *testing.T, prepare func(*exec.Cmd), data string) *followed {
	t.Helper()
	s := &followed{legs: make(chan []seenLeg, 1)}
	s.process = beginServer(t, prepare, data, "--maneuver", "wing-over", "--aircraft", demo.Airplane)
	live := "ws" + strings.TrimPrefix(s.pages, "http") + "live"
	conn, _, err := websocket.DefaultDialer.DialContext(t.Context(), live, nil)
	if err != nil {
		t.Fatal(err)
	}
	go func() {
		defer conn.Close()
		var legs []seenLeg
		for {
			_, data, err := conn.ReadMessage()
			if err != nil {
				s.legs <- legs
				return
			}
			m, _ := message.Decode(data) // one that cannot be read is a leg that is missing below
			if l, ok := m.Body.(message.Leg); ok && l.Outcome == coach.Finished {
				legs = append(legs, seenLeg{l.Start, time.Now()})
			}
		}
	}()
	return s
}

// told returns the legs that it told of, once it has ended; it must have logged no error.
func (s *followed) told(t *testing.T) []seenLeg {
	t.Helper()
	<-s.ended
	for line := range strings.Lines(s.words()) {
		if strings.Contains(line, `"level":"error"`) {
			t.Errorf("it says %s", line)
		}
	}
	return <-s.legs
}

// A demoPilot flies the demonstration and keeps what it sent.
type demoPilot struct {
	pilot   *trainer.Pilot
	encoder encode.Encoder
	conn    *net.UDPConn
	sample  stream.Sample
}

// connect sends from another port from here on.
func (p *demoPilot) connect(t *testing.T) {
	t.Helper()
	conn, err := net.ListenUDP("udp", &net.UDPAddr{IP: net.IPv4(127, 0, 0, 1)})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { conn.Close() })
	p.conn = conn
}

// An ack says when that number of datagrams was surely taken.
type ack struct {
	n  int
	at time.Time
}

// fly sends n datagrams to a server. It returns them, and when they were taken.
func (p *demoPilot) fly(t *testing.T, s *followed, n int) (sent []string, acks []ack) {
	t.Helper()
	send := func(b []byte) {
		if _, err := p.conn.WriteToUDP(b, s.udp); err != nil {
			t.Fatal(err)
		}
		sent = append(sent, string(b))
	}
	send(p.encoder.Preamble())
	ticker := time.NewTicker(tick)
	defer ticker.Stop()
	for len(sent) < n {
		<-ticker.C
		for range min(perTick, n-len(sent)) {
			p.pilot.Step(1./flownRate, &p.sample)
			send(p.encoder.Append(nil, &p.sample))
		}
		if len(acks) == 0 || len(sent) >= acks[len(acks)-1].n+10*perTick {
			cmdtest.Until(t, func() bool { return s.taken(t) >= len(sent) },
				func() string { return fmt.Sprintf("not all of %d datagrams were taken", len(sent)) })
			acks = append(acks, ack{len(sent), time.Now()})
		}
	}
	return sent, acks
}

// A tally is what came of it.
type tally struct {
	sent, lost int           // datagrams
	oldest     time.Duration // how long before the end the oldest of the lost was surely taken
	told, must int           // finished legs; those told of so early that they may not be missing
}

// Killed at any moment of a demonstration, the program loses at most the last second: every
// file opens, and every leg that was finished before is in the logbook once it is started again. The
// session goes on each time, also from another port.
func TestServerKilled(t *testing.T) {
	t.Parallel()
	sessions := max(1, *kills/killsEach)
	all := make([]tally, sessions)
	t.Run("sessions", func(t *testing.T) {
		for n := range all {
			t.Run(strconv.Itoa(n), func(t *testing.T) {
				t.Parallel()
				all[n].killed(t, newDemoPilot(t), rand.New(rand.NewPCG(5, uint64(n))))
			})
		}
	})
	var sum tally
	for _, s := range all {
		sum.add(s)
	}
	if sum.oldest > flushed+busy {
		t.Errorf("what came %v before the end is missing", sum.oldest)
	}
	t.Logf("%d kills: %d datagrams sent, %d not recorded, the oldest known of them %v old; %d legs told of, %d of "+
		"them long enough before", sessions*killsEach, sum.sent, sum.lost, sum.oldest, sum.told, sum.must)
	if sum.must < sessions {
		t.Errorf("only %d legs were finished: that proves little", sum.must)
	}
}

// newDemoPilot flies wing-overs for longer than a session takes.
func newDemoPilot(t *testing.T) *demoPilot {
	t.Helper()
	flight := trainer.Flight{Maneuver: "wing-over", Direction: "both", Airplane: demo.Airplane, Seed: 3}
	pilot, err := trainer.NewSequence(slices.Repeat([]trainer.Flight{flight}, 8)...)
	if err != nil {
		t.Fatal(err)
	}
	encoder, err := encode.New("labels")
	if err != nil {
		t.Fatal(err)
	}
	return &demoPilot{pilot: pilot, encoder: encoder}
}

// add counts another session.
func (sum *tally) add(s tally) {
	sum.sent += s.sent
	sum.lost += s.lost
	sum.told += s.told
	sum.must += s.must
	sum.oldest = max(sum.oldest, s.oldest)
}

// killed flies a session in which the program is killed again and again.
func (sum *tally) killed(t *testing.T, p *demoPilot, random *rand.Rand) {
	t.Helper()
	data := t.TempDir()
	p.connect(t)
	var run []string // sent since the last start
	var acks []ack
	var must []float64 // starts of legs
	var at time.Time   // of the last end
	found := 0         // datagrams in the recording
	for n := range killsEach + 1 {
		s := beginFollowed(t, nil, data)
		there := allRecorded(t, data)[found:]
		k := 0
		for k < min(len(run), len(there)) && there[k] == run[k] {
			k++
		}
		if k < len(there) {
			t.Fatalf("the recording holds %d datagrams that were not sent", len(there)-k)
		}
		found += k
		sum.lost += len(run) - k
		for i := len(acks) - 1; i >= 0 && acks[i].n > k; i-- {
			sum.oldest = max(sum.oldest, at.Sub(acks[i].at))
		}
		inLogbook(t, data, must)
		if n == killsEach {
			s.kill(t)
			s.told(t)
			break
		}
		if random.IntN(3) == 0 { // the simulator is started again too
			p.connect(t)
		}
		run, acks = p.fly(t, s, 1+random.IntN(latestKill))
		at = time.Now()
		s.kill(t)
		legs := s.told(t)
		for _, l := range legs {
			if at.Sub(l.at) > flushed {
				must = append(must, l.start)
			}
		}
		sum.sent += len(run)
		sum.told += len(legs)
	}
	sum.must += len(must)
}

// allRecorded reads all recordings of a data directory.
func allRecorded(t *testing.T, data string) (list []string) {
	t.Helper()
	folders, err := os.ReadDir(filepath.Join(data, "sessions"))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range folders {
		dir := filepath.Join(data, "sessions", f.Name())
		parts, err := record.Parts(dir)
		if err != nil {
			t.Fatal(err)
		}
		r := record.Read(parts)
		for {
			d, err := r.Next()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", f.Name(), err)
			}
			list = append(list, string(d.Payload))
		}
	}
	return list
}

// inLogbook waits until the logbook holds finished legs that start at these times.
func inLogbook(t *testing.T, data string, starts []float64) {
	t.Helper()
	book, err := archive.Open(data, archive.Options{Engine: sqlite.Engine{}, ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	for until := time.Now().Add(mended); ; {
		lacks := slices.Clone(starts)
		list, err := book.List(t.Context(), logbook.Filter{})
		if err != nil {
			t.Fatal(err)
		}
		for i := range list.Sessions {
			report, err := book.Report(t.Context(), list.Sessions[i].ID, 1)
			if err != nil {
				t.Fatal(err)
			}
			for _, l := range finishedLegs(report) {
				lacks = slices.DeleteFunc(lacks, func(start float64) bool { return start == l.Start })
			}
		}
		if len(lacks) == 0 {
			return
		}
		if time.Now().After(until) {
			t.Fatalf("legs that started at %v are not in the logbook; %d are", lacks, len(starts)-len(lacks))
		}
		runtime.Gosched()
	}
}

// finishedLegs are those of a report.
func finishedLegs(r *debrief.Report) (legs []coach.Leg) {
	for _, f := range r.Files {
		for i := range f.Stations {
			for _, series := range f.Stations[i].Series {
				for _, l := range series.Legs {
					if l.Outcome == coach.Finished {
						legs = append(legs, l)
					}
				}
			}
		}
	}
	return legs
}
