package export_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"halfturn/coach/export"
	"halfturn/stream"
	"halfturn/stream/capture"
)

// schemas are the public schemas as their authors published them (GPX 1.1 of topografix.com; KML 2.2, OGC 07-147r2),
// where .ci/setup puts them.
var schemas = map[string]string{"gpx": "../../bin/schemas/Topografix_gpx11.xsd",
	"kml": "../../bin/schemas/ogckml22.xsd"}

// valid holds a document against the public schema of its format.
func valid(t *testing.T, format string, doc []byte) error {
	t.Helper()
	cmd := exec.Command("xmllint", "--nonet", "--noout", "--schema", schemas[format], "-")
	cmd.Stdin = bytes.NewReader(doc)
	if out, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("%w: %.1000s", err, out)
	}
	return nil
}

// haveSchemas tells whether documents can be held against the schemas; where everything is set up they must.
func haveSchemas(t *testing.T) bool {
	t.Helper()
	_, err := exec.LookPath("xmllint")
	for _, name := range schemas {
		_, gone := os.Stat(name)
		err = errors.Join(err, gone)
	}
	if err != nil && os.Getenv("CI") != "" {
		t.Fatal(err)
	}
	if err != nil {
		t.Logf("not held against the public schemas, .ci/setup gets them on Debian: %v", err)
	}
	return err == nil
}

// rough is a stream with everything that a track has to cope with: holes in the positions and in the
// altitudes, jumps, the date line, a pole, and a clock that is set back.
type rough struct{ n int }

func (r *rough) Next() (capture.Datagram, error) {
	g := generated{n: r.n, of: 3000, rate: 10}
	d, err := g.Next()
	r.n++
	if err != nil {
		return d, err
	}
	now := float64(r.n) / 10
	var s stream.Sample
	s.Put(stream.Time, now)
	switch {
	case r.n >= 2000: // the simulator was set somewhere else
		s.Put(stream.Time, now+500)
		d.Received = d.Received.Add(-time.Hour)
		fallthrough
	case r.n >= 1500:
		s.Put(stream.Latitude, 90-math.Abs(now-250)/1e4)
		s.Put(stream.Longitude, 0)
	case r.n < 500 || r.n >= 600: // over the date line
		s.Put(stream.Latitude, -10.123456789)
		s.Put(stream.Longitude, math.Remainder(179.99+now/1e4, 360))
	}
	if r.n%700 > 100 {
		s.Put(stream.Altitude, 5000-now*20)
	}
	s.Put(stream.Heading, 90)
	s.Put(stream.Pitch, 2)
	s.Put(stream.Bank, 0)
	d.Payload = encoder.Append(nil, &s)
	return d, nil
}

// Tracks are valid by the public schemas, whatever was flown: as a whole, and a part of it.
func TestSchemas(t *testing.T) {
	if !haveSchemas(t) {
		return
	}
	sources := map[string]func() export.Source{
		"circle": func() export.Source { return &generated{of: 900, rate: 30, place: true} },
		"point":  func() export.Source { return &generated{of: 1, rate: 30, place: true} },
		"rough":  func() export.Source { return &rough{} },
	}
	for _, name := range flights(t) {
		sources[filepath.Base(name)] = func() export.Source { return opened(t, name) }
	}
	tracks := 0
	for name, source := range sources {
		for _, span := range []*export.Span{nil, {From: 10, To: 60}} {
			for format := range schemas {
				var b bytes.Buffer
				err := export.Write(&b, format, source(), export.Options{Title: "Ünd <& \x01 ]]> more", Span: span})
				if errors.Is(err, export.ErrNoPosition) || errors.Is(err, export.ErrNoSample) {
					continue
				}
				if err != nil {
					t.Fatalf("%s as %s: %v", name, format, err)
				}
				tracks++
				if err := valid(t, format, b.Bytes()); err != nil {
					t.Errorf("%s as %s, span %v: %v", name, format, span, err)
				}
			}
		}
	}
	if tracks < 12 {
		t.Errorf("only %d tracks were held against the schemas", tracks)
	}
	for format := range schemas { // and what is not is told
		wrong := bytes.Replace(written(t, format, &generated{of: 90, rate: 30, place: true}, export.Options{}),
			[]byte("name>"), []byte("nome>"), 2)
		if valid(t, format, wrong) == nil {
			t.Errorf("anything is valid %s", format)
		}
	}
}

// flights are recorded flights, of simulators and of the built-in aircraft.
func flights(t *testing.T) []string {
	t.Helper()
	all, err := filepath.Glob("../session/testdata/flights/*.pcap.gz")
	if err != nil {
		t.Fatal(err)
	}
	if len(all) == 0 {
		t.Fatal("no flight is there")
	}
	return all
}

func opened(t *testing.T, name string) export.Source {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	r, err := capture.Open(f)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(r.Close)
	return r
}
