package base

import (
	"halfturn/coach/stored"
	"halfturn/configs/settings"
	"halfturn/stream/phrase"
)

// Flags are the flags of all commands that coach. A pointer is nil where the flag was not given.
type Flags struct {
	Config   string   `help:"Configuration file; HALFTURN_CONFIG names one too." placeholder:"FILE" type:"path"`
	Maneuver *string  `help:"Maneuver card by name, a card file, or auto." placeholder:"NAME"`
	Standard *string  `help:"Standard to judge by: practice, course or check." placeholder:"NAME"`
	Aircraft *string  `help:"Aircraft card by name, or a card file; \"\" for none." placeholder:"NAME"`
	Cards    []string `help:"Folder of your own cards; repeatable." placeholder:"DIR" type:"path"`
	Map      []string `help:"Column map for text streams and logs; repeatable." placeholder:"FILE"`
}

// apply puts the flags over the rest of the configuration.
func (f *Flags) apply(c *settings.Config) {
	c.SetChoice(f.Maneuver, f.Standard, f.Aircraft)
	c.AddCards(f.Cards)
	c.AddMaps(f.Map)
}

// Load reads the configuration with the common flags, and those that a command has in addition.
func Load(
	f *Flags, env func(string) (string, bool), further ...func(*settings.Config),
) (*settings.Config, error) {
	return settings.Load(f.Config, env, append([]func(*settings.Config){f.apply}, further...)...)
}

// CheckRate checks the rows a second that --rate gives; 0 where it was not given.
func CheckRate(in *phrase.Language, rate float64) error {
	const least, most = 0.1, 1000
	if rate != 0 && !(rate >= least && rate <= most) {
		return Usagef(in, "%s is %v; must be between %v and %v", "--rate", rate, least, most)
	}
	return nil
}

// DataDir is the data directory: the flag's, or else the configuration's.
func DataDir(in *phrase.Language, cfg *settings.Config, flag string) (string, error) {
	switch {
	case settings.IsConnection(flag):
		return "", Usagef(in, "--data is a data directory, and no connection string; what works on a cluster takes "+
			"its file with --cluster")
	case flag != "":
		return flag, nil
	}
	return cfg.DataDir()
}

// Judging says by which cards recordings are judged: those of the configuration, unless flags ask for others; nil means
// no flags.
func Judging(c *settings.Config, flags *Flags) *stored.Judge {
	j := &stored.Judge{Setup: settings.Setup{Config: c}}
	if flags != nil {
		j.Asked = stored.Override{Maneuver: flags.Maneuver, Standard: flags.Standard, Aircraft: flags.Aircraft}
		j.Today = len(flags.Cards) > 0
	}
	return j
}
