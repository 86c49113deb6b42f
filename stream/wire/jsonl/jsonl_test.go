package jsonl_test

import (
	"bytes"
	"encoding/json"
	"math"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/jsonl"
	"halfturn/stream/wire/scan"
	"halfturn/stream/wire/wiretest"
)

// FuzzJSON also holds the decoder against the standard library: what that takes for an object, this one takes too, with
// the same numbers.
func FuzzJSON(f *testing.F) {
	wiretest.NeedSeeds(f, "FuzzJSON")
	f.Fuzz(func(t *testing.T, b []byte) {
		wiretest.Feed(t, format.Options{}, nil, b, "json")
		var want map[string]any
		if len(b) > scan.MaxLine || json.Unmarshal(b, &want) != nil || want == nil || bytes.ContainsAny(b, "\\\n") {
			return // escaped names are not resolved, on purpose, and a line end ends a record
		}
		var s stream.Sample
		err := jsonl.Format.New(nil).Decode(b, 0, &s)
		if err != nil && err != fault.ErrNoChannels && s.Has|s.Bad == 0 {
			t.Fatalf("%q is JSON, but: %v", b, err)
		}
		for name, v := range want {
			c, known := stream.ChannelNamed(name)
			num, isNumber := v.(float64)
			if !known || !isNumber || c.Info().Flag {
				continue
			}
			var one stream.Sample
			one.Put(c, num)
			if one.Value(c) != s.Value(c) || math.Signbit(one.Value(c)) != math.Signbit(s.Value(c)) {
				t.Fatalf("%q: %s = %v; must be %v", b, name, s.Value(c), num)
			}
		}
	})
}
