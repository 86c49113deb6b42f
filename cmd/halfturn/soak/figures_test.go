package soak

import (
	"context"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/coach/message"
)

// figures are what must be the same when everybody has left.
type figures struct {
	goroutines int
	files      int     // open, without those of databases
	databases  int     // open files of databases
	heap       float64 // bytes that are live
	resident   float64 // bytes
	doing      string  // what the goroutines do
	open       string  // the files
}

func (f figures) String() string {
	return fmt.Sprintf("%d goroutines, %d open files and %d of databases, %.1f MB live, %.1f MB resident",
		f.goroutines, f.files, f.databases, f.heap/1e6, f.resident/1e6)
}

// until waits until a condition holds. Unlike cmdtest.Until it is for any goroutine.
func (s *soak) until(holds func() bool, what func() string) {
	ctx, cancel := context.WithTimeout(s.Context(), cmdtest.Patience+s.idle)
	defer cancel()
	for !holds() {
		if !wait(ctx, 10*time.Millisecond) {
			s.Error(what())
			return
		}
	}
}

// metrics reads the server's metrics, each with its labels.
func (s *soak) metrics() map[string]float64 {
	all := map[string]float64{}
	r, err := client().Get(s.house.pages() + "metrics")
	if err != nil {
		s.Error(err)
		return all
	}
	defer r.Body.Close()
	b, err := io.ReadAll(r.Body)
	if err != nil {
		s.Error(err)
	}
	for line := range strings.Lines(string(b)) {
		name, value, found := strings.Cut(strings.TrimSpace(line), " ")
		if v, err := strconv.ParseFloat(value, 64); found && err == nil {
			all[name] = v
		}
	}
	return all
}

// left waits until everybody has left and, where it is known from where they began, until the figures are there again.
// It returns them as they are then.
func (s *soak) left(began figures) (f figures) {
	s.until(func() bool {
		m := s.metrics()
		return m["halfturn_stations"] == 0 && m["halfturn_viewers"] == 0
	}, func() string {
		m := s.metrics()
		var there []string
		for _, st := range s.stations() {
			if st.Link != message.LinkGone {
				there = append(there, fmt.Sprintf("%s (%s, demonstration: %v)", st.Name, st.Link, st.Demonstration))
			}
		}
		return fmt.Sprintf("%v stations and %v viewers do not leave: %q", m["halfturn_stations"], m["halfturn_viewers"],
			there)
	})
	ctx, cancel := context.WithTimeout(s.Context(), cmdtest.Patience)
	defer cancel()
	for same := 0; same < 3; {
		now := s.measure()
		settled := now.goroutines == f.goroutines && now.files == f.files
		if began.goroutines > 0 {
			settled = now.goroutines <= began.goroutines && now.files <= began.files &&
				now.heap <= began.heap+s.form.heap
		}
		f = now
		if same++; !settled {
			same = 0
		}
		if !wait(ctx, 50*time.Millisecond) {
			break
		}
	}
	f.doing = s.house.goroutines(s.T)
	return f
}

// measure returns the figures of this moment.
func (s *soak) measure() (f figures) {
	s.house.collect(s.T)
	m := s.metrics()
	f.goroutines = int(m["go_goroutines"])
	f.heap, f.resident = m["go_memstats_alloc_bytes"], m["process_resident_memory_bytes"]
	dir := fmt.Sprintf("/proc/%d/fd", s.house.pid())
	list, err := os.ReadDir(dir)
	if err != nil {
		s.Error(err)
	}
	var names []string
	for _, e := range list {
		name, err := os.Readlink(filepath.Join(dir, e.Name()))
		switch {
		case err != nil: // closed meanwhile, as the one that reads the folder
		case strings.Contains(filepath.Base(name), ".db"):
			f.databases++
		default:
			f.files++
			names = append(names, name)
		}
	}
	slices.Sort(names)
	f.open = strings.Join(names, "\n")
	return f
}

// mostDatabases are the open files of the databases at most: of the logbook and of the people, a connection that writes
// and four that read, each with two files, and what they share.
const mostDatabases = 2 * (5*2 + 1)

// compare holds the figures at the end of a round to those at the end of the first loud one. Goroutines and files are
// the same to the last: every station, viewer and session has closed what it opened. Databases open further connections
// when several people ask at once, and keep them.
func (s *soak) compare(began, left figures) {
	if left.goroutines > began.goroutines {
		s.Errorf("%d goroutines are left; there were %d. First:\n%s\nThen:\n%s", left.goroutines, began.goroutines,
			began.doing, left.doing)
	}
	if left.files > began.files || left.databases > mostDatabases {
		s.Errorf("%d files are open, and %d of databases; there were %d, and %d may be. First:\n%s\nThen:\n%s",
			left.files, left.databases, began.files, mostDatabases, began.open, left.open)
	}
	if left.heap > began.heap+s.form.heap {
		s.Errorf("%.1f MB are live; there were %.1f MB, and %.1f MB more are right", left.heap/1e6, began.heap/1e6,
			s.form.heap/1e6)
	}
}

// faultless are the counters that never rise, whatever stations and viewers do: each is of the program or of this
// machine. Recordings do lose datagrams while the data folder is away; in those of the stations without faults they are
// counted.
var faultless = regexp.MustCompile(`^halfturn_(socket_dropped_datagrams_total|connections_refused_total|` +
	`datagrams_dropped_total\{reason="(fault|queue-full|too-many-stations|too-fast|not-allowed|unasked)"\}|` +
	`[a-z_]*(panic|fault)[a-z_]*)`)

// faults finds counters of faults that have risen, and what was logged of faults.
func (s *soak) faults() {
	m := s.metrics()
	for _, name := range slices.Sorted(maps.Keys(m)) {
		if faultless.MatchString(name) && m[name] > 0 {
			s.Errorf("%s is %v", name, m[name])
		}
	}
	if words := s.house.words(); strings.Contains(words, "fault in the program") {
		s.Errorf("the server logged\n%s", words)
	}
}
