package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"halfturn/coach"
)

// Whatever is printed, listed or written of a session's grades counts what was overruled, with the reason where it has
// room for one: all of them fold the same acts.
func TestOverruledEverywhere(t *testing.T) {
	t.Parallel()
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
	change := func(args ...string) string {
		t.Helper()
		status, out, errs := call(t, nil, append(append([]string{"sessions"}, args...), "--data", data)...)
		if status != 0 {
			t.Fatalf("%q: status %d: %s", args, status, errs)
		}
		return out
	}
	change("student", id, "Ada")
	before := outputs()
	for _, leg := range []string{"1", "2"} {
		change("overrule", id, "--leg", leg, "--verdict", coach.Missed, "--by", "B. Example", reason)
	}
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
	change("rate", id, "--leg", "1", "--grade", coach.Good, "--thing", "bank")
	if out := change("sign", id, "B. Example"); !strings.Contains(out, "is signed by B. Example. SHA-256: ") {
		t.Errorf("signing says %q", out)
	}
	if out := change("show", id, "--format", "json"); !strings.Contains(out, `"thing": "bank"`) ||
		!strings.Contains(out, `"holds": true`) {
		t.Errorf("the rating or the signature is not shown: %.3000s", out)
	}
	asked := func(args ...string) string {
		_, out, _ := call(t, nil, append([]string{"grade", folder, "--format", "csv"}, args...)...)
		return out
	}
	if strings.Contains(asked("--standard", "check"), reason) {
		t.Error("what was said of one grading counts for another")
	}
	change("overrule", id, "--leg", "1", "--verdict", "computed")
	change("overrule", id, "--leg", "2", "--verdict", "computed")
	if out := asked(); strings.Contains(out, reason) {
		t.Error("what was taken back still counts")
	}
	change("overrule", id, "--leg", "1", "--verdict", coach.Missed, reason)
	for what, args := range map[string][]string{
		"no reason": {"--leg", "1", "--verdict", "met"}, "no such leg": {"--leg", "9", "--verdict", "met", "x"},
		"no verdict": {"--leg", "1", "--verdict", "splendid", "x"}, "of nothing": {"--verdict", "met", "x"},
	} {
		args = append([]string{"sessions", "overrule", id, "--data", data}, args...)
		if status, _, errs := call(t, nil, args...); status == 0 || errs == "" {
			t.Errorf("%s: status %d, %q", what, status, errs)
		}
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
