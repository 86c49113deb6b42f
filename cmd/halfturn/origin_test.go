package main

import (
	"fmt"
	"net"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"halfturn/coach"
)

// A wrong value is told with the flag, the variable or the line it comes from, whichever layer it is in; none starts
// anything.
func TestWrongValueSaysWhere(t *testing.T) {
	dir := t.TempDir()
	file := func(text string) string {
		f, err := os.CreateTemp(dir, "*.toml")
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if _, err := f.WriteString("# mine\n" + text + "\n"); err != nil {
			t.Fatal(err)
		}
		return f.Name()
	}
	for _, c := range []struct {
		key, flag, value, says string // flag "" where there is none; value as TOML
	}{
		{"http", "http", `"7180"`, `is "7180"; wanted: HOST:PORT such as 127.0.0.1:7180`},
		{"udp", "udp", `["127.0.0.1:70000"]`, `is "127.0.0.1:70000"; wanted: HOST:PORT such as 127.0.0.1:7181`},
		{"log.level", "log-level", `"loud"`, `is "loud"; allowed: debug, info, warn, error`},
		{"log.level", "log-level", `"disabled"`, `is "disabled"; allowed: debug`},
		{"log.level", "log-level", `"5"`, `is "5"; allowed: debug`},
		{"log.level", "log-level", `""`, `is ""; allowed: debug`},
		{"maneuver", "maneuver", `"loop"`, `there is no maneuver card "loop"; there are: `},
		{"maneuver", "maneuver", `"no.toml"`, `the card cannot be read: `},
		{"standard", "standard", `"mine"`, `there is no standard "mine"; there are: `},
		{"aircraft", "aircraft", `"kite"`, `there is no aircraft card "kite"; there are: `},
		{"cards", "cards", `["/no/such/folder"]`, `the folder of cards cannot be read: `},
		{"maps", "map", `["/no/such/map.toml"]`, `the map cannot be read: /no/such/map.toml: no such file`},
		{"subscribe.address", "subscribe", `"no such host:49000"`, `simulator address "no such host:49000"`},
		{"hard-deck", "", "nan", "is nan; wanted: a finite number"},
		{"hard-deck", "", "-inf", "is -inf; wanted: a finite number"},
		{"hard-deck", "", "1e9", "is 1e+09; allowed: -2000 to 60000 ft, 0 for none"},
		{"max-stations", "", "0", "is 0; allowed: 1 to 10000"},
		{"session-idle", "", `"1s"`, "is 1s; allowed: 5s to 24h"},
		{"max-rate", "", "-1", "is -1; allowed: 1 to 1000000"},
		{"allow", "", `["everyone"]`, `"everyone" is no network`},
		{"speech.reaction", "", "9.5", "is 9.5; allowed: 0.01 to 3 s"},
		{"speech.words-per-minute", "", "nan", "is nan; wanted: a finite number"},
		{"speech.words", "", `"all"`, `is "all"; allowed: checkpoints, full`},
		{"recording.rotate-size", "", "0", "is 0; allowed: 1 to 100000 MB"},
		{"subscribe.rate", "", "1000", "is 1000; allowed: 1 to 200"},
		{"bank-sign", "", `"left"`, `is "left"; allowed: as-sent`},
	} {
		plain := strings.Trim(c.value, `[]"`)
		table, last := "", c.key
		if above, below, ok := strings.Cut(c.key, "."); ok {
			table, last = "["+above+"]\n", below
		}
		name := file(table + last + " = " + c.value)
		line := 2 + strings.Count(table, "\n")
		layers := map[string]struct {
			args []string
			env  map[string]string
		}{
			variable(c.key) + ": ":             {env: map[string]string{variable(c.key): plain}},
			fmt.Sprintf("%s:%d: ", name, line): {args: []string{"--config", name}},
		}
		if c.flag != "" {
			layers["--"+c.flag+": "] = struct {
				args []string
				env  map[string]string
			}{args: []string{"--" + c.flag + "=" + plain}}
		}
		for from, l := range layers {
			args := append([]string{"serve", "--data", t.TempDir()}, l.args...)
			for key, flag := range map[string]string{"http": "--http=127.0.0.1:0", "udp": "--udp=127.0.0.1:0"} {
				if key != c.key {
					args = append(args, flag)
				}
			}
			status, out, msg := call(t, l.env, args...)
			last := msg[strings.LastIndexByte(strings.TrimSpace(msg), '\n')+1:]
			told, want := strings.ReplaceAll(last, `"`, ""), strings.ReplaceAll(c.says, `"`, "")
			failed := status == exitUsage || status == exitFailed && c.key == "subscribe.address" // a name that is not known
			if !failed || out != "" || !strings.HasPrefix(last, "halfturn: "+from) || !strings.Contains(told, want) {
				t.Errorf("%s = %s from %q: exit status %d, %q", c.key, c.value, from, status, last)
			}
		}
	}
}

// Every key but the stations has a variable, and what cannot be read from it is told.
func TestEveryKeyHasAVariable(t *testing.T) {
	var keys func(v reflect.Type, prefix string) []string
	keys = func(v reflect.Type, prefix string) (list []string) {
		for f := range v.Fields() {
			key := prefix + f.Tag.Get("toml")
			switch {
			case !f.IsExported() || key == "station":
			case f.Type.Kind() == reflect.Struct && f.Type != reflect.TypeFor[duration]():
				list = append(list, keys(f.Type, key+".")...)
			case f.Type.Kind() != reflect.String && f.Type.Kind() != reflect.Slice:
				list = append(list, key)
			}
		}
		return list
	}
	all := keys(reflect.TypeFor[config](), "")
	if len(all) < 12 {
		t.Fatalf("only %v", all)
	}
	for _, key := range all {
		for _, bad := range []string{"", "x", "nan", "+Inf", "1e999", "1e400s"} {
			_, err := loadConfig(&common{}, func(k string) (string, bool) { return bad, k == variable(key) })
			if want := fmt.Sprintf("%s: is %q; wanted: ", variable(key), bad); err == nil || !strings.HasPrefix(err.Error(), want) {
				t.Errorf("%v, want %q", err, want)
			}
		}
	}
}

// The cautions are shown whatever the log shows.
func TestCautionsAtEveryLevel(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	for _, level := range levels {
		for _, format := range []string{"text", "json"} {
			env := map[string]string{"HALFTURN_LOG_FORMAT": format}
			_, _, msg := call(t, env, "serve", "--data", t.TempDir(), "--log-level", level, "--http", taken.Addr().String(), "--udp", "127.0.0.1:0")
			for _, c := range coach.Cautions {
				if !strings.Contains(msg, c) {
					t.Errorf("%s, %s: no %q in %q", level, format, c, msg)
				}
			}
		}
	}
}

// A file that is no configuration is refused at once, whatever it is.
func TestConfigThatIsNone(t *testing.T) {
	dir := t.TempDir()
	large := filepath.Join(dir, "large.toml")
	if err := os.WriteFile(large, []byte(strings.Repeat("[[station]]\n", 100_000)), 0o600); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{dir: "is a folder; wanted: a TOML file", large: "is larger than 1 MB", filepath.Join(dir, "none\x1b.toml"): `none\x1b.toml: no such file`} {
		for _, given := range []struct {
			args []string
			env  map[string]string
			from string
		}{{args: []string{"--config", name}, from: "--config"}, {env: map[string]string{"HALFTURN_CONFIG": name}, from: "HALFTURN_CONFIG"}} {
			status, _, msg := call(t, given.env, append([]string{"brief"}, given.args...)...)
			if status != exitUsage || !strings.HasPrefix(msg, "halfturn: "+given.from+": the configuration cannot be read: ") || !strings.Contains(msg, want) || strings.Count(msg, "\n") != 1 {
				t.Errorf("exit status %d, %q; want %q", status, msg, want)
			}
		}
	}
}
