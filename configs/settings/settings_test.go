package settings

import (
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"halfturn/configs/strict"
)

// none is an environment without variables.
func none(string) (string, bool) { return "", false }

// only is an environment with one variable.
func only(name, value string) func(string) (string, bool) {
	return func(k string) (string, bool) { return value, k == name }
}

// written is a configuration file with a text.
func written(t *testing.T, text string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "c.toml")
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

// The layers of the package's documentation, by every set of them that gives a value.
func TestPrecedence(t *testing.T) {
	const byDefault = "127.0.0.1:7180" // configs/halfturn.toml
	flag, file := "127.0.0.1:3", written(t, "http = '127.0.0.1:1'\n")
	for layers := range 8 {
		want, name, env, flags := byDefault, "", none, []func(*Config){}
		if layers&1 != 0 {
			want, name = "127.0.0.1:1", file
		}
		if layers&2 != 0 {
			want, env = "127.0.0.1:2", only("HALFTURN_HTTP", "127.0.0.1:2")
		}
		if layers&4 != 0 {
			want, flags = flag, append(flags, func(c *Config) { Set(c, "http", &c.HTTP, &flag) })
		}
		c, err := Load(name, env, flags...)
		if err != nil || c.HTTP != want {
			t.Errorf("layers %03b give %+v, %v; want %s", layers, c, err, want)
		}
	}
}

// Each kind of value can be set by a variable.
func TestEnvironment(t *testing.T) {
	env := map[string]string{
		"HALFTURN_MANEUVER":        "from-env",
		"HALFTURN_SPEECH_REACTION": "0.5",
		"HALFTURN_UDP":             "a:1, b:2",
		"HALFTURN_SESSION_IDLE":    "30s",
		"HALFTURN_MAX_STATIONS":    "7",
		"HALFTURN_CONFIG": written(t,
			"maneuver = 'from-file'\nhard-deck = 3000.0\n[recording]\nenabled = true\n"),

		"HALFTURN_RECORDING_ENABLED": "false",
	}
	c, err := Load("", func(k string) (string, bool) { v, ok := env[k]; return v, ok })
	if err != nil {
		t.Fatal(err)
	}
	got := []any{c.Maneuver, c.Speech.Reaction, strings.Join(c.UDP, " "), c.Idle.String(), c.MaxStations, c.Deck,
		c.Recording.Enabled, c.Speech.Rate}
	if want := []any{"from-env", 0.5, "a:1 b:2", "30s", 7, 3000.0, false, 150.0}; !reflect.DeepEqual(got, want) {
		t.Errorf("read %v; must be %v", got, want)
	}
}

// A wrong value is reported with the variable or the line it comes from.
func TestWrongValueSaysWhere(t *testing.T) {
	for _, c := range []struct {
		key, value, says string // the value as TOML
	}{
		{"http", `"7180"`, `is "7180"; must be HOST:PORT such as 127.0.0.1:7180`},
		{"udp", `["127.0.0.1:70000"]`, `is "127.0.0.1:70000"; must be HOST:PORT such as 127.0.0.1:7181`},
		{"log.level", `"loud"`, `is "loud"; must be debug, info, warn or error`},
		{"log.level", `"disabled"`, `is "disabled"; must be debug`},
		{"log.level", `"5"`, `is "5"; must be debug`},
		{"log.level", `""`, `is ""; must be debug`},
		{"maneuver", `"loop"`, `there is no maneuver card "loop"; there are: `},
		{"maneuver", `"no.toml"`, `the card cannot be read: `},
		{"standard", `"mine"`, `there is no standard "mine"; there are: `},
		{"aircraft", `"kite"`, `there is no aircraft card "kite"; there are: `},
		{"cards", `["/no/such/folder"]`, `the folder of cards cannot be read: `},
		{"maps", `["/no/such/map.toml"]`, `the map cannot be read: /no/such/map.toml: no such file`},
		{"rows-layout", `"sideways"`, `is "sideways"; must be auto, old or new`},
		{"hard-deck", "nan", "is nan; "},
		{"hard-deck", "-inf", "is -inf; "},
		{"hard-deck", "1e9", "is 1e+09; must be between -2000 and 60000 ft; 0 is none"},
		{"max-stations", "-1", "is -1; must be between 0 and 10000; 0 is what the machine can take"},
		{"session-idle", `"1s"`, "is 1s; must be between 5s and 24h"},
		{"share.wait", `"30s"`, "is 30s; must be between 1m and 720h"},
		{"data", `"postgres://halfturn@db.example/halfturn"`, "is the address of a database; must be a directory"},
		{"max-rate", "-1", "is -1; must be between 0 and 1000000; 0 is no limit"},
		{"allow", `["everyone"]`, `"everyone" is no`},
		{"speech.reaction", "9.5", "is 9.5; must be between 0.01 and 3 s"},
		{"speech.words-per-minute", "nan", "is nan; "},
		{"speech.words", `"all"`, `is "all"; must be checkpoints, full or ear`},
		{"recording.rotate-size", "0", "is 0; must be between 1 and 100000 MB"},
		{"subscribe.rate", "1000", "is 1000; must be between 1 and 200"},
		{"bank-sign", `"left"`, `is "left"; `},
	} {
		plain := strings.Trim(c.value, `[]"`)
		table, last := "", c.key
		if above, below, ok := strings.Cut(c.key, "."); ok {
			table, last = "["+above+"]\n", below
		}
		file := written(t, "# mine\n"+table+last+" = "+c.value+"\n")
		line := 2 + strings.Count(table, "\n")
		check := func(from string, cfg *Config, err error) {
			t.Helper()
			if err == nil {
				_, err = cfg.Session()
			}
			told, want := fmt.Sprint(err), from+": "
			if !strings.HasPrefix(told, want) ||
				!strings.Contains(strings.ReplaceAll(told, `"`, ""), strings.ReplaceAll(c.says, `"`, "")) {
				t.Errorf("%s = %s: %v; want %s%s", c.key, c.value, err, want, c.says)
			}
			if _, ok := err.(Error); !ok {
				t.Errorf("%s = %s: the error is a %T", c.key, c.value, err)
			}
		}
		cfg, err := Load(file, none)
		check(fmt.Sprintf("%s:%d", file, line), cfg, err)
		cfg, err = Load("", only(Variable(c.key), plain))
		check(Variable(c.key), cfg, err)
	}
}

// Every key but the stations has a variable, and what cannot be read from it is reported.
func TestEveryKeyHasAVariable(t *testing.T) {
	var keys func(v reflect.Type, prefix string) []string
	keys = func(v reflect.Type, prefix string) (list []string) {
		for f := range v.Fields() {
			key := prefix + f.Tag.Get("toml")
			switch {
			case !f.IsExported() || key == "station":
			case f.Type.Kind() == reflect.Struct && f.Type != reflect.TypeFor[Duration]():
				list = append(list, keys(f.Type, key+".")...)
			case f.Type.Kind() != reflect.String && f.Type.Kind() != reflect.Slice:
				list = append(list, key)
			}
		}
		return list
	}
	all := keys(reflect.TypeFor[Config](), "")
	if len(all) < 12 {
		t.Fatalf("only %v", all)
	}
	for _, key := range all {
		for _, bad := range []string{"", "x", "nan", "+Inf", "1e999", "1e400s"} {
			_, err := Load("", only(Variable(key), bad))
			if want := fmt.Sprintf("%s: is %q; must be ", Variable(key), bad); err == nil ||
				!strings.HasPrefix(err.Error(), want) {
				t.Errorf("%v; must be %q", err, want)
			}
		}
	}
	_, err := Load("", only("HALFTURN_STATION", "x"))
	if err == nil || !strings.Contains(err.Error(), "must be in the configuration file, as [[station]]") {
		t.Errorf("stations from the environment: %v", err)
	}
}

// Every wrong key about senders is reported with file, line, key and what it must be.
func TestWrongSenders(t *testing.T) {
	const station = "[[station]]\n"
	const first = station + "address = '::1'\nname = 'a'\n"
	const second = station + "address = '10.0.0.1'\n"
	for text, want := range map[string]string{
		"allow = ['192.168.1.0/24', 'everyone']":           `:1: allow[1]: "everyone" is no`,
		"pitch-sign = 'down'":                              `:1: pitch-sign: is "down"; `,
		"[subscribe]\nrate = 0":                            ":2: subscribe.rate: is 0; must be between 1 and 200",
		"[subscribe]\nadress = ''":                         ":2: subscribe.adress: is not a known key; ",
		station + "name = 'Seat 3'":                        `:1: station[0].address: is ""; must be the sender`,
		station + "address = 'seat-3'":                     `:2: station[0].address: is "seat-3"; must be`,
		station + "address = '::1'\nname = 'a/b'":          `:3: station[0].name: the name of the station is "a/b"; `,
		station + "address = '::1'\nname = \"a\\u001b[2\"": `:3: station[0].name: the name "a\x1b[2" holds the`,
		first + "student = \"\\u202eb\"":                   `:4: station[0].student: the name "\u202eb" holds the`,
		first + "bank-sign = 'x'":                          `:4: station[0].bank-sign: is "x"; `,
		first + second + "name = 'a'":                      `:6: station[1].name: is "a", as of another station`,
		first + second + "name = ' A'":                     `:6: station[1].name: is " A", as of another station`,
		first + station + "address = '::1'\nname = 'b'":    `:5: station[1].address: is "::1", as of another`,
		first + "maneuver = 'loop'":                        `:4: station[0].maneuver: there is no maneuver card "loop"`,
	} {
		file := written(t, text+"\n")
		cfg, err := Load(file, none)
		if err == nil {
			_, err = cfg.Session()
		}
		if err == nil || !strings.HasPrefix(err.Error(), file+want) {
			t.Errorf("%q:\n%v\nwant %s", text, err, want)
		}
	}
}

// A file that is no configuration is refused at once, whatever it is.
func TestConfigThatIsNone(t *testing.T) {
	dir := t.TempDir()
	for name, want := range map[string]string{
		dir: "is a folder; ",
		written(t, strings.Repeat("[[station]]\n", 100_000)): "is larger than 1 MB",
		filepath.Join(dir, "none\x1b.toml"):                  `none\x1b.toml: no such file`,
	} {
		for from, load := range map[string]func() (*Config, error){
			"--config":        func() (*Config, error) { return Load(name, none) },
			"HALFTURN_CONFIG": func() (*Config, error) { return Load("", only("HALFTURN_CONFIG", name)) },
		} {
			_, err := load()
			if err == nil || !strings.HasPrefix(err.Error(), from+": the configuration cannot be read: ") ||
				!strings.Contains(err.Error(), want) {
				t.Errorf("%v; want %s", err, want)
			}
		}
	}
}

// The flag overrides the file: an address, or the simulator that answers.
func TestSubscribeTo(t *testing.T) {
	auto, address := "auto", "192.168.1.20"
	for _, c := range []struct {
		flag *string
		want Subscribe
	}{
		{nil, Subscribe{Address: "file:1", Rate: 30, Discover: true}},
		{&auto, Subscribe{Rate: 30, Discover: true}},
		{&address, Subscribe{Address: "192.168.1.20", Rate: 30}},
	} {
		cfg := Config{Subscribe: Subscribe{Address: "file:1", Rate: 30, Discover: true}}
		if cfg.SubscribeTo(c.flag); cfg.Subscribe != c.want {
			t.Errorf("%v: %+v; must be %+v", c.flag, cfg.Subscribe, c.want)
		}
	}
}

// Only a flag overrides what a station chose before.
func TestChosen(t *testing.T) {
	name := "wing-over"
	for _, c := range []struct {
		maneuver, standard, aircraft *string
		want                         bool
	}{{nil, nil, nil, false}, {&name, nil, nil, true}, {nil, &name, nil, true}, {nil, nil, &name, true}} {
		cfg := Config{Maneuver: "file"}
		cfg.SetChoice(c.maneuver, c.standard, c.aircraft)
		if cfg.Chosen() != c.want {
			t.Errorf("%v: chosen is %t", c, cfg.Chosen())
		}
	}
}

// Copies leave the configuration as it is.
func TestCopies(t *testing.T) {
	c := &Config{Maneuver: "a", Standard: "b", Aircraft: "c", Cards: []string{"one"}}
	d := c.WithChoice("x", "y", "z").WithCards("two")
	if c.Maneuver != "a" || len(c.Cards) != 1 || d.Maneuver+d.Standard+d.Aircraft != "xyz" || len(d.Cards) != 2 {
		t.Errorf("%+v, copied as %+v", c, d)
	}
}

func TestOneOf(t *testing.T) {
	for want, list := range map[string][]string{"": nil, "a": {"a"}, "a or b": {"a", "b"},
		"a, b or c": {"a", "b", "c"}} {
		if got := strict.OneOf(list); got != want {
			t.Errorf("%q: %q", list, got)
		}
	}
}

// The place on Linux stays; where only the folder of earlier versions exists, it stays in use.
func TestDataDir(t *testing.T) {
	root := t.TempDir()
	home, old := filepath.Join(root, "data"), filepath.Join(root, "old")
	for _, c := range []struct {
		make []string
		want string
	}{
		{nil, filepath.Join(home, "halfturn")},
		{[]string{old}, old},
		{[]string{filepath.Join(home, "halfturn")}, filepath.Join(home, "halfturn")}, // both
	} {
		for _, dir := range c.make {
			if err := os.MkdirAll(dir, 0o700); err != nil {
				t.Fatal(err)
			}
		}
		if got, err := dataDir(home, old); got != c.want || err != nil {
			t.Errorf("after %v: %q, %v", c.make, got, err)
		}
	}
	if _, err := dataDir("", ""); err == nil || !strings.Contains(err.Error(), "--data") {
		t.Errorf("without a home: %v", err)
	}
	if got, err := (&Config{Data: "there"}).DataDir(); got != "there" || err != nil {
		t.Errorf("configured: %q, %v", got, err)
	}
}
