package wire_test

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"time"

	"halfturn/stream"
	"halfturn/stream/wire/wiretest"
)

// jsonPeer is what encoding/json reads JSON lines into: a struct with a member for each channel, nil where it is
// missing.
var jsonPeer = func() reflect.Type {
	var fields []reflect.StructField
	for c := range stream.NumChannels {
		kind := reflect.TypeFor[*float64]()
		if c.Info().Flag {
			kind = reflect.TypeFor[any]()
		}
		fields = append(fields, reflect.StructField{
			Name: fmt.Sprintf("Channel%d", c),
			Type: kind,
			Tag:  reflect.StructTag(`json:"` + c.String() + `"`),
		})
	}
	return reflect.StructOf(fields)
}()

// readPeer reads an object by encoding/json and returns its heading.
func readPeer(b []byte) (heading float64, err error) {
	into := reflect.New(jsonPeer)
	if err := json.Unmarshal(b, into.Interface()); err != nil {
		return 0, err
	}
	return *into.Elem().Field(int(stream.Heading)).Interface().(*float64), nil
}

// columnsPeer reads columns as one would with the standard library: cut, and parse each number.
func columnsPeer(b []byte, into []float64) (n int, err error) {
	line := strings.TrimRight(string(b), "\r\n")
	for cell := range strings.SplitSeq(line, ",") {
		if cell = strings.TrimSpace(cell); cell == "" {
			continue
		}
		v, err := strconv.ParseFloat(cell, 64)
		if err != nil {
			at, err := time.Parse("2006-01-02T15:04:05", cell)
			if err != nil {
				return n, err
			}
			v = float64(at.Unix())
		}
		if n < len(into) {
			into[n] = v
			n++
		}
	}
	return n, nil
}

// BenchmarkPeers reads the same datagrams by the standard library. A decoder here also checks ranges, converts units
// and follows the layout of its stream.
func BenchmarkPeers(b *testing.B) {
	for _, name := range []string{"json", "columns"} {
		r, datagram := wiretest.Warm(b, name)
		b.Run(name+"/halfturn", func(b *testing.B) { benchmark(b, r, datagram) })
	}
	_, object := wiretest.Warm(b, "json")
	b.Run("json/encoding-json-struct", func(b *testing.B) {
		b.ReportAllocs()
		b.SetBytes(int64(len(object)))
		for b.Loop() {
			if _, err := readPeer(object); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("json/encoding-json-map", func(b *testing.B) {
		b.ReportAllocs()
		b.SetBytes(int64(len(object)))
		for b.Loop() {
			var p map[string]any
			if err := json.Unmarshal(object, &p); err != nil || p["heading"] == nil {
				b.Fatal(err)
			}
		}
	})
	_, row := wiretest.Warm(b, "columns")
	b.Run("columns/strconv", func(b *testing.B) {
		b.ReportAllocs()
		b.SetBytes(int64(len(row)))
		into := make([]float64, stream.NumChannels)
		for b.Loop() {
			if n, err := columnsPeer(row, into); err != nil || n == 0 {
				b.Fatal(err)
			}
		}
	})
}

// The peers read what the decoders read: else the comparison would be of different things.
func TestPeersAgree(t *testing.T) {
	for _, name := range []string{"json", "columns"} {
		r, datagram := wiretest.Warm(t, name)
		var s stream.Sample
		if err := r.Decode(datagram, 0, &s); err != nil {
			t.Fatal(err)
		}
		heading := s.Value(stream.Heading)
		if name == "json" {
			if got, err := readPeer(datagram); err != nil || got != heading {
				t.Errorf("encoding/json: %v, %v; must be %v", got, err, heading)
			}
			continue
		}
		into := make([]float64, stream.NumChannels)
		n, err := columnsPeer(datagram, into)
		near := false
		for _, v := range into[:n] {
			near = near || math.Abs(v-heading) < 1e-9
		}
		if err != nil || !near {
			t.Errorf("strconv: no column of %d is %v, %v", n, heading, err)
		}
	}
}
