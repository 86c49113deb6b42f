package cmdtest

import (
	"net"
	"testing"
)

// FreeAddress is a loopback address that nobody listens at.
func FreeAddress(t testing.TB) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().String()
}
