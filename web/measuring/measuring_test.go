package measuring

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"halfturn/coach/aircraft"
	"halfturn/coach/command"
	"halfturn/coach/maneuver"
	"halfturn/coach/measure"
	"halfturn/configs"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// A desk has one station, at which an aircraft is measured.
type desk struct {
	lib   *maneuver.Library
	guide *measure.Guide
	did   []command.Command
}

func newDesk(t *testing.T) *desk {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	return &desk{lib: lib}
}

func (d *desk) Guide(_ context.Context, station string, change func(*measure.Guide) *measure.Guide) (
	p measure.Progress, c maneuver.Choice, ok bool, err error,
) {
	if station != "seat 3" {
		return p, c, false, phrase.StationGone.Error(phrase.Name("station", station))
	}
	c = maneuver.Choice{Maneuver: "lazy-eight", Standard: "check"}
	if d.guide = change(d.guide); d.guide == nil {
		return p, c, false, nil
	}
	return d.guide.Progress(), c, true, nil
}

func (d *desk) Aircraft() []*aircraft.Aircraft { return d.lib.Aircraft() }

func (d *desk) AddAircraft(file string, text []byte) (err error) {
	d.lib, err = d.lib.With("aircraft", file, text)
	return err
}

func (d *desk) Do(_ context.Context, c command.Command) error {
	d.did = append(d.did, c)
	return nil
}

// fly flies level for some seconds.
func (d *desk) fly(from, airspeed float64) {
	for i := range 400 {
		var s stream.Sample
		s.Put(stream.Time, from+float64(i)/50)
		s.Put(stream.Airspeed, airspeed)
		s.Put(stream.Bank, 0)
		s.Put(stream.VerticalSpeed, 0)
		s.Put(stream.NormalLoad, 1)
		s.Put(stream.Throttle, 0.7)
		d.guide.Step(&s)
	}
}

// From the first task to a card that is written, chosen with the maneuver that was flown, and offered.
func TestMeasures(t *testing.T) {
	d := newDesk(t)
	m := &Measuring{Desk: d, Folder: filepath.Join(t.TempDir(), "cards")}
	if _, ok, err := m.Progress(t.Context(), "seat 3"); ok || err != nil {
		t.Errorf("%t, %v before it began", ok, err)
	}
	if p, ok, err := m.Step(t.Context(), "seat 3", Begin); !ok || err != nil || p.Task != measure.TaskLevel {
		t.Fatalf("%+v, %t, %v", p, ok, err)
	}
	d.fly(0, 110)
	if _, _, err := m.Write(t.Context(), "seat 3", "Mine"); err == nil ||
		!phrase.OfError(err).Is(phrase.MeasureNotDone) {
		t.Errorf("written too early: %v", err)
	}
	d.fly(20, 58)
	if p, _, _ := m.Step(t.Context(), "seat 3", Next); p.Task != measure.TaskEntry {
		t.Errorf("%+v", p)
	}
	d.fly(40, 104)
	if p, ok, _ := m.Progress(t.Context(), "seat 3"); !ok || p.Task != measure.TaskDone {
		t.Fatalf("%+v", p)
	}
	name, file, err := m.Write(t.Context(), "seat 3", "  My  old plane ")
	if err != nil || name != "my-old-plane" {
		t.Fatalf("%q, %v", name, err)
	}
	text, err := os.ReadFile(file)
	if err != nil || !strings.Contains(string(text), `title = "My old plane"`) ||
		!strings.Contains(string(text), "entry = 104") || !strings.Contains(string(text), "throttle 70 %") {
		t.Errorf("%v:\n%s", err, text)
	}
	if len(d.did) != 1 || d.guide != nil {
		t.Fatalf("%d commands; it measures on: %v", len(d.did), d.guide)
	}
	want := maneuver.Choice{Maneuver: "lazy-eight", Standard: "check", Aircraft: "my-old-plane"}
	if c, ok := d.did[0].Action.(command.Choose); !ok || c.Choice != want || d.did[0].Station != "seat 3" {
		t.Errorf("%+v", d.did[0])
	}
	lib, err := maneuver.LoadLibrary(configs.FS, maneuver.Folder{FS: os.DirFS(m.Folder), Path: m.Folder})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := lib.AircraftNamed(name); err != nil {
		t.Error(err)
	}
}

// A name that is none, or taken, writes nothing.
func TestNames(t *testing.T) {
	d := newDesk(t)
	m := &Measuring{Desk: d, Folder: t.TempDir()}
	if _, _, err := m.Step(t.Context(), "seat 3", Begin); err != nil {
		t.Fatal(err)
	}
	d.fly(0, 110)
	d.guide.Next()
	d.fly(20, 104)
	for title, want := range map[string]*phrase.Definition{
		"": phrase.MeasureNameless, " \t": phrase.MeasureNameless, strings.Repeat("x", 41): phrase.MeasureNameless,
		"Light single": phrase.MeasureTaken,
	} {
		if _, _, err := m.Write(t.Context(), "seat 3", title); err == nil || !phrase.OfError(err).Is(want) {
			t.Errorf("%q: %v", title, err)
		}
	}
	dir := filepath.Join(m.Folder, "aircraft")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	old := filepath.Join(dir, "old.toml")
	if err := os.WriteFile(old, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, _, err := m.Write(t.Context(), "seat 3", "Old"); err == nil || !phrase.OfError(err).Is(phrase.MeasureTaken) {
		t.Errorf("over a file: %v", err)
	}
	if text, _ := os.ReadFile(old); string(text) != "mine" || len(d.did) > 0 {
		t.Errorf("the file is %q, %d commands", text, len(d.did))
	}
}

// A station that is gone, and a measurement that was stopped.
func TestNothingToMeasure(t *testing.T) {
	m := &Measuring{Desk: newDesk(t), Folder: t.TempDir()}
	if _, _, err := m.Step(t.Context(), "seat 4", Begin); err == nil {
		t.Error("it measures at a station that is gone")
	}
	if _, _, err := m.Write(t.Context(), "seat 3", "Mine"); err == nil ||
		!phrase.OfError(err).Is(phrase.MeasureNothing) {
		t.Errorf("%v", err)
	}
	for _, step := range []string{Begin, Again, Next, Again, Stop} {
		if !IsStep(step) {
			t.Errorf("%s is no step", step)
		}
		if _, ok, err := m.Step(t.Context(), "seat 3", step); err != nil || ok != (step != Stop) {
			t.Errorf("%s: %t, %v", step, ok, err)
		}
	}
	if IsStep("") || IsStep("land") {
		t.Error("anything is a step")
	}
}
