package stored

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/archive/play"
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

func TestRemarkLine(t *testing.T) {
	at := 61.5
	for want, r := range map[string]logbook.Remark{
		"late":                                {Words: "late"},
		"Leg 2: late":                         {Leg: 2, Words: "late"},
		"at 1:02: late":                       {Time: &at, Words: "late"},
		"Leg 2 at 1:02: late (B. Example)":    {Leg: 2, Time: &at, Words: "late", By: "B. Example"},
		"a good start (somebody with a name)": {Words: "a good start", By: "somebody with a name", At: time.Now()},
	} {
		if got := RemarkLine(&r, nil); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
