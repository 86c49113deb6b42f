package main

import (
	"github.com/rs/zerolog"

	"halfturn/cmd/halfturn/console"
)

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
