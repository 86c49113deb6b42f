package main

import (
	"halfturn/configs/settings"
)

// common are the flags of all commands that coach. A pointer is nil where the flag was not given.
type common struct {
	Config   string   `help:"Configuration file; HALFTURN_CONFIG names one too." placeholder:"FILE" type:"path"`
	Maneuver *string  `help:"Maneuver card by name, a card file, or auto." placeholder:"NAME"`
	Standard *string  `help:"Standard to judge by: practice, course or check." placeholder:"NAME"`
	Aircraft *string  `help:"Aircraft card by name, or a card file; \"\" for none." placeholder:"NAME"`
	Cards    []string `help:"Folder of your own cards; repeatable." placeholder:"DIR" type:"path"`
	Map      []string `help:"Column map for text streams; repeatable." placeholder:"FILE" type:"path"`
}

// apply puts the flags over the rest of the configuration.
func (f *common) apply(c *settings.Config) {
	c.SetChoice(f.Maneuver, f.Standard, f.Aircraft)
	c.AddCards(f.Cards)
	c.AddMaps(f.Map)
}

// loadConfig reads the configuration with the common flags, and those that a command has in addition.
func loadConfig(
	f *common, env func(string) (string, bool), further ...func(*settings.Config),
) (*settings.Config, error) {
	return settings.Load(f.Config, env, append([]func(*settings.Config){f.apply}, further...)...)
}

// set takes the value of a flag where it was given.
func set[T any](to, value *T) {
	if value != nil {
		*to = *value
	}
}
