package take_test

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"halfturn/coach/archive/play"
	"halfturn/coach/archive/take"
	"halfturn/stream/capture"
)

// logOf is a log of level flight for some seconds, ten rows a second.
func logOf(seconds int) string {
	var b strings.Builder
	b.WriteString("Time;psi-deg;theta-deg;phi-deg;vc-kts;h-sl-ft\n")
	for i := range seconds * 10 {
		fmt.Fprintf(&b, "%d,%d;90,5;1,5;0,5;120,5;5000\n", i/10, i%10)
	}
	return b.String()
}

// TestImportLog: a text log becomes a session like any other: a capture of its rows, named after the file and begun
// when that was written. A copy of the file is the same flight.
func TestImportLog(t *testing.T) {
	b := newBook(t)
	dir := t.TempDir()
	file, again := filepath.Join(dir, "Tuesday.csv"), filepath.Join(dir, "copy.csv")
	flown := time.Date(2031, 5, 4, 12, 0, 0, 0, time.UTC)
	for i, name := range []string{file, again} {
		if err := os.WriteFile(name, []byte(logOf(30)), 0o600); err != nil {
			t.Fatal(err)
		}
		when := flown.Add(time.Duration(i) * time.Hour)
		if err := os.Chtimes(name, when, when); err != nil {
			t.Fatal(err)
		}
	}
	taken, err := importer(t, b).Import(t.Context(), file, "Tuesday.csv")
	if err != nil || len(taken.Sessions) != 1 || taken.Sessions[0].Double {
		t.Fatalf("%+v, %v", taken, err)
	}
	id := taken.Sessions[0].Session
	if want := "2031-05-04T12-00-00Z_Tuesday"; id != want {
		t.Errorf("the session is %s; must be %s", id, want)
	}
	files, entries := there(t, b)
	if len(entries) != 1 || !strings.Contains(strings.Join(files, "\n"), "stream-0001.pcapng") {
		t.Errorf("%v, %v", entries, files)
	}
	rec, err := play.Open(t.Context(), filepath.Join(b.Dir(), id))
	if err != nil {
		t.Fatal(err)
	}
	r := rec.Read(t.Context(), nil)
	defer r.Close()
	var all []capture.Datagram
	for {
		d, err := r.Next()
		if err != nil {
			break
		}
		d.Payload = bytes.Clone(d.Payload)
		all = append(all, d)
	}
	if len(all) != 301 || string(all[0].Payload) != "<LABELS> Time\tpsi-deg\ttheta-deg\tphi-deg\tvc-kts\th-sl-ft\n" ||
		string(all[300].Payload) != "29.9\t90.5\t1.5\t0.5\t120.5\t5000\n" || !all[0].Received.Equal(flown) ||
		!all[300].Received.Equal(flown.Add(29_900*time.Millisecond)) {
		t.Errorf("%d datagrams: %q at %v to %q at %v", len(all), all[0].Payload, all[0].Received,
			all[len(all)-1].Payload, all[len(all)-1].Received)
	}
	if taken, err = importer(t, b).Import(t.Context(), again, "copy.csv"); err != nil || !taken.Sessions[0].Double ||
		taken.Sessions[0].Session != id {
		t.Errorf("a copy: %+v, %v", taken, err)
	}
	if taken, err = importer(t, b).Receive(t.Context(), strings.NewReader(logOf(30)), "upload.csv"); err != nil ||
		!taken.Sessions[0].Double {
		t.Errorf("from a page: %+v, %v", taken, err)
	}
}

// TestImportLogRefused: a log that cannot be read is refused with the line, and leaves nothing.
func TestImportLogRefused(t *testing.T) {
	b := newBook(t)
	unchanged(t, b, func() {
		_, err := importer(t, b).Receive(t.Context(), strings.NewReader("Time,a,b\n1,2,3\n2,2,3\n"), "x.csv")
		var refused *take.Refused
		if !errors.As(err, &refused) || !strings.HasPrefix(err.Error(), "line 1: no column is known to hold heading") {
			t.Error(err)
		}
	})
}
