package main

import (
	"io"
	"os"
	"time"

	"github.com/rs/zerolog"

	"halfturn/cmd/halfturn/console"
	"halfturn/configs/settings"
)

// newLogger makes the log as configured: text for people on a terminal, JSON elsewhere, unless the format is set.
func newLogger(c *settings.Log, w io.Writer) zerolog.Logger {
	level, _ := zerolog.ParseLevel(c.Level) // validated
	if c.Format == "text" || c.Format == "auto" && console.IsTerminal(w) {
		w = zerolog.ConsoleWriter{
			Out:           console.Raw(w),
			TimeFormat:    time.TimeOnly,
			NoColor:       os.Getenv("NO_COLOR") != "",
			FormatPrepare: visibleFields,
		}
	}
	return zerolog.New(w).Level(level).With().Timestamp().Logger()
}

// visibleFields escapes what a log line for people says: the console of zerolog, which colors it, quotes only fields
// that are texts.
func visibleFields(fields map[string]any) error {
	for key, v := range fields {
		if _, text := v.(string); !text || key == zerolog.MessageFieldName {
			fields[key] = visibleValue(v)
		}
	}
	return nil
}

func visibleValue(v any) any {
	switch v := v.(type) {
	case string:
		return console.Line(v)
	case []any:
		for i := range v {
			v[i] = visibleValue(v[i])
		}
	case map[string]any:
		for key := range v {
			v[key] = visibleValue(v[key])
		}
	}
	return v
}
