package main

import (
	"encoding"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"time"

	"github.com/alecthomas/kong"
	"github.com/mattn/go-isatty"
	"github.com/rs/zerolog"

	"halfturn/cmd/halfturn/console"
	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/maneuver"
	"halfturn/configs"
	"halfturn/configs/strict"
	"halfturn/stream/pipeline"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
)

// config is what can be set. The shipped configs/halfturn.toml, read first, gives every default.
type config struct {
	HTTP        string          `toml:"http"`
	UDP         []string        `toml:"udp"`
	Data        string          `toml:"data"`
	Maneuver    string          `toml:"maneuver"`
	Standard    string          `toml:"standard"`
	Aircraft    string          `toml:"aircraft"`
	Cards       []string        `toml:"cards"`
	Maps        []string        `toml:"maps"`
	Rows        string          `toml:"rows-layout"`
	GroundSpeed bool            `toml:"ground-speed-as-airspeed"`
	Deck        float64         `toml:"hard-deck"`
	MaxStations int             `toml:"max-stations"`
	Idle        duration        `toml:"session-idle"`
	Hosts       []string        `toml:"hosts"`
	Allow       []string        `toml:"allow"`
	MaxRate     int             `toml:"max-rate"`
	BankSign    string          `toml:"bank-sign"`
	PitchSign   string          `toml:"pitch-sign"`
	Subscribe   subscribeConfig `toml:"subscribe"`
	Stations    []stationConfig `toml:"station"`
	Recording   recordingConfig `toml:"recording"`
	Speech      struct {
		Rate     float64  `toml:"words-per-minute"`
		Reaction float64  `toml:"reaction"`
		Command  []string `toml:"command"`
		Words    string   `toml:"words"`
		Station  string   `toml:"station"`
	} `toml:"speech"`
	Log struct {
		Level  string `toml:"level"`
		Format string `toml:"format"`
	} `toml:"log"`

	told bool    // a flag says what is flown, whatever was chosen before
	from origins // of the values
}

// duration is a time span written as "2m0s".
type duration struct{ time.Duration }

// UnmarshalText reads "2m0s".
func (d *duration) UnmarshalText(b []byte) (err error) {
	d.Duration, err = time.ParseDuration(string(b))
	return err
}

var _ encoding.TextUnmarshaler = (*duration)(nil)

// common are the flags of all commands that coach. A pointer is nil where the flag was not given.
type common struct {
	Config   string   `help:"Configuration file; HALFTURN_CONFIG names one too." placeholder:"FILE" type:"path"`
	Maneuver *string  `help:"Maneuver card by name, a card file, or auto." placeholder:"NAME"`
	Standard *string  `help:"Standard to judge by: practice, course or check." placeholder:"NAME"`
	Aircraft *string  `help:"Aircraft card by name, or a card file; \"\" for none." placeholder:"NAME"`
	Cards    []string `help:"Folder of your own cards; repeatable." placeholder:"DIR" type:"path"`
	Map      []string `help:"Column map for text streams; repeatable." placeholder:"FILE" type:"path"`
}

// loadConfig lays the defaults, the file, the environment and the flags over each other, and then validates all of
// it at once. further take the flags of the command beside the common ones.
func loadConfig(c *common, env func(string) (string, bool), further ...func(*config)) (*config, error) {
	cfg := &config{}
	shipped, err := configs.FS.ReadFile("halfturn.toml")
	if err != nil {
		return nil, err
	}
	if _, err := strict.Decode("configs/halfturn.toml", shipped, cfg); err != nil {
		return nil, err
	}
	if err := cfg.fromFile(c.Config, env); err != nil {
		return nil, usageError{err}
	}
	if err := cfg.fromEnvironment(reflect.ValueOf(cfg).Elem(), "", env); err != nil {
		return nil, usageError{err}
	}
	cfg.told = c.Maneuver != nil || c.Standard != nil || c.Aircraft != nil
	give(cfg, "maneuver", &cfg.Maneuver, c.Maneuver)
	give(cfg, "standard", &cfg.Standard, c.Standard)
	give(cfg, "aircraft", &cfg.Aircraft, c.Aircraft)
	cfg.Cards = cfg.from.added("cards", "--cards", cfg.Cards, c.Cards)
	cfg.Maps = cfg.from.added("maps", "--map", cfg.Maps, c.Map)
	for _, apply := range further {
		apply(cfg)
	}
	if err := cfg.validate(&cfg.from); err != nil {
		return nil, usageError{err}
	}
	return cfg, nil
}

// fromFile reads the user's file, named by the flag or by HALFTURN_CONFIG.
func (c *config) fromFile(name string, env func(string) (string, bool)) error {
	flag := "--config"
	if name == "" {
		given, ok := env("HALFTURN_CONFIG")
		if !ok || given == "" {
			return nil
		}
		flag, name = "HALFTURN_CONFIG", kong.ExpandPath(given)
	}
	data, err := strict.ReadFile(name)
	if err != nil {
		return fmt.Errorf("%s: the configuration cannot be read: %w", flag, err)
	}
	c.from.file, err = strict.Decode(name, data, c)
	return err
}

// validate checks every value, wherever it comes from.
func (c *config) validate(f *origins) error {
	if err := c.validateListening(f); err != nil {
		return err
	}
	if err := c.Recording.validate(f); err != nil {
		return err
	}
	for _, n := range []struct {
		key       string
		value     float64
		low, high float64
		unit      string
	}{
		{"hard-deck", c.Deck, -2000, 60000, " ft, 0 for none"},
		{"speech.words-per-minute", c.Speech.Rate, 60, 400, ""},
		{"speech.reaction", c.Speech.Reaction, 0.01, 3, " s"},
	} {
		if !(n.value >= n.low && n.value <= n.high) {
			return f.Errorf(n.key, "is %g; allowed: %g to %g%s", n.value, n.low, n.high, n.unit)
		}
	}
	if _, err := c.rows(); err != nil {
		return f.Errorf("rows-layout", "%v", err)
	}
	for _, w := range []struct {
		key, value string
		allowed    []string
	}{
		{"speech.words", c.Speech.Words, []string{"checkpoints", "full"}},
		{"log.level", c.Log.Level, levels},
		{"log.format", c.Log.Format, []string{"auto", "text", "json"}},
	} {
		if !slices.Contains(w.allowed, w.value) {
			return f.Errorf(w.key, "is %q; allowed: %s", w.value, strings.Join(w.allowed, ", "))
		}
	}
	return nil
}

// levels are those of the log.
var levels = []string{"debug", "info", "warn", "error"}

func (c *config) rows() (format.RowsLayout, error) {
	layout, ok := map[string]format.RowsLayout{"auto": format.RowsAuto, "old": format.RowsOld, "new": format.RowsNew}[c.Rows]
	if !ok {
		return 0, fmt.Errorf("is %q; allowed: auto, old, new", c.Rows)
	}
	return layout, nil
}

// logger makes the log as configured.
func (c *config) logger(w io.Writer) zerolog.Logger {
	level, _ := zerolog.ParseLevel(c.Log.Level) // validated
	text := c.Log.Format == "text"
	if f, ok := console.File(w); ok && c.Log.Format == "auto" {
		text = isatty.IsTerminal(f.Fd())
	}
	if text {
		w = zerolog.ConsoleWriter{Out: console.Raw(w), TimeFormat: time.TimeOnly, NoColor: os.Getenv("NO_COLOR") != "",
			FormatPrepare: visibleFields}
	}
	return zerolog.New(w).Level(level).With().Timestamp().Logger()
}

// readCards reads the cards: the shipped ones, then those of the user's folders. A maneuver or
// aircraft given as a file is read too, and replaced by its name.
func (c *config) readCards() (*maneuver.Library, error) {
	sources := []fs.FS{configs.FS}
	for i, dir := range c.Cards {
		info, err := os.Stat(dir)
		if err == nil && !info.IsDir() {
			err = fmt.Errorf("%q is no folder", dir)
		}
		if err != nil {
			return nil, usageError{c.from.wrap(fmt.Sprintf("cards[%d]", i), fmt.Errorf("the folder of cards cannot be read: %w", err))}
		}
		sources = append(sources, maneuver.Folder{FS: os.DirFS(dir), Path: dir})
	}
	lib, err := maneuver.LoadLibrary(sources...)
	if err != nil {
		return nil, err
	}
	if err := c.cardFile(lib, "maneuvers", "maneuver", &c.Maneuver); err != nil {
		return nil, err
	}
	if err := c.cardFile(lib, "aircraft", "aircraft", &c.Aircraft); err != nil {
		return nil, err
	}
	if err := lib.JudgeBy(c.Standard); err != nil {
		return nil, usageError{c.from.wrap("standard", err)}
	}
	return lib, nil
}

// cardFile adds the card of a file to the library and puts its name in the file's place. The key is the one that the
// file comes from, "" for an argument.
func (c *config) cardFile(lib *maneuver.Library, kind, key string, card *string) error {
	if !strings.HasSuffix(*card, ".toml") {
		return nil
	}
	data, err := strict.ReadFile(*card)
	if err != nil {
		return usageError{c.from.wrap(key, fmt.Errorf("the card cannot be read: %w", err))}
	}
	name, err := lib.AddAs(kind, *card, data)
	if err != nil {
		return err
	}
	*card = name
	return nil
}

// checkChosen checks that there are cards of the names chosen.
func (c *config) checkChosen(lib *maneuver.Library) error {
	check := func(at, card, aircraft string) error {
		if _, err := lib.Card(card); err != nil && card != coach.AutoManeuver {
			return c.from.wrap(at+"maneuver", fmt.Errorf("%w, and %s: found from what was flown", err, coach.AutoManeuver))
		}
		if _, err := lib.AircraftNamed(aircraft); err != nil {
			return c.from.wrap(at+"aircraft", err)
		}
		return nil
	}
	if err := check("", c.Maneuver, c.Aircraft); err != nil {
		return usageError{err}
	}
	for i := range c.Stations {
		card, aircraft := c.Maneuver, c.Aircraft
		set(&card, c.Stations[i].Maneuver)
		set(&aircraft, c.Stations[i].Aircraft)
		if err := check(fmt.Sprintf("station[%d].", i), card, aircraft); err != nil {
			return usageError{err}
		}
	}
	return nil
}

// stations says how streams are read.
func (c *config) stations() (pipeline.Options, error) {
	layout, _ := c.rows() // validated
	o := signs(pipeline.Options{GroundSpeedAsAirspeed: c.GroundSpeed, Wire: format.Options{Rows: layout}}, c.BankSign, c.PitchSign)
	for i, name := range c.Maps {
		data, err := strict.ReadFile(name)
		if err != nil {
			return o, usageError{c.from.wrap(fmt.Sprintf("maps[%d]", i), fmt.Errorf("the map cannot be read: %w", err))}
		}
		m, err := mapping.Load(name, data)
		if err != nil {
			return o, err
		}
		o.Wire.Maps = append(o.Wire.Maps, m)
		o.Wire.Map = m
	}
	if len(c.Maps) > 1 {
		o.Wire.Map = nil // several: each is tried by what it says of itself
	}
	return o, nil
}

func (c *config) voice() callout.Options {
	return callout.Options{Rate: c.Speech.Rate / 60, Reaction: c.Speech.Reaction}
}

// dataDir is where sessions are kept: as configured, or the user's data folder.
func (c *config) dataDir(env func(string) (string, bool)) (string, error) {
	if c.Data != "" {
		return c.Data, nil
	}
	if dir, ok := env("XDG_DATA_HOME"); ok && dir != "" {
		return filepath.Join(dir, "halfturn"), nil
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "", fmt.Errorf("there is no user's data folder (%w); give one with --data", err)
	}
	return filepath.Join(home, ".local", "share", "halfturn"), nil
}
