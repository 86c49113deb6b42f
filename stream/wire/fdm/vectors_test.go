package fdm_test

import (
	"testing"

	"halfturn/stream/wire/fdm"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/vectors"
)

func TestVectors(t *testing.T) {
	vectors.Family{New: func(*vectors.Message) format.Decoder { return fdm.Format.New(nil) }}.Check(t)
}
