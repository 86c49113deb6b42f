package coach

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"
)

// A frame is written as encoding/json writes it, whatever stands in its members, those of later versions too: they are
// found by reflection.
func TestAppendJSONIsThatOfTheLibrary(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 5000 {
		f := &Frame{}
		fillRandom(rng, reflect.ValueOf(f).Elem())
		want, err := json.Marshal(f)
		if err != nil {
			t.Fatal(err)
		}
		got, err := f.AppendJSON([]byte("before"))
		if err != nil {
			t.Fatal(err)
		}
		if string(got) != "before"+string(want) {
			t.Fatalf("got\n%s, want\nbefore%s", got, want)
		}
	}
}

// fillRandom sets a value and all that is in it, pointers, slices and maps also to nil and to empty.
func fillRandom(rng *rand.Rand, v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		v.SetFloat(randomFloat(rng))
	case reflect.Bool:
		v.SetBool(rng.IntN(2) == 0)
	case reflect.String:
		texts := []string{"", "set-up", "45°", "a \"word\" <of> it & more\\", "line\nend\t\x00\x7f", "\u2028\u2029é", "\xff\xfe broken \xe2\x80", "\ufffd"}
		v.SetString(texts[rng.IntN(len(texts))])
	case reflect.Pointer:
		if rng.IntN(3) > 0 {
			v.Set(reflect.New(v.Type().Elem()))
			fillRandom(rng, v.Elem())
		}
	case reflect.Slice:
		if n := rng.IntN(5) - 1; n >= 0 {
			v.Set(reflect.MakeSlice(v.Type(), n, n))
			for i := range n {
				fillRandom(rng, v.Index(i))
			}
		}
	case reflect.Map:
		n := rng.IntN(25) - 1
		if n >= 0 {
			v.Set(reflect.MakeMap(v.Type()))
		}
		for range n {
			key, value := reflect.New(v.Type().Key()).Elem(), reflect.New(v.Type().Elem()).Elem()
			fillRandom(rng, key)
			fillRandom(rng, value)
			if rng.IntN(2) == 0 {
				key.SetString(string(rune('a' + rng.IntN(26))))
			}
			v.SetMapIndex(key, value)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			fillRandom(rng, v.Field(i))
		}
	default:
		panic("a frame holds a " + v.Kind().String() + ": fill it here")
	}
}

func randomFloat(rng *rand.Rand) float64 {
	switch rng.IntN(5) {
	case 0:
		few := []float64{0, math.Copysign(0, -1), 1e-6, 9.9e-7, 1e21, 9.9e20, -1e21, 1e-7, 1.5e-10, 1e-100, 5e-324, math.MaxFloat64, 1e100}
		return few[rng.IntN(len(few))]
	case 1:
		for {
			if v := math.Float64frombits(rng.Uint64()); v-v == 0 {
				return v
			}
		}
	}
	return math.Round(rng.Float64()*1e5-5e4) / 100
}

func TestAppendJSONRefusesWhatIsNoNumber(t *testing.T) {
	nan := math.NaN()
	for name, f := range map[string]*Frame{
		"time":      {Time: nan},
		"infinite":  {Turn: math.Inf(-1)},
		"a pointer": {Stall: &nan},
		"a value":   {Values: map[string]float64{"bank": nan}},
		"a cue":     {Cues: []NextCue{{To: 45, Seconds: nan}}},
	} {
		if _, err := f.AppendJSON(nil); err == nil {
			t.Errorf("%s that is no number was written", name)
		}
	}
}

func TestAppendJSONAllocatesNothing(t *testing.T) {
	far := 5.2
	f := &Frame{Time: 12.3, State: "leg", Direction: "right", Turn: 44.9, Phase: "climb", Values: map[string]float64{}, PointFar: &far,
		Next: &Next{Turn: 45, Label: "45°", Words: "nose highest", Want: "bank 45°", Seconds: &far}, Cues: []NextCue{{90, 4}}, Gates: []Gate{}}
	for i, c := range shown {
		f.Values[c.String()] = float64(i) / 3
	}
	b := make([]byte, 0, 4096)
	if n := testing.AllocsPerRun(100, func() { b, _ = f.AppendJSON(b[:0]) }); n != 0 {
		t.Errorf("%v allocations, want none", n)
	}
}
