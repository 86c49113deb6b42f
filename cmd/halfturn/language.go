package main

import (
	"github.com/alecthomas/kong"

	"halfturn/cmd/halfturn/base"
	"halfturn/configs/settings"
	"halfturn/stream/phrase"
	"halfturn/web"
)

// languageOf is the language of what is printed: that of the flag, or else of the environment or the configuration
// that the command reads. What is wrong with a configuration the command says itself, in English.
func languageOf(parsed *kong.Context, flag *string, env func(string) (string, bool)) (*phrase.Language, error) {
	if flag != nil {
		l, err := web.Language(*flag)
		if err != nil {
			return nil, base.Usagef("--%w", err)
		}
		return l, nil
	}
	file := ""
	for _, f := range parsed.Flags() {
		if f.Name == "config" {
			file, _ = parsed.FlagValue(f).(string)
		}
	}
	cfg, err := settings.Load(file, env)
	if err != nil {
		return nil, nil
	}
	return web.Language(cfg.Language)
}
