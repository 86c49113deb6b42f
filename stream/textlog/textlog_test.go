package textlog_test

import (
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/klauspost/compress/zstd"

	"halfturn/stream"
	"halfturn/stream/capture"
	"halfturn/stream/textlog"
	"halfturn/stream/wire"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
)

// written is when the logs of these tests were last written.
var written = time.Date(2031, 5, 4, 12, 0, 0, 0, time.UTC)

func open(t testing.TB, file []byte, o textlog.Options) (*textlog.Reader, error) {
	t.Helper()
	plain, err := capture.Unpack(t.Context(), bytes.NewReader(file), &capture.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	if !textlog.Recognize(plain) {
		plain.Close()
		return nil, errors.New("not recognized")
	}
	o.Modified = written
	return textlog.Open(plain, o)
}

// A heard is a row as a session reads it.
type heard struct {
	at     float64 // s from the first datagram
	sample stream.Sample
}

// read reads a log as a session does, and counts the datagrams that gave no sample.
func read(t testing.TB, file []byte, o textlog.Options) (rows []heard, dropped int) {
	t.Helper()
	r, err := open(t, file, o)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	decoder := wire.NewReader(o.Wire)
	var first time.Time
	for {
		d, err := r.Next()
		if err == io.EOF {
			return rows, dropped
		}
		if err != nil {
			t.Fatal(err)
		}
		if first.IsZero() {
			first = d.Received
		}
		var s stream.Sample
		if decoder.Decode(d.Payload, d.Seconds(), &s) == nil {
			rows = append(rows, heard{d.Received.Sub(first).Seconds(), s})
		} else if !bytes.HasPrefix(d.Payload, []byte("<LABELS>")) {
			dropped++
		}
	}
}

const header = "Time,psi-deg,theta-deg,phi-deg,vc-kts,h-sl-ft\n"

// rows are some rows of six columns between separators, from a time on, each a tenth of a second after the one before.
func rows(separator string, from float64, n int) string {
	var b strings.Builder
	for i := range n {
		for c, v := range []float64{from + float64(i)/10, 90, 2.5, -20, 130.25, 5000} {
			if c > 0 {
				b.WriteString(separator)
			}
			fmt.Fprintf(&b, "%g", v)
		}
		b.WriteString("\n")
	}
	return b.String()
}

func commas(s string) string { return strings.ReplaceAll(s, ".", ",") }

// Ten rows of one flight, however they are written, are the same ten samples.
func TestWritings(t *testing.T) {
	plain := header + rows(",", 1, 10)
	with := func(separator string) string {
		return strings.ReplaceAll(header, ",", separator) + rows(separator, 1, 10)
	}
	for name, text := range map[string]string{
		"commas":            plain,
		"byte order mark":   "\xEF\xBB\xBF" + plain,
		"carriage returns":  strings.ReplaceAll(plain, "\n", "\r\n"),
		"no last line end":  strings.TrimSuffix(plain, "\n"),
		"tabs":              with("\t"),
		"spaces":            with("   "),
		"semicolons":        with(";"),
		"bars":              with(" | "),
		"bar at the end":    strings.ReplaceAll(with(" | "), "\n", " |\n"),
		"decimal commas":    commas(with(";")),
		"commas, tabs":      commas(with("\t")),
		"remarks":           "# by hand\n\n" + plain + "# the end\n",
		"header a remark":   "# " + plain,
		"title before":      "Flight log of Tuesday\n" + plain,
		"labels of streams": "<LABELS> ," + plain,
		"quoted": `"` + strings.ReplaceAll(strings.TrimSpace(header), ",", `","`) + "\"\n" +
			rows(",", 1, 10),
		"paths": "Time, /fdm/jsbsim/attitude/psi-deg, /fdm/jsbsim/attitude/theta-deg, /fdm/jsbsim/attitude/phi-deg, " +
			"/fdm/jsbsim/velocities/vc-kts, /fdm/jsbsim/position/h-sl-ft\n" + rows(", ", 1, 10),
		"units below": header + "s,deg,deg,deg,kt,ft\n" + rows(",", 1, 10),
		"padded names": "\n" + "   missn,_time |   hding,_true |   pitch,__deg |   _roll,__deg |   _Vind,_kias |" +
			"   __alt,ftmsl |\n" + strings.ReplaceAll(rows(" |   ", 1, 10), "\n", " |\n"),
		"own names":        "time,heading,pitch,bank,airspeed,altitude\n" + rows(",", 1, 10),
		"names with units": "time (s),heading (°),pitch (°),bank (°),airspeed (kt),altitude (ft)\n" + rows(",", 1, 10),
		"named again":      header + rows(",", 1, 4) + header + rows(",", 1.4, 6),
	} {
		got, dropped := read(t, []byte(text), textlog.Options{})
		if len(got) != 10 || dropped > 0 {
			t.Errorf("%s: %d samples, %d dropped; must be 10", name, len(got), dropped)
			continue
		}
		for i, h := range got {
			if w := float64(i) / 10; math.Abs(h.at-w) > 2e-6 || math.Abs(h.sample.Value(stream.Time)-1-w) > 1e-9 ||
				h.sample.Value(stream.Heading) != 90 || h.sample.Value(stream.Pitch) != 2.5 ||
				h.sample.Value(stream.Bank) != -20 || h.sample.Value(stream.Airspeed) != 130.25 ||
				h.sample.Value(stream.Altitude) != 5000 {
				t.Errorf("%s: row %d at %v s: %v", name, i, h.at, h.sample)
			}
		}
	}
}

// JSON lines with the names of channels are yielded as they are; others become columns, inner members with them.
func TestObjects(t *testing.T) {
	inner, err := mapping.Load("inner.toml", []byte(`
		sources = [
			{ name = "clock.s", channel = "time", unit = "s" },
			{ name = "at.yaw", channel = "heading", unit = "deg" },
			{ name = "at.pitch", channel = "pitch", unit = "deg" },
			{ name = "at.roll", channel = "bank", unit = "deg" },
			{ name = "ground", channel = "on-ground", unit = "flag" },
		]`))
	if err != nil {
		t.Fatal(err)
	}
	const channels = `"heading":90,"pitch":2.5,"bank":-20,"on-ground":true}`
	for name, c := range map[string]struct {
		line string
		time func(i int) any
		o    textlog.Options
	}{
		"channels":     {`{"time":%v,` + channels, func(i int) any { return 5 + float64(i)/2 }, textlog.Options{}},
		"milliseconds": {`{"time":%v,` + channels, func(i int) any { return 1700000000000 + i*500 }, textlog.Options{}},
		"dates": {`{"timestamp":"%v",` + channels, func(i int) any {
			return written.Add(time.Duration(i) * 500 * time.Millisecond).Format(time.RFC3339Nano)
		}, textlog.Options{}},
		"inner members": {`{"clock":{"s":%v},"list":[1,{"x":2}],"at":{"yaw":90,"pitch":2.5,"roll":-20},"ground":true}`,
			func(i int) any { return i / 2 }, textlog.Options{Wire: format.Options{Map: inner}}},
	} {
		var b strings.Builder
		for i := range 10 {
			fmt.Fprintf(&b, c.line+"\n", c.time(i))
		}
		got, dropped := read(t, []byte(b.String()), c.o)
		if len(got) != 10 || dropped > 0 {
			t.Errorf("%s: %d samples, %d dropped", name, len(got), dropped)
			continue
		}
		s, last := &got[9].sample, 4.5
		if name == "inner members" {
			last = 4 // its clock counts whole seconds
		}
		if s.Value(stream.Bank) != -20 || s.Value(stream.OnGround) != 1 || math.Abs(got[9].at-last) > 1e-5 {
			t.Errorf("%s: %v at %v s", name, s, got[9].at)
		}
	}
}

// Compressed logs are read like plain ones.
func TestCompressed(t *testing.T) {
	var zipped, zstded bytes.Buffer
	g := gzip.NewWriter(&zipped)
	z, _ := zstd.NewWriter(&zstded)
	for _, w := range []io.WriteCloser{g, z} {
		if _, err := io.WriteString(w, header+rows(",", 0, 100)); err != nil {
			t.Fatal(err)
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
	}
	for _, file := range [][]byte{zipped.Bytes(), zstded.Bytes()} {
		if got, _ := read(t, file, textlog.Options{}); len(got) != 100 {
			t.Errorf("%d samples of 100", len(got))
		}
	}
	r, err := open(t, zipped.Bytes()[:zipped.Len()-12], textlog.Options{})
	for err == nil {
		_, err = r.Next()
	}
	var cut *capture.CutError
	if !errors.As(err, &cut) {
		t.Errorf("cut off: %v", err)
	}
}

// What cannot be read says where, and what to do about it.
func TestErrors(t *testing.T) {
	for text, want := range map[string]string{
		"a note, and no log": "not recognized",
		"\x00\x01\x02\x03":   "not recognized",
		"\xFF\xFEt\x00":      "the text has two bytes for each letter (UTF-16); save it as UTF-8",
		header:               "line 1: the columns are named here, and no row of numbers follows",
		"1,2,3,4\n5,6,7,8\n": "line 1: the columns have no names and are in the order of no known map; put a line of " +
			"names before them, or give a map with --map FILE",
		"# log\nSeconds,Yaw,theta-deg,Roll\n1,2,3,4\n": "line 2: no column is known to hold heading and bank; " +
			"halfturn grade --map propose FILE prints a map for these columns, to correct, save and give with --map",
		"heading,pitch,bank\n1,2,3\n": "line 1: no column holds the time; name it in a map, or give the rows a " +
			"second with --rate N",
		"heading,pitch,bank,UTC\n1,2,3,\n1,2,3,noon\n": `line 3, column 4 ("UTC"): "noon" is no time; must be ` +
			"seconds, hours:minutes:seconds, or a date and time such as 2031-05-04T10:15:30",
	} {
		if _, err := open(t, []byte(text), textlog.Options{}); err == nil || err.Error() != want {
			t.Errorf("%q: %v; must be %s", text, err, want)
		}
	}
}

// A row is received when its clock says, whatever that does.
func TestReceived(t *testing.T) {
	const own = "%s,heading,pitch,bank\n"
	for name, c := range map[string]struct {
		column string
		times  []string
		want   []float64 // s from the first row
		dated  bool
	}{
		"repeats":      {"time", []string{"1", "1", "1.5"}, []float64{0, 0, 0.5}, false},
		"goes back":    {"time", []string{"10", "10.5", "0", "0.5"}, []float64{0, 0.5, 1, 1.5}, false},
		"goes on":      {"time", []string{"10", "20", "30"}, []float64{0, 10, 20}, false},
		"is set":       {"time", []string{"10", "10.2", "900000", "900001"}, []float64{0, 0.2, 0.4, 1.4}, false},
		"is missing":   {"time", []string{"10", "", "nan", "11"}, []float64{0, 0, 0, 1}, false},
		"milliseconds": {"Elapsed (ms)", []string{"100", "600", "1100"}, []float64{0, 0.5, 1}, false},
		"ending":       {"t_ms", []string{"100", "600", "1100"}, []float64{0, 0.5, 1}, false},
		"since 1970": {"timestamp", []string{"1700000000.5", "1700000001", "1700000002"}, []float64{0, 0.5, 1.5},
			true},
		"in ms of 1970": {"timestamp", []string{"1700000000500", "1700000001000"}, []float64{0, 0.5}, true},
		"in µs of 1970": {"ts", []string{"1700000000500000", "1700000001000000"}, []float64{0, 0.5}, true},
		"date and time": {"UTC", []string{"2031-05-04T10:15:30.25", "2031-05-04 10:15:31", "2031-05-04T10:15:32Z"},
			[]float64{0, 0.75, 1.75}, true},
		"midnight":    {"Time", []string{"23:59:59.5", "00:00:00.5", "00:00:01"}, []float64{0, 1, 1.5}, false},
		"no clock":    {"note", []string{"1", "7", "3"}, []float64{0, 0.1, 0.2}, false},
		"no such day": {"UTC", []string{"2031-05-04T10:15:30", "x", "2031-05-04T10:15:31"}, []float64{0, 0, 1}, true},
	} {
		text := fmt.Sprintf(own, c.column)
		for _, at := range c.times {
			text += at + ",1,2,3\n"
		}
		r, err := open(t, []byte(text), textlog.Options{Rate: 10})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		var got []float64
		var first time.Time
		for {
			d, err := r.Next()
			if err != nil {
				break
			}
			if first.IsZero() {
				first = d.Received
			}
			if !bytes.HasPrefix(d.Payload, []byte("<LABELS>")) {
				got = append(got, math.Round(d.Received.Sub(first).Seconds()*1e5)/1e5)
			}
		}
		if fmt.Sprint(got) != fmt.Sprint(c.want) || r.Dated() != c.dated || !c.dated && !first.Equal(written) {
			t.Errorf("%s: received at %v from %v; must be %v", name, got, first, c.want)
		}
	}
}

// Broken rows are yielded for the session to count; lines that no datagram holds are counted here. The names are said
// again where a session may begin.
func TestBroken(t *testing.T) {
	text := header + rows(",", 0, 10) + "1.0,90,2.5\n" + "1.1,90,2.5,x,130,5000\n" + "words, and words\n" +
		strings.Repeat("9", 70_000) + "\n" + strings.Repeat("8,", 400_000) + "\n" + rows(",", 60, 10) + "70,90,2"
	r, err := open(t, []byte(text), textlog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	names := 0
	for {
		d, err := r.Next()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if bytes.HasPrefix(d.Payload, []byte("<LABELS>")) {
			names++
		}
	}
	if got, want := r.Stats(), (capture.Stats{Packets: 26, Datagrams: 26, Malformed: 2}); names != 2 || got != want {
		t.Errorf("%+v; must be %+v; named %d times", got, want, names)
	}
	got, dropped := read(t, []byte(text), textlog.Options{})
	if len(got) != 21 || dropped != 3 {
		t.Errorf("%d samples, %d dropped", len(got), dropped)
	}
}

// An endless line costs no memory, and a limit ends the reading.
func TestEndless(t *testing.T) {
	in := io.MultiReader(strings.NewReader(header+rows(",", 0, 10)), &repeat{})
	plain, err := capture.Unpack(t.Context(), in, &capture.Limits{Bytes: 50e6})
	if err != nil {
		t.Fatal(err)
	}
	r, err := textlog.Open(plain, textlog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	allocated := testing.AllocsPerRun(1, func() {
		for err == nil {
			_, err = r.Next()
		}
	})
	var limit *capture.LimitError
	if !errors.As(err, &limit) || allocated > 1000 {
		t.Errorf("%v, %v allocations", err, allocated)
	}
}

// repeat is a text without an end, or a line end.
type repeat struct{}

func (*repeat) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = '7'
	}
	return len(p), nil
}
