package textlog

import "strings"

// unitNames are the ways logs write units, as a map names them.
var unitNames = map[string]string{
	"s": "s", "sec": "s", "secs": "s", "second": "s", "seconds": "s",
	"ms": "ms", "msec": "ms", "millis": "ms", "milliseconds": "ms", "min": "min",
	"deg": "deg", "degs": "deg", "degree": "deg", "degrees": "deg", "°": "deg", "dega": "deg", "degt": "deg",
	"true": "deg", "degtrue": "deg", "mag": "deg", "degmag": "deg", "degm": "deg", "rad": "rad", "radians": "rad",
	"kt": "kt", "kts": "kt", "knot": "kt", "knots": "kt", "kias": "kt", "kcas": "kt", "keas": "kt", "ktas": "kt",
	"ktgs": "kt", "ktsgs": "kt", "ktias": "kt", "ktcas": "kt",
	"m/s": "m/s", "mps": "m/s", "ms-1": "m/s", "km/h": "km/h", "kmh": "km/h", "kph": "km/h",
	"mph": "mph", "ft/s": "ft/s", "fps": "ft/s", "ft/sec": "ft/s",
	"ft": "ft", "feet": "ft", "foot": "ft", "ftmsl": "ft", "ftagl": "ft", "ftbaro": "ft", "ftwgs": "ft",
	"m": "m", "meter": "m", "meters": "m", "metre": "m", "metres": "m", "mmsl": "m", "magl": "m",
	"ft/min": "ft/min", "fpm": "ft/min", "feet/min": "ft/min",
	"deg/s": "deg/s", "deg/sec": "deg/s", "dps": "deg/s", "°/s": "deg/s",
	"rad/s": "rad/s", "rad/sec": "rad/s", "rps": "rad/s",
	"g": "g", "gs": "g", "norml": "g", "axial": "g", "side": "g", "m/s²": "m/s²", "m/s2": "m/s²", "m/s^2": "m/s²",
	"ft/s²": "ft/s²", "ft/s2": "ft/s²", "ft/s^2": "ft/s²", "fps2": "ft/s²", "ft/sec2": "ft/s²", "ft sec2": "ft/s²",
	"ratio": "ratio", "norm": "ratio", "0-1": "ratio", "-1..1": "ratio", "0..1": "ratio",
	"%": "%", "pct": "%", "percent": "%", "rpm": "rpm", "bool": "flag", "flag": "flag",
}

// unitNamed returns the unit that a word stands for.
func unitNamed(word string) (unit string, ok bool) {
	unit, ok = unitNames[strings.ToLower(strings.Trim(word, " []()_#"))]
	return unit, ok
}
