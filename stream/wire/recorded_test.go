package wire_test

import (
	"bytes"
	"encoding/csv"
	"encoding/hex"
	"encoding/json"
	"math"
	"os"
	"strconv"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
	"halfturn/stream/wire/wiretest"
)

// TestVectors decodes published, captured and computed datagrams; each names its source.
func TestVectors(t *testing.T) {
	var vectors []struct {
		Name, Source, Hex, Text, Labels, Map, Rows, Format string
		Before                                             []string // datagrams that give no sample alone, as Hex
		Want                                               map[string]float64
	}
	if err := json.Unmarshal(wiretest.ReadFile(t, "vectors.json"), &vectors); err != nil {
		t.Fatal(err)
	}
	if len(vectors) < 10 {
		t.Fatalf("only %d vectors", len(vectors))
	}
	for _, v := range vectors {
		t.Run(v.Name, func(t *testing.T) {
			o := format.Options{Rows: map[string]format.RowsLayout{"old": format.RowsOld,
				"new": format.RowsNew}[v.Rows]}
			if v.Map != "" {
				o.Map = loadMap(t, v.Map)
			}
			r := wire.NewReader(o)
			b := []byte(v.Text)
			if v.Hex != "" {
				var err error
				if b, err = hex.DecodeString(v.Hex); err != nil {
					t.Fatal(err)
				}
			}
			var s stream.Sample
			if v.Labels != "" {
				if err := r.Decode([]byte(v.Labels), 0, &s); err != fault.ErrLabels {
					t.Fatalf("labels: %v", err)
				}
			}
			for _, part := range v.Before {
				if err := r.Decode(wiretest.Unhex(t, part), 0, &s); err != fault.ErrPart {
					t.Fatalf("before: %v (source: %s)", err, v.Source)
				}
			}
			if err := r.Decode(b, 0, &s); err != nil {
				t.Fatalf("%v (source: %s)", err, v.Source)
			}
			if r.Format() != v.Format {
				t.Errorf("format %q; must be %q", r.Format(), v.Format)
			}
			for name, want := range v.Want {
				c, ok := stream.ChannelNamed(name)
				if !ok {
					t.Fatalf("no channel %q", name)
				}
				got, has := s.Get(c)
				if !has || !wiretest.Near(c, got, want, 1e-6+2e-7*math.Abs(want)) {
					t.Errorf("%s = %v (there: %v); must be %v (source: %s)", name, got, has, want, v.Source)
				}
			}
			if got := len(s.Has.Names()); got != len(v.Want) {
				t.Errorf("%d channels %v; must be %d", got, s.Has.Names(), len(v.Want))
			}
		})
	}
}

// truthColumns: the truth table's column for each channel, its tolerance (half of the last
// digit the table or the datagram shows), and a sign where the table's is another.
var truthColumns = []struct {
	channel stream.Channel
	column  string
	tol     float64
	sign    float64
}{
	{stream.Time, "t_s", 1e-4, 1},
	{stream.Heading, "true_heading_deg", 1e-3, 1},
	{stream.Pitch, "pitch_deg", 1e-3, 1},
	{stream.Bank, "roll_deg", 1e-3, 1},
	{stream.Airspeed, "kcas", 1e-3, 1},
	{stream.TrueAirspeed, "ktas", 1e-3, 1},
	{stream.GroundSpeed, "gs_kt", 1e-3, 1},
	{stream.Track, "track_deg", 1e-3, 1},
	{stream.VerticalSpeed, "vs_fpm", 0.1, 1},
	{stream.Altitude, "alt_msl_ft", 0.01, 1},
	{stream.Height, "alt_agl_ft", 0.01, 1},
	{stream.Latitude, "lat_deg", 1e-5, 1},
	{stream.Longitude, "lon_deg", 1e-5, 1},
	{stream.AngleOfAttack, "alpha_deg", 1e-3, 1},
	{stream.Sideslip, "beta_deg", 1e-3, 1},
	{stream.NormalLoad, "nz_g", 1e-4, 1}, // the table's sign: +1 in level flight
	{stream.LateralLoad, "ny_g", 1e-4, 1},
	{stream.AxialLoad, "nx_g", 1e-4, 1},
	{stream.RollRate, "p_dps", 1e-3, 1},
	{stream.PitchRate, "q_dps", 1e-3, 1},
	{stream.YawRate, "r_dps", 1e-3, 1},
	{stream.Throttle, "throttle", 1e-4, 1},
	{stream.Elevator, "elevator", 1e-4, -1}, // the table's: stick forward positive
	{stream.Aileron, "aileron", 1e-4, 1},
	{stream.Rudder, "rudder", 1e-4, -1}, // the table's: nose left positive
}

// TestRecordedFlights holds real datagrams of JSBSim's output socket (commit 0b688c80, and
// the tree of March 2018 for the one without labels) against the truth read inside the
// simulation in the same frames.
func TestRecordedFlights(t *testing.T) {
	tests := []struct {
		file, format string
		skip         int // samples not read while the columns are recognized
		channels     int
		engine       stream.Channel
	}{
		{"properties", "text with labels", 0, 26, stream.N1},
		{"groups", "text with labels", 0, 21, stream.NumChannels},
		{"nolabels", "text columns", 4, 25, stream.NumChannels},
		{"propeller", "text with labels", 0, 26, stream.RPM},
	}
	for _, tt := range tests {
		t.Run(tt.file, func(t *testing.T) {
			r := wire.NewReader(format.Options{})
			samples := wiretest.DecodeAll(r, wiretest.ReadLines(t, "flights/"+tt.file+".txt"))
			times, rows := truth(t, "flights/"+tt.file+".truth.csv")
			if len(samples)+tt.skip != len(times) {
				t.Fatalf("%d samples of %d", len(samples), len(times))
			}
			if r.Format() != tt.format || !r.Advice().IsZero() {
				t.Errorf("format %q, advice %q", r.Format(), r.Advice())
			}
			for i := range samples {
				s, row := &samples[i], rows[i+tt.skip]
				if n := len(s.Has.Names()); n != tt.channels || s.Bad != 0 {
					t.Fatalf("channels %v (%d); must be %d; bad %v", s.Has.Names(), n, tt.channels, s.Bad.Names())
				}
				for _, c := range truthColumns {
					if got, ok := s.Get(c.channel); ok && !wiretest.Near(c.channel, got, c.sign*row[c.column], c.tol) {
						t.Errorf("at %v s: %s = %v, truth %v", row["t_s"], c.channel, got, c.sign*row[c.column])
					}
				}
				if tt.engine < stream.NumChannels && !wiretest.Near(tt.engine, s.Value(tt.engine), row["rpm"], 0.1) {
					t.Errorf("at %v s: %s = %v, truth %v", row["t_s"], tt.engine, s.Value(tt.engine), row["rpm"])
				}
			}
		})
	}
}

// TestSimulatorFrames reads real lines of FlightGear 2020.3.16, recorded as columns and as
// pairs of the same frames: each is the other's truth. One frame is checked by hand.
func TestSimulatorFrames(t *testing.T) {
	columns, pairs := wire.NewReader(format.Options{}), wire.NewReader(format.Options{})
	byColumn := wiretest.DecodeAll(columns, wiretest.ReadLines(t, "flights/columns.txt"))
	byPair := wiretest.DecodeAll(pairs, wiretest.ReadLines(t, "flights/pairs.txt"))
	if columns.Format() != "text columns" || pairs.Format() != "text pairs" {
		t.Fatalf("formats %q, %q", columns.Format(), pairs.Format())
	}
	byPair = byPair[4:] // a map is believed after five lines
	if len(byColumn) < 8 || len(byColumn) != len(byPair) {
		t.Fatalf("%d samples by column, %d by pair", len(byColumn), len(byPair))
	}
	for i := range byColumn {
		if byColumn[i] != byPair[i] {
			t.Errorf("frame %d differs:\n%+v\n%+v", i, byColumn[i], byPair[i])
		}
	}
	line := "t=65.9917;utc=2026-11-24T22:18:51;paused=0;lat=21.79146571;alt_ft=6638.60;cas_kt=68.545;vs_fpm=1382.59;" +
		"roll=13.5661;hdg_true=246.1157;hdg_mag=236.6133;ax_fps2=5.397;" +
		"ay_fps2=-0.092;az_fps2=-31.501;ball=-0.0183;elev=-0.0224;stall_warn=0\n"
	s := wiretest.Decode(t, pairs, []byte(line))
	for c, want := range map[stream.Channel]float64{
		stream.Time: 65.9917, stream.Heading: 246.1157, stream.Bank: 13.5661, stream.Airspeed: 68.545,
		stream.VerticalSpeed: 1382.59, stream.NormalLoad: 31.501 / 32.17405,
		stream.LateralLoad: -0.092 / 32.17405, stream.AxialLoad: 5.397 / 32.17405,
		stream.Ball: 0.0183, stream.Elevator: 0.0224, stream.StallWarning: 0, stream.Latitude: 21.79146571,
		stream.Altitude: 6638.6,
	} {
		if got, ok := s.Get(c); !ok || !wiretest.Near(c, got, want, 1e-7) {
			t.Errorf("%s = %v, %v; must be %v", c, got, ok, want)
		}
	}
	if s.Has.Has(stream.Paused) || s.Magnetic {
		t.Error("the freeze flag can lie and must not be taken; the true heading must win")
	}
}

// loadMap loads a map of the tests of package mapping.
func loadMap(t testing.TB, name string) *mapping.Map {
	t.Helper()
	data, err := os.ReadFile("mapping/testdata/maps/" + name)
	if err != nil {
		t.Fatal(err)
	}
	m, err := mapping.Load(name, data)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// truth reads a table of truth: channel values by time, in the channels' units.
func truth(t *testing.T, name string) (times []float64, rows []map[string]float64) {
	t.Helper()
	table, err := csv.NewReader(bytes.NewReader(wiretest.ReadFile(t, name))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, rec := range table[1:] {
		row := map[string]float64{}
		for i, head := range table[0] {
			v, err := strconv.ParseFloat(rec[i], 64)
			if err != nil {
				t.Fatal(err)
			}
			row[head] = v
		}
		times = append(times, row["t_s"])
		rows = append(rows, row)
	}
	return times, rows
}
