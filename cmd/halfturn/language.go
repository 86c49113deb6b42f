package main

import (
	"fmt"
	"strings"

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
			return nil, base.Usage(fmt.Errorf("--%w", err))
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

// languageAsked is the language of what is printed about a call that is not understood: that of its flag or of the
// environment. Where that is wrong, too, it is English.
func languageAsked(args []string, env func(string) (string, bool)) *phrase.Language {
	code, _ := env("HALFTURN_LANGUAGE")
	for i, arg := range args {
		if value, ok := strings.CutPrefix(arg, "--language="); ok {
			code = value
		} else if arg == "--language" && i+1 < len(args) {
			code = args[i+1]
		}
	}
	l, err := web.Language(code)
	if err != nil {
		return nil
	}
	return l
}
