package stored

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/archive/play"
	"halfturn/coach/debrief"
	"halfturn/coach/export"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/session"
)

// A fake is a configuration that notes what it is asked for.
type fake struct {
	own   maneuver.Choice
	asked *[]string
}

func (f fake) Choice() maneuver.Choice { return f.own }

func (f fake) Options(c maneuver.Choice, besides string) (session.Options, error) {
	*f.asked = append(*f.asked, strings.Join([]string{c.Maneuver, c.Standard, c.Aircraft, besides}, "/"))
	if besides != "" {
		return session.Options{}, errors.New("these cards are of an older version")
	}
	return session.Options{}, nil
}

func (f fake) Library(maneuver.Choice, string) (*maneuver.Library, error) { return nil, nil }

// TestJudge: what was asked for wins over what was noted with a session, and that over the configuration. Cards that
// stand with a session and are not understood any more give way to those of today.
func TestJudge(t *testing.T) {
	dir := t.TempDir()
	notes := `{"version":2,"began":"2031-05-04T09:00:07Z","maneuver":"lazy-eight","standard":"","aircraft":"noted"}`
	for name, text := range map[string]string{"notes.json": notes, "cards/maneuvers/x.toml": ""} {
		file := filepath.Join(dir, filepath.FromSlash(name))
		if err := errors.Join(os.MkdirAll(filepath.Dir(file), 0o700), os.WriteFile(file, []byte(text),
			0o600)); err != nil {
			t.Fatal(err)
		}
	}
	steep := "steep-turn"
	cards := filepath.Join(dir, "cards")
	for name, c := range map[string]struct {
		judge Judge
		rec   play.Recording
		want  []string
	}{
		"a capture": {Judge{}, play.Recording{}, []string{"wing-over/course/trainer/"}},
		"asked for": {Judge{Asked: Override{Maneuver: &steep}}, play.Recording{},
			[]string{"steep-turn/course/trainer/"}},
		"a session": {Judge{}, play.Recording{Dir: dir}, []string{"lazy-eight/course/noted/" + cards,
			"lazy-eight/course/noted/"}},
		"both": {Judge{Asked: Override{Maneuver: &steep}, Today: true}, play.Recording{Dir: dir},
			[]string{"steep-turn/course/noted/"}},
	} {
		var asked []string
		c.judge.Setup = fake{maneuver.Choice{Maneuver: "wing-over", Standard: "course", Aircraft: "trainer"}, &asked}
		follow, err := c.judge.Follow(&c.rec)
		if d := cmp.Diff(c.want, asked); d != "" || err != nil {
			t.Errorf("%s: %v (-want +asked):\n%s", name, err, d)
		}
		if _, _, err := follow.Plans(maneuver.Choice{Maneuver: "/x/secret.toml"}); err == nil ||
			!strings.Contains(err.Error(), "is a file") {
			t.Errorf("%s: a recording names a file: %v", name, err)
		}
	}
}

// TestFind: a session by its name, its folder, or a file; of anything else it is said what to name.
func TestFind(t *testing.T) {
	data := t.TempDir()
	bare := filepath.Join(data, "sessions", "bare")
	if err := os.MkdirAll(bare, 0o700); err != nil {
		t.Fatal(err)
	}
	for arg, want := range map[string]string{
		"bare":                        `session "bare" has no recording`,
		bare:                          "is a folder without a recording",
		"nothing":                     "neither a session",
		filepath.Join(data, "x.pcap"): "neither a session",
	} {
		if _, err := Find(context.Background(), data, arg); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", arg, err, want)
		}
	}
	in := &play.Recording{Session: "bare", Dir: bare}
	if !In(data, in) || In(t.TempDir(), in) || In(data, &play.Recording{Dir: bare}) {
		t.Error("a session is not told from a file")
	}
}

// TestLegs counts legs over all senders.
func TestLegs(t *testing.T) {
	all := []*export.Graded{{Legs: make([]export.PicturedLeg, 2)}, {}, {Legs: make([]export.PicturedLeg, 1)}}
	for n, want := range map[int]*export.PicturedLeg{1: &all[0].Legs[0], 2: &all[0].Legs[1], 3: &all[2].Legs[0]} {
		if _, leg, err := legOf(all, n); leg != want || err != nil {
			t.Errorf("leg %d: %v, %v", n, leg, err)
		}
	}
	var none *NoLeg
	if _, _, err := legOf(all, 4); !errors.As(err, &none) || !strings.Contains(err.Error(), "holds 3") {
		t.Errorf("leg 4: %v", err)
	}
	stations := []debrief.StationReport{{Series: []coach.Series{
		{Legs: make([]coach.Leg, 2)},
		{Legs: make([]coach.Leg, 1)},
	}}}
	stations[0].Series[1].Legs[0].Number = 7
	keepLeg(stations, 3)
	if s := stations[0].Series; len(s) != 1 || len(s[0].Legs) != 1 || s[0].Legs[0].Number != 7 {
		t.Errorf("%+v", s)
	}
}

func TestRemarkLine(t *testing.T) {
	at := 61.5
	for want, r := range map[string]logbook.Remark{
		"late":                                {Words: "late"},
		"Leg 2: late":                         {Leg: 2, Words: "late"},
		"at 1:02: late":                       {Time: &at, Words: "late"},
		"Leg 2 at 1:02: late (B. Example)":    {Leg: 2, Time: &at, Words: "late", By: "B. Example"},
		"a good start (somebody with a name)": {Words: "a good start", By: "somebody with a name", At: time.Now()},
	} {
		if got := RemarkLine(&r); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
