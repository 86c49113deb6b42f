package stream

// A Channel is one measured quantity of a sample.
type Channel uint8

// The channels. Their order is that of the table, of lists and of exports; it has no other meaning.
const (
	Time Channel = iota
	Heading
	Pitch
	Bank
	Airspeed
	TrueAirspeed
	GroundSpeed
	Track
	VerticalSpeed
	Altitude
	Height
	Latitude
	Longitude
	AngleOfAttack
	Sideslip
	Ball
	NormalLoad
	LateralLoad
	AxialLoad
	RollRate
	PitchRate
	YawRate
	Throttle
	RPM
	Torque
	N1
	Elevator
	Aileron
	Rudder
	StallWarning
	OnGround
	Paused

	NumChannels // the number of channels
)

// Info describes a channel: one row of the table.
type Info struct {
	Name     string  // as written in cards, maps and messages
	Title    string  // as read by people
	Unit     string  // the one unit used after decoding
	Min, Max float64 // a value outside this range is refused
	Carry    float64 // s for which a value that came in a message of its own may be used, see below

	Circular bool // an angle in [0, 360): brought into range instead of refused
	Signed   bool // an angle in [−180, 180): differences go the short way around
	Flag     bool // 0 or 1: any other value counts as 1
	Sided    bool // changes its sign with the direction of the turn
	Vital    bool // nothing can be coached without it
}

// How long, in seconds of receive time, a value that came in a message of its own is used. The limit covers one lost
// message at the usual rate of its group (rates: see the decoders; the limits are common
// practice, no source).
const (
	fast   = 0.5 // attitude, body rates, load factors, flow angles, ball, controls: 4 to 60 messages per second
	speeds = 1.5 // airspeeds and vertical speed: 1 to 10 per second, useless when old
	places = 2.5 // position, altitude, height, ground speed and track: one per second
	slow   = 5.0 // throttle, engine, flags: change seldom
)

// The ranges are wide on purpose: they catch impossible values, not bad flying. Positive directions: nose up, right
// wing down, climb, north, east, wind from the right, ball to the right, force and rate to the right or up, stick aft
// or right, right pedal. A load factor is the specific force in g, +1 along the normal axis in level flight.
var table = [NumChannels]Info{
	Time: {Name: "time", Title: "time", Unit: "s", Min: 0, Max: 1e10, Carry: fast, Vital: true}, // also since 1970
	Heading: {Name: "heading", Title: "heading", Unit: "°", Min: 0, Max: 360, Carry: fast,
		Circular: true, Vital: true}, // true unless the sample says magnetic
	Pitch: {Name: "pitch", Title: "nose", Unit: "°", Min: -90, Max: 90, Carry: fast, Vital: true},
	Bank: {Name: "bank", Title: "bank", Unit: "°", Min: -180, Max: 180, Carry: fast,
		Signed: true, Sided: true, Vital: true},

	Airspeed:     {Name: "airspeed", Title: "airspeed", Unit: "kt", Min: 0, Max: 1500, Carry: speeds}, // IAS or CAS
	TrueAirspeed: {Name: "true-airspeed", Title: "true airspeed", Unit: "kt", Min: 0, Max: 2500, Carry: speeds},
	GroundSpeed:  {Name: "ground-speed", Title: "ground speed", Unit: "kt", Min: 0, Max: 2500, Carry: places},
	Track:        {Name: "track", Title: "track", Unit: "°", Min: 0, Max: 360, Carry: places, Circular: true}, // true
	VerticalSpeed: {Name: "vertical-speed", Title: "vertical speed", Unit: "ft/min", Min: -6e4, Max: 6e4,
		Carry: speeds},

	// Altitude is above mean sea level, latitude geodetic.
	Altitude:  {Name: "altitude", Title: "altitude", Unit: "ft", Min: -2000, Max: 150000, Carry: places},
	Height:    {Name: "height", Title: "height above ground", Unit: "ft", Min: -1000, Max: 150000, Carry: places},
	Latitude:  {Name: "latitude", Title: "latitude", Unit: "°", Min: -90, Max: 90, Carry: places},
	Longitude: {Name: "longitude", Title: "longitude", Unit: "°", Min: -180, Max: 180, Carry: places, Signed: true},

	AngleOfAttack: {Name: "angle-of-attack", Title: "angle of attack", Unit: "°", Min: -180, Max: 180, Carry: fast},
	Sideslip:      {Name: "sideslip", Title: "sideslip", Unit: "°", Min: -180, Max: 180, Carry: fast, Sided: true},
	// Ball counts ball widths from the middle.
	Ball: {Name: "ball", Title: "ball", Unit: "balls", Min: -20, Max: 20, Carry: fast, Sided: true},

	NormalLoad: {Name: "normal-load", Title: "load factor", Unit: "g", Min: -20, Max: 20, Carry: fast},
	LateralLoad: {Name: "lateral-load", Title: "lateral load factor", Unit: "g", Min: -20, Max: 20, Carry: fast,
		Sided: true},
	AxialLoad: {Name: "axial-load", Title: "axial load factor", Unit: "g", Min: -20, Max: 20, Carry: fast},
	RollRate:  {Name: "roll-rate", Title: "roll rate", Unit: "°/s", Min: -720, Max: 720, Carry: fast, Sided: true},
	PitchRate: {Name: "pitch-rate", Title: "pitch rate", Unit: "°/s", Min: -720, Max: 720, Carry: fast},
	YawRate:   {Name: "yaw-rate", Title: "yaw rate", Unit: "°/s", Min: -720, Max: 720, Carry: fast, Sided: true},

	Throttle: {Name: "throttle", Title: "throttle", Unit: "ratio", Min: -1.5, Max: 1.5, Carry: slow},
	RPM:      {Name: "rpm", Title: "rpm", Unit: "rpm", Min: -1e5, Max: 1e5, Carry: slow}, // propeller or engine
	Torque:   {Name: "torque", Title: "torque", Unit: "%", Min: -200, Max: 300, Carry: slow},
	N1:       {Name: "n1", Title: "N1", Unit: "%", Min: 0, Max: 200, Carry: slow},

	Elevator: {Name: "elevator", Title: "elevator", Unit: "ratio", Min: -1.5, Max: 1.5, Carry: fast},
	Aileron:  {Name: "aileron", Title: "aileron", Unit: "ratio", Min: -1.5, Max: 1.5, Carry: fast, Sided: true},
	Rudder:   {Name: "rudder", Title: "rudder", Unit: "ratio", Min: -1.5, Max: 1.5, Carry: fast, Sided: true},

	StallWarning: {Name: "stall-warning", Title: "stall warning", Unit: "flag", Min: 0, Max: 1, Carry: slow,
		Flag: true},
	OnGround: {Name: "on-ground", Title: "on ground", Unit: "flag", Min: 0, Max: 1, Carry: slow, Flag: true},
	Paused:   {Name: "paused", Title: "paused", Unit: "flag", Min: 0, Max: 1, Carry: slow, Flag: true},
}

// BallPerG is the ball's travel in widths per g of lateral load: a specific force to the right is felt as a push to
// the left and sends the ball left. Measured on the slip ball of a recorded home simulator.
const BallPerG = -10

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
