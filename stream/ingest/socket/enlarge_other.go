//go:build !unix

package socket

import (
	"fmt"
	"net"
)

// Enlarge asks for a larger receive buffer, which holds what arrives while the program is
// not scheduled.
func Enlarge(socket *net.UDPConn, want int) error {
	if err := socket.SetReadBuffer(want); err != nil {
		return fmt.Errorf("receive buffer of %v could not be set to %d KiB: bursts from many stations may be lost: %w",
			socket.LocalAddr(), want>>10, err)
	}
	return nil
}
