package play_test

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/netip"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/archive/play"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/playback"
	"halfturn/stream/capture"
)

var (
	simulator = netip.MustParseAddrPort("192.168.1.20:49001")
	noon      = time.Date(2031, 5, 4, 12, 0, 0, 0, time.UTC)
)

func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

// datagrams are n of a sender, a tenth of a second apart, numbered from a number on. They are of no format.
func datagrams(from netip.AddrPort, first, n int) (all []capture.Datagram) {
	for i := first; i < first+n; i++ {
		all = append(all, capture.Datagram{
			Received:    noon.Add(time.Duration(i) * 100 * time.Millisecond),
			Source:      from,
			Destination: netip.MustParseAddrPort("192.168.1.2:7181"),
			Payload:     fmt.Appendf(nil, "datagram %d", i),
		})
	}
	return all
}

// opening is the comment at the head of a recording of Halfturn's own.
func opening(name string) string {
	return playback.Opening{
		Session:  "2031-05-04T12-00-00Z_Station-3",
		Station:  "Station 3",
		Student:  "Ada Example",
		Choice:   maneuver.Choice{Maneuver: name},
		Settings: playback.Settings{BankSign: "auto", PitchSign: "auto"},
	}.Comment()
}

func part(dir string, n int) string { return filepath.Join(dir, fmt.Sprintf("stream-%04d.pcapng", n)) }

// recorded writes a session folder with parts, each with a heading.
func recorded(t *testing.T, heading string, parts ...[]capture.Datagram) (dir string) {
	t.Helper()
	dir = t.TempDir()
	for i, all := range parts {
		f, err := os.Create(part(dir, i+1))
		must(t, err)
		w, err := capture.NewWriter(f, "test", "Station 3", heading)
		must(t, err)
		for j := range all {
			must(t, w.Write(&all[j]))
		}
		must(t, w.Finish(nil), f.Close())
	}
	return dir
}

func unfinished(t *testing.T, dir string) {
	t.Helper()
	must(t, os.WriteFile(filepath.Join(dir, "unfinished"), nil, 0o600))
}

// listening hears when a session ends.
type listening func()

// Event takes the message with which a session ends.
func (l listening) Event(m message.Message) {
	if st, ok := m.Body.(*message.Station); ok && st.Link == message.LinkGone {
		l()
	}
}

// Frame is not needed.
func (listening) Frame(string, *coach.Frame) {}

// Watched says so.
func (listening) Watched(string) bool { return false }

// Open tells from the content what a path is.
func TestOpen(t *testing.T) {
	ours := recorded(t, opening("wing-over"), datagrams(simulator, 0, 1), datagrams(simulator, 1, 1))
	theirs := recorded(t, "", datagrams(simulator, 0, 1))
	strange := recorded(t, "halfturn {", datagrams(simulator, 0, 1))
	newer := recorded(t, `halfturn {"version": 99}`, datagrams(simulator, 0, 1))
	for name, c := range map[string]struct {
		path    string
		session string
		dir     string
		files   int
		opening bool
	}{
		"a session":                 {ours, filepath.Base(ours), ours, 2, true},
		"a part of a session":       {part(ours, 2), "", ours, 1, true},
		"captures in a folder":      {theirs, filepath.Base(theirs), theirs, 1, false},
		"a capture":                 {part(theirs, 1), "", "", 1, false},
		"a heading that is damaged": {part(strange, 1), "", strange, 1, false},
		"a newer version":           {part(newer, 1), "", newer, 1, false},
	} {
		t.Run(name, func(t *testing.T) {
			rec, err := play.Open(t.Context(), c.path)
			must(t, err)
			if rec.Session != c.session || rec.Dir != c.dir || len(rec.Files) != c.files ||
				(rec.Opening() != nil) != c.opening {
				t.Errorf("%+v, opening %+v", rec, rec.Opening())
			}
			if o := rec.Opening(); o != nil && (o.Station != "Station 3" || o.Choice.Maneuver != "wing-over") {
				t.Errorf("%+v", o)
			}
		})
	}
}

// What cannot be opened says why; a context that ended is not taken for damage.
func TestOpenFails(t *testing.T) {
	if _, err := play.Open(t.Context(), filepath.Join(t.TempDir(), "none")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a file that does not exist: %v", err)
	}
	var empty *play.EmptyError
	dir := t.TempDir()
	if _, err := play.Open(t.Context(), dir); !errors.As(err, &empty) || !strings.Contains(err.Error(), dir) {
		t.Errorf("an empty folder: %v", err)
	}
	ctx, stop := context.WithCancel(t.Context())
	stop()
	if _, err := play.Open(ctx, recorded(t, "", datagrams(simulator, 0, 1))); !errors.Is(err, context.Canceled) {
		t.Errorf("a context that ended: %v", err)
	}
}

// Reading again gives the same, in the order of the parts.
func TestRead(t *testing.T) {
	dir := recorded(t, opening("wing-over"), datagrams(simulator, 0, 2), datagrams(simulator, 2, 1))
	rec, err := play.Open(t.Context(), dir)
	must(t, err)
	for range 2 {
		r := rec.Read(t.Context(), nil)
		var got []string
		for {
			d, err := r.Next()
			if errors.Is(err, io.EOF) {
				break
			}
			must(t, err)
			got = append(got, string(d.Payload))
		}
		if d := cmp.Diff([]string{"datagram 0", "datagram 1", "datagram 2"}, got); d != "" {
			t.Error(d)
		}
		if r.Sender() != simulator {
			t.Errorf("the sender is %s", r.Sender())
		}
		must(t, r.Close())
	}
}

// Find lists sessions and captures below a folder, and passes over what is hidden or is no recording.
func TestFind(t *testing.T) {
	root := t.TempDir()
	put := func(name, from string) {
		t.Helper()
		to := filepath.Join(root, name)
		must(t, os.MkdirAll(filepath.Dir(to), 0o750))
		text, err := os.ReadFile(from)
		must(t, err, os.WriteFile(to, text, 0o600))
	}
	ours := recorded(t, opening("wing-over"), datagrams(simulator, 0, 1))
	theirs := recorded(t, "", datagrams(simulator, 0, 1))
	note := filepath.Join(t.TempDir(), "note")
	must(t, os.WriteFile(note, []byte("not a capture"), 0o600))
	put("b-session/stream-0001.pcapng", part(ours, 1))
	put("a/capture-without-ending", part(theirs, 1))
	put("a/damaged.pcap.gz", note)
	put("a/readme", note)
	known, unknown := filepath.Join(t.TempDir(), "known"), filepath.Join(t.TempDir(), "unknown")
	must(t, os.WriteFile(known, []byte("time,heading,pitch,bank\n1,2,3,4\n2,2,3,4\n"), 0o600),
		os.WriteFile(unknown, []byte("x,y,z,a\n1,2,3,4\n2,2,3,4\n"), 0o600))
	put("a/flight.csv", known)
	put("a/table.csv", unknown)
	put("a/data.bin", known)
	put("a/.hidden.pcap", part(theirs, 1))
	put(".work/capture.pcap", part(theirs, 1))
	found, err := play.Find(t.Context(), root)
	must(t, err)
	want := []string{"a/capture-without-ending", "a/damaged.pcap.gz", "a/flight.csv", "b-session"}
	for i := range want {
		want[i] = filepath.Join(root, filepath.FromSlash(want[i]))
	}
	if d := cmp.Diff(want, found); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	for _, itself := range []string{want[0], want[3], filepath.Join(root, "none")} {
		if found, err := play.Find(t.Context(), itself); err != nil || len(found) != 1 || found[0] != itself {
			t.Errorf("%s: %v, %v", itself, found, err)
		}
	}
	var empty *play.EmptyError
	if _, err := play.Find(t.Context(), t.TempDir()); !errors.As(err, &empty) {
		t.Errorf("an empty folder: %v", err)
	}
	ctx, stop := context.WithCancel(t.Context())
	stop()
	if _, err := play.Find(ctx, root); !errors.Is(err, context.Canceled) {
		t.Errorf("a context that ended: %v", err)
	}
}
