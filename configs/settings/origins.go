package settings

import (
	"fmt"
	"strings"

	"halfturn/configs/strict"
)

// origins record where each value comes from: a flag or an environment variable, by name; everything else comes
// from the user's file, or is a default.
type origins struct {
	file  *strict.File      // nil when there is none
	named map[string]string // flags and variables, by key
}

func (o *origins) set(key, name string) {
	if o.named == nil {
		o.named = map[string]string{}
	}
	o.named[key] = name
}

// added appends to the list of a key what a flag gives.
func (o *origins) added(key, flag string, list, more []string) []string {
	for _, s := range more {
		o.set(element(key, len(list)), flag)
		list = append(list, s)
	}
	return list
}

// of returns the flag or variable that set a key such as "allow[1]", or what contains it.
func (o *origins) of(key string) string {
	for key != "" {
		if name, ok := o.named[key]; ok {
			return name
		}
		key = key[:max(strings.LastIndexAny(key, ".["), 0)]
	}
	return ""
}

// Errorf makes an error about the value of a key. It begins with the flag or the variable, or with file and line.
func (c *Config) Errorf(key, format string, args ...any) error {
	if name := c.from.of(key); name != "" {
		return fmt.Errorf("%s: %s", name, fmt.Sprintf(format, args...))
	}
	if c.from.file == nil {
		return fmt.Errorf("the default of %s %s", key, fmt.Sprintf(format, args...))
	}
	return c.from.file.Errorf(key, format, args...)
}

// Blame puts where the value of a key comes from before an error that was found later. A default is not to blame.
func (c *Config) Blame(key string, err error) error {
	o := &c.from
	name := o.of(key)
	list, _, _ := strings.Cut(key, "[")
	if name == "" && o.file != nil && (o.file.Has(key) || o.file.Has(list)) {
		name = strings.TrimSuffix(o.file.Errorf(key, "").Error(), ": ")
	}
	if name == "" {
		return err
	}
	return fmt.Errorf("%s: %w", name, err)
}

// BlameOr is [Config.Blame], but for a default it names the flag that changes it.
func (c *Config) BlameOr(key, flag string, err error) error {
	if named := c.Blame(key, err); named != err {
		return named
	}
	return fmt.Errorf("%w (%s)", err, flag)
}

// BlameListening is [Config.BlameOr] for an error of listening to simulators: the address is of one of two settings.
func (c *Config) BlameListening(err error) error {
	if strings.HasPrefix(err.Error(), "simulator address ") {
		return c.BlameOr("subscribe.address", "--subscribe", err)
	}
	return c.BlameOr("udp", "--udp", err)
}
