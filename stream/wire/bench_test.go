package wire_test

import (
	"testing"

	"halfturn/stream"
	"halfturn/stream/trainer/encode"
	"halfturn/stream/wire"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/wiretest"
)

// go test -bench . -benchmem ./stream/wire

// BenchmarkDecode reads one datagram of each format with every channel it has a place for.
func BenchmarkDecode(b *testing.B) {
	for _, name := range encode.Formats() {
		b.Run(name, func(b *testing.B) {
			r, datagram := wiretest.Warm(b, name)
			benchmark(b, r, datagram)
		})
	}
}

// BenchmarkDecodeRecorded reads real datagrams: 29 columns with labels, 29 without, 41
// columns, 41 pairs.
func BenchmarkDecodeRecorded(b *testing.B) {
	for _, name := range []string{"properties", "nolabels", "groups", "columns", "pairs"} {
		b.Run(name, func(b *testing.B) {
			all := wiretest.ReadLines(b, "flights/"+name+".txt")
			r := wire.NewReader(format.Options{})
			wiretest.DecodeAll(r, all)
			benchmark(b, r, all[len(all)-10:]...)
		})
	}
}

func benchmark(b *testing.B, r *wire.Reader, datagrams ...[]byte) {
	b.ReportAllocs()
	b.SetBytes(int64(len(datagrams[0])))
	var s stream.Sample
	for i := 0; b.Loop(); i++ {
		if err := r.Decode(datagrams[i%len(datagrams)], 0, &s); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkJunk refuses the longest datagrams there are.
func BenchmarkJunk(b *testing.B) {
	for name, junk := range junkDatagrams() {
		b.Run(name, func(b *testing.B) {
			r := wire.NewReader(format.Options{})
			b.ReportAllocs()
			var s stream.Sample
			for b.Loop() {
				if r.Decode(junk, 0, &s) == nil {
					b.Fatal("junk was read")
				}
			}
		})
	}
}
