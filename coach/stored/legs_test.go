package stored

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/archive/play"
	"halfturn/coach/debrief"
	"halfturn/coach/export"
	"halfturn/stream/phrase"
)

// senders have this number of legs each, in series of two; the change of a leg says which it is over all.
func senders(legs ...int) (all []*export.Graded) {
	n := 0
	for _, count := range legs {
		g := &export.Graded{}
		for i := range count {
			n++
			if i%2 == 0 {
				g.Report.Series = append(g.Report.Series, coach.Series{
					Checks: []coach.Check{{ID: "symmetry"}},
					Causes: []coach.Cause{{ID: "one-sided"}},
				})
			}
			s := &g.Report.Series[len(g.Report.Series)-1]
			l := coach.Leg{Number: i%2 + 1, Change: phrase.Plain(fmt.Sprint("leg ", n)), Outcome: coach.Finished}
			s.Legs = append(s.Legs, l)
			g.Legs = append(g.Legs, export.PicturedLeg{Leg: l})
		}
		all = append(all, g)
	}
	return all
}

// TestLegOf: legs are counted over all senders, also past one that flew none.
func TestLegOf(t *testing.T) {
	all := senders(3, 0, 2)
	for n := range 6 {
		sender, leg, err := legOf(all, n+1)
		if n == 5 {
			var none *NoLeg
			if !errors.As(err, &none) || err.Error() != "there is no leg 6; the recording holds 5" {
				t.Errorf("leg 6: %v", err)
			}
			continue
		}
		if err != nil || leg.Change.String() != fmt.Sprint("leg ", n+1) || (sender == all[0]) != (n < 3) {
			t.Errorf("leg %d is %+v, %v", n+1, leg, err)
		}
	}
}

// TestKeepLeg leaves that leg, and nothing that only several legs show.
func TestKeepLeg(t *testing.T) {
	for n := 1; n <= 6; n++ {
		r := ReportOf(&play.Recording{Name: "x"}, senders(3, 0, 2))
		keepLeg(r.Files[0].Stations, n)
		var left []string
		for _, st := range r.Files[0].Stations {
			for _, s := range st.Series {
				if len(s.Checks) > 0 || len(s.Causes) > 0 {
					t.Errorf("leg %d: of its series %d checks and %d causes are left", n, len(s.Checks), len(s.Causes))
				}
				for _, l := range s.Legs {
					left = append(left, l.Change.String())
				}
			}
		}
		var want []string
		if n < 6 {
			want = []string{fmt.Sprint("leg ", n)}
		}
		if !slices.Equal(left, want) {
			t.Errorf("left are %q; must be %q", left, want)
		}
	}
}

// TestFind: what an argument of a command may mean, and what is said of one that means nothing.
func TestFind(t *testing.T) {
	data := t.TempDir()
	put := func(name, text string) string {
		file := filepath.Join(data, filepath.FromSlash(name))
		err := errors.Join(os.MkdirAll(filepath.Dir(file), 0o750), os.WriteFile(file, []byte(text), 0o600))
		if err != nil {
			t.Fatal(err)
		}
		return file
	}
	session := put("sessions/2031-05-04T09-00-07Z_seat/stream-0001.pcapng", "")
	put("sessions/graded/summary.json", "{}")
	capture := put("elsewhere/flight.pcap", "")
	empty := filepath.Dir(put("empty/notes.txt", ""))
	for arg, c := range map[string]struct{ name, dir, wrong string }{
		"2031-05-04T09-00-07Z_seat": {"2031-05-04T09-00-07Z_seat", filepath.Dir(session), ""},
		filepath.Dir(session):       {"2031-05-04T09-00-07Z_seat", filepath.Dir(session), ""},
		capture:                     {"flight.pcap", "", ""},
		"graded":                    {"", "", `session "graded" has no recording`},
		empty:                       {"", "", "is a folder without a recording"},
		"none":                      {"", "", "is neither a session"},
		filepath.Join(data, "none"): {"", "", "is neither a session"},
	} {
		rec, err := Find(t.Context(), data, arg)
		if (err == nil) != (c.wrong == "") || err != nil && !strings.Contains(err.Error(), c.wrong) {
			t.Errorf("%s: %v; must say %q", arg, err, c.wrong)
		}
		if err != nil {
			continue
		}
		if rec.Name != c.name || rec.Dir != c.dir || In(data, rec) != (c.dir != "") {
			t.Errorf("%s is %+v, in the data directory %v", arg, rec, In(data, rec))
		}
		if In(t.TempDir(), rec) {
			t.Errorf("%s is in another data directory", arg)
		}
	}
}

// TestPlain: the error of the file system is said without the name, which stands beside it already.
func TestPlain(t *testing.T) {
	other := errors.New("Something else")
	for _, c := range []struct {
		err  error
		want string
	}{
		{&os.PathError{Op: "open", Path: "/x", Err: errors.New("Is a directory")}, "is a directory"},
		{fmt.Errorf("reading: %w", &os.PathError{Op: "open", Path: "/x", Err: os.ErrPermission}), "permission denied"},
		{other, "Something else"},
	} {
		if got := plain(c.err).Error(); got != c.want {
			t.Errorf("%v is %q; must be %q", c.err, got, c.want)
		}
	}
}

// TestReportOf puts the senders of a recording into one file.
func TestReportOf(t *testing.T) {
	r := ReportOf(&play.Recording{Name: "flight.pcap"}, senders(1, 2))
	if len(r.Files) != 1 || r.Files[0].File != "flight.pcap" || len(r.Files[0].Stations) != 2 ||
		len(r.Caution) == 0 || r.Version != debrief.New().Version {
		t.Errorf("%+v", r)
	}
	if none := ReportOf(&play.Recording{}, nil); none.Files[0].Stations == nil {
		t.Error("without a sender the list is null")
	}
}
