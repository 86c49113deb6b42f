package take_test

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"halfturn/coach/archive"
	"halfturn/coach/archive/play"
	"halfturn/coach/archive/take"
	"halfturn/coach/judge"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/configs"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer/encode"
)

// A tape writes a classic capture of raw IPv4 with times in microseconds (pcap-savefile(5) of libpcap).
type tape struct{ bytes.Buffer }

func newTape() *tape {
	c := &tape{}
	c.put(0xa1b2c3d4, 2|4<<16, 0, 0, 65535, 101)
	return c
}

func (c *tape) put(values ...uint32) {
	for _, v := range values {
		c.Write(binary.LittleEndian.AppendUint32(nil, v))
	}
}

// began is when the tapes begin, s of Unix time.
const began = 1_700_000_000

// add adds a datagram of the numbered sender, received some seconds after the beginning.
func (c *tape) add(sender int, at float64, payload []byte) {
	n := 28 + len(payload)
	micros := uint64(at * 1e6)
	c.put(uint32(began+micros/1e6), uint32(micros%1e6), uint32(n), uint32(n))
	ip := make([]byte, 28)
	ip[0], ip[8], ip[9] = 0x45, 64, 17
	binary.BigEndian.PutUint16(ip[2:], uint16(n))
	copy(ip[12:], []byte{10, 0, byte(sender >> 8), byte(sender), 10, 0, 0, 9})
	binary.BigEndian.PutUint16(ip[20:], 4000)
	binary.BigEndian.PutUint16(ip[22:], 7181)
	binary.BigEndian.PutUint16(ip[24:], uint16(8+len(payload)))
	c.Write(ip)
	c.Write(payload)
}

// level adds level flight of a sender, 20 samples a second.
func (c *tape) level(sender int, from, seconds float64) {
	enc, _ := encode.New("json")
	for i := range int(seconds * 20) {
		at := from + float64(i)/20
		var s stream.Sample
		for ch, v := range map[stream.Channel]float64{stream.Time: at, stream.Heading: 90, stream.Pitch: 1,
			stream.Bank: 0, stream.Airspeed: 120, stream.Altitude: 5000} {
			s.Put(ch, v)
		}
		c.add(sender, at, enc.Append(nil, &s))
	}
}

// file writes it, gzipped.
func (c *tape) file(t *testing.T) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "capture.pcap.gz")
	var b bytes.Buffer
	w := gzip.NewWriter(&b)
	if _, err := w.Write(c.Bytes()); err != nil || w.Close() != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

func newBook(t *testing.T) *archive.Archive {
	t.Helper()
	b, err := archive.Open(t.TempDir(), archive.Options{Engine: sqlite.Engine{}, Version: "test"})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := b.Close(); err != nil {
			t.Error(err)
		}
	})
	return b
}

func importer(t *testing.T, b *archive.Archive) *take.Importer {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	card, err := lib.Card("wing-over")
	if err != nil {
		t.Fatal(err)
	}
	o := session.Options{Coach: judge.Options{Plan: plan.New(card, nil)}}
	return &take.Importer{Archive: b, Program: "test", Silence: 2 * time.Minute, Limits: take.DefaultLimits,
		Follow: func(*play.Recording) (play.Following, logbook.Entry, error) {
			return play.Following{Options: o}, logbook.Entry{Cards: logbook.CardsOf(lib)}, nil
		}}
}

// there lists all files of a data directory but the database, and the sessions in that.
func there(t *testing.T, b *archive.Archive) (files, entries []string) {
	t.Helper()
	data := filepath.Dir(b.Dir())
	err := filepath.WalkDir(data, func(name string, d os.DirEntry, err error) error {
		if base := filepath.Base(name); err == nil && !strings.HasPrefix(base, "logbook.db") && base != "import.lock" &&
			base != "sessions.lock" {
			files = append(files, name)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	list, err := b.List(t.Context(), logbook.Filter{Limit: 200})
	if err != nil {
		t.Fatal(err)
	}
	for i := range list.Sessions {
		entries = append(entries, list.Sessions[i].ID)
	}
	return files, entries
}

// unchanged makes sure that nothing of a capture is left.
func unchanged(t *testing.T, b *archive.Archive, do func()) {
	t.Helper()
	files, entries := there(t, b)
	do()
	filesNow, entriesNow := there(t, b)
	if !slices.Equal(files, filesNow) || !slices.Equal(entries, entriesNow) {
		t.Errorf("%d files and %d entries became %d and %d: %v", len(files), len(entries), len(filesNow),
			len(entriesNow), filesNow)
	}
}

// TestImportRefused: what is too much, or no use, is refused in a sentence with numbers, and leaves nothing.
func TestImportRefused(t *testing.T) {
	b := newBook(t)
	if _, err := importer(t, b).Import(t.Context(), func() string {
		c := newTape()
		c.level(1, 0,
			10)
		return c.file(t)
	}(), "first"); err != nil {
		t.Fatal(err)
	}
	far, apart, nothing, single, many := newTape(), newTape(), newTape(), newTape(), newTape()
	for i := range 150 {
		far.level(1, float64(i)*300, 0.05)
	}
	for i := range 7 {
		apart.level(1, float64(i)*300, 5)
	}
	for i := range 4 {
		nothing.add(1+i%2, float64(i), []byte("what"))
	}
	single.level(2, 0, 0.95)
	for i := range 1200 { // 72 MB
		many.add(3, float64(i)/100, make([]byte, 60_000))
	}
	arp := newTape()
	arp.put(began, 0, 20, 20)
	arp.Write(append([]byte{0x45}, make([]byte, 19)...))
	large := many.file(t)
	text := filepath.Join(t.TempDir(), "text")
	if err := os.WriteFile(text, []byte("no capture at all"), 0o600); err != nil {
		t.Fatal(err)
	}
	for name, test := range map[string]struct {
		file   string
		limits take.Limits
		want   string
	}{
		"one datagram each": {far.file(t), take.DefaultLimits,
			"datagrams left out because nothing in them can be graded: 150, from 150 of the senders (halfturn " +
				"sessions import --keep-all keeps them): too few samples came: 1 of at least 20"},
		"sessions": {apart.file(t), take.Limits{Sessions: 6},
			"the capture holds more than 6 sessions, a new one after each 120 s of silence; it is not taken in " +
				"(halfturn sessions import --most-sessions allows more)"},
		"nothing to read": {nothing.file(t), take.DefaultLimits,
			"datagrams left out because nothing in them can be graded: 4, from 2 of the senders (halfturn sessions " +
				"import --keep-all keeps them): no known format was recognized"},
		"too few samples": {single.file(t), take.DefaultLimits,
			"nothing in them can be graded: 19, from 1 of the senders"},
		"bytes": {large, take.Limits{Bytes: 10_000_000},
			"the recording holds more than 10 MB uncompressed; it is not taken in (halfturn sessions import " +
				"--most-size and --most-ratio allow more)"},
		"ratio":      {large, take.Limits{Ratio: 20}, "over 20 times as much; it is not taken in"},
		"no capture": {text, take.DefaultLimits, "must be a pcap or pcapng capture file"},
		"no datagram": {arp.file(t), take.DefaultLimits,
			"there is no UDP datagram in it: of 1 packets 1 are of another kind"},
		"a folder without any": {t.TempDir(), take.DefaultLimits, "holds no recording"},
		"not there":            {filepath.Join(t.TempDir(), "none"), take.DefaultLimits, "no such file"},
	} {
		t.Run(name, func(t *testing.T) {
			unchanged(t, b, func() {
				in := importer(t, b)
				in.Limits = test.limits
				_, err := in.Import(t.Context(), test.file, "x")
				var refused *take.Refused
				if !errors.As(err, &refused) || !strings.Contains(err.Error(), test.want) {
					t.Errorf("says %v\nwanted %s", err, test.want)
				}
				f, err := os.Open(test.file)
				if err != nil {
					return
				}
				defer f.Close()
				if _, err := in.Receive(t.Context(), f, "x"); err == nil {
					t.Error("over HTTP it is taken in")
				}
			})
		})
	}
}

// TestImportLeavesOut: of a capture that holds more than one can use, the rest is taken in.
func TestImportLeavesOut(t *testing.T) {
	b := newBook(t)
	c := newTape()
	for i := range 1300 { // a busy network before the simulator
		c.add(1000+i, float64(i)/20, []byte("what"))
	}
	for i := range 3 {
		c.level(i, 100, 10)
	}
	in := importer(t, b)
	in.Limits.Stations = 2
	taken, err := in.Import(t.Context(), c.file(t), "x")
	if err != nil {
		t.Fatal(err)
	}
	if len(taken.Sessions) != 2 {
		t.Errorf("%+v", taken.Sessions)
	}
	for _, want := range []string{"nothing in them can be graded: 1300, from 1300 of the senders",
		"datagrams left out of senders beyond the first 2: 200"} {
		if !slices.ContainsFunc(taken.Notes, func(n phrase.Phrase) bool { return strings.Contains(n.String(), want) }) {
			t.Errorf("the notes lack %q: %v", want, taken.Notes)
		}
	}
	if _, entries := there(t, b); len(entries) != 2 {
		t.Errorf("%v", entries)
	}
}

// TestImportClock: packets that were received in no year are left out and counted, whatever the file claims.
func TestImportClock(t *testing.T) {
	// A pcapng of raw IPv4 whose interface adds an offset to its times (draft-ietf-opsawg-pcapng, 4.2: if_tsoffset).
	ng := func(offset uint64, payloads *tape) []byte {
		le := binary.LittleEndian
		block := func(kind uint32, body []byte) []byte {
			b := le.AppendUint32(nil, kind)
			b = le.AppendUint32(b, uint32(12+len(body)))
			return le.AppendUint32(append(b, body...), uint32(12+len(body)))
		}
		out := block(0x0a0d0d0a, append(le.AppendUint32(nil, 0x1a2b3c4d), 1, 0, 0, 0, 0xff, 0xff, 0xff, 0xff, 0xff,
			0xff, 0xff, 0xff))
		out = append(out, block(1, append([]byte{101, 0, 0, 0, 0, 0, 0, 0, 14, 0, 8, 0}, le.AppendUint64(nil,
			offset)...))...)
		for b := payloads.Bytes()[24:]; len(b) > 0; {
			n := le.Uint32(b[8:])
			stamp := uint64(le.Uint32(b))*1e6 + uint64(le.Uint32(b[4:]))
			body := le.AppendUint32(le.AppendUint32(le.AppendUint32(nil, 0), uint32(stamp>>32)), uint32(stamp))
			body = append(le.AppendUint32(le.AppendUint32(body, n), n), b[16:16+n]...)
			out = append(out, block(6, append(body, make([]byte, -len(body)&3)...))...)
			b = b[16+n:]
		}
		return out
	}
	c := newTape()
	c.level(1, 0, 10)
	b := newBook(t)
	const year12345 = 327403382400 - began
	for _, test := range []struct {
		file []byte
		err  string
		note string
	}{
		{ng(year12345, c), "before 1970 or after 2261: 200", ""},
		{append(ng(0, c), ng(year12345, c)...), "", "before 1970 or after 2261: 200"},
	} {
		taken, err := importer(t, b).Receive(t.Context(), bytes.NewReader(test.file), "x")
		switch {
		case test.err != "" && (err == nil || !strings.Contains(err.Error(), test.err)):
			t.Errorf("says %v", err)
		case test.err == "" && (err != nil || len(taken.Sessions) != 1 || len(taken.Notes) != 1 ||
			!strings.Contains(taken.Notes[0].String(), test.note)):
			t.Errorf("%+v, %v", taken, err)
		}
	}
}
