package console

import (
	"io"
	"os"
	"sync/atomic"
	"time"

	"github.com/rs/zerolog"

	"halfturn/configs/settings"
)

// A Level is how much a log and all made from it say; it may change while they are used.
type Level struct{ least atomic.Int32 }

// Set sets the level by its name, one of settings.Levels.
func (l *Level) Set(name string) {
	least, _ := zerolog.ParseLevel(name) // validated
	l.least.Store(int32(least))
}

// Sample reports whether a message of a level is logged. It implements zerolog.Sampler, which is asked before anything
// is formatted.
func (l *Level) Sample(of zerolog.Level) bool { return int32(of) >= l.least.Load() }

// NewLogger makes the log as configured: text for people on a terminal, JSON elsewhere, unless the format is set.
func NewLogger(c *settings.Log, w io.Writer) (zerolog.Logger, *Level) {
	level := &Level{}
	level.Set(c.Level)
	if IsText(c, w) {
		w = zerolog.ConsoleWriter{
			Out:           Raw(w),
			TimeFormat:    time.TimeOnly,
			NoColor:       os.Getenv("NO_COLOR") != "",
			FormatPrepare: visibleFields,
		}
	}
	return zerolog.New(w).With().Timestamp().Logger().Sample(level), level
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
