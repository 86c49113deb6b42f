package text

import (
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/wire/format"
)

// propertyFor names the property of JSBSim that holds a channel.
var propertyFor = map[stream.Channel]string{
	stream.Heading:       "attitude/psi-deg",
	stream.Pitch:         "attitude/theta-deg",
	stream.Bank:          "attitude/phi-deg",
	stream.Airspeed:      "velocities/vc-kts",
	stream.TrueAirspeed:  "velocities/vtrue-kts",
	stream.GroundSpeed:   "velocities/vg-fps",
	stream.VerticalSpeed: "velocities/h-dot-fps",
	stream.Altitude:      "position/h-sl-ft",
	stream.Height:        "position/h-agl-ft",
	stream.Latitude:      "position/lat-geod-deg",
	stream.Longitude:     "position/long-gc-deg",
	stream.AngleOfAttack: "aero/alpha-deg",
	stream.Sideslip:      "aero/beta-deg",
	stream.RollRate:      "velocities/p-rad_sec",
	stream.PitchRate:     "velocities/q-rad_sec",
	stream.YawRate:       "velocities/r-rad_sec",
	stream.NormalLoad:    "accelerations/n-pilot-z-norm",
	stream.LateralLoad:   "accelerations/n-pilot-y-norm",
	stream.Ball:          "accelerations/n-pilot-y-norm",
	stream.AxialLoad:     "accelerations/n-pilot-x-norm",
	stream.Throttle:      "fcs/throttle-pos-norm",
	stream.RPM:           "propulsion/engine/propeller-rpm",
	stream.N1:            "propulsion/engine/n1",
	stream.Elevator:      "fcs/elevator-cmd-norm",
	stream.Aileron:       "fcs/aileron-cmd-norm",
	stream.Rudder:        "fcs/rudder-cmd-norm",
	stream.Track:         "flight-path/psi-gt-rad",
}

// columnSetting names the property to send where the columns have labels.
func columnSetting(name string, c stream.Channel) phrase.Phrase {
	if name != labeled {
		return format.ProtocolSetting(name, c)
	}
	if p, ok := propertyFor[c]; ok {
		return phrase.AddProperty.Of(phrase.Words("name", p))
	}
	return phrase.Phrase{}
}

func columnRate(name string) phrase.Phrase {
	if name == labeled {
		return phrase.RateInOutputFile.Of()
	}
	return format.SocketRate(name)
}
