package console

import (
	"io"
	"os"
	"time"

	"github.com/rs/zerolog"

	"halfturn/configs/settings"
)

// NewLogger makes the log as configured: text for people on a terminal, JSON elsewhere, unless the format is set.
func NewLogger(c *settings.Log, w io.Writer) zerolog.Logger {
	level, _ := zerolog.ParseLevel(c.Level) // validated
	if IsText(c, w) {
		w = zerolog.ConsoleWriter{
			Out:           Raw(w),
			TimeFormat:    time.TimeOnly,
			NoColor:       os.Getenv("NO_COLOR") != "",
			FormatPrepare: visibleFields,
		}
	}
	return zerolog.New(w).Level(level).With().Timestamp().Logger()
}

// IsText reports whether the log is text for people.
func IsText(c *settings.Log, w io.Writer) bool {
	return c.Format == "text" || c.Format == "auto" && IsTerminal(w)
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
		return Line(v)
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
