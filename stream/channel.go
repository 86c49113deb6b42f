// Package stream holds what a flight simulator tells about itself: the sample,
// the table of its channels, and the time base that orders samples.
//
// It is pure: decoding lives in stream/wire, sockets in stream/ingest.
package stream

import "math"

// A Channel is one measured quantity of a sample.
type Channel uint8

// The channels, in the order of the channel table. Units are those of Info.Unit.
const (
	Time          Channel = iota // s, stream time
	Heading                      // °, true unless the sample says magnetic
	Pitch                        // °, nose up positive
	Bank                         // °, right wing down positive
	Airspeed                     // kt, indicated or calibrated
	TrueAirspeed                 // kt
	GroundSpeed                  // kt
	Track                        // °, true, over the ground
	VerticalSpeed                // ft/min, up positive
	Altitude                     // ft above mean sea level
	Height                       // ft above the ground
	Latitude                     // ° geodetic, north positive
	Longitude                    // °, east positive
	AngleOfAttack                // °
	Sideslip                     // °, wind from the right positive
	Ball                         // ball's widths out, ball to the right positive
	NormalLoad                   // g, +1 in level flight
	LateralLoad                  // g, specific force to the right positive
	AxialLoad                    // g, specific force forward positive
	RollRate                     // °/s, body axis, to the right positive
	PitchRate                    // °/s, body axis, nose up positive
	YawRate                      // °/s, body axis, nose right positive
	Throttle                     // 0 to 1
	RPM                          // 1/min, propeller or engine
	Torque                       // %
	N1                           // %
	Elevator                     // −1 to 1, stick aft (nose up) positive
	Aileron                      // −1 to 1, stick right positive
	Rudder                       // −1 to 1, right pedal positive
	StallWarning                 // 0 or 1
	OnGround                     // 0 or 1
	Paused                       // 0 or 1

	NumChannels // how many there are
)

// Info describes a channel.
type Info struct {
	Name     string  // as written in cards, maps and messages
	Title    string  // as read by people
	Unit     string  // the one unit used after decoding
	Min, Max float64 // a value outside is not believed
	Circular bool    // an angle in [0, 360); brought into range instead of refused
}

// Ranges are wide on purpose: they catch nonsense, not bad flying.
var table = [NumChannels]Info{
	Time:          {"time", "time", "s", 0, 1e10, false}, // also seconds since 1970
	Heading:       {"heading", "heading", "°", 0, 360, true},
	Pitch:         {"pitch", "nose", "°", -90, 90, false},
	Bank:          {"bank", "bank", "°", -180, 180, false},
	Airspeed:      {"airspeed", "airspeed", "kt", 0, 1500, false},
	TrueAirspeed:  {"true-airspeed", "true airspeed", "kt", 0, 2500, false},
	GroundSpeed:   {"ground-speed", "ground speed", "kt", 0, 2500, false},
	Track:         {"track", "track", "°", 0, 360, true},
	VerticalSpeed: {"vertical-speed", "vertical speed", "ft/min", -60000, 60000, false},
	Altitude:      {"altitude", "altitude", "ft", -2000, 150000, false},
	Height:        {"height", "height above ground", "ft", -1000, 150000, false},
	Latitude:      {"latitude", "latitude", "°", -90, 90, false},
	Longitude:     {"longitude", "longitude", "°", -180, 180, false},
	AngleOfAttack: {"angle-of-attack", "angle of attack", "°", -180, 180, false},
	Sideslip:      {"sideslip", "sideslip", "°", -180, 180, false},
	Ball:          {"ball", "ball", "balls", -20, 20, false},
	NormalLoad:    {"normal-load", "load factor", "g", -20, 20, false},
	LateralLoad:   {"lateral-load", "lateral load factor", "g", -20, 20, false},
	AxialLoad:     {"axial-load", "axial load factor", "g", -20, 20, false},
	RollRate:      {"roll-rate", "roll rate", "°/s", -720, 720, false},
	PitchRate:     {"pitch-rate", "pitch rate", "°/s", -720, 720, false},
	YawRate:       {"yaw-rate", "yaw rate", "°/s", -720, 720, false},
	Throttle:      {"throttle", "throttle", "ratio", -1.5, 1.5, false},
	RPM:           {"rpm", "rpm", "rpm", -100000, 100000, false},
	Torque:        {"torque", "torque", "%", -200, 300, false},
	N1:            {"n1", "N1", "%", 0, 200, false},
	Elevator:      {"elevator", "elevator", "ratio", -1.5, 1.5, false},
	Aileron:       {"aileron", "aileron", "ratio", -1.5, 1.5, false},
	Rudder:        {"rudder", "rudder", "ratio", -1.5, 1.5, false},
	StallWarning:  {"stall-warning", "stall warning", "flag", 0, 1, false},
	OnGround:      {"on-ground", "on ground", "flag", 0, 1, false},
	Paused:        {"paused", "paused", "flag", 0, 1, false},
}

// Info returns the channel's row of the table.
func (c Channel) Info() *Info { return &table[c] }

// String returns the channel's name.
func (c Channel) String() string {
	if c >= NumChannels {
		return "none"
	}
	return table[c].Name
}

// ChannelNamed finds a channel by the name the table gives it.
func ChannelNamed(name string) (Channel, bool) {
	for c := range table {
		if table[c].Name == name {
			return Channel(c), true
		}
	}
	return 0, false
}

// ChannelNames lists all names in the order of the table.
func ChannelNames() []string {
	names := make([]string, NumChannels)
	for c := range table {
		names[c] = table[c].Name
	}
	return names
}

// A Set is a set of channels.
type Set uint64

// Has tells whether c is in the set.
func (s Set) Has(c Channel) bool { return s&(1<<c) != 0 }

// With returns the set with c in it.
func (s Set) With(c Channel) Set { return s | 1<<c }

// Without returns the set with c taken out.
func (s Set) Without(c Channel) Set { return s &^ (1 << c) }

// Names lists the members in the order of the table.
func (s Set) Names() []string {
	names := []string{}
	for c := range NumChannels {
		if s.Has(c) {
			names = append(names, table[c].Name)
		}
	}
	return names
}

// Wrap360 brings an angle in degrees into [0, 360).
func Wrap360(deg float64) float64 {
	if deg >= 0 && deg < 360 { // as nearly always
		return deg
	}
	deg = math.Mod(deg, 360)
	if deg < 0 {
		deg += 360
	}
	if deg >= 360 { // a tiny negative rounds up
		deg = 0
	}
	return deg
}

// Wrap180 brings an angle in degrees into [−180, 180).
func Wrap180(deg float64) float64 { return Wrap360(deg+180) - 180 }
