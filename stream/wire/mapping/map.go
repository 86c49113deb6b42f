// Package mapping reads maps: TOML files that say which column, name or chunk of a stream feeds which channel. The
// shipped ones are in configs/maps.
//
// To add a simulator that sends text or the generic binary protocol: a map in configs/maps, a set-up file and a guide
// in configs/simulators, whose tests hold the three against each other. No code.
package mapping

import (
	"sync"

	"halfturn/configs"
	"halfturn/stream"
)

// A Map says which column or name of a text stream feeds which channel, or how a binary record is laid out. It is made
// by Load and never changed afterwards, so that many readers can share it.
type Map struct {
	Name  string // of its file, without the ending
	Title string // as read by people

	Separator byte     // between columns
	Assign    byte     // between name and value in pairs
	Order     []string // of the columns of a stream without labels
	Sources   []Source
	InOrder   *Plan   // for streams without labels; nil when there is no order
	Layout    *Layout // of binary records; nil for text

	checks []check
	byName map[string]int16 // index of a source
}

// A Source is one column or name and the channel it feeds: value = sent × Scale + Offset.
type Source struct {
	Name       string // "" when given by column
	Column     int    // from 1, 0 when given by name
	Channel    stream.Channel
	Magnetic   bool
	Geocentric bool // a latitude measured at the Earth's center
	Scale      float64
	Offset     float64
}

// Put converts a value as sent and stores it.
func (src *Source) Put(s *stream.Sample, v float64) { s.Put(src.Channel, v*src.Scale+src.Offset) }

// SourceNamed returns the index in Sources of a name as it stands in a datagram.
func (m *Map) SourceNamed(name []byte) (int16, bool) {
	n, ok := m.byName[string(name)]
	return n, ok
}

var shipped = sync.OnceValue(func() []*Map {
	files, err := configs.FS.ReadDir("maps")
	if err != nil {
		panic(err) // the maps are part of the program
	}
	var maps []*Map
	for _, f := range files {
		name := "maps/" + f.Name()
		data, err := configs.FS.ReadFile(name)
		if err != nil {
			panic(err)
		}
		m, err := Load(name, data)
		if err != nil {
			panic(err) // a test loads them all
		}
		maps = append(maps, m)
	}
	return maps
})

// Shipped returns the maps that come with the program. They are shared and must not be changed.
func Shipped() []*Map { return shipped() }

// ShippedNamed returns the shipped map of that name, nil when there is none.
func ShippedNamed(name string) *Map {
	for _, m := range shipped() {
		if m.Name == name {
			return m
		}
	}
	return nil
}
