// Package settings is the configuration: what can be set, where each value comes from, and the
// options of the engine that follow from it.
//
// Four layers give the values, and a later one overrides an earlier one:
//
//  1. the defaults, which are the shipped configs/halfturn.toml;
//  2. the user's file, named by --config or by HALFTURN_CONFIG;
//  3. environment variables: HALFTURN_SPEECH_REACTION sets the key "reaction" of [speech];
//  4. flags.
//
// [Load] applies them in this order and then validates the result. An error names the layer that
// the bad value comes from: the flag, the variable, or the file and line.
package settings

import (
	"encoding"
	"fmt"
	"reflect"
	"strings"
	"time"

	"github.com/alecthomas/kong"

	"halfturn/configs"
	"halfturn/configs/strict"
	"halfturn/configs/tomlfile"
)

// Config is everything that can be set. configs/halfturn.toml explains each key and gives its default.
type Config struct {
	HTTP        string    `toml:"http"`
	UDP         []string  `toml:"udp"`
	Data        string    `toml:"data"`
	Maneuver    string    `toml:"maneuver"`
	Standard    string    `toml:"standard"`
	Aircraft    string    `toml:"aircraft"`
	Cards       []string  `toml:"cards"`
	Maps        []string  `toml:"maps"`
	Rows        string    `toml:"rows-layout"`
	GroundSpeed bool      `toml:"ground-speed-as-airspeed"`
	Deck        float64   `toml:"hard-deck"`    // ft
	MaxStations int       `toml:"max-stations"` // 0: what the machine can take
	Idle        Duration  `toml:"session-idle"`
	Language    string    `toml:"language"`
	Hosts       []string  `toml:"hosts"`
	Allow       []string  `toml:"allow"`
	MaxRate     int       `toml:"max-rate"` // datagrams per second of one sender
	BankSign    string    `toml:"bank-sign"`
	PitchSign   string    `toml:"pitch-sign"`
	Subscribe   Subscribe `toml:"subscribe"`
	Stations    []Station `toml:"station"`
	Recording   Recording `toml:"recording"`
	Judging     Judging   `toml:"judging"`
	Speech      Speech    `toml:"speech"`
	Access      Access    `toml:"access"`
	TLS         TLS       `toml:"tls"`
	Share       Share     `toml:"share"`
	Log         Log       `toml:"log"`

	chosen bool // by a flag; see Chosen
	from   origins
	// files are the cards named as files, by kind and name: the configuration keeps their names only.
	files map[[2]string]string
}

// Subscribe says which simulator is asked for its values.
type Subscribe struct {
	Address  string `toml:"address"`
	Rate     int    `toml:"rate"` // samples per second
	Discover bool   `toml:"discover"`
	Nearby   bool   `toml:"nearby"`
}

// Station is what is known in advance of a sender. A key that is left out is as for all other senders.
type Station struct {
	Address   string  `toml:"address"`
	Name      string  `toml:"name"`
	Maneuver  *string `toml:"maneuver"`
	Aircraft  *string `toml:"aircraft"`
	BankSign  *string `toml:"bank-sign"`
	PitchSign *string `toml:"pitch-sign"`
	Student   string  `toml:"student"`
}

// Recording says how sessions are recorded.
type Recording struct {
	Enabled  bool `toml:"enabled"`
	Rotate   int  `toml:"rotate-size"` // MB
	Compress bool `toml:"compress"`
	KeepDays int  `toml:"keep-days"`
	KeepSize int  `toml:"keep-size"` // MB
}

// Judging says what instructors and students do with grades.
type Judging struct {
	StudentFirst bool     `toml:"student-first"`
	Required     []string `toml:"required"` // "GRADE" for all maneuvers, "MANEUVER GRADE" for one
}

// RequiredOf is the grade that a maneuver must have at the end of a block; "" where none is asked for.
func (j *Judging) RequiredOf(maneuver string) (grade string) {
	for _, r := range j.Required {
		switch words := strings.Fields(r); {
		case len(words) == 1 && grade == "":
			grade = words[0]
		case len(words) == 2 && words[0] == maneuver:
			return words[1]
		}
	}
	return grade
}

// Speech says how callouts are spoken.
type Speech struct {
	Rate     float64  `toml:"words-per-minute"`
	Reaction float64  `toml:"reaction"` // s
	Command  []string `toml:"command"`
	Words    string   `toml:"words"`
	Station  string   `toml:"station"`
}

// Access says who is let in.
type Access struct {
	HomeIsOwner bool `toml:"home-is-owner"`
}

// TLS names the files by which the pages are served over TLS.
type TLS struct {
	Certificate string `toml:"certificate"`
	Key         string `toml:"key"`
}

// On reports whether the pages are served over TLS.
func (t *TLS) On() bool { return t.Certificate != "" }

// Log says what is logged.
type Log struct {
	Level  string `toml:"level"`
	Format string `toml:"format"`
}

// Duration is a time span written as "2m0s".
type Duration struct{ time.Duration }

// UnmarshalText reads "2m0s".
func (d *Duration) UnmarshalText(b []byte) (err error) {
	d.Duration, err = time.ParseDuration(string(b))
	return err
}

var _ encoding.TextUnmarshaler = (*Duration)(nil)

// An Error is a setting that cannot be used: a wrong call, not a failure of the program.
type Error struct{ error }

// NewError makes an [Error] of what was found wrong with a setting when it was used.
func NewError(err error) error { return Error{err} }

// Unwrap returns the error without its class.
func (e Error) Unwrap() error { return e.error }

// Load reads the configuration. file is what --config names, "" when it was not given; env looks an environment
// variable up; each of flags applies some flags of the command line. A bad value is an [Error].
func Load(file string, env func(string) (string, bool), flags ...func(*Config)) (*Config, error) {
	c := &Config{}
	shipped, err := configs.FS.ReadFile("halfturn.toml")
	if err != nil {
		return nil, err
	}
	if _, err := strict.Decode("configs/halfturn.toml", shipped, c); err != nil {
		return nil, err
	}
	if err := c.fromFile(file, env); err != nil {
		return nil, Error{err}
	}
	if err := c.fromEnvironment(reflect.ValueOf(c).Elem(), "", env); err != nil {
		return nil, Error{err}
	}
	for _, apply := range flags {
		apply(c)
	}
	if err := c.validate(); err != nil {
		return nil, Error{err}
	}
	return c, nil
}

// fromFile reads the user's file, named by the flag or by HALFTURN_CONFIG.
func (c *Config) fromFile(name string, env func(string) (string, bool)) error {
	source := "--config"
	if name == "" {
		given, ok := env("HALFTURN_CONFIG")
		if !ok || given == "" {
			return nil
		}
		source, name = "HALFTURN_CONFIG", kong.ExpandPath(given)
	}
	data, err := tomlfile.Read(name)
	if err != nil {
		return fmt.Errorf("%s: the configuration cannot be read: %w", source, err)
	}
	c.from.file, err = strict.Decode(name, data, c)
	return err
}
