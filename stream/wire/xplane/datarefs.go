package xplane

import (
	"slices"

	"halfturn/stream"
	"halfturn/stream/wire/merge"
	"halfturn/stream/wire/units"
)

// A Dataref is a named value of X-Plane and the channel it feeds.
type Dataref struct {
	Name    string
	Channel stream.Channel
	Scale   float64 // what one of its units is in the channel's unit, with the sign

	rank     uint8 // of several for one channel the highest is used
	magnetic bool
}

const metersPerSecond = 1 / units.Knot

// datarefs are all that are read: the first 29 are asked for, the others only understood where the user sends them.
// Units and signs are those of the simulator's own list (DataRefs.txt of version 10.41). Sideslip there is positive
// with the nose right of the path: path + sideslip = heading. The gauge slip_deg is left out: its sign is documented
// nowhere.
var datarefs = []Dataref{
	{Name: "sim/time/total_running_time_sec", Channel: stream.Time, Scale: 1, rank: 1},
	{Name: "sim/flightmodel/position/true_psi", Channel: stream.Heading, Scale: 1, rank: 2},
	{Name: "sim/flightmodel/position/true_theta", Channel: stream.Pitch, Scale: 1, rank: 1},
	{Name: "sim/flightmodel/position/true_phi", Channel: stream.Bank, Scale: 1, rank: 1},
	{Name: "sim/flightmodel/position/indicated_airspeed", Channel: stream.Airspeed, Scale: 1, rank: 1},
	{Name: "sim/flightmodel/position/true_airspeed", Channel: stream.TrueAirspeed, Scale: metersPerSecond},
	{Name: "sim/flightmodel/position/groundspeed", Channel: stream.GroundSpeed, Scale: metersPerSecond},
	{Name: "sim/flightmodel/position/hpath", Channel: stream.Track, Scale: 1},
	{Name: "sim/flightmodel/position/vh_ind_fpm", Channel: stream.VerticalSpeed, Scale: 1, rank: 2},
	{Name: "sim/flightmodel/position/elevation", Channel: stream.Altitude, Scale: 1 / units.Foot, rank: 1},
	{Name: "sim/flightmodel/position/y_agl", Channel: stream.Height, Scale: 1 / units.Foot},
	{Name: "sim/flightmodel/position/latitude", Channel: stream.Latitude, Scale: 1},
	{Name: "sim/flightmodel/position/longitude", Channel: stream.Longitude, Scale: 1},
	{Name: "sim/flightmodel/position/alpha", Channel: stream.AngleOfAttack, Scale: 1},
	{Name: "sim/flightmodel/position/beta", Channel: stream.Sideslip, Scale: -1},
	{Name: "sim/flightmodel/forces/g_nrml", Channel: stream.NormalLoad, Scale: 1},
	{Name: "sim/flightmodel/forces/g_side", Channel: stream.LateralLoad, Scale: 1},
	{Name: "sim/flightmodel/forces/g_axil", Channel: stream.AxialLoad, Scale: 1},
	{Name: "sim/flightmodel/position/P", Channel: stream.RollRate, Scale: 1, rank: 1},
	{Name: "sim/flightmodel/position/Q", Channel: stream.PitchRate, Scale: 1, rank: 1},
	{Name: "sim/flightmodel/position/R", Channel: stream.YawRate, Scale: 1, rank: 1},
	{Name: "sim/cockpit2/engine/actuators/throttle_ratio[0]", Channel: stream.Throttle, Scale: 1, rank: 2},
	{Name: "sim/cockpit2/engine/indicators/prop_speed_rpm[0]", Channel: stream.RPM, Scale: 1, rank: 1},
	{Name: "sim/cockpit2/engine/indicators/N1_percent[0]", Channel: stream.N1, Scale: 1},
	{Name: "sim/cockpit2/controls/yoke_pitch_ratio", Channel: stream.Elevator, Scale: 1},
	{Name: "sim/cockpit2/controls/yoke_roll_ratio", Channel: stream.Aileron, Scale: 1},
	{Name: "sim/cockpit2/controls/yoke_heading_ratio", Channel: stream.Rudder, Scale: 1},
	{Name: "sim/flightmodel/failures/onground_any", Channel: stream.OnGround, Scale: 1},
	{Name: "sim/time/paused", Channel: stream.Paused, Scale: 1},

	{Name: "sim/time/total_flight_time_sec", Channel: stream.Time, Scale: 1},
	{Name: "sim/flightmodel/position/psi", Channel: stream.Heading, Scale: 1, rank: 1},
	{Name: "sim/flightmodel/position/mag_psi", Channel: stream.Heading, Scale: 1, magnetic: true},
	{Name: "sim/flightmodel/position/theta", Channel: stream.Pitch, Scale: 1},
	{Name: "sim/flightmodel/position/phi", Channel: stream.Bank, Scale: 1},
	{Name: "sim/cockpit2/gauges/indicators/airspeed_kts_pilot", Channel: stream.Airspeed, Scale: 1},
	{Name: "sim/flightmodel/position/vh_ind", Channel: stream.VerticalSpeed, Scale: 1 / units.FootPerMinute, rank: 1},
	{Name: "sim/cockpit2/gauges/indicators/vvi_fpm_pilot", Channel: stream.VerticalSpeed, Scale: 1},
	{Name: "sim/cockpit2/gauges/indicators/altitude_ft_pilot", Channel: stream.Altitude, Scale: 1},
	{Name: "sim/flightmodel/position/Prad", Channel: stream.RollRate, Scale: units.DegreesPerRadian},
	{Name: "sim/flightmodel/position/Qrad", Channel: stream.PitchRate, Scale: units.DegreesPerRadian},
	{Name: "sim/flightmodel/position/Rrad", Channel: stream.YawRate, Scale: units.DegreesPerRadian},
	{Name: "sim/cockpit2/engine/actuators/throttle_ratio_all", Channel: stream.Throttle, Scale: 1, rank: 1},
	{Name: "sim/flightmodel/engine/ENGN_thro[0]", Channel: stream.Throttle, Scale: 1},
	{Name: "sim/cockpit2/engine/indicators/engine_speed_rpm[0]", Channel: stream.RPM, Scale: 1},
}

// asked is how many of them are asked for.
const asked = 29

// Datarefs returns what to ask X-Plane for, one after the other: RREF replies carry the place in this list as their
// index. They are fewer than the 100 that may be asked for at once.
func Datarefs() []Dataref { return slices.Clone(datarefs[:asked]) }

// named finds a dataref by its name.
var named = func() map[string]*Dataref {
	all := map[string]*Dataref{}
	for i := range datarefs {
		all[datarefs[i].Name] = &datarefs[i]
	}
	return all
}()

// datarefFor names the dataref that is asked for a channel, "" when none is.
func datarefFor(c stream.Channel) string {
	if c == stream.Ball {
		c = stream.LateralLoad
	}
	for i := range datarefs[:asked] {
		if datarefs[i].Channel == c {
			return datarefs[i].Name
		}
	}
	return ""
}

// put stores a value of a dataref.
func (d *Dataref) put(v float32, now float64, m *merge.Values) {
	if d.Channel == stream.Heading && !m.Outranked(d.Channel, now, d.rank) {
		m.SetMagnetic(d.magnetic)
	}
	m.Offer(d.Channel, float64(v)*d.Scale, now, d.rank)
}
