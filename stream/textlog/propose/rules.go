package propose

import (
	"slices"
	"strings"
	"unicode"

	"halfturn/stream"
)

// A rule says by which words in its name a column is taken for a channel.
type rule struct {
	channel stream.Channel
	any     []string // words, or several with spaces that all must be there
	without []string // words that must not
}

// rules are tried in this order: what is said more closely comes first.
var rules = []rule{
	{stream.RollRate, []string{"roll rate", "roll vel", "p", "phi dot", "rollrate"}, nil},
	{stream.PitchRate, []string{"pitch rate", "pitch vel", "q", "theta dot", "pitchrate"}, nil},
	{stream.YawRate, []string{"yaw rate", "yaw vel", "r", "psi dot", "yawrate", "turn rate"}, nil},
	{stream.Elevator, []string{"elevator", "elev", "elv", "stick y", "yoke y"}, []string{"trim"}},
	{stream.Aileron, []string{"aileron", "ailrn", "ail", "stick x", "yoke x"}, []string{"trim"}},
	{stream.Rudder, []string{"rudder", "ruddr", "rud", "pedal", "pedals"}, []string{"trim"}},
	{stream.TrueAirspeed, []string{"tas", "ktas", "vtrue", "true airspeed", "airspeed true", "true speed"}, nil},
	{stream.GroundSpeed, []string{"gs", "groundspeed", "ground speed", "gndspd", "vg", "sog", "ktgs"}, nil},
	{stream.Airspeed, []string{"ias", "kias", "cas", "kcas", "airspeed", "indicated speed", "vc", "vind"}, nil},
	{stream.VerticalSpeed, []string{"vs", "vspd", "vsi", "vvi", "climb", "vertical speed", "vertical velocity",
		"h dot"}, nil},
	{stream.NormalLoad, []string{"nz", "normac", "g normal", "g load", "load factor", "gload", "nlf", "g force",
		"gforce", "normal load", "g"}, []string{"lateral", "axial", "side"}},
	{stream.LateralLoad, []string{"ny", "latac", "lateral", "g side"}, nil},
	{stream.AxialLoad, []string{"nx", "axial", "longitudinal"}, nil},
	{stream.Height, []string{"agl", "hagl", "height", "radalt", "radar alt", "radio alt"}, nil},
	{stream.Altitude, []string{"alt", "altitude", "altmsl", "msl", "alt msl"},
		[]string{"target", "selected", "density"}},
	{stream.Latitude, []string{"lat", "latitude"}, nil},
	{stream.Longitude, []string{"lon", "long", "lng", "longitude"}, nil},
	{stream.AngleOfAttack, []string{"aoa", "alpha", "angle attack"}, nil},
	{stream.Sideslip, []string{"beta", "sideslip", "aos"}, nil},
	{stream.Ball, []string{"ball", "slip", "slip skid", "inclinometer"}, nil},
	{stream.Track, []string{"track", "trk", "course", "cog", "hpath"}, []string{"target", "selected"}},
	{stream.Heading, []string{"heading", "hdg", "hding", "psi", "yaw", "azimuth"},
		[]string{"target", "selected", "bug", "wind"}},
	{stream.Pitch, []string{"pitch", "theta", "tht"}, []string{"target", "trim", "prop"}},
	{stream.Bank, []string{"bank", "roll", "phi"}, []string{"target", "trim"}},
	{stream.Throttle, []string{"throttle", "thr", "throttle 1", "thro1"}, nil},
	{stream.RPM, []string{"rpm", "np", "e1 rpm", "engine rpm", "prop rpm"}, nil},
	{stream.Torque, []string{"torque", "trq"}, nil},
	{stream.N1, []string{"n1", "ng"}, nil},
	{stream.StallWarning, []string{"stall"}, nil},
	{stream.OnGround, []string{"on ground", "onground", "wow", "weight wheels"}, nil},
	{stream.Paused, []string{"paused", "pause"}, nil},
}

// guess is the channel that a column is taken for by its name.
func guess(name string) (stream.Channel, bool) {
	words := wordsOf(withoutUnit(name))
	for _, r := range rules {
		if slices.ContainsFunc(r.without, func(w string) bool { return slices.Contains(words, w) }) {
			continue
		}
		for _, any := range r.any {
			if !slices.ContainsFunc(strings.Fields(any), func(w string) bool { return !slices.Contains(words, w) }) {
				return r.channel, true
			}
		}
	}
	return 0, false
}

// withoutUnit is a name without what stands in brackets at its end: "psi" may be a unit of pressure.
func withoutUnit(name string) string {
	if at := strings.IndexAny(name, "([{"); at > 0 {
		return name[:at]
	}
	return name
}

// isMagnetic reports whether a heading is named magnetic.
func isMagnetic(name string) bool {
	for _, w := range wordsOf(name) {
		if strings.HasPrefix(w, "mag") || w == "hdgm" {
			return true
		}
	}
	return false
}

// wordsOf splits a name where anything but a letter or figure stands, in lower case. Where capitals begin words, as in
// "AltMSL", they are listed whole and split.
func wordsOf(name string) (words []string) {
	notInWord := func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }
	for word := range strings.FieldsFuncSeq(name, notInWord) {
		words = append(words, strings.ToLower(word))
		if parts := strings.Fields(strings.ToLower(spaced(word))); len(parts) > 1 {
			words = append(words, parts...)
		}
	}
	return words
}

// spaced puts a space before each capital that follows a small letter.
func spaced(word string) string {
	var b strings.Builder
	last := ' '
	for _, r := range word {
		if unicode.IsUpper(r) && unicode.IsLower(last) {
			b.WriteByte(' ')
		}
		b.WriteRune(r)
		last = r
	}
	return b.String()
}
