package xplane_test

import (
	"testing"

	"halfturn/stream/wire/format"
	"halfturn/stream/wire/vectors"
	"halfturn/stream/wire/xplane"
)

func TestVectors(t *testing.T) {
	vectors.Family{New: func(*vectors.Message) format.Decoder { return xplane.Positions.New(nil) }}.Check(t)
}
