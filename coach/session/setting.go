package session

import (
	"strings"

	"halfturn/phrase"
	"halfturn/stream"
	"halfturn/stream/wire"
)

// The settings that bring a channel, by what the simulator sends now. Rows, properties and
// datarefs are those of the decoders in stream/wire and of the set-up files in
// configs/simulators.

// rowsFor names the row of the data output that holds a channel.
var rowsFor = map[stream.Channel]string{
	stream.Time:          "1 (times)",
	stream.Airspeed:      "3 (speeds)",
	stream.TrueAirspeed:  "3 (speeds)",
	stream.GroundSpeed:   "3 (speeds)",
	stream.VerticalSpeed: "4 (Mach, vertical speed, g load)",
	stream.NormalLoad:    "4 (Mach, vertical speed, g load)",
	stream.LateralLoad:   "4 (Mach, vertical speed, g load)",
	stream.AxialLoad:     "4 (Mach, vertical speed, g load)",
	stream.Elevator:      "8 (joystick)",
	stream.Aileron:       "8 (joystick)",
	stream.Rudder:        "8 (joystick)",
	stream.RollRate:      "16 (angular velocities)",
	stream.PitchRate:     "16 (angular velocities)",
	stream.YawRate:       "16 (angular velocities)",
	stream.Heading:       "17 (pitch, roll, headings)",
	stream.Pitch:         "17 (pitch, roll, headings)",
	stream.Bank:          "17 (pitch, roll, headings)",
	stream.AngleOfAttack: "18 (angle of attack, side-slip)",
	stream.Sideslip:      "18 (angle of attack, side-slip)",
	stream.Track:         "18 (angle of attack, side-slip)",
	stream.Ball:          "4 (Mach, vertical speed, g load)",
	stream.Altitude:      "20 (latitude, longitude, altitude)",
	stream.Height:        "20 (latitude, longitude, altitude)",
	stream.Latitude:      "20 (latitude, longitude, altitude)",
	stream.Longitude:     "20 (latitude, longitude, altitude)",
	stream.Throttle:      "25 (throttle command)",
	stream.RPM:           "37 (engine rpm) and 38 (propeller rpm)",
	stream.N1:            "41 (N1)",
}

// propertyFor names JSBSim's property that holds a channel.
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

// Setting says what to change in the simulator so that a channel comes, by the format that it sends now; nothing while
// the format is unknown.
func Setting(format string, c stream.Channel) phrase.Phrase {
	switch {
	case format == "":
		return phrase.Phrase{}
	case format == "DATA rows":
		if row, ok := rowsFor[c]; ok {
			return phrase.SwitchOnRow.Of(phrase.Words("row", row))
		}
	case format == "text with labels":
		if p, ok := propertyFor[c]; ok {
			return phrase.AddProperty.Of(phrase.Words("name", p))
		}
	case format == "text columns", format == "text pairs", format == "generic binary",
		strings.HasPrefix(format, "text lines"):
		return phrase.UseProtocol.Of()
	case format == "JSON lines":
		return phrase.AddMember.Of(phrase.Name("name", c.String()), phrase.Words("unit", c.Info().Unit))
	case format == "dataref output (DREF)":
		if name := datarefFor(c); name != "" {
			return phrase.SendDataref.Of(phrase.Words("name", name))
		}
	case format == "RREF replies":
		if name := datarefFor(c); name != "" {
			row := or(rowsFor[c], "25 and those around it")
			return phrase.AskedInVain.Of(phrase.Words("name", name), phrase.Words("row", row))
		}
	case format == "position replies (RPOS)":
		return phrase.NoPlaceInReplies.Of()
	case strings.HasPrefix(format, "native FDM"):
		return phrase.NoPlaceInModel.Of()
	}
	return phrase.NoPlaceInFormat.Of(phrase.Words("format", format))
}

func or(s, otherwise string) string {
	if s == "" {
		return otherwise
	}
	return s
}

// datarefFor names the dataref that Halfturn asks for a channel.
func datarefFor(c stream.Channel) string {
	if c == stream.Ball {
		c = stream.LateralLoad
	}
	for _, d := range wire.Datarefs() {
		if d.Channel == c {
			return d.Name
		}
	}
	return ""
}

// rateSetting says where the rate is set.
func rateSetting(format string) phrase.Phrase {
	switch {
	case format == "DATA rows", strings.HasPrefix(format, "dataref output"):
		return phrase.RateInDataOutput.Of()
	case format == "RREF replies":
		return phrase.RateInConfiguration.Of()
	case format == "text with labels":
		return phrase.RateInOutputFile.Of()
	case format == "text columns", format == "text pairs", format == "generic binary",
		strings.HasPrefix(format, "native FDM"):
		return phrase.RateInOption.Of()
	case strings.HasPrefix(format, "XGPS"), format == "GDL 90":
		return phrase.RateTooSlow.Of()
	}
	return phrase.RateInSender.Of()
}
