package session

import (
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/configs"
)

// TestForgedNames: what a recording says of its station and student is shown on terminals; it cannot steer them.
func TestForgedNames(t *testing.T) {
	o, ours, err := ReadOpening(Opening{Station: "seat\x1b[2J 1", Address: "a\r\nb", Student: "Ada\u009b31m\x00 Example" + strings.Repeat("é", 500)}.Comment())
	if !ours || err != nil {
		t.Fatal(ours, err)
	}
	if o.Station != "seat[2J 1" || o.Address != "ab" || !strings.HasPrefix(o.Student, "Ada31m Example") || len(o.Student) > longestName {
		t.Errorf("%q, %q, %q", o.Station, o.Address, o.Student)
	}
	name := "B\x1b]0;x\x07 Example"
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	card, err := lib.Card("wing-over")
	if err != nil {
		t.Fatal(err)
	}
	p := NewPlay(New(Options{Coach: coach.Options{Plan: coach.NewPlan(card, nil)}}), nil)
	if err := p.Apply([]string{Control{Student: &name}.Comment()}); err != nil || p.Student != "B]0;x Example" {
		t.Errorf("%q, %v", p.Student, err)
	}
}
