package wire

import (
	"slices"

	"halfturn/stream/wire/format"
)

// Formats returns all formats that are read.
func Formats() []*format.Format {
	return slices.DeleteFunc(slices.Clone(formats), func(f *format.Format) bool { return f.New == nil })
}
