package encode

import (
	"strconv"

	"halfturn/stream"
)

// JSON lines.
var jsonFormat = &written{
	Name:  "json",
	Reads: "JSON lines",
	Loss: Loss{
		Magnetic: true,
	},
	make: ready(json{}),
}

// json writes JSON lines.
type json struct{}

func (json) Preamble() []byte { return nil }

func (json) Channels() stream.Set { return 1<<stream.NumChannels - 1 }

func (json) Append(dst []byte, s *stream.Sample) []byte {
	sep := byte('{')
	for c := range stream.NumChannels {
		v, ok := s.Get(c)
		if !ok {
			continue
		}
		dst = append(append(append(dst, sep, '"'), c.Info().Name...), '"', ':')
		sep = ','
		if c.Info().Flag {
			dst = strconv.AppendBool(dst, v != 0)
		} else {
			dst = strconv.AppendFloat(dst, v, 'g', -1, 64)
		}
	}
	if s.Magnetic {
		dst = append(append(dst, sep), `"magnetic":true`...)
		sep = ','
	}
	if sep == '{' {
		dst = append(dst, sep)
	}
	return append(dst, '}', '\n')
}
