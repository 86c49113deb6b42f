package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"halfturn/cmd/halfturn/console"
	"halfturn/configs/settings"
)

// harmless fails where a text would do something to a terminal.
func harmless(t *testing.T, what, text string) {
	t.Helper()
	if !utf8.ValidString(text) {
		t.Errorf("%s: not UTF-8: %q", what, text)
	}
	for i, r := range text {
		if r == '\r' && i+1 < len(text) && text[i+1] == '\n' {
			continue
		}
		if console.Harmful(r) {
			t.Errorf("%s: %+q in %q", what, r, text[max(0, i-40):min(len(text), i+40)])
			return
		}
	}
}

// TestNothingHarmfulLeaves: names, words and titles reach the commands from files that others wrote, and the screen
// with escapes only.
func TestNothingHarmfulLeaves(t *testing.T) {
	data, cards := t.TempDir(), t.TempDir()
	id := importedInto(t, data, recordedFlight)[0].Session
	summary := filepath.Join(data, "sessions", id, "summary.json")
	text, err := os.ReadFile(summary)
	if err != nil {
		t.Fatal(err)
	}
	var report map[string]any
	if err := json.Unmarshal(text, &report); err != nil {
		t.Fatal(err)
	}
	poison(report)
	if text, err = json.Marshal(report); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(summary, text, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(filepath.Join(cards, "aircraft"), 0o750); err != nil {
		t.Fatal(err)
	}
	card := "name = \"x\"\ntitle = \"T\\u001b[31mitle\\u202e\"\nsummary = \"s\\u009b2J\"\n"
	if err := os.WriteFile(filepath.Join(cards, "aircraft", "x.toml"), []byte(card), 0o600); err != nil {
		t.Fatal(err)
	}
	config := filepath.Join(t.TempDir(), "c.toml")
	if err := os.WriteFile(config, []byte("maneuver = \"\\u001b]0;x\\u0007\"\nudp = [\"\\u009b\"]\n"),
		0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args []string
		want string // of what was put in
	}{
		{[]string{"sessions", "rebuild", "--data", data}, ""},
		{[]string{"sessions", "show", "--data", data, id}, `\u001b`},
		{[]string{"sessions", "show", "--data", data, "--format", "json", id}, `\u001b`},
		{[]string{"sessions", "list", "--data", data}, `\u001b`},
		{[]string{"sessions", "list", "--data", data, "--format", "json"}, `\u001b`},
		{[]string{"sessions", "show", "--data", data, "\x1b[31m\u202e"}, `\x1b`}, // quoted where it is told
		{[]string{"sessions", "regrade", "--data", data, id}, ""},
		{[]string{"cards", "list", "--cards", cards}, ""},
		{[]string{"grade", "--config", config, recordedFlight}, ""},
		{[]string{"grade", "no\x1b[2Jfile\u009b.pcap"}, ""},
		{[]string{"\x1b[2J"}, ""},
		{[]string{"probe", "--for", "1ms", "--udp", "\x1b[2J\u202e:1"}, ""},
	} {
		_, out, errs := call(t, nil, c.args...)
		harmless(t, strings.Join(c.args, " "), out+errs)
		if !strings.Contains(out+errs, c.want) {
			t.Errorf("%q: nothing of what was put in is shown:\n%s%s", c.args, out, errs)
		}
	}
}

// poison puts control characters to every text for people.
func poison(v any) {
	switch v := v.(type) {
	case map[string]any:
		for key, x := range v {
			if s, ok := x.(string); ok && (key == "change" || key == "advice" || key == "label" || key == "note" ||
				key == "words") && (s != "" || key == "change") {
				v[key] = s + "\x1b[31m\u009b2J\u202e\x07"
				continue
			}
			poison(x)
		}
	case []any:
		for _, x := range v {
			poison(x)
		}
	}
}

// TestLogHarmless: the log for people escapes what it says, and keeps its own colors.
func TestLogHarmless(t *testing.T) {
	var b bytes.Buffer
	cfg := &settings.Config{}
	cfg.Log.Level, cfg.Log.Format = "info", "text"
	log, _ := console.NewLogger(&cfg.Log, console.New(&b))
	bad := "x\x1b[2J\u009b\u202e\x07"
	log.Warn().Str("station", bad).Strs("list", []string{bad}).Interface("any",
		map[string]any{"a": []string{bad}}).Err(os.ErrNotExist).Msg("said " + bad)
	line := b.String()
	if !strings.Contains(line, "\x1b[") {
		t.Errorf("no colors: %q", line)
	}
	for _, s := range []string{"[2J", "\u009b", "\u202e", "\x07"} {
		if strings.Contains(strings.ReplaceAll(strings.ReplaceAll(line, `\u001b[2J`, ""), `\x1b[2J`, ""), s) {
			t.Errorf("%+q in %q", s, line)
		}
	}
	b.Reset()
	cfg.Log.Format = "json"
	log, _ = console.NewLogger(&cfg.Log, console.New(&b))
	log.Warn().Str("station", bad).Msg(bad)
	var said struct{ Station, Message string }
	if err := json.Unmarshal(b.Bytes(), &said); err != nil || said.Station != bad || said.Message != bad {
		t.Errorf("%v: %q", err, b.String())
	}
	harmless(t, "JSON", b.String())
}
