package maneuver

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"halfturn/coach/valid/validtest"
	"halfturn/configs"
)

func folder(files map[string]string) fs.FS {
	m := fstest.MapFS{}
	for name, text := range files {
		m[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return m
}

func TestLibraryOverrides(t *testing.T) {
	good := string(validtest.Read(t, goodFile))
	own := folder(map[string]string{
		"maneuvers/wing-over.toml":  strings.Replace(good, `"half-turn"`, `"wing-over"`, 1),
		"maneuvers/half-turn.toml":  good,
		"maneuvers/notes.txt":       "not a card",
		"maneuvers/old.toml/x.toml": "a folder",
		"aircraft/light-single.toml": strings.Replace(
			string(validtest.Read(t, "../aircraft/testdata/good.toml")),
			"small-single",
			"light-single",
			1,
		),
		"elsewhere/wing-over-ii.toml": "never read",
	})
	before, err := LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	l, err := LoadLibrary(configs.FS, own)
	if err != nil {
		t.Fatal(err)
	}
	c, err := l.Card("wing-over")
	if err != nil || c.Title != "Half turn" {
		t.Errorf("the user's wing-over gives way to the shipped one: %+v, %v", c, err)
	}
	if a, err := l.AircraftNamed("light-single"); err != nil || a.Title != "Small single" {
		t.Errorf("the user's light-single gives way to the shipped one: %+v, %v", a, err)
	}
	if len(l.Cards()) != len(before.Cards())+1 || len(l.Aircraft()) != len(before.Aircraft()) {
		t.Errorf(
			"%d cards and %d aircraft, shipped %d and %d",
			len(l.Cards()),
			len(l.Aircraft()),
			len(before.Cards()),
			len(before.Aircraft()),
		)
	}
	for i, c := range l.Cards() {
		if i > 0 && l.Cards()[i-1].Name >= c.Name {
			t.Errorf("%s after %s", c.Name, l.Cards()[i-1].Name)
		}
	}
	if o, ok := l.Origin(
		"maneuvers",
		"half-turn",
	); !ok || o.File != "maneuvers/half-turn.toml" || string(o.Text) != good {
		t.Errorf("origin %v %q", ok, o.File)
	}
	if _, ok := l.Origin("aircraft", "half-turn"); ok {
		t.Error("half-turn is an aircraft")
	}
}

func TestLibraryErrors(t *testing.T) {
	good := string(validtest.Read(t, goodFile))
	small := string(validtest.Read(t, "../aircraft/testdata/good.toml"))
	for name, c := range map[string]struct {
		files map[string]string
		want  string
	}{
		"named otherwise": {
			files: map[string]string{"maneuvers/my-turn.toml": good},
			want:  `maneuvers/my-turn.toml: name: is "half-turn"; a card is named like its file: "my-turn"`,
		},
		"aircraft named otherwise": {
			files: map[string]string{"aircraft/my-single.toml": small},
			want:  `aircraft/my-single.toml: name: is "small-single"; a card is named like its file: "my-single"`,
		},
		"wrong": {
			files: map[string]string{"aircraft/small-single.toml": strings.Replace(small, "105", "10", 1)},
			want:  `aircraft/small-single.toml:5: entry: is 10; must be between 30 and 600`,
		},
		"in the wrong folder": {
			files: map[string]string{"maneuvers/small-single.toml": small},
			want:  `maneuvers/small-single.toml:4: stall: is not a known key; must be block-of, check, `,
		},
	} {
		l, err := LoadLibrary(folder(c.files))
		if err == nil || !strings.HasPrefix(err.Error(), c.want) || l != nil {
			t.Errorf("%s:\ngot  %v\nwant %s", name, err, c.want)
		}
	}
	if l, err := LoadLibrary(folder(nil)); err != nil || len(l.Cards()) != 0 {
		t.Errorf("no folder of cards: %v", err)
	}
	// A file where the folder of cards should be.
	if _, err := LoadLibrary(folder(map[string]string{
		"maneuvers": "a file",
	})); err == nil || strings.Contains(err.Error(), "\n") {
		t.Errorf("a file in the place of the folder: %v", err)
	}
}

func TestLibraryUnknownNames(t *testing.T) {
	l, err := LoadLibrary(folder(map[string]string{
		"maneuvers/half-turn.toml":   string(validtest.Read(t, goodFile)),
		"aircraft/small-single.toml": string(validtest.Read(t, "../aircraft/testdata/good.toml")),
	}))
	if err != nil {
		t.Fatal(err)
	}
	want := `there is no maneuver card "wing-ovr"; there are: half-turn`
	if _, err := l.Card("wing-ovr"); err == nil || err.Error() != want {
		t.Errorf("unknown maneuver: %v", err)
	}
	want = `there is no aircraft card "big-single"; there are: small-single`
	if _, err := l.AircraftNamed("big-single"); err == nil || err.Error() != want {
		t.Errorf("unknown aircraft: %v", err)
	}
	if a, err := l.AircraftNamed(""); a != nil || err != nil {
		t.Errorf("no aircraft: %v, %v", a, err)
	}
}
