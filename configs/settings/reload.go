package settings

import (
	"reflect"
	"slices"
)

// live are the keys that a running server takes over when its configuration is read again, with all keys of a table
// that is named. Everything else is bound to sockets, stations or recordings that are open, and needs a restart.
var live = []string{
	"cards",
	"judging",
	"log.level",
	"max-rate",
	"max-stations",
	"recording.compress",
	"recording.keep-days",
	"recording.keep-size",
	"tls",
}

// Changes lists the keys whose values differ in a configuration that was read again: those that a running server takes
// over, and those that need a restart.
func (c *Config) Changes(again *Config) (taken, restart []string) {
	for _, key := range differing(reflect.ValueOf(c).Elem(), reflect.ValueOf(again).Elem(), "", nil) {
		table := tableOf(key)
		on := table != "tls" || c.TLS.On() == again.TLS.On() // else another protocol is spoken on the socket
		if on && (slices.Contains(live, key) || slices.Contains(live, table)) {
			taken = append(taken, key)
		} else {
			restart = append(restart, key)
		}
	}
	return taken, restart
}

// tableOf is the table of a key such as "log.level"; "" where it is in none.
func tableOf(key string) string {
	for i, r := range key {
		if r == '.' {
			return key[:i]
		}
	}
	return ""
}

// differing appends the keys below two structs whose values differ.
func differing(a, b reflect.Value, prefix string, keys []string) []string {
	for f, v := range a.Fields() {
		if !f.IsExported() {
			continue
		}
		key, other := prefix+f.Tag.Get("toml"), b.FieldByIndex(f.Index)
		switch {
		case f.Type.Kind() == reflect.Struct && f.Type != reflect.TypeFor[Duration]():
			keys = differing(v, other, key+".", keys)
		case !reflect.DeepEqual(v.Interface(), other.Interface()):
			keys = append(keys, key)
		}
	}
	return keys
}

// Updated returns a copy of the configuration of a running server that takes over from one that was read again what
// [Config.Changes] says it can. Errors about its values blame the new file.
func (c *Config) Updated(again *Config) *Config {
	next := *c
	next.Cards, next.Judging = again.Cards, again.Judging
	next.MaxRate, next.MaxStations = again.MaxRate, again.MaxStations
	next.Log.Level = again.Log.Level
	r := &again.Recording
	next.Recording.Compress, next.Recording.KeepDays, next.Recording.KeepSize = r.Compress, r.KeepDays, r.KeepSize
	if c.TLS.On() == again.TLS.On() {
		next.TLS = again.TLS
	}
	next.from = again.from
	return &next
}
