package message

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/stream/phrase"
)

// aFrame is a message with every member of a frame set.
func aFrame(t testing.TB) []byte {
	t.Helper()
	full := reflect.New(reflect.TypeFor[*coach.Frame]()).Elem()
	fill(t, full, 1)
	b, err := json.Marshal(Message{Station: "Seat <3> \"ä\"", Body: Frame{full.Interface().(*coach.Frame)}})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// TestDecodeFrame: what is read in one pass is what Decode reads, which rests on encoding/json.
func TestDecodeFrame(t *testing.T) {
	for _, text := range []string{
		string(aFrame(t)),
		`{"type":"frame","station":"a"}`,
		`{"type":"frame","station":"a","climb":null,"values":null,"cues":[],"later":{"than":[1,{}]},"turn":-1e-7}`,
		`{"turn":4,"station":"\u00e9\ud83d\ude00","type":"frame"}`,
	} {
		m, err := Decode([]byte(text))
		if err != nil {
			t.Fatal(err)
		}
		station, f, err := DecodeFrame([]byte(text))
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		if station != m.Station {
			t.Errorf("%s: of station %q; must be %q", text, station, m.Station)
		}
		if diff := cmp.Diff(m.Body.(Frame).Frame, f, cmp.Comparer(samePhrase)); diff != "" {
			t.Errorf("%s:\n%s", text, diff)
		}
	}
}

func samePhrase(a, b phrase.Phrase) bool { return reflect.DeepEqual(a, b) }

// TestDecodeFrameRefuses: what is no frame gives an error that says why.
func TestDecodeFrameRefuses(t *testing.T) {
	for text, says := range map[string]string{
		`{`:                                 "cannot be read",
		`[]`:                                "cannot be read",
		`{"type":"frame"} x`:                "cannot be read",
		`{"type":"frame","turn":"far"}`:     "cannot be read",
		`{"type":"leg","station":"a"}`:      `"leg"`,
		`{"station":"a"}`:                   `""`,
		strings.Repeat(`{"a":`, maxFrame):   "more than any",
		strings.Repeat(`{"a":`, 1000) + `1`: "cannot be read",
	} {
		if _, f, err := DecodeFrame([]byte(text)); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%.60s: %+v, %v", text, f, err)
		}
	}
}

// FuzzDecodeFrame: what can be read as a frame, Decode reads as the same.
func FuzzDecodeFrame(f *testing.F) {
	f.Add(aFrame(f))
	f.Add([]byte(`{"type":"frame","station":"a","turn":1,"gates":[{}],"next":{"want":"level"}}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		station, frame, err := DecodeFrame(data)
		if err != nil {
			return
		}
		written, err := json.Marshal(Message{Station: station, Body: Frame{frame}})
		if err != nil {
			t.Fatal(err)
		}
		if m, err := Decode(written); err != nil || m.Station != station {
			t.Fatalf("%s: %+v, %v", written, m, err)
		}
	})
}

// BenchmarkDecodeFrame measures what a frame from another node takes to read, beside what reads any message.
func BenchmarkDecodeFrame(b *testing.B) {
	data := aFrame(b)
	b.Run("frame", func(b *testing.B) {
		for b.Loop() {
			if _, _, err := DecodeFrame(data); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("any", func(b *testing.B) {
		for b.Loop() {
			if _, err := Decode(data); err != nil {
				b.Fatal(err)
			}
		}
	})
}
