package xplane

import (
	"bytes"
	"encoding/binary"
	"strings"

	"halfturn/stream/phrase"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
)

// Beacons is what X-Plane says of itself; as a stream it is not read.
var Beacons = &format.Format{
	Names:     []string{"beacon"},
	First:     "B",
	Recognize: func(d *format.Datagram) format.Claim { return format.Is(bytes.HasPrefix(d.Bytes, []byte("BECN"))) },
	Instead:   phrase.OnlyBeacon,
}

// A Beacon is what X-Plane says of itself by multicast to 239.255.1.1 port 49707.
type Beacon struct {
	Host    int    // 1: X-Plane, 2: Plane Maker
	Version int    // 120100 is 12.01
	Role    int    // 1: master, 2: visual, 3: instructor's station
	Port    uint16 // it listens on
	Name    string // of the machine
}

const beaconHead = 21

// DecodeBeacon reads a beacon. The error is fault.ErrUnknown for what is none or one of a major version other than 1,
// which must not be read, fault.ErrTruncated for one cut short.
func DecodeBeacon(b []byte) (Beacon, error) {
	if len(b) < 6 || string(b[:5]) != "BECN\x00" || b[5] != 1 {
		return Beacon{}, fault.ErrUnknown
	}
	if len(b) <= beaconHead {
		return Beacon{}, fault.ErrTruncated
	}
	end := bytes.IndexByte(b[beaconHead:], 0)
	if end < 0 {
		return Beacon{}, fault.ErrTruncated
	}
	return Beacon{
		Host:    int(int32(binary.LittleEndian.Uint32(b[7:]))),
		Version: int(int32(binary.LittleEndian.Uint32(b[11:]))),
		Role:    int(int32(binary.LittleEndian.Uint32(b[15:]))),
		Port:    binary.LittleEndian.Uint16(b[19:]),
		Name:    strings.ToValidUTF8(string(b[beaconHead:beaconHead+end]), "?"),
	}, nil
}
