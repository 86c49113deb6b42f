package dis_test

import (
	"testing"

	"halfturn/stream/wire/dis"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/vectors"
)

func TestVectors(t *testing.T) {
	vectors.Family{
		New:       func(*vectors.Message) format.Decoder { return dis.Format.New(nil) },
		Tolerance: 2e-4, // three angles and three speeds of 32 bits make one
	}.Check(t)
}
