package main

import (
	"encoding"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"time"

	"github.com/mattn/go-isatty"
	"github.com/rs/zerolog"

	"halfturn/coach/callout"
	"halfturn/coach/maneuver"
	"halfturn/configs"
	"halfturn/configs/strict"
	"halfturn/stream/station"
	"halfturn/stream/wire"
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
	told bool // a flag says what is flown, whatever was chosen before
	Log  struct {
		Level  string `toml:"level"`
		Format string `toml:"format"`
	} `toml:"log"`
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
	Config   string   `help:"Configuration file." placeholder:"FILE" type:"path" env:"HALFTURN_CONFIG"`
	Maneuver *string  `help:"Maneuver card by name, a card file, or auto." placeholder:"NAME"`
	Standard *string  `help:"Standard to judge by: practice, course or check." placeholder:"NAME"`
	Aircraft *string  `help:"Aircraft card by name, or a card file; \"\" for none." placeholder:"NAME"`
	Cards    []string `help:"Folder of your own cards; repeatable." placeholder:"DIR" type:"path"`
	Map      []string `help:"Column map for text streams; repeatable." placeholder:"FILE" type:"path"`
}

// loadConfig lays the defaults, the file, the environment and the flags over each other.
func loadConfig(c *common, env func(string) (string, bool)) (*config, error) {
	cfg := &config{}
	shipped, err := configs.FS.ReadFile("halfturn.toml")
	if err != nil {
		return nil, err
	}
	file, err := strict.Decode("configs/halfturn.toml", shipped, cfg)
	if err != nil {
		return nil, err
	}
	if c.Config != "" {
		data, err := os.ReadFile(c.Config)
		if err != nil {
			return nil, usagef("the configuration cannot be read: %v", err)
		}
		if file, err = strict.Decode(c.Config, data, cfg); err != nil {
			return nil, usageError{err}
		}
	}
	if err := fromEnvironment(reflect.ValueOf(cfg).Elem(), "HALFTURN", env); err != nil {
		return nil, usageError{err}
	}
	cfg.told = c.Maneuver != nil || c.Standard != nil || c.Aircraft != nil
	set(&cfg.Maneuver, c.Maneuver)
	set(&cfg.Standard, c.Standard)
	set(&cfg.Aircraft, c.Aircraft)
	cfg.Cards = append(cfg.Cards, c.Cards...)
	cfg.Maps = append(cfg.Maps, c.Map...)
	if err := cfg.validate(file); err != nil {
		return nil, usageError{err}
	}
	return cfg, nil
}

func set[T any](to *T, flag *T) {
	if flag != nil {
		*to = *flag
	}
}

// fromEnvironment sets each key that has a variable: "speech.reaction" is HALFTURN_SPEECH_REACTION,
// lists are split at commas.
func fromEnvironment(v reflect.Value, prefix string, env func(string) (string, bool)) error {
	for i := range v.NumField() {
		if !v.Type().Field(i).IsExported() {
			continue
		}
		f := v.Field(i)
		name := prefix + "_" + strings.ToUpper(strings.ReplaceAll(v.Type().Field(i).Tag.Get("toml"), "-", "_"))
		if u, ok := f.Addr().Interface().(encoding.TextUnmarshaler); ok {
			if s, given := env(name); given {
				if err := u.UnmarshalText([]byte(s)); err != nil {
					return fmt.Errorf("%s is %q; wanted: a time span such as 2m0s", name, s)
				}
			}
			continue
		}
		if f.Kind() == reflect.Struct {
			if err := fromEnvironment(f, name, env); err != nil {
				return err
			}
			continue
		}
		s, given := env(name)
		if !given {
			continue
		}
		if err := setText(f, s); err != nil {
			return fmt.Errorf("%s is %q; wanted: %w", name, s, err)
		}
	}
	return nil
}

func setText(f reflect.Value, s string) error {
	switch f.Kind() {
	case reflect.String:
		f.SetString(s)
	case reflect.Bool:
		b, err := strconv.ParseBool(s)
		if err != nil {
			return errors.New("true or false")
		}
		f.SetBool(b)
	case reflect.Int:
		n, err := strconv.Atoi(s)
		if err != nil {
			return errors.New("a whole number")
		}
		f.SetInt(int64(n))
	case reflect.Float64:
		x, err := strconv.ParseFloat(s, 64)
		if err != nil {
			return errors.New("a number")
		}
		f.SetFloat(x)
	case reflect.Slice:
		if f.Type().Elem().Kind() != reflect.String {
			return errors.New("no such variable; write [[station]] into the configuration file")
		}
		list := []string{}
		for part := range strings.SplitSeq(s, ",") {
			if part = strings.TrimSpace(part); part != "" {
				list = append(list, part)
			}
		}
		f.Set(reflect.ValueOf(list))
	}
	return nil
}

func (c *config) validate(f *strict.File) error {
	switch {
	case len(c.UDP) == 0:
		return f.Errorf("udp", "is empty; it needs at least one address such as 127.0.0.1:7181")
	case c.MaxStations < 1 || c.MaxStations > 10000:
		return f.Errorf("max-stations", "is %d; allowed: 1 to 10000", c.MaxStations)
	case c.Idle.Duration < 5*time.Second || c.Idle.Duration > 24*time.Hour:
		return f.Errorf("session-idle", "is %v; allowed: 5s to 24h", c.Idle.Duration)
	case c.Speech.Rate < 60 || c.Speech.Rate > 400:
		return f.Errorf("speech.words-per-minute", "is %g; allowed: 60 to 400", c.Speech.Rate)
	case c.Speech.Reaction < 0.01 || c.Speech.Reaction > 3:
		return f.Errorf("speech.reaction", "is %g; allowed: 0.01 to 3 s", c.Speech.Reaction)
	case c.Speech.Words != "checkpoints" && c.Speech.Words != "full":
		return f.Errorf("speech.words", "is %q; allowed: checkpoints, full", c.Speech.Words)
	}
	if err := c.validateListening(f); err != nil {
		return err
	}
	if err := c.Recording.validate(f); err != nil {
		return err
	}
	if _, err := c.rows(); err != nil {
		return f.Errorf("rows-layout", "%v", err)
	}
	if _, err := zerolog.ParseLevel(c.Log.Level); err != nil || c.Log.Level == "" {
		return f.Errorf("log.level", "is %q; allowed: debug, info, warn, error", c.Log.Level)
	}
	if c.Log.Format != "auto" && c.Log.Format != "text" && c.Log.Format != "json" {
		return f.Errorf("log.format", "is %q; allowed: auto, text, json", c.Log.Format)
	}
	return nil
}

func (c *config) rows() (wire.RowsLayout, error) {
	layout, ok := map[string]wire.RowsLayout{"auto": wire.RowsAuto, "old": wire.RowsOld, "new": wire.RowsNew}[c.Rows]
	if !ok {
		return 0, fmt.Errorf("is %q; allowed: auto, old, new", c.Rows)
	}
	return layout, nil
}

// logger makes the log as configured.
func (c *config) logger(w io.Writer) zerolog.Logger {
	level, _ := zerolog.ParseLevel(c.Log.Level) // validated
	text := c.Log.Format == "text"
	if f, ok := w.(*os.File); ok && c.Log.Format == "auto" {
		text = isatty.IsTerminal(f.Fd())
	}
	if text {
		w = zerolog.ConsoleWriter{Out: w, TimeFormat: time.TimeOnly, NoColor: os.Getenv("NO_COLOR") != ""}
	}
	return zerolog.New(w).Level(level).With().Timestamp().Logger()
}

// readCards reads the cards: the shipped ones, then those of the user's folders. A maneuver or
// aircraft given as a file is read too, and replaced by its name.
func (c *config) readCards() (*maneuver.Library, error) {
	sources := []fs.FS{configs.FS}
	for _, dir := range c.Cards {
		if _, err := os.Stat(dir); err != nil {
			return nil, usagef("the folder of cards cannot be read: %v", err)
		}
		sources = append(sources, os.DirFS(dir))
	}
	lib, err := maneuver.LoadLibrary(sources...)
	if err != nil {
		return nil, err
	}
	if err := fromFile(lib, "maneuvers", &c.Maneuver); err != nil {
		return nil, err
	}
	if err := fromFile(lib, "aircraft", &c.Aircraft); err != nil {
		return nil, err
	}
	if err := lib.JudgeBy(c.Standard); err != nil {
		return nil, usageError{err}
	}
	return lib, nil
}

// fromFile adds the card of a file to the library and puts its name in the file's place.
func fromFile(lib *maneuver.Library, kind string, card *string) error {
	if !strings.HasSuffix(*card, ".toml") {
		return nil
	}
	data, err := os.ReadFile(*card)
	if err != nil {
		return usagef("the card cannot be read: %v", err)
	}
	name, err := lib.AddAs(kind, *card, data)
	if err != nil {
		return err
	}
	*card = name
	return nil
}

// stations says how streams are read.
func (c *config) stations() (station.Options, error) {
	layout, _ := c.rows() // validated
	o := signs(station.Options{GroundSpeedAsAirspeed: c.GroundSpeed, Wire: wire.Options{Maps: wire.ShippedMaps(), Rows: layout}}, c.BankSign, c.PitchSign)
	for _, name := range c.Maps {
		data, err := os.ReadFile(name)
		if err != nil {
			return o, usagef("the map cannot be read: %v", err)
		}
		m, err := wire.LoadMap(name, data)
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
