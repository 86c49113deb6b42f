package socket

import (
	"errors"
	"fmt"
	"net"
	"syscall"
)

// windowsInUse is the Windows number for an address in use, which syscall.EADDRINUSE is not.
const windowsInUse = syscall.Errno(10048)

// A BusyError says that another program has the port.
type BusyError struct {
	By    string // that program, such as "name (process 123)"; "" where the system does not tell
	words string
	cause error
}

// Error names the port, the program that has it where the system can tell, and what to do.
func (e *BusyError) Error() string { return e.words }

// Unwrap returns the system's error.
func (e *BusyError) Unwrap() error { return e.cause }

// listenError says in a user's words why an address cannot be listened on. The cause stays
// in the chain.
func listenError(address string, err error) error {
	host, port, _ := net.SplitHostPort(address)
	if host == "" {
		host = "every interface"
	}
	var unknown *net.DNSError
	switch {
	case errors.Is(err, syscall.EADDRINUSE) || errors.Is(err, windowsInUse):
		o := owner(port)
		by, stop := "", "stop the other program (perhaps another Halfturn)"
		if o != "" {
			by, stop = " by "+o, "stop that program"
		}
		return &BusyError{o, fmt.Sprintf("UDP port %s on %s is already in use%s: %s or choose another port, here "+
			"and in the simulator", port, host, by, stop), err}
	case errors.Is(err, syscall.EACCES):
		return fmt.Errorf("no permission for UDP port %s on %s: choose a port above 1023, here and in the "+
			"simulator: %w", port, host, err)
	case errors.Is(err, syscall.EADDRNOTAVAIL):
		return fmt.Errorf("this computer has no address %s: use 0.0.0.0 for every IPv4 interface or 127.0.0.1 for "+
			"this computer alone: %w", host, err)
	case errors.As(err, &unknown):
		return fmt.Errorf("UDP address %q: the name %s is not known: give the address in numbers: %w",
			address, host, err)
	}
	return fmt.Errorf("cannot listen on UDP address %q: %w", address, err)
}
