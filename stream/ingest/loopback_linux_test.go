package ingest

import (
	"net"
	"syscall"
)

// throughLoopback sends what goes to groups over the loopback interface.
func throughLoopback(c *net.UDPConn) error {
	raw, err := c.SyscallConn()
	if err != nil {
		return err
	}
	set := error(nil)
	err = raw.Control(func(fd uintptr) {
		set = syscall.SetsockoptInet4Addr(int(fd), syscall.IPPROTO_IP, syscall.IP_MULTICAST_IF, [4]byte{127, 0, 0, 1})
	})
	if set != nil {
		return set
	}
	return err
}
