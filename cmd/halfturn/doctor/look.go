package doctor

import (
	"cmp"
	"context"
	"errors"
	"net"
	"net/netip"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"time"

	"halfturn/cmd/halfturn/capacity"
	"halfturn/cmd/halfturn/descriptors"
	"halfturn/cmd/halfturn/welcome"
	"halfturn/configs/settings"
	"halfturn/stream/ingest"
	"halfturn/stream/ingest/socket"
	"halfturn/web/guard"
)

// A Machine is what was seen of this one.
type Machine struct {
	System      string // as Go names it
	ConfigError error
	CardsError  error

	Running   bool // Halfturn serves its pages already
	UDP       []string
	Port      string // of the first of UDP
	UDPError  error  // nil: they can be had
	UDPBusy   bool   // another program has one
	UDPOwner  string // that program, where the system tells
	Reachable bool   // other machines can send to UDP
	Sent      []Sent // empty: nothing could be tried

	Buffer, BufferAsked int // bytes; 0 is not known

	HTTP, URL string
	HTTPError error
	HTTPBusy  bool

	Data      string
	DataError error
	Free      int64 // bytes that are free for the data directory; -1 is not known
	PerHour   int64 // bytes that an hour of flight takes
	Measured  bool  // by sessions; otherwise assumed
	Now       time.Time
	Newest    time.Time // when the newest session ended; zero where there is none

	Files, FilesEnough, Connections int // 0 files is no limit
	MaxStations                     int // by the configuration; 0 is as many as the machine can take
	Capacity                        int // stations that the machine can take; 0 is not known

	Speech      string // the program; "" is none
	SpeechError error
}

// A Sent is a datagram that was sent to a local address.
type Sent struct {
	At      string
	Arrived bool
}

// Look looks at the machine as a server with a configuration would find it. wrong is why the configuration cannot be
// used, if it cannot.
func Look(ctx context.Context, cfg *settings.Config, wrong error) *Machine {
	m := &Machine{
		System:      runtime.GOOS,
		ConfigError: wrong,
		UDP:         cfg.UDP,
		HTTP:        cfg.HTTP,
		URL:         welcome.URL(cfg.HTTP, cfg.TLS.On()),
		BufferAsked: ingest.ReceiveBuffer,
		Buffer:      bufferLimit(),
		Now:         time.Now(),
		Files:       descriptors.Limit(),
		MaxStations: cfg.MaxStations,
	}
	m.lookAtCards(cfg)
	m.Running = welcome.Running(ctx, cfg.HTTP, cfg.TLS.On())
	m.lookAtPorts(ctx)
	m.lookAtData(cfg)
	if len(cfg.Speech.Command) > 0 {
		m.Speech = cfg.Speech.Command[0]
		_, m.SpeechError = exec.LookPath(m.Speech)
	}
	return m
}

// lookAtCards reads the cards, and has the machine work by them.
func (m *Machine) lookAtCards(cfg *settings.Config) {
	stations := cfg.MaxStations
	o, err := cfg.Session()
	if m.CardsError = err; err == nil {
		if is, err := capacity.Measure(o); err == nil {
			m.Capacity = is.Stations()
			is.Files = 0 // what follows asks how many files that takes
			stations = cmp.Or(stations, is.Stations())
		}
	}
	m.FilesEnough = descriptors.Enough(stations, guard.MostOpen)
	m.Connections = descriptors.Connections(m.Files, stations, guard.MostOpen)
}

// lookAtPorts opens the ports for a moment, where they are free.
func (m *Machine) lookAtPorts(ctx context.Context) {
	l, err := (&net.ListenConfig{}).Listen(ctx, "tcp", m.HTTP)
	if err == nil {
		l.Close()
	}
	m.HTTPError, m.HTTPBusy = err, isBusy(err)
	_, m.Port, _ = net.SplitHostPort(m.UDP[0])
	open, where, err := socket.OpenAll(ctx, m.UDP)
	if err != nil {
		var busy *socket.BusyError
		m.UDPError, m.UDPBusy = err, errors.As(err, &busy)
		if m.UDPBusy {
			m.UDPOwner = busy.By
		}
		return
	}
	defer socket.CloseAll(open)
	for i, s := range open {
		m.Reachable = m.Reachable || !s.Address.Addr().IsLoopback()
		if !where[i].Addr().IsMulticast() {
			m.Sent = append(m.Sent, sendTo(s.UDPConn, locals(socket.Local(s.UDPConn)))...)
		}
	}
}

// locals are the addresses of this machine at which a socket receives.
func locals(at netip.AddrPort) (all []netip.AddrPort) {
	if !at.Addr().IsUnspecified() {
		return []netip.AddrPort{at}
	}
	own, err := net.InterfaceAddrs()
	if err != nil {
		return nil
	}
	for _, a := range own {
		p, err := netip.ParsePrefix(a.String())
		if ip := p.Addr(); err == nil && !ip.IsLinkLocalUnicast() && (ip.Is4() || at.Addr().Is6()) {
			all = append(all, netip.AddrPortFrom(ip, at.Port()))
		}
	}
	return all
}

// patience is how long a datagram within this machine may take.
const patience = time.Second

// sendTo sends a datagram to each address, and sees whether it arrives.
func sendTo(at *net.UDPConn, addresses []netip.AddrPort) (all []Sent) {
	for _, to := range addresses {
		all = append(all, Sent{to.String(), arrives(at, to)})
	}
	return all
}

func arrives(at *net.UDPConn, to netip.AddrPort) bool {
	from, err := net.DialUDP("udp", nil, net.UDPAddrFromAddrPort(to))
	if err != nil {
		return false
	}
	defer from.Close()
	words := "doctor " + from.LocalAddr().String()
	if _, err := from.Write([]byte(words)); err != nil {
		return false
	}
	if err := at.SetReadDeadline(time.Now().Add(patience)); err != nil {
		return false
	}
	b := make([]byte, 1<<16)
	for { // a simulator may be sending too
		n, _, err := at.ReadFromUDPAddrPort(b)
		if err != nil || string(b[:n]) == words {
			return err == nil
		}
	}
}

func isBusy(err error) bool {
	const windowsInUse = syscall.Errno(10048) // which syscall.EADDRINUSE is not there
	return errors.Is(err, syscall.EADDRINUSE) || errors.Is(err, windowsInUse)
}

// bufferLimit is the largest receive buffer that the system grants; 0 where it does not say.
func bufferLimit() int {
	text, err := os.ReadFile("/proc/sys/net/core/rmem_max")
	if err != nil {
		return 0
	}
	n, _ := strconv.Atoi(strings.TrimSpace(string(text)))
	return n
}

// lookAtData looks at the data directory, or at the folder in which it would be made.
func (m *Machine) lookAtData(cfg *settings.Config) {
	m.PerHour, m.Free = assumedPerHour, -1
	dir, err := cfg.DataDir()
	m.Data, m.DataError = dir, err
	if err != nil {
		return
	}
	there := dir
	for parent := filepath.Dir(there); there != parent; parent = filepath.Dir(there) {
		if _, err := os.Stat(there); !errors.Is(err, os.ErrNotExist) {
			break
		}
		there = parent
	}
	m.DataError = writable(there)
	if n, ok := free(there); ok {
		m.Free = n
	}
	if n, newest, ok := measured(dir); ok {
		m.PerHour, m.Measured, m.Newest = n, n > 0, newest
		if n <= 0 {
			m.PerHour = assumedPerHour
		}
	}
}
