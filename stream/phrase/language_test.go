package phrase_test

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"halfturn/stream/phrase"
)

var german = &phrase.Language{
	Code: "de",
	Sentences: map[string]string{
		"replay.place":  "die Stelle ist {place}",
		"band.between":  "{low:bare} bis {high}",
		"evidence.with": "{shown}; dazu kam {came}",
		"setup.for":     "Für {channels}: {setting}",
	},
	Texts: map[string]string{"ball": "Kugel", "airspeed": "Fahrt", "Bank {bank} now": "Jetzt Querlage {bank}"},
	Words: map[string]string{
		"{some} and {last}": "{some} und {last}",
		"page %d":           "Seite %d",
		"ball widths":       "Kugelbreiten",
	},
	Point:     ",",
	Group:     ".",
	Ungrouped: 3,
}

func TestSay(t *testing.T) {
	place := phrase.Number("place", -1234.5, 1, "s")
	between := phrase.Between.Of(phrase.Number("low", 60, 0, "°"), phrase.Number("high", 88.5, 1, "°"))
	channels := phrase.List("channels", phrase.Plain("ball"), phrase.Plain("airspeed"), phrase.Plain("my own"))
	forChannels := phrase.ForChannels.Of(channels, phrase.Part("setting", between))
	for _, tt := range []struct {
		is           phrase.Phrase
		german, also string
	}{
		{phrase.BadPlace.Of(place), "die Stelle ist −1.234,5\u00a0s", "the place is"},
		{between, "60 bis 88,5°", "60 to"},
		{forChannels, "Für Kugel, Fahrt und my own: 60 bis 88,5°", "For"},
		{phrase.Template("Bank {bank} now", phrase.Number("bank", 60, 0, "")), "Jetzt Querlage 60", "Bank 60 now"},
		{phrase.Plain("ball"), "Kugel", "ball"},
		{phrase.Plain("disk full"), "disk full", "disk full"},
		{phrase.Stopping.Of(), "the server is stopping", "the"}, // not in the tables
	} {
		if got := german.Say(tt.is); got != tt.german {
			t.Errorf("%q; must be %q", got, tt.german)
		}
		var english *phrase.Language
		if got := english.Say(tt.is); got != tt.is.String() {
			t.Errorf("English: %q", got)
		}
		if got := german.In(tt.is); got.Code() != tt.is.Code() || got.String() != tt.german {
			t.Errorf("%q of %q", got.String(), got.Code())
		}
	}
	if got := german.Wordf("page %d", 3); got != "Seite 3" {
		t.Error(got)
	}
}

// What was kept as English text is told in the language too: a sentence, or one that stands after a name.
func TestTold(t *testing.T) {
	stopping, place := phrase.Plain("disk full"), phrase.BadPlace.Of(phrase.Number("place", -2, 0, "s"))
	for _, english := range []string{stopping.String(), "a.pcap: " + stopping.String()} {
		if got := german.Told(english); got != english {
			t.Errorf("%q; must be %q", got, english)
		}
	}
	english := "a: b.pcap: " + place.String()
	if got := german.Told(english); !strings.HasPrefix(got, "a: b.pcap: die Stelle ist ") {
		t.Errorf("%q of %q", got, english)
	}
	differs := phrase.ForChannels.Of(phrase.List("channels", phrase.Plain("ball")), phrase.Part("setting", place))
	english = "folder/a.pcap: " + differs.String()
	if got := german.Told(english); got != "folder/a.pcap: Für Kugel: die Stelle ist −2\u00a0s" {
		t.Errorf("%q of %q", got, english)
	}
	var nobody *phrase.Language
	if got := nobody.Told(english); got != english {
		t.Errorf("English: %q", got)
	}
}

// Each of several errors that were joined is told in the language.
func TestJoinedErrors(t *testing.T) {
	place := phrase.BadPlace.Error(phrase.Number("place", -2, 0, "s"))
	joined := errors.Join(fmt.Errorf("a.pcap: %w", place), io.ErrUnexpectedEOF, place)
	lines := strings.Split(german.Error(joined), "\n")
	if len(lines) != 3 || !strings.HasPrefix(lines[0], "a.pcap: die Stelle") || lines[1] != "unexpected EOF" ||
		!strings.HasPrefix(lines[2], "die Stelle") {
		t.Errorf("%q", lines)
	}
}

func TestNumber(t *testing.T) {
	spanish := &phrase.Language{Point: ",", Group: "\u202f", Ungrouped: 4}
	for _, tt := range []struct {
		of     *phrase.Language
		value  float64
		digits int
		want   string
	}{
		{nil, -1234.5, 1, "−1234.5"},
		{german, -1234.5, 1, "−1.234,5"},
		{german, 1234567, 0, "1.234.567"},
		{german, -0.04, 1, "0,0"},
		{spanish, 1234.5, -1, "1234,5"},
		{spanish, 12345, 0, "12\u202f345"},
	} {
		if got := tt.of.Number(tt.value, tt.digits); got != tt.want {
			t.Errorf("%v: %q; must be %q", tt.value, got, tt.want)
		}
	}
	for in, want := range map[string]string{
		"74.1° at 92°": "74,1° at 92°", "127.0.0.1:7181": "127.0.0.1:7181", "0.1.0": "0.1.0", "none.": "none.",
	} {
		if got := german.Figures(in); got != want {
			t.Errorf("%q: %q; must be %q", in, got, want)
		}
	}
}
