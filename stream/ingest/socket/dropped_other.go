//go:build !linux

package socket

// CountsLost reports whether the system says how many datagrams it dropped.
const CountsLost = false

// newReader reads one datagram after the other.
func newReader(from Source) reader { return newSingle(from) }
