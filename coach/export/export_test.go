package export_test

import (
	"bytes"
	"encoding/csv"
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"math"
	"net/netip"
	"os"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/parquet-go/parquet-go"

	"halfturn/coach/export"
	"halfturn/stream"
	"halfturn/stream/capture"
	"halfturn/stream/trainer/encode"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// generated is a recording made as it is read: a level circle, at a rate, for a number of samples.
type generated struct {
	n, of int
	rate  float64
	place bool
	buf   []byte
	watch func()
}

var encoder, _ = encode.New("json")

func (g *generated) Next() (capture.Datagram, error) {
	if g.n == g.of {
		return capture.Datagram{}, io.EOF
	}
	if g.watch != nil && g.n%100000 == 0 {
		g.watch()
	}
	now := float64(g.n) / g.rate
	var s stream.Sample
	s.Put(stream.Time, now)
	s.Put(stream.Heading, math.Mod(now*3, 360))
	s.Put(stream.Pitch, 2)
	s.Put(stream.Bank, 20)
	s.Put(stream.Airspeed, 120.5)
	s.Put(stream.Altitude, 5000)
	if g.place {
		s.Put(stream.Latitude, 47+0.01*math.Sin(now*3*math.Pi/180))
		s.Put(stream.Longitude, 11+0.01*math.Cos(now*3*math.Pi/180))
	}
	g.buf = encoder.Append(g.buf[:0], &s)
	g.n++
	received := time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC).Add(time.Duration(now * float64(time.Second)))
	return capture.Datagram{Received: received, Source: netip.MustParseAddrPort("127.0.0.1:50123"), Payload: g.buf}, nil
}

func written(t *testing.T, format string, g *generated, o export.Options) []byte {
	t.Helper()
	var b bytes.Buffer
	o.Title = "Circle <& more>"
	if err := export.Write(&b, format, g, o); err != nil {
		t.Fatalf("%s: %v", format, err)
	}
	return b.Bytes()
}

func TestGolden(t *testing.T) {
	for _, format := range []string{"csv", "gpx", "kml"} {
		got := written(t, format, &generated{of: 120, rate: 10, place: true}, export.Options{})
		name := "testdata/circle." + format
		if *update {
			if err := os.WriteFile(name, got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, want) {
			t.Errorf("%s differs from %s", format, name)
		}
	}
}

// RFC 4180: a header, as many fields in each row, CRLF.
func TestCSV(t *testing.T) {
	got := written(t, "csv", &generated{of: 50, rate: 10}, export.Options{})
	rows, err := csv.NewReader(bytes.NewReader(got)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 51 || bytes.Count(got, []byte("\r\n")) != 51 {
		t.Errorf("%d rows, %d line ends; want 51", len(rows), bytes.Count(got, []byte("\r\n")))
	}
	column := map[string]int{}
	for i, name := range rows[0] {
		column[name] = i
	}
	if v := rows[7][column["airspeed (kt)"]]; v != "120.5" {
		t.Errorf("airspeed (kt) reads %q", v)
	}
	if v := rows[7][column["latitude (°)"]]; v != "" {
		t.Errorf("a channel that was not sent reads %q", v)
	}
	if !strings.Contains(rows[1][column["note"]], "simulator practice only") {
		t.Errorf("no cautions in %q", rows[1])
	}
}

func TestParquetHoldsTheCSV(t *testing.T) {
	table, err := csv.NewReader(bytes.NewReader(written(t, "csv", &generated{of: 9000, rate: 60, place: true},
		export.Options{}))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	data := written(t, "parquet", &generated{of: 9000, rate: 60, place: true}, export.Options{})
	f, err := parquet.OpenFile(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	if c, ok := f.Lookup("cautions"); !ok || !strings.Contains(c, "simulator practice only") {
		t.Errorf("cautions in the metadata: %q", c)
	}
	place := map[string]int{}
	for i, p := range f.Schema().Columns() {
		place[p[0]] = i
	}
	n := 0
	for _, g := range f.RowGroups() {
		rows := g.Rows()
		buf := make([]parquet.Row, 100)
		for {
			k, err := rows.ReadRows(buf)
			for _, row := range buf[:k] {
				n++
				for i, name := range table[0][1 : 1+int(stream.NumChannels)] {
					v, text := row[place[name]], table[n][i+1]
					if v.IsNull() != (text == "") {
						t.Fatalf("row %d, %s: null %v, CSV %q", n, name, v.IsNull(), text)
					}
					if want, _ := strconv.ParseFloat(text, 64); !v.IsNull() && v.Double() != want {
						t.Fatalf("row %d, %s: %v, CSV %q", n, name, v, text)
					}
				}
			}
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatal(err)
			}
		}
		rows.Close()
	}
	if n != 9000 {
		t.Errorf("%d rows, want 9000", n)
	}
}

// The order of the elements is that of the public schemas: gpxType, metadataType, trkType and wptType of GPX 1.1;
// AbstractFeatureType, PlacemarkType and LineStringType of KML 2.2 (OGC 07-147r2). TestSchemas asks the schemas
// themselves.
func TestElementOrder(t *testing.T) {
	order := map[string][]string{
		"gpx": {"metadata", "wpt", "rte", "trk", "extensions"}, "metadata": {"name", "desc", "author", "copyright",
			"link", "time"},
		"trk": {"name", "cmt", "desc", "src", "link", "number", "type", "extensions",
			"trkseg"}, "trkseg": {"trkpt"}, "trkpt": {"ele", "time"},
		"kml": {"Document"}, "Document": {"name", "description", "Style", "Placemark"}, "Style": {"LineStyle",
			"PolyStyle"},
		"LineStyle": {"color", "width"}, "PolyStyle": {"color"}, "TimeSpan": {"begin", "end"},
		"Placemark":  {"name", "TimeSpan", "styleUrl", "LineString"},
		"LineString": {"extrude", "tessellate", "altitudeMode", "coordinates"},
	}
	for _, format := range []string{"gpx", "kml"} {
		d := xml.NewDecoder(bytes.NewReader(written(t, format, &generated{of: 900, rate: 30, place: true},
			export.Options{})))
		type level struct {
			name string
			at   int
		}
		var open []level
		for {
			token, err := d.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatal(err)
			}
			switch e := token.(type) {
			case xml.StartElement:
				if n := len(open); n > 0 {
					parent := &open[n-1]
					at := -1
					for i, name := range order[parent.name] {
						if name == e.Name.Local {
							at = i
						}
					}
					if at < parent.at {
						t.Fatalf("%s: <%s> has no place here in <%s>", format, e.Name.Local, parent.name)
					}
					parent.at = at
				}
				open = append(open, level{e.Name.Local, 0})
			case xml.EndElement:
				open = open[:len(open)-1]
			}
		}
	}
}

func TestSpan(t *testing.T) {
	got := written(t, "csv", &generated{of: 1000, rate: 10}, export.Options{Span: &export.Span{From: 30, To: 40}})
	rows, err := csv.NewReader(bytes.NewReader(got)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if first, last := rows[1][1], rows[len(rows)-1][1]; first != "25" || last != "45" {
		t.Errorf("from %s to %s s, want 25 to 45: five seconds more on both sides", first, last)
	}
}

func TestNothingToExport(t *testing.T) {
	tests := []struct {
		format string
		src    export.Source
		want   error
	}{
		{"gpx", &generated{of: 50, rate: 10}, export.ErrNoPosition},
		{"kml", &generated{of: 50, rate: 10}, export.ErrNoPosition},
		{"csv", &generated{}, export.ErrNoSample},
		{"parquet", &generated{}, export.ErrNoSample},
	}
	for _, test := range tests {
		if err := export.Write(io.Discard, test.format, test.src, export.Options{}); !errors.Is(err, test.want) {
			t.Errorf("%s: %v, want %v", test.format, err, test.want)
		}
	}
	if err := export.Write(io.Discard, "xls", &generated{}, export.Options{}); err == nil ||
		!strings.Contains(err.Error(), "must be csv, parquet, gpx or kml") {
		t.Errorf("unknown format: %v", err)
	}
}

// TestMemoryIsBounded writes a recording long enough that what is kept of it would show.
func TestMemoryIsBounded(t *testing.T) {
	for _, format := range export.Formats {
		most := uint64(0)
		g := &generated{of: 300_000, rate: 60, place: true, watch: func() {
			runtime.GC()
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			most = max(most, m.HeapAlloc)
		}}
		if err := export.Write(io.Discard, format, g, export.Options{}); err != nil {
			t.Fatal(err)
		}
		if most > 64<<20 {
			t.Errorf("%s: %d MB held", format, most>>20)
		}
	}
}

// BenchmarkEightHours writes eight hours at 60 samples a second.
func BenchmarkEightHours(b *testing.B) {
	for _, format := range export.Formats {
		b.Run(format, func(b *testing.B) {
			for b.Loop() {
				most := uint64(0)
				g := &generated{of: 8 * 3600 * 60, rate: 60, place: true, watch: func() {
					var m runtime.MemStats
					runtime.ReadMemStats(&m)
					most = max(most, m.HeapInuse)
				}}
				if err := export.Write(io.Discard, format, g, export.Options{}); err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(most)/(1<<20), "MB-heap")
			}
		})
	}
}
