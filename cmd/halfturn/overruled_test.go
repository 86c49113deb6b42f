package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/who"
)

// Whatever is printed, listed or written of a session's grades counts what was overruled, with the reason where it has
// room for one: all of them fold the same acts.
func TestOverruledEverywhere(t *testing.T) {
	data := t.TempDir()
	id := importedInto(t, data, recordedFlight)[0].Session
	folder := filepath.Join(data, "sessions", id)
	const reason = "a gust at the top"
	outputs := func() map[string]string {
		all := map[string]string{}
		for _, c := range []string{
			"grade DIR --format text", "grade DIR --format csv", "grade DIR --format json", "grade DIR --format table",
			"sessions show ID", "sessions show ID --format json",
			"sessions list --format json", "sessions list",
			"sessions export ID --format json", "sessions export ID --format html --names",
			"sessions export ID --format pdf",
			"students sheet Ada --format text", "students sheet Ada --format csv", "students sheet Ada --format json",
		} {
			args := strings.Fields(strings.NewReplacer("ID", id, "DIR", folder).Replace(c))
			if args[0] != "grade" {
				args = append(args, "--data", data)
			}
			status, out, errs := call(t, nil, args...)
			if status != 0 || out == "" {
				t.Fatalf("%s: status %d: %s", c, status, errs)
			}
			all[c] = out
		}
		return all
	}
	change := func(do func(*archive.Archive) error) {
		t.Helper()
		a, err := archive.Open(data, archive.Options{Engine: sqlite.Engine{}})
		if err != nil {
			t.Fatal(err)
		}
		if err := do(a); err != nil {
			t.Fatal(err)
		}
		if err := a.Close(); err != nil {
			t.Fatal(err)
		}
	}
	change(func(a *archive.Archive) error {
		return a.SetStudent(who.Owner(), id, "Ada")
	})
	before := outputs()
	change(func(a *archive.Archive) error {
		for leg := 1; leg <= 2; leg++ {
			o := logbook.Overrule{Leg: leg, Verdict: coach.Missed, Reason: reason, By: "B. Example"}
			if err := a.Overrule(who.Owner(), id, o); err != nil {
				return err
			}
		}
		return nil
	})
	noRoom := map[string]bool{
		"grade DIR --format table":        true,
		"sessions list":                   true,
		"sessions list --format json":     true,
		"sessions export ID --format pdf": true,
	}
	for c, out := range outputs() {
		if out == before[c] {
			t.Errorf("%s says the same as before", c)
		}
		words := strings.Join(strings.Fields(out), " ")
		if !noRoom[c] && !strings.HasPrefix(c, "students") && !strings.Contains(words, reason) {
			t.Errorf("%s does not say why: %.2000s", c, out)
		}
	}
	asked := func(args ...string) string {
		_, out, _ := call(t, nil, append([]string{"grade", folder, "--format", "csv"}, args...)...)
		return out
	}
	if strings.Contains(asked("--standard", "check"), reason) {
		t.Error("what was said of one grading counts for another")
	}
	if err := os.Remove(filepath.Join(data, "logbook.db")); err != nil {
		t.Fatal(err)
	}
	for _, format := range []string{"json", "html"} {
		_, out, errs := call(t, nil, "sessions", "export", folder, "--data", data, "--names", "--format", format)
		if !strings.Contains(out, reason) {
			t.Errorf("without a logbook the folder as %s says nothing of it: %s", format, errs)
		}
	}
}
