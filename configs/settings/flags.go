package settings

import "fmt"

// Set sets a key from the flag of the same name; a nil value was not given and changes nothing.
func Set[T any](c *Config, key string, to, value *T) { SetFrom(c, key, "--"+key, to, value) }

// SetFrom is [Set] for a flag whose name differs from the key.
func SetFrom[T any](c *Config, key, flag string, to, value *T) {
	if value != nil {
		*to = *value
		c.from.set(key, flag)
	}
}

// SetChoice takes --maneuver, --standard and --aircraft; nil is a flag that was not given.
func (c *Config) SetChoice(maneuver, standard, aircraft *string) {
	c.chosen = c.chosen || maneuver != nil || standard != nil || aircraft != nil
	Set(c, "maneuver", &c.Maneuver, maneuver)
	Set(c, "standard", &c.Standard, standard)
	Set(c, "aircraft", &c.Aircraft, aircraft)
}

// Chosen reports whether a flag says what is flown, which overrides what a station chose before.
func (c *Config) Chosen() bool { return c.chosen }

// AddCards takes the folders of --cards, which are read after those of the configuration.
func (c *Config) AddCards(folders []string) {
	c.Cards = c.from.added("cards", "--cards", c.Cards, folders)
}

// AddMaps takes the files of --map, which are added to those of the configuration.
func (c *Config) AddMaps(files []string) { c.Maps = c.from.added("maps", "--map", c.Maps, files) }

// SubscribeTo takes --subscribe: an address, or "auto" to find the simulator by its beacon.
func (c *Config) SubscribeTo(flag *string) {
	if flag == nil {
		return
	}
	c.from.set("subscribe.address", "--subscribe")
	c.from.set("subscribe.discover", "--subscribe")
	c.Subscribe.Address, c.Subscribe.Discover = *flag, *flag == "auto"
	if c.Subscribe.Discover {
		c.Subscribe.Address = ""
	}
}

// ListenOn takes the addresses of --udp, which replace those of the configuration.
func (c *Config) ListenOn(udp []string) {
	if len(udp) > 0 {
		c.UDP = udp
		c.from.set("udp", "--udp")
	}
}

// WithChoice returns a copy in which a recording's own choice of cards replaces the configured one. Errors about
// it blame no flag: it comes from the recording.
func (c *Config) WithChoice(maneuver, standard, aircraft string) *Config {
	copied := *c
	copied.Maneuver, copied.Standard, copied.Aircraft, copied.from = maneuver, standard, aircraft, origins{}
	return &copied
}

// WithCards returns a copy that also reads the cards of a folder. Errors blame no flag.
func (c *Config) WithCards(folder string) *Config {
	copied := *c
	copied.Cards = append(append([]string{}, c.Cards...), folder)
	copied.from = origins{}
	return &copied
}

// element names one value of a list: "cards[0]".
func element(key string, i int) string { return fmt.Sprintf("%s[%d]", key, i) }
