package plan_test

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"testing"

	"halfturn/coach/aero"
)

// A mark is where a recorded leg was at a turn angle.
type mark struct {
	turn, time float64 // °, and s since the leg began
	bank, nose float64 // ° toward the turn, and above the pitch of the level flight before it
	speed      float64 // kt
	height     float64 // ft above the level flight before it
}

const (
	markEvery  = 15.0 // °
	shapesFile = "testdata/shapes.csv"
)

var shapeColumns = []string{"leg", "turn", "time", "bank", "nose", "speed", "height"}

func (m *mark) numbers() []*float64 {
	return []*float64{&m.turn, &m.time, &m.bank, &m.nose, &m.speed, &m.height}
}

// TestModelAsFlown asks whether the mechanics are right where the shape is: given the bank and the nose of a recorded
// leg at every 15° of turn, the model tells how long it takes from the first to the last of them, and how high it goes
// in between. It does for the legs that the card's path is not near to as well as for the others, so that what those
// differ by is how they were flown.
func TestModelAsFlown(t *testing.T) {
	const timeNear, heightNear = 0.08, 0.17 // shares
	legs := flownLegs(t)
	var mean, n float64
	for i := range legs {
		l := &legs[i]
		if len(l.shape) == 0 || l.maneuver == "steep-turn" {
			continue // a full turn
		}
		path := l.asShaped(t)
		first, last := l.shape[0], l.shape[len(l.shape)-1]
		flown, climbed := last.time-first.time, 0.0
		for _, m := range l.shape {
			climbed = math.Max(climbed, m.height-first.height)
		}
		from, high := path.At(first.turn), 0.0
		for turn := first.turn; turn <= last.turn; turn++ {
			high = math.Max(high, path.At(turn).Height-from.Height)
		}
		time, height := (path.At(last.turn).Time-from.Time)/flown-1, high/climbed-1
		t.Logf("%-46s %5.1f s %+5.1f %%  %5.0f ft %+5.1f %%", l.name, flown, 100*time, climbed, 100*height)
		if l.name == "wo-turboprop-b-pull-first-1.1" {
			if time < timeNear {
				t.Errorf("%s: %+.0f %%; it pulls before it rolls, which no bank over the turn tells", l.name, 100*time)
			}
			continue
		}
		mean, n = mean+time, n+1
		if math.Abs(time) > timeNear || math.Abs(height) > heightNear && climbed > 200 {
			t.Errorf("%s: %.1f s, model %+.1f %%; %.0f ft, model %+.1f %%",
				l.name, flown, 100*time, climbed, 100*height)
		}
	}
	t.Logf("%.0f legs, in the mean %+.2f %%", n, 100*mean/n)
	if n < 45 || math.Abs(mean/n) > 0.01 {
		t.Errorf("%.0f legs, in the mean %+.1f %%; must be 45 at least, and within 1 %%", n, 100*mean/n)
	}
}

// asShaped flies the bank and the nose of the leg.
func (l *flown) asShaped(t *testing.T) *aero.Path {
	t.Helper()
	highest := 0.0
	for _, m := range l.shape {
		highest = math.Max(highest, m.nose)
	}
	program := aero.Program{Turn: 180}
	for _, m := range l.shape {
		program.Knots = append(program.Knots, aero.Knot{Turn: m.turn, Bank: m.bank, Nose: m.nose / highest})
	}
	class := classes[l.class]
	engine := map[string]aero.Engine{"propeller": aero.Propeller, "jet": aero.Jet}[class.engine]
	path, err := aero.Fly(program, aero.Airplane{Stall: class.stall, Engine: engine},
		aero.Entry{Airspeed: l.entry, Altitude: l.altitude}, highest)
	if err != nil {
		t.Fatalf("%s: %v", l.name, err)
	}
	return path
}

func readShapes(t *testing.T, legs []flown) {
	t.Helper()
	f, err := os.Open(shapesFile)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || !slices.Equal(rows[0], shapeColumns) {
		t.Fatalf("%s: %v, %v", shapesFile, rows[:1], err)
	}
	byName := map[string]*flown{}
	for i := range legs {
		byName[legs[i].name] = &legs[i]
	}
	for _, row := range rows[1:] {
		l, known := byName[row[0]]
		if !known {
			t.Fatalf("%s: no leg %s", shapesFile, row[0])
		}
		var m mark
		for i, x := range m.numbers() {
			if *x, err = strconv.ParseFloat(row[1+i], 64); err != nil {
				t.Fatal(err)
			}
		}
		l.shape = append(l.shape, m)
	}
}

// shapeRows are the rows of the legs of half a turn.
func shapeRows(legs []flown) [][]string {
	rows := [][]string{shapeColumns}
	for i := range legs {
		if legs[i].maneuver == "steep-turn" {
			continue
		}
		for _, m := range legs[i].shape {
			row := []string{legs[i].name}
			for _, x := range m.numbers() {
				row = append(row, strconv.FormatFloat(*x, 'f', 2, 64))
			}
			rows = append(rows, row)
		}
	}
	return rows
}
