package trainer

import (
	"errors"
	"testing"

	"halfturn/stream/trainer/option"
)

func TestParseWind(t *testing.T) {
	for text, want := range map[string][2]float64{
		"270/15":   {270, 15},
		"0/0":      {0, 0},
		"9.5/12.5": {9.5, 12.5},
		"400/-3":   {400, -3}, // New refuses it by the name of what is out of range
	} {
		if from, speed, err := ParseWind(text); err != nil || from != want[0] || speed != want[1] {
			t.Errorf("%q: from %g at %g, %v", text, from, speed, err)
		}
	}
	for _, text := range []string{"", "270", "/", "270/", "/15", "270/15/3", "west/15", "270/15kt", "270 15"} {
		_, _, err := ParseWind(text)
		var wrong *option.Error
		if !errors.As(err, &wrong) || wrong.Option != "wind" {
			t.Errorf("%q: %v", text, err)
		}
	}
}
