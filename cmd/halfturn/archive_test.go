package main

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/klauspost/compress/zstd"

	"halfturn/coach/debrief"
)

// flownDemo flies the demonstration much faster than it is and returns its data directory and session folder. A busy
// machine loses datagrams then, and legs with them: it is flown again at a pace that such a machine keeps up with.
func flownDemo(t *testing.T, env map[string]string) (data, session string) {
	t.Helper()
	for _, pace := range []string{"40", "10", "4"} {
		dir, err := os.MkdirTemp(buildDir, "flown-")
		if err != nil {
			t.Fatal(err)
		}
		data, session = flownAt(t, dir, pace, env)
		flown := string(readFile(t, filepath.Join(session, "summary.json")))
		if strings.Contains(flown, `"maneuver": "chandelle-civil"`) &&
			strings.Contains(flown, `"maneuver": "wing-over"`) {
			return data, session
		}
		t.Logf("at %s times its pace the machine lost legs", pace)
	}
	t.Fatal("legs were lost at every pace")
	return "", ""
}

// shipped is the demonstration with the settings that are shipped, flown once for all tests that only read it.
var shipped struct {
	sync.Once
	data, session string
}

func flownAsShipped(t *testing.T) (data, session string) {
	t.Helper()
	shipped.Do(func() { shipped.data, shipped.session = flownDemo(t, nil) })
	if shipped.session == "" {
		t.Fatal("it could not be flown: another test says why")
	}
	return shipped.data, shipped.session
}

func flownAt(t *testing.T, data, pace string, env map[string]string) (dir, session string) {
	t.Helper()
	// Its log and its page's address come from several goroutines: a buffer would not do.
	out := streamsTo(io.Discard, io.Discard, func(k string) (string, bool) { v, ok := env[k]; return v, ok })
	args := append([]string{"demo", "--once", "--no-open", "--pace", pace, "--data", data}, ports...)
	if status := run(t.Context(), args, out); status != exitDone {
		t.Fatalf("exit status %d", status)
	}
	all, err := filepath.Glob(filepath.Join(data, "sessions", "*"))
	if err != nil || len(all) != 1 {
		t.Fatalf("sessions %v, %v", all, err)
	}
	return data, all[0]
}

// stationsIn reads the stations of a report as they were written.
func stationsIn(t *testing.T, report []byte) string {
	t.Helper()
	var r struct {
		Files []struct{ Stations json.RawMessage }
	}
	if err := json.Unmarshal(report, &r); err != nil || len(r.Files) != 1 {
		t.Fatalf("%v: %.300s", err, report)
	}
	var b bytes.Buffer
	if err := json.Compact(&b, r.Files[0].Stations); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func readFile(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// decompressed reads a file that zstd has compressed.
func decompressed(t *testing.T, name string) []byte {
	t.Helper()
	z, err := zstd.NewReader(bytes.NewReader(readFile(t, name)))
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	data, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// TestRecordedIsAsFlown: whatever reads a session of Halfturn's own, in whatever shape it is handed over, finds what
// was found while it was flown, to the byte: a wing-over each way, and a chandelle that was chosen on the way.
func TestRecordedIsAsFlown(t *testing.T) {
	t.Parallel()
	data, session := flownAsShipped(t)
	flown := stationsIn(t, readFile(t, filepath.Join(session, "summary.json")))
	parts, err := filepath.Glob(filepath.Join(session, "stream-*"))
	if err != nil || len(parts) != 1 || !strings.HasSuffix(parts[0], ".pcapng.zst") {
		t.Fatalf("parts %v, %v", parts, err)
	}
	bare := decompressed(t, parts[0])
	var zipped bytes.Buffer
	w := gzip.NewWriter(&zipped)
	if _, err := w.Write(bare); err != nil || w.Close() != nil {
		t.Fatal(err)
	}
	status, out, errs := call(t, nil, "sessions", "import", "--data", data, session)
	if status != exitDone || !strings.Contains(out, filepath.Base(session)+"  is there already") {
		t.Errorf("imported to where it is: %s%s", out, errs)
	}
	elsewhere := t.TempDir()
	place := func(name string, content []byte) string {
		to := filepath.Join(elsewhere, name)
		if err := os.MkdirAll(filepath.Dir(to), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(to, content, 0o600); err != nil {
			t.Fatal(err)
		}
		return to
	}
	for name, path := range map[string]string{
		"session":               session,
		"its file":              parts[0],
		"folder of sessions":    filepath.Join(data, "sessions"),
		"data directory":        data,
		"file elsewhere":        place("a/flight.pcapng", bare),
		"gzipped":               place("b/flight.pcapng.gz", zipped.Bytes()),
		"by no name":            place("c/flight", readFile(t, parts[0])),
		"folder of that":        filepath.Join(elsewhere, "c"),
		"by another one's name": place("d/flight.pcap", zipped.Bytes()),
	} {
		t.Run(name, func(t *testing.T) {
			status, out, errs := call(t, nil, "grade", "--format", "json", path)
			if status != exitDone {
				t.Fatal(errs)
			}
			if graded := stationsIn(t, []byte(out)); graded != flown {
				t.Errorf("grade finds\n%.600s\nflown was\n%.600s", graded, flown)
			}
			if path != session && !strings.HasSuffix(path, "c/flight") {
				return // what else reads it is handed the same
			}
			status, out, errs = call(t, nil, "sessions", "export", path, "--data", data, "--format", "json")
			if status != exitDone || stationsIn(t, []byte(out)) != flown {
				t.Errorf("export finds %s%.600s", errs, out)
			}
			into := t.TempDir()
			if status, _, errs := call(t, nil, "sessions", "import", "--data", into, path); status != exitDone {
				t.Fatal(errs)
			}
			taken, err := filepath.Glob(filepath.Join(into, "sessions", "*", "summary.json"))
			own := readFile(t, filepath.Join(session, "summary.json"))
			if err != nil || len(taken) != 1 || !bytes.Equal(readFile(t, taken[0]), own) {
				t.Errorf("import keeps %v, other than was kept live", taken)
			}
			// And what was taken in is as good as what was flown.
			status, out, errs = call(t, nil, "grade", "--format", "json", into)
			if status != exitDone || stationsIn(t, []byte(out)) != flown {
				t.Errorf("of what was imported grade finds %s%.600s", errs, out)
			}
			id := filepath.Base(filepath.Dir(taken[0]))
			_, out, errs = call(t, nil, "sessions", "regrade", id, "--data", into)
			if !strings.Contains(out, "Nothing differs.") || !strings.Contains(out, "chandelle-civil (as flown)") {
				t.Errorf("of what was imported regrade finds %s%s", errs, out)
			}
		})
	}
}

// TestJudgedBy: the output says by which cards a recording was judged and where they were chosen; flags win.
func TestJudgedBy(t *testing.T) {
	t.Parallel()
	_, session := flownAsShipped(t)
	data := t.TempDir()
	importedInto(t, data, recordedFlight)
	for _, test := range []struct {
		args []string
		want string
	}{
		{[]string{session}, "maneuver wing-over, then chandelle-civil (as flown), standard course (as flown), " +
			"aircraft radial-trainer (as flown)"},
		{[]string{session, "--maneuver", "wing-over"}, "maneuver wing-over (--maneuver), " +
			"standard course (as flown), aircraft radial-trainer (as flown)"},
		{[]string{session, "--standard", "check", "--aircraft", ""}, "maneuver wing-over, then chandelle-civil " +
			"(as flown), standard check (--standard), aircraft none (--aircraft)"},
		{[]string{recordedFlight}, "maneuver wing-over (as configured), standard course (as configured), " +
			"aircraft none (as configured)"},
		{[]string{recordedFlight, "--maneuver", "auto"}, "maneuver auto (--maneuver)"},
		{[]string{data}, "maneuver wing-over (as imported)"},
	} {
		status, out, errs := call(t, nil, append([]string{"grade"}, test.args...)...)
		if status != exitDone || !strings.Contains(out, "Judged by: "+test.want) {
			t.Errorf("%v: %s%.900s; want %q", test.args, errs, out, test.want)
		}
		_, table, _ := call(t, nil, append([]string{"grade", "--format", "table"}, test.args...)...)
		words := test.want[strings.Index(test.want, "(")+1 : strings.Index(test.want, ")")]
		if !strings.Contains(table, "CHOSEN") || !strings.Contains(table, words) {
			t.Errorf("%v: the table does not say %q:\n%s", test.args, words, table)
		}
	}
	// A recording names cards, and no files of whoever reads it.
	plane := filepath.Join(t.TempDir(), "secret.toml")
	card := "name = 'secret'\ntitle = 'Secret'\nsource = 'ours'\nstall = 52\nentry = 118\n"
	if err := os.WriteFile(plane, []byte(card), 0o600); err != nil {
		t.Fatal(err)
	}
	parts, _ := filepath.Glob(filepath.Join(session, "stream-*"))
	bare := decompressed(t, parts[0])
	// As long as the name there: the lengths of the blocks stay as they are.
	bare = bytes.Replace(bare, []byte(`"aircraft":"radial-trainer"`), []byte(`"aircraft":"/x/secret.toml"`), 1)
	forged := filepath.Join(t.TempDir(), "forged.pcapng")
	if err := os.WriteFile(forged, bare, 0o600); err != nil {
		t.Fatal(err)
	}
	const refused = `"/x/secret.toml" is a file, not the name of a card`
	if _, out, errs := call(t, nil, "grade", forged); !strings.Contains(out, refused) {
		t.Errorf("a forged recording: %s%.600s", errs, out)
	}
}

// TestParts: the parts of a session are one recording, and one of them alone begins with what was chosen in those
// before.
func TestParts(t *testing.T) {
	t.Parallel()
	_, session := flownDemo(t, map[string]string{"HALFTURN_RECORDING_ROTATE_SIZE": "1"})
	parts, err := filepath.Glob(filepath.Join(session, "stream-*"))
	if err != nil || len(parts) < 2 {
		t.Fatalf("parts %v, %v", parts, err)
	}
	slices.Sort(parts)
	flown := stationsIn(t, readFile(t, filepath.Join(session, "summary.json")))
	status, out, errs := call(t, nil, "grade", "--format", "json", filepath.Dir(session))
	if status != exitDone || stationsIn(t, []byte(out)) != flown {
		t.Errorf("grade finds %s%.600s", errs, out)
	}
	_, out, _ = call(t, nil, "grade", "--format", "json", parts[len(parts)-1])
	var report debrief.Report
	if err := json.Unmarshal([]byte(out), &report); err != nil || len(report.Files) != 1 {
		t.Fatalf("%v: %s", err, out)
	}
	f := &report.Files[0]
	if f.By == nil || f.By.Maneuver.From != debrief.FromRecord ||
		!slices.Contains(f.By.Maneuver.Names, "chandelle-civil") {
		t.Errorf("the last part is judged by %+v", f.By)
	}
	for _, s := range f.Stations[0].Series {
		if s.Maneuver != "chandelle-civil" {
			t.Errorf("the last part holds %s", s.Maneuver)
		}
	}
}
