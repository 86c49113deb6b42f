package wire

import (
	"testing"

	"halfturn/stream"
)

// go test -bench . -benchmem ./stream/wire

// BenchmarkDecode reads one datagram of each format with every channel it has a place for.
func BenchmarkDecode(b *testing.B) {
	for _, format := range Formats() {
		b.Run(format, func(b *testing.B) {
			r, datagram := warm(b, format)
			benchmark(b, r, datagram)
		})
	}
}

// BenchmarkDecodeRecorded reads real datagrams: 29 columns with labels, 29 without, 41
// columns, 41 pairs.
func BenchmarkDecodeRecorded(b *testing.B) {
	for _, name := range []string{"properties", "nolabels", "groups", "columns", "pairs"} {
		b.Run(name, func(b *testing.B) {
			all := datagrams(b, "flights/"+name+".txt")
			r := NewReader(Options{})
			decodeAllOf(r, all)
			benchmark(b, r, all[len(all)-10:]...)
		})
	}
}

func benchmark(b *testing.B, r *Reader, datagrams ...[]byte) {
	b.ReportAllocs()
	b.SetBytes(int64(len(datagrams[0])))
	var s stream.Sample
	for i := 0; b.Loop(); i++ {
		if err := r.Decode(datagrams[i%len(datagrams)], &s); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkJunk refuses the longest datagrams there are.
func BenchmarkJunk(b *testing.B) {
	for name, junk := range junkDatagrams() {
		b.Run(name, func(b *testing.B) {
			r := NewReader(Options{})
			b.ReportAllocs()
			var s stream.Sample
			for b.Loop() {
				if r.Decode(junk, &s) == nil {
					b.Fatal("junk was read")
				}
			}
		})
	}
}

// BenchmarkEncode writes one datagram of each format.
func BenchmarkEncode(b *testing.B) {
	for _, format := range Formats() {
		b.Run(format, func(b *testing.B) {
			e, in := mustEncoder(b, format), fullSample()
			b.ReportAllocs()
			var dst []byte
			for b.Loop() {
				dst = e.Append(dst[:0], &in)
			}
		})
	}
}
