package story

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"halfturn/coach/archive"
	ours3 "halfturn/coach/archive/depot/s3"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/storage"
	"halfturn/stream/record"
)

// A kept session is what the cluster has of a flight.
type kept struct {
	logbook.SessionRow
	dir    string
	report []byte // debrief.StationReport as JSON, as the session was graded when it was flown
	acts   []logbook.Act
	said   string // all comments of the recording
}

// reader opens the logbook and the depot of the cluster as another node would, which flies nothing.
func (s *story) reader() *archive.Archive {
	s.Helper()
	b, err := ours3.Open(s.store.Options(bucket))
	if err != nil {
		s.Fatal(err)
	}
	s.Cleanup(b.Close)
	a, err := archive.Open(s.TempDir(), archive.Options{
		Engine: storage.At(s.dsn).Engine(),
		Depot: archive.Depot{
			In:    b,
			Node:  "reader",
			Holds: func(string) (uint64, bool) { return 0, false },
			Fresh: -1,
		},
	})
	if err != nil {
		s.Fatal(err)
	}
	s.Cleanup(func() {
		if err := a.Close(); err != nil {
			s.Error(err)
		}
	})
	return a
}

// collect reads the sessions of all stations, those of each in the order in which they were flown.
func (s *story) collect() map[string][]*kept {
	s.Helper()
	a := s.reader()
	list, err := logbook.ListAll(s.Context(), a, logbook.Filter{}, 0)
	if err != nil {
		s.Fatal(err)
	}
	all := map[string][]*kept{}
	for _, row := range list.Sessions {
		k := &kept{SessionRow: row}
		all[row.Station] = append(all[row.Station], k)
		if k.dir, err = a.Folder(row.ID); err == nil {
			k.acts, err = a.Acts(row.ID)
		}
		if err == nil {
			k.report, err = reportOf(filepath.Join(k.dir, "summary.json"))
		}
		if err != nil {
			s.Errorf("session %s of %s: %v", row.ID, row.Station, err)
		}
	}
	for _, list := range all {
		slices.SortFunc(list, func(a, b *kept) int { return cmp.Compare(a.ID, b.ID) })
	}
	return all
}

// reportOf is how the only station of a report was graded.
func reportOf(file string) ([]byte, error) {
	text, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	var r debrief.Report
	if err := json.Unmarshal(text, &r); err != nil {
		return nil, err
	}
	return gradesOf(r.Files)
}

func gradesOf(files []debrief.FileReport) ([]byte, error) {
	if len(files) != 1 || len(files[0].Stations) != 1 {
		return nil, errors.New("it is not the report of one station")
	}
	return json.Marshal(files[0].Stations[0])
}

// payloads are the datagrams of a recording, and all that its comments say.
func payloads(t *testing.T, dir string) (all [][]byte, said string) {
	t.Helper()
	parts, err := record.Parts(dir)
	if err != nil {
		t.Error(err)
		return nil, ""
	}
	r := record.Read(parts)
	defer r.Close()
	var comments strings.Builder
	for {
		d, err := r.Next()
		if errors.Is(err, io.EOF) {
			comments.WriteString(strings.Join(r.Rest(), "\n"))
			return all, comments.String()
		}
		if err != nil {
			t.Errorf("%s: %v", dir, err)
			return all, comments.String()
		}
		all = append(all, bytes.Clone(d.Payload))
		for _, c := range d.Comments {
			comments.WriteString(c + "\n")
		}
	}
}

// compare holds the record of each flight to what was sent, to the byte.
func (s *story) compare(all map[string][]*kept) (sessions, legs, missing int) {
	s.Helper()
	for _, seat := range s.field.seats {
		flights, list := seat.history(), all[seat.name]
		if len(flights) != len(list) {
			s.Errorf("station %s (%s) flew %d times, and has %d sessions", seat.name, seat.way, len(flights), len(list))
			for _, k := range list {
				s.Logf("  %s from %s to %s, %d legs", k.ID, k.Began, k.Ended, k.Legs)
			}
			continue
		}
		for i, k := range list {
			sessions, legs = sessions+1, legs+k.Legs
			got, said := payloads(s.T, k.dir)
			k.said = said
			want := flights[i].datagrams
			if seat.way == toOne {
				n, ok := within(got, want)
				if missing += n; !ok {
					s.Errorf("session %s of %s has datagrams in another order, or twice", k.ID, seat.name)
				}
				continue
			}
			if at := differ(got, want); at >= 0 {
				s.Errorf("session %s of %s (%s) has %d datagrams of %d, and differs from number %d on", k.ID, seat.name,
					seat.way, len(got), len(want), at)
			}
		}
	}
	return sessions, legs, missing
}

// differ is where two records differ first; -1: nowhere.
func differ(got, want [][]byte) int {
	for i := range max(len(got), len(want)) {
		if i >= len(got) || i >= len(want) || !bytes.Equal(got[i], want[i]) {
			return i
		}
	}
	return -1
}

// within reports whether a record has nothing but what was sent, in its order, and how much it lacks.
func within(got, want [][]byte) (missing int, ok bool) {
	at := 0
	for _, b := range got {
		for at < len(want) && !bytes.Equal(want[at], b) {
			at++
		}
		if at++; at > len(want) {
			return 0, false
		}
	}
	return len(want) - len(got), true
}

// regrade has a single machine play all recordings again: each is graded as it was when it was flown, to the byte.
func (s *story) regrade(all map[string][]*kept) {
	s.Helper()
	var dirs []string
	of := map[string]*kept{}
	only := s.TempDir() // the recordings alone, without what instructors overruled
	for _, list := range all {
		for _, k := range list {
			dir := filepath.Join(only, filepath.Base(k.dir))
			if err := alone(k.dir, dir); err != nil {
				s.Error(err)
				continue
			}
			of[filepath.Base(dir)] = k
			dirs = append(dirs, dir)
		}
	}
	cmd := exec.Command(s.program, append([]string{"grade", "--config", s.config, "--format", "json"}, dirs...)...)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		s.Errorf("grading again: %v", err)
	}
	var r debrief.Report
	if err := json.Unmarshal(out, &r); err != nil {
		s.Fatalf("grading again: %v", err)
	}
	if len(r.Files) != len(dirs) {
		s.Errorf("%d of %d recordings are graded again", len(r.Files), len(dirs))
	}
	for i := range r.Files {
		k := of[filepath.Base(r.Files[i].File)]
		again, err := gradesOf(r.Files[i : i+1])
		if k == nil || err != nil {
			s.Errorf("%s: %v", r.Files[i].File, err)
			continue
		}
		if !bytes.Equal(again, k.report) {
			at := 0
			for at < min(len(again), len(k.report)) && again[at] == k.report[at] {
				at++
			}
			at = max(at-100, 0)
			s.Errorf("session %s of %s is graded otherwise again:\nin flight … %.300s\nagain     … %.300s", k.ID,
				k.Station, k.report[at:], again[at:])
		}
	}
}

// alone links the files of a recording into a folder of their own.
func alone(from, to string) error {
	parts, err := record.Parts(from)
	if err == nil {
		err = os.Mkdir(to, 0o700)
	}
	for _, p := range parts {
		if err == nil {
			err = os.Link(p, filepath.Join(to, filepath.Base(p)))
		}
	}
	return err
}

// once holds the legs of each station to once, and to every viewer.
func (s *story) once(all map[string][]*kept) {
	s.Helper()
	recorded := map[string]map[string]bool{}
	for station, list := range all {
		recorded[station] = map[string]bool{}
		for _, k := range list {
			var r debrief.StationReport
			if err := json.Unmarshal(k.report, &r); err != nil {
				s.Errorf("session %s: %v", k.ID, err)
			}
			for i := range r.Series {
				for n := range r.Series[i].Legs {
					key := keyOf(&r.Series[i].Legs[n])
					if recorded[station][key] {
						s.Errorf("a leg of %s is graded twice: %s", station, key)
					}
					recorded[station][key] = true
				}
			}
		}
	}
	for _, v := range s.viewers {
		for key := range recorded[v.station] {
			if !v.seen[key] && !v.shown[key] {
				s.Errorf("%v did not see a leg: %s", v, key)
			}
		}
		for key := range v.seen {
			if !recorded[v.station][key] {
				s.Errorf("%v saw a leg that is not recorded: %s", v, key)
			}
		}
	}
}

// obeyed holds what instructors were told is done to what was recorded: there, and once.
func (s *story) obeyed(all map[string][]*kept) {
	s.Helper()
	text := map[string]string{} // all that was done, by station and by session
	for station, list := range all {
		for _, k := range list {
			text[station] += k.said
			acts, err := json.Marshal(k.acts)
			if err != nil {
				s.Error(err)
			}
			text[k.ID] = string(acts)
		}
	}
	for _, i := range s.instructors {
		i.mu.Lock()
		for words, done := range i.accepted {
			if n := strings.Count(text[done.where], `"`+words+`"`); n != 1 {
				s.Errorf("%q at %s is recorded %d times; node %s said at %s that it is done", words, done.where, n,
					done.node, done.at.Format("15:04:05.000"))
			}
		}
		s.Logf("%s: %d accepted; of %d was said that it is not known, %d refused with a reason, %d unanswered",
			i.name, len(i.accepted), i.unsure, i.refused, i.failed)
		i.mu.Unlock()
	}
}
