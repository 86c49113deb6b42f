package folder

import (
	"net/netip"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"halfturn/coach/names"
	"halfturn/stream/record"
)

// TestRemoveName: a name goes from everything in the folder of a session, in every casing and however JSON writes it:
// from lists, from lines that are damaged or were never ended, from files that are no JSON, and from comments. What is
// damaged is told, and what holds another name stays.
func TestRemoveName(t *testing.T) {
	const name = "Ada <Éxample>"
	dir := t.TempDir()
	write := func(file, text string) {
		t.Helper()
		if err := os.WriteFile(filepath.Join(dir, file), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	good := `{"id":"1","kind":"remark","by":{"name":"ada \u003cÉXAMPLE\u003e"},"remark":{"words":"Ada"}}`
	write(ActsFile, strings.Join([]string{
		good,
		`{"id":"2","words":"İİ ADA <éxample> sa`,
		`{"id":3,"by":{"name":"Ada \u003C\u00C9xample\u003E"}}`,
		good,
		`{"id":"4","words":"aDa \u003c\u00e9xample\u003e`,
	}, "\n"))
	write(NotesFile, `{"student":"Ada <Éxample>","author`)
	write("summary.json", `{"files":[{"words":["ADA <ÉXAMPLE> and Bo",["Ada <Éxample>"],{"x":"Adam"}]}]}`)
	write("other.json", `{"words":"Bo"}`)
	const comment = `halfturn {"student":"Ada \u003cÉxample\u003e","more":"İ ada <éxample>"}`
	r := record.Begin(dir, record.Options{Station: "seat", Section: func(int) string { return comment }})
	from, to := netip.MustParseAddrPort("127.0.0.1:1"), netip.MustParseAddrPort("127.0.0.1:7181")
	r.Add([]byte("datagram"), from, to, time.Unix(1, 0), comment)
	if err := r.Close(comment); err != nil {
		t.Fatal(err)
	}
	write(record.PartName(2)+".zst", "this is no zstd")
	if files, damaged, err := Holding(dir, name); len(files) != 4 || len(damaged) != 1 || err != nil {
		t.Fatalf("before, it stands in %q; damaged %v; %v", files, damaged, err)
	}

	damaged, err := RemoveName(dir, name, []string{"Bo"})
	if err != nil {
		t.Fatal(err)
	}
	var all strings.Builder
	for _, why := range damaged {
		all.WriteString(why.Error() + "\n")
	}
	for _, what := range []string{"acts.jsonl: line 2 cannot", "acts.jsonl: line 3 cannot", "notes.json cannot",
		"stream-0002.pcapng.zst cannot"} {
		if !strings.Contains(all.String(), what) {
			t.Errorf("%q is not told: %s", what, &all)
		}
	}
	if len(damaged) != 4 {
		t.Errorf("%d are told: %s", len(damaged), &all)
	}
	if files, _, err := Holding(dir, strings.ToUpper(name)); len(files) > 0 || err != nil {
		t.Errorf("it still stands in %q, %v", files, err)
	}
	text := func(file string) string {
		t.Helper()
		data, err := os.ReadFile(filepath.Join(dir, file))
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	acts := text(ActsFile)
	if strings.Count(acts, names.Removed) != 2 || strings.Count(acts, "\n") != 4 || !strings.Contains(acts, `"Ada"`) {
		t.Errorf("the acts are %s", acts)
	}
	for file, keeps := range map[string]string{"summary.json": "and Bo", "other.json": `{"words":"Bo"}`} {
		if is := text(file); !strings.Contains(is, keeps) {
			t.Errorf("%s is %s", file, is)
		}
	}
	if !strings.Contains(text("summary.json"), "Adam") {
		t.Error("another name is covered")
	}
	if damaged, err := RemoveName(dir, name, nil); len(damaged) != 4 || err != nil {
		t.Errorf("again: %v, %v", damaged, err)
	}
}
