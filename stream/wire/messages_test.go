package wire_test

import (
	"path/filepath"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/gdl90"
	"halfturn/stream/wire/vectors"
)

// The messages of all families are recognized by a reader that knows nothing of the sender yet, each as its own format.
func TestRecognized(t *testing.T) {
	files, err := filepath.Glob("*/testdata/messages.json")
	if err != nil || len(files) < 6 {
		t.Fatalf("%d files of messages, %v", len(files), err)
	}
	for _, file := range files {
		for _, m := range vectors.Load(t, file) {
			if m.Frame || m.Error == "follow" { // not a datagram of its own, or of no use alone
				continue
			}
			t.Run(m.Name, func(t *testing.T) {
				r := wire.NewReader(format.Options{})
				var s stream.Sample
				if err := r.Decode(m.Bytes(t), 0, &s); err != m.Err(t) {
					t.Fatalf("%v; must be %q", err, m.Error)
				}
				if m.Error != fault.ErrMalformed.Error() && r.Format() != m.Format {
					t.Errorf("format %q; must be %q", r.Format(), m.Format)
				}
			})
		}
	}
	if wire.Named("GDL 90") != gdl90.Format {
		t.Error("a format is not found by its name")
	}
}
