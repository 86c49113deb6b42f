package option

import (
	"errors"
	"math"
	"testing"
)

func TestRange(t *testing.T) {
	r := Range{0.25, 1.5}
	if r.String() != "0.25 to 1.5" {
		t.Errorf("the range is written %q", r)
	}
	for x, within := range map[float64]bool{
		0.25: true, 1: true, 1.5: true, 0.2499: false, 1.5001: false, -1: false, math.Inf(1): false, math.NaN(): false,
	} {
		err := r.Check("strength", x)
		if r.Contains(x) != within || (err == nil) != within {
			t.Errorf("%v: %v, %v", x, r.Contains(x), err)
		}
	}
}

// Every error names the option, what it is and what it must be.
func TestErrors(t *testing.T) {
	for want, err := range map[string]error{
		"rate is 0; must be between 1 and 1000":        Range{1, 1000}.Check("rate", 0),
		"rate is NaN; must be between 1 and 1000":      Range{1, 1000}.Check("rate", math.NaN()),
		`format is "morse"; must be json, rows or att`: Unknown("format", "morse", []string{"json", "rows", "att"}),
		`format is "morse"; must be json or rows`:      Unknown("format", "morse", []string{"json", "rows"}),
		`format is "morse"; must be json`:              Unknown("format", "morse", []string{"json"}),
	} {
		var wrong *Error
		if !errors.As(err, &wrong) || err.Error() != want {
			t.Errorf("%v; must be %s", err, want)
		}
	}
}
