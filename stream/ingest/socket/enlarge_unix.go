//go:build unix

package socket

import (
	"fmt"
	"net"
	"runtime"
	"syscall"
)

// Enlarge asks for a larger receive buffer, which holds what arrives while the program is
// not scheduled. The system may grant less without saying so; the error then says how much
// and how to allow more.
func Enlarge(socket *net.UDPConn, want int) error {
	if err := socket.SetReadBuffer(want); err != nil {
		return bufferError(socket, 0, want)
	}
	raw, err := socket.SyscallConn()
	if err != nil {
		return nil // cannot be asked; the buffer may well be there
	}
	got := want
	raw.Control(func(fd uintptr) {
		if v, err := syscall.GetsockoptInt(int(fd), syscall.SOL_SOCKET, syscall.SO_RCVBUF); err == nil {
			got = v
		}
	})
	if runtime.GOOS == "linux" {
		got /= 2 // socket(7): the value is doubled for bookkeeping
	}
	if got < want {
		return bufferError(socket, got, want)
	}
	return nil
}

func bufferError(socket *net.UDPConn, got, want int) error {
	hint := ""
	if runtime.GOOS == "linux" {
		hint = fmt.Sprintf("; to allow it: sysctl -w net.core.rmem_max=%d", want)
	}
	return fmt.Errorf("receive buffer of %v is %d KiB of the %d KiB asked: bursts from many stations may be lost%s",
		socket.LocalAddr(), got>>10, want>>10, hint)
}
