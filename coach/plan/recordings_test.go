package plan_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/pipeline"
	"halfturn/stream/streamtest"
)

// A flight is what flights.json says of a recording.
type flight struct {
	Aircraft, Maneuver, Kind, Intended string
	Leg                                any // that has the flaw: a number or "both"
	Legs                               []struct {
		Direction string
		Start     float64
		Exit      struct{ Time float64 }
	}
}

// good reports whether a leg of the flight is a good one, as the pilot meant it.
func (f *flight) good(leg int) bool {
	switch {
	case f.Kind == "good", f.Kind == "gentle-roll", f.Kind == "" && strings.Contains(f.Intended, "good") && leg > 0:
		return true
	case f.Kind == "" && (strings.HasPrefix(f.Intended, "good") || strings.HasPrefix(f.Intended, "nothing")):
		return true
	case f.Kind != "" && f.Leg != "both":
		return f.Leg != float64(leg+1)
	}
	return false
}

var cards = map[string]string{"steep-turns": "steep-turn", "steep-turn": "steep-turn", "wing-over": "wing-over",
	"lazy-eight": "lazy-eight", "chandelle-civil": "chandelle-civil", "chandelle-traditional": "chandelle-traditional"}

// measureAll measures the good legs of all recordings in and below a folder.
func measureAll(t *testing.T, folder string) (legs []flown) {
	t.Helper()
	err := filepath.WalkDir(folder, func(file string, _ fs.DirEntry, err error) error {
		if err != nil || filepath.Base(file) != "flights.json" {
			return err
		}
		b, err := os.ReadFile(file)
		if err != nil {
			return err
		}
		var index struct{ Flights map[string]*flight }
		if err := json.Unmarshal(b, &index); err != nil {
			return fmt.Errorf("%s: %w", file, err)
		}
		for _, name := range slices.Sorted(maps.Keys(index.Flights)) {
			path := filepath.Join(filepath.Dir(file), name+".pcap.gz")
			legs = append(legs, measureFlight(t, path, name, index.Flights[name])...)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return legs
}

func measureFlight(t *testing.T, file, name string, f *flight) (legs []flown) {
	t.Helper()
	card, known := cards[f.Maneuver]
	var samples []stream.Sample
	for i, leg := range f.Legs {
		if !known || !f.good(i) || leg.Exit.Time == 0 {
			continue
		}
		if samples == nil {
			samples = readSamples(t, file)
		}
		l := flown{name: fmt.Sprintf("%s.%d", name, i+1), class: f.Aircraft, maneuver: card}
		side := map[string]float64{"right": 1, "left": -1}[leg.Direction]
		if l.measure(samples, leg.Start, leg.Exit.Time, side) {
			legs = append(legs, l)
		}
	}
	return legs
}

func readSamples(t *testing.T, file string) (samples []stream.Sample) {
	t.Helper()
	if _, err := os.Stat(file); errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	p := pipeline.New(pipeline.Options{})
	for _, d := range streamtest.Read(t, file) {
		if s, result := p.Feed(d.Payload, d.Seconds()); result.Outcome == pipeline.Accepted {
			samples = append(samples, *s)
		}
	}
	return samples
}

// measure takes the numbers of a leg from samples; side is 1 to the right.
func (l *flown) measure(samples []stream.Sample, start, exit, side float64) bool {
	n, first := 0.0, -1
	var leg []stream.Sample
	for i := range samples {
		s := &samples[i]
		switch at := s.Value(stream.Time); {
		case at >= start-2 && at < start:
			l.entry += s.Value(stream.Airspeed)
			l.altitude += s.Value(stream.Altitude)
			n++
		case at >= start && at <= exit:
			leg = append(leg, *s)
		}
	}
	for i := range leg {
		if side*leg[i].Value(stream.Bank) > 5 {
			first = i
			break
		}
	}
	if n == 0 || first < 0 {
		return false
	}
	for first > 0 && side*leg[first].Value(stream.Bank) > 1 {
		first--
	}
	l.entry, l.altitude, l.duration = l.entry/n, l.altitude/n, exit-leg[first].Value(stream.Time)
	l.slowest, l.top = math.Inf(1), math.Inf(-1)
	for i := range leg {
		speed, height := leg[i].Value(stream.Airspeed), leg[i].Value(stream.Altitude)-l.altitude
		l.slowest = math.Min(l.slowest, speed)
		if height > l.top {
			l.top, l.speed = height, speed
		}
		l.load = math.Max(l.load, meanLoad(leg, i))
	}
	l.shape = shapeOf(samples, start, exit, side, exit-l.duration)
	return true
}

// shapeOf takes attitude, time since a moment, airspeed and height of a leg at every 15° of turn.
func shapeOf(samples []stream.Sample, start, exit, side, begin float64) (shape []mark) {
	var level mark // the means of the two seconds before
	n, turn, was := 0.0, 0.0, math.NaN()
	for i := range samples {
		s := &samples[i]
		at := s.Value(stream.Time)
		if at < start-2 || at > exit {
			continue
		}
		if heading := s.Value(stream.Heading); !math.IsNaN(was) {
			turn += side * (math.Mod(heading-was+540, 360) - 180)
			was = heading
		} else {
			was = heading
		}
		if at < start {
			level.nose += s.Value(stream.Pitch)
			level.height += s.Value(stream.Altitude)
			n++
			continue
		}
		next := markEvery * float64(len(shape)+1)
		if at < begin || n == 0 || turn < next || next >= 180 {
			continue
		}
		shape = append(shape, mark{
			turn:   next,
			time:   at - begin,
			bank:   side * s.Value(stream.Bank),
			nose:   s.Value(stream.Pitch) - level.nose/n,
			speed:  s.Value(stream.Airspeed),
			height: s.Value(stream.Altitude) - level.height/n,
		})
	}
	return shape
}

// meanLoad is the mean load over half a second around a sample, g.
func meanLoad(leg []stream.Sample, at int) (mean float64) {
	n := 0.0
	for i := at; i >= 0 && leg[at].Value(stream.Time)-leg[i].Value(stream.Time) <= 0.25; i-- {
		mean, n = mean+leg[i].Value(stream.NormalLoad), n+1
	}
	for i := at + 1; i < len(leg) && leg[i].Value(stream.Time)-leg[at].Value(stream.Time) <= 0.25; i++ {
		mean, n = mean+leg[i].Value(stream.NormalLoad), n+1
	}
	return mean / n
}
