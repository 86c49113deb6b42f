package soak

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/debrief"
	"halfturn/stream/record"
)

// counts are what happened, to show that something did.
type counts struct {
	mu                            sync.Mutex
	flights                       []flown // of this round, not yet judged
	judged, busy                  int
	happens                       map[string]int
	views, does, away, configured int
}

func (c *counts) flew(f flown) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.flights = append(c.flights, f)
}

func (c *counts) happened(name string) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.happens == nil {
		c.happens = map[string]int{}
	}
	c.happens[name]++
}

func (c *counts) add(to *int) {
	c.mu.Lock()
	defer c.mu.Unlock()
	*to++
}

func (c *counts) viewed()    { c.add(&c.views) }
func (c *counts) commanded() { c.add(&c.does) }
func (c *counts) took()      { c.add(&c.away) }
func (c *counts) read()      { c.add(&c.configured) }

func (c *counts) String() string {
	return fmt.Sprintf("%d flights graded as in quiet, %d could not be flown evenly; %v; %d views, %d commands, "+
		"the folder away %d times, %d reloads",
		c.judged, c.busy, c.happens, c.views, c.does, c.away, c.configured)
}

// check fails a test in which too little happened to prove anything. In the short form a busy machine may leave no
// moment at which the folder can be away.
func (c *counts) check(t *testing.T, f *form) {
	if c.judged == 0 && c.busy > 0 {
		t.Skipf("this machine is too busy: %v", c)
	}
	if c.judged == 0 || len(c.happens) < 3 || c.views == 0 || c.does == 0 || c.configured == 0 ||
		c.away == 0 && f.pace == 1 {
		t.Errorf("that proves little: %v", c)
	}
}

// judge compares the flights of a round with those of the quiet one, which it keeps.
func (s *soak) judge(round int) {
	s.counts.mu.Lock()
	flights := s.counts.flights
	s.counts.flights = nil
	s.counts.mu.Unlock()
	for _, f := range flights {
		n := 0
		if f.session != "" {
			f.report = report(s.T, s.folder(f.session))
			f.report.Station = ""
			n = recorded(s.T, s.folder(f.session))
		}
		if n != f.sent && f.silence > s.idle/2 { // this machine was too busy to send, and the session ended meanwhile
			s.counts.add(&s.counts.busy)
			continue
		}
		if n != f.sent {
			s.Errorf("%d of %d datagrams of %s are recorded in session %q", n, f.sent, f.name, f.session)
		}
		if round == 0 {
			if len(f.report.Series) == 0 {
				s.Errorf("the quiet flight of %s has no leg", f.name)
			}
			s.quiet[f.number] = f
			continue
		}
		quiet, there := s.quiet[f.number]
		if !there {
			continue
		}
		if d := cmp.Diff(quiet.report, f.report); d != "" {
			s.Errorf("%s is graded otherwise than in quiet (-quiet +now):\n%.4000s", f.name, d)
		}
		s.counts.judged++
	}
}

// report reads the report of a session; one that cannot be read is empty.
func report(t *testing.T, dir string) debrief.StationReport {
	b, err := os.ReadFile(filepath.Join(dir, "summary.json"))
	var r debrief.Report
	if err == nil {
		err = json.Unmarshal(b, &r)
	}
	if err != nil || len(r.Files) != 1 || len(r.Files[0].Stations) != 1 {
		t.Errorf("%s: %v, %d files", dir, err, len(r.Files))
		return debrief.StationReport{}
	}
	return r.Files[0].Stations[0]
}

// recorded counts the datagrams of a recording.
func recorded(t *testing.T, dir string) (n int) {
	parts, err := record.Parts(dir)
	if err != nil {
		t.Error(err)
		return 0
	}
	r := record.Read(parts)
	defer r.Close()
	for {
		if _, err := r.Next(); errors.Is(err, io.EOF) {
			return n
		} else if err != nil {
			t.Errorf("%s: %v", dir, err)
			return n
		}
		n++
	}
}
