//go:build !unix && !windows

package ingest

import (
	"errors"
	"net"
	"net/netip"
)

// joinOn joins a group on one interface.
func joinOn(uintptr, netip.Addr, *net.Interface) error {
	return errors.New("this system has no multicast")
}
