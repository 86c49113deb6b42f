package sessions

import (
	"context"
	"errors"
	"io"
	"path/filepath"
	"strings"
	"testing"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/archive/take"
)

// nowhere is where nothing is written or read.
func nowhere() base.Streams {
	return base.Streams{Out: io.Discard, Err: io.Discard, Env: func(string) (string, bool) { return "", false }}
}

// A wrong flag is a wrong call, told with the flag and what it must be, before anything is opened.
func TestWrongFlags(t *testing.T) {
	data := filepath.Join(t.TempDir(), "none")
	book := bookFlags{Data: data}
	for want, run := range map[string]func(context.Context, base.Streams) error{
		"--limit is -1; must be 0 or more":         (&listCmd{bookFlags: book, Limit: -1}).Run,
		"--from: the date is ":                     (&listCmd{bookFlags: book, From: "2030-02-30"}).Run,
		"--to: the date is ":                       (&listCmd{bookFlags: book, To: "tomorrow"}).Run,
		"say by what: --age 90d, --size 20GB":      (&pruneCmd{bookFlags: book}).Run,
		`--age is "90"; must be a number with h`:   (&pruneCmd{bookFlags: book, Age: "90"}).Run,
		`--size is "90"; must be a number with KB`: (&pruneCmd{bookFlags: book, Size: "90"}).Run,
		"--leg is -1; legs count from 1":           (&exportCmd{Data: data, Leg: -1}).Run,
		"--student: the name ":                     (&exportCmd{Data: data, Student: "a\x1b[2J"}).Run,
		`--most-size is "4"; must be a number`:     (&importCmd{Data: data, Size: "4"}).Run,
		"--most-ratio, --most-sessions, --":        (&importCmd{Data: data, Size: "4GB", Ratio: -1}).Run,
	} {
		err := run(t.Context(), nowhere())
		var usage base.UsageError
		if !errors.As(err, &usage) || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%v; must begin with %q", err, want)
		}
	}
}

// The limits of an import; 0 is none of each.
func TestImportLimits(t *testing.T) {
	for _, c := range []struct {
		size string
		want int64
	}{{"4GB", 4e9}, {"500 mb", 5e8}, {"0", 0}} {
		got, err := (&importCmd{Size: c.size, Ratio: 1, Sessions: 2, Stations: 3}).limits(nil)
		if want := (take.Limits{Bytes: c.want, Ratio: 1, Sessions: 2, Stations: 3}); err != nil || got != want {
			t.Errorf("%s: %+v, %v; must be %+v", c.size, got, err, want)
		}
	}
}
