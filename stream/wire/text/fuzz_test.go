package text_test

import (
	"testing"

	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
	"halfturn/stream/wire/wiretest"
)

const fuzzLabels = "<LABELS> ,Time,psi-deg,theta-deg,phi-deg,vc-kts,Latitude (deg),n-pilot-z-norm,WOW\n"

func FuzzLabels(f *testing.F) {
	wiretest.NeedSeeds(f, "FuzzLabels")
	f.Fuzz(func(t *testing.T, b []byte) {
		wiretest.Feed(t, format.Options{}, []string{fuzzLabels}, b, "labels")
	})
}

func FuzzColumns(f *testing.F) {
	wiretest.NeedSeeds(f, "FuzzColumns")
	f.Fuzz(func(t *testing.T, b []byte) {
		wiretest.Feed(t, format.Options{Map: mapping.ShippedNamed("flightgear")}, nil, b, "columns")
		wiretest.Feed(t, format.Options{}, []string{string(b), string(b), string(b), string(b)}, b, "columns")
	})
}

func FuzzPairs(f *testing.F) {
	wiretest.NeedSeeds(f, "FuzzPairs")
	f.Fuzz(func(t *testing.T, b []byte) { wiretest.Feed(t, format.Options{}, nil, b, "pairs") })
}
