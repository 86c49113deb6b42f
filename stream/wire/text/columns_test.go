package text_test

import (
	"slices"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/text"
)

// Datagrams of one sender, each with what the decoder says of it. Labels are the properties of JSBSim with the marker
// of its socket output, or those of a CSV file (RFC 4180, section 2: an optional header line).
func TestColumns(t *testing.T) {
	const labels = "<LABELS> ,Time,psi-deg,theta-deg,phi-deg"
	type step struct {
		in  string
		err error
	}
	for name, steps := range map[string][]step{
		"labels, then lines":       {{labels, fault.ErrLabels}, {"1,90,2,3\n", nil}, {"2,91,2,3\n", nil}},
		"the same labels again":    {{labels, fault.ErrLabels}, {labels, fault.ErrLabels}, {"1,90,2,3", nil}},
		"labels and line together": {{labels + "\n1,90,2,3\n", nil}},
		"the last line counts":     {{labels, fault.ErrLabels}, {"1,90,2,3\n2,91,2,3\n", nil}},
		"a line cut short":         {{labels, fault.ErrLabels}, {"1,90,2,3\n2,91", nil}},
		"a column too few":         {{labels, fault.ErrLabels}, {"1,90,2\n", fault.ErrTruncated}},
		"a column too many":        {{labels, fault.ErrLabels}, {"1,90,2,3,4\n", fault.ErrMalformed}},
		"a status line":            {{labels, fault.ErrLabels}, {"<STATUS>,end\n", fault.ErrStatus}},
		"labels of nothing known":  {{"<LABELS>,a,b,c", fault.ErrNoChannels}},
		"numbers that fit no map":  {{"1,2,3\n", fault.ErrNoLabels}},
		"words that are no labels": {{"hello there\n", fault.ErrUnknown}},
		"too many labels":          {{"<LABELS>" + strings.Repeat(",a", 4096), fault.ErrTooLong}},
		"too long a line":          {{labels, fault.ErrLabels}, {strings.Repeat("1", 9000) + ",1", fault.ErrTooLong}},
		"no line":                  {{labels, fault.ErrLabels}, {"\n", fault.ErrEmpty}},
	} {
		d := text.Columns.New(format.Options{}.Complete())
		for i, step := range steps {
			var s stream.Sample
			if err := d.Decode([]byte(step.in), 0, &s); err != step.err {
				t.Errorf("%s, datagram %d: error %v; must be %v", name, i, err, step.err)
			}
			if step.err == nil && (s.Value(stream.Pitch) != 2 || s.Value(stream.Bank) != 3) {
				t.Errorf("%s, datagram %d: %+v", name, i, s)
			}
		}
	}
}

// Where a channel can be added to a stream with labels the answer names its property; without labels the protocol file
// decides.
func TestSettings(t *testing.T) {
	if got := text.Columns.Setting("text with labels", stream.Bank); got.Code() != phrase.AddProperty.Of().Code() {
		t.Errorf("labels: %+v", got)
	}
	if got := text.Columns.Setting("text with labels", stream.Paused); got.Code() != "" {
		t.Errorf("no property: %+v", got)
	}
	if got := text.Columns.Setting("text columns", stream.Bank); got.Code() != phrase.UseProtocol.Of().Code() {
		t.Errorf("columns: %+v", got)
	}
	for name, want := range map[string]phrase.Phrase{
		"text with labels": phrase.RateInOutputFile.Of(), "text columns": phrase.RateInOption.Of(),
	} {
		if got := text.Columns.Rate(name); got.Code() != want.Code() || !slices.Contains(text.Columns.Names, name) {
			t.Errorf("%s: %+v; must be %v", name, got, want)
		}
	}
}
