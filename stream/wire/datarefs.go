package wire

import (
	"slices"

	"halfturn/stream"
)

// A Dataref is a named value of X-Plane and the channel it feeds.
type Dataref struct {
	Name    string
	Channel stream.Channel

	scale    float64 // what one of its units is in the channel's unit, with the sign
	rank     uint8   // of several for one channel the highest is used
	magnetic bool
}

const metersPerSecond = 1 / knot

// datarefs are all that are read: the first so many are asked for, the others only understood
// where the user sends them. Units and signs are those of the simulator's own list
// (DataRefs.txt of version 10.41). Sideslip there is positive with the nose right of the path:
// path + sideslip = heading. The gauge slip_deg is left out: its sign is documented nowhere.
var datarefs = []Dataref{
	{Name: "sim/time/total_running_time_sec", Channel: stream.Time, scale: 1, rank: 1},
	{Name: "sim/flightmodel/position/true_psi", Channel: stream.Heading, scale: 1, rank: 2},
	{Name: "sim/flightmodel/position/true_theta", Channel: stream.Pitch, scale: 1, rank: 1},
	{Name: "sim/flightmodel/position/true_phi", Channel: stream.Bank, scale: 1, rank: 1},
	{Name: "sim/flightmodel/position/indicated_airspeed", Channel: stream.Airspeed, scale: 1, rank: 1},
	{Name: "sim/flightmodel/position/true_airspeed", Channel: stream.TrueAirspeed, scale: metersPerSecond},
	{Name: "sim/flightmodel/position/groundspeed", Channel: stream.GroundSpeed, scale: metersPerSecond},
	{Name: "sim/flightmodel/position/hpath", Channel: stream.Track, scale: 1},
	{Name: "sim/flightmodel/position/vh_ind_fpm", Channel: stream.VerticalSpeed, scale: 1, rank: 2},
	{Name: "sim/flightmodel/position/elevation", Channel: stream.Altitude, scale: 1 / foot, rank: 1},
	{Name: "sim/flightmodel/position/y_agl", Channel: stream.Height, scale: 1 / foot},
	{Name: "sim/flightmodel/position/latitude", Channel: stream.Latitude, scale: 1},
	{Name: "sim/flightmodel/position/longitude", Channel: stream.Longitude, scale: 1},
	{Name: "sim/flightmodel/position/alpha", Channel: stream.AngleOfAttack, scale: 1},
	{Name: "sim/flightmodel/position/beta", Channel: stream.Sideslip, scale: -1},
	{Name: "sim/flightmodel/forces/g_nrml", Channel: stream.NormalLoad, scale: 1},
	{Name: "sim/flightmodel/forces/g_side", Channel: stream.LateralLoad, scale: 1},
	{Name: "sim/flightmodel/forces/g_axil", Channel: stream.AxialLoad, scale: 1},
	{Name: "sim/flightmodel/position/P", Channel: stream.RollRate, scale: 1, rank: 1},
	{Name: "sim/flightmodel/position/Q", Channel: stream.PitchRate, scale: 1, rank: 1},
	{Name: "sim/flightmodel/position/R", Channel: stream.YawRate, scale: 1, rank: 1},
	{Name: "sim/cockpit2/engine/actuators/throttle_ratio[0]", Channel: stream.Throttle, scale: 1, rank: 2},
	{Name: "sim/cockpit2/engine/indicators/prop_speed_rpm[0]", Channel: stream.RPM, scale: 1, rank: 1},
	{Name: "sim/cockpit2/engine/indicators/N1_percent[0]", Channel: stream.N1, scale: 1},
	{Name: "sim/cockpit2/controls/yoke_pitch_ratio", Channel: stream.Elevator, scale: 1},
	{Name: "sim/cockpit2/controls/yoke_roll_ratio", Channel: stream.Aileron, scale: 1},
	{Name: "sim/cockpit2/controls/yoke_heading_ratio", Channel: stream.Rudder, scale: 1},
	{Name: "sim/flightmodel/failures/onground_any", Channel: stream.OnGround, scale: 1},
	{Name: "sim/time/paused", Channel: stream.Paused, scale: 1},

	{Name: "sim/time/total_flight_time_sec", Channel: stream.Time, scale: 1},
	{Name: "sim/flightmodel/position/psi", Channel: stream.Heading, scale: 1, rank: 1},
	{Name: "sim/flightmodel/position/mag_psi", Channel: stream.Heading, scale: 1, magnetic: true},
	{Name: "sim/flightmodel/position/theta", Channel: stream.Pitch, scale: 1},
	{Name: "sim/flightmodel/position/phi", Channel: stream.Bank, scale: 1},
	{Name: "sim/cockpit2/gauges/indicators/airspeed_kts_pilot", Channel: stream.Airspeed, scale: 1},
	{Name: "sim/flightmodel/position/vh_ind", Channel: stream.VerticalSpeed, scale: 1 / feetPerMin, rank: 1},
	{Name: "sim/cockpit2/gauges/indicators/vvi_fpm_pilot", Channel: stream.VerticalSpeed, scale: 1},
	{Name: "sim/cockpit2/gauges/indicators/altitude_ft_pilot", Channel: stream.Altitude, scale: 1},
	{Name: "sim/flightmodel/position/Prad", Channel: stream.RollRate, scale: degPerRadian},
	{Name: "sim/flightmodel/position/Qrad", Channel: stream.PitchRate, scale: degPerRadian},
	{Name: "sim/flightmodel/position/Rrad", Channel: stream.YawRate, scale: degPerRadian},
	{Name: "sim/cockpit2/engine/actuators/throttle_ratio_all", Channel: stream.Throttle, scale: 1, rank: 1},
	{Name: "sim/flightmodel/engine/ENGN_thro[0]", Channel: stream.Throttle, scale: 1},
	{Name: "sim/cockpit2/engine/indicators/engine_speed_rpm[0]", Channel: stream.RPM, scale: 1},
}

// asked is how many of them are asked for.
const asked = 29

// Datarefs returns what to ask X-Plane for, one after the other: RREF replies carry the place
// in this list as their index. They are fewer than the 100 that may be asked for at once.
func Datarefs() []Dataref { return slices.Clone(datarefs[:asked]) }

// DatarefNamed finds a dataref that is understood by its name.
func DatarefNamed(name string) (Dataref, bool) {
	i := slices.IndexFunc(datarefs, func(d Dataref) bool { return d.Name == name })
	if i < 0 {
		return Dataref{}, false
	}
	return datarefs[i], true
}

// datarefTable says what the indices mean and finds names.
type datarefTable struct {
	asked []Dataref
	named map[string]*Dataref
}

var shippedDatarefs = func() *datarefTable {
	t := &datarefTable{asked: datarefs[:asked], named: map[string]*Dataref{}}
	for i := range datarefs {
		t.named[datarefs[i].Name] = &datarefs[i]
	}
	return t
}()

func datarefsFor(asked []Dataref) *datarefTable {
	if len(asked) == 0 {
		return shippedDatarefs
	}
	return &datarefTable{asked: asked, named: shippedDatarefs.named}
}

// put stores a value of a dataref.
func (d *Dataref) put(v float32, now float64, m *merger) {
	x := float64(v) * d.scale
	if d.Channel >= stream.StallWarning && x != 0 && x == x {
		x = 1
	}
	if d.Channel == stream.Heading && !m.outranked(d.Channel, now, d.rank) {
		m.latest.Magnetic = d.magnetic
	}
	m.offer(d.Channel, x, now, d.rank)
}
