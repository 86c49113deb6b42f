package send

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/netip"
	"runtime"
	"slices"
	"strconv"
	"sync"
	"syscall"
	"time"

	"halfturn/stream"
	"halfturn/stream/trainer/encode"
	"halfturn/stream/trainer/option"
)

// Options say where a flight is sent and how. Except for To, the zero value of a field means the default given beside
// it.
type Options struct {
	To       string  // host:port, UDP
	Format   string  // of encode.Formats; "labels"
	Rate     float64 // states per second of flight, within RateRange; 60. Most formats send one datagram per state
	Pace     float64 // seconds of flight per second of time, of PaceRange; 1
	Stations int     // simulators to imitate, each with its own socket, of StationRange; one per pilot

	// Told is called, never concurrently, with the reason when datagrams stop arriving: ErrNobody, or why they cannot
	// be sent. It is called with nil when they arrive again. May be nil.
	Told func(error)

	// Opened takes the address that a station sends from, before its first datagram. May be nil.
	Opened func(netip.AddrPort)

	dial func() (io.WriteCloser, error) // for tests
}

// The ranges of the numbers in Options.
var (
	RateRange    = option.Range{Low: 1, High: 1000}    // datagrams per second of flight
	PaceRange    = option.Range{Low: 0.01, High: 1000} // seconds of flight per second of time
	StationRange = option.Range{Low: 1, High: 5000}    // simulators to stand for
)

// A Flyer is what is sent: a pilot in an airplane.
type Flyer interface {
	// Step flies on for dt seconds and fills s with the state then. It returns false when the flight is over; s is
	// filled all the same.
	Step(dt float64, s *stream.Sample) bool
}

// Counts is what was sent.
type Counts struct {
	Datagrams uint64 // handed to the network, preambles included
	Bytes     uint64
	Refused   uint64 // no program listens at the address; the flight goes on
	Failed    uint64 // not sent for another reason
	Late      uint64 // rounds more than a tenth of a second behind the clock
	LastError error  // the last of Failed
	Arrived   bool   // as far as is known, something arrived
}

// again is the interval at which the preamble is repeated, for a listener that started late.
const again = 5 * time.Second

// Send flies the pilots and sends what they do as UDP datagrams until the last flight is over
// or ctx is done, whose error it then returns. Stations share the pilots in turn: the flight
// is flown and encoded once and sent from each of their sockets, so that a thousand stations cost
// little more than the sending. All follow one clock; a round that comes late does not
// delay the next ones.
//
// The error says which option is wrong, or why a socket could not be opened. Datagrams that cannot be
// delivered are counted, never an error: a simulator does not stop because no one listens.
func Send[F Flyer](ctx context.Context, o Options, pilots ...F) (Counts, error) {
	o, err := o.complete(ctx, len(pilots))
	if err != nil {
		return Counts{}, err
	}
	flyers := make([]Flyer, len(pilots))
	for i, p := range pilots {
		flyers[i] = p
	}
	flights, err := o.flights(flyers)
	defer closeAll(flights)
	if err != nil {
		return Counts{}, err
	}
	workers := min(len(flights), runtime.GOMAXPROCS(0))
	counts := make([]Counts, workers)
	start := time.Now()
	arrival := &arrival{told: o.Told, start: start}
	var all sync.WaitGroup
	for w := range workers {
		mine := []*flight{}
		for i := w; i < len(flights); i += workers {
			mine = append(mine, flights[i])
		}
		all.Go(func() { send(ctx, o, start, mine, arrival, &counts[w]) })
	}
	all.Wait()
	total := Counts{Arrived: !arrival.never()}
	for _, c := range counts {
		total.add(c)
	}
	return total, ctx.Err()
}

func (c *Counts) add(d Counts) {
	c.Datagrams += d.Datagrams
	c.Bytes += d.Bytes
	c.Refused += d.Refused
	c.Failed += d.Failed
	c.Late += d.Late
	if d.LastError != nil {
		c.LastError = d.LastError
	}
}

func (o Options) complete(ctx context.Context, pilots int) (Options, error) {
	if o.Format == "" {
		o.Format = "labels"
	}
	if o.Rate == 0 {
		o.Rate = 60
	}
	if o.Pace == 0 {
		o.Pace = 1
	}
	if o.Stations == 0 {
		o.Stations = pilots
	}
	if pilots == 0 {
		return o, errors.New("nothing to send: no pilot given")
	}
	for _, n := range []struct {
		option string
		value  float64
		within option.Range
	}{{"rate", o.Rate, RateRange}, {"pace", o.Pace, PaceRange}, {"stations", float64(o.Stations), StationRange}} {
		if err := n.within.Check(n.option, n.value); err != nil {
			return o, err
		}
	}
	if _, err := encode.New(o.Format); err != nil {
		return o, option.Unknown("format", o.Format, encode.Formats())
	}
	if o.dial != nil {
		return o, nil
	}
	host, port, err := net.SplitHostPort(o.To)
	n, portErr := strconv.ParseUint(port, 10, 16)
	if err != nil || portErr != nil || n == 0 {
		return o, option.Wrong("is %q; must be HOST:PORT such as 127.0.0.1:7181, the port between 1 and 65535", "to",
			o.To)
	}
	to, err := resolved(ctx, host, uint16(n))
	if err != nil {
		return o, err
	}
	o.dial = func() (io.WriteCloser, error) { return net.DialUDP("udp", nil, to) }
	return o, nil
}

// resolved finds the address of a host; "" is this one. The look-up ends with the context.
func resolved(ctx context.Context, host string, port uint16) (*net.UDPAddr, error) {
	if host == "" {
		return &net.UDPAddr{Port: int(port)}, nil
	}
	if a, err := netip.ParseAddr(host); err == nil {
		return net.UDPAddrFromAddrPort(netip.AddrPortFrom(a, port)), nil
	}
	ips, err := net.DefaultResolver.LookupNetIP(ctx, "ip", host)
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if err != nil || len(ips) == 0 {
		const what = "the name %q of the address to send to is not known; give the address in numbers, such as " +
			"192.168.1.20:%d"
		return nil, fmt.Errorf(what, host, port)
	}
	// IPv4 where there is a choice: that is what receivers listen on.
	best := max(slices.IndexFunc(ips, func(ip netip.Addr) bool { return ip.Unmap().Is4() }), 0)
	return net.UDPAddrFromAddrPort(netip.AddrPortFrom(ips[best].Unmap(), port)), nil
}

// A flight is one pilot and the stations that show what is flown.
type flight struct {
	pilot   Flyer
	encoder encode.Encoder
	sockets []io.WriteCloser
	sample  stream.Sample
	buffer  []byte
	offset  time.Duration // into the period, so that stations do not all send at once
	spoken  time.Time     // when the preamble was sent
	over    bool
}

func (o *Options) flights(pilots []Flyer) ([]*flight, error) {
	flights := make([]*flight, 0, len(pilots))
	used := min(len(pilots), o.Stations)
	for i := range used {
		e, err := encode.New(o.Format)
		if err != nil {
			return flights, err
		}
		flights = append(flights, &flight{pilot: pilots[i], encoder: e, buffer: make([]byte, 0, 2048),
			offset: o.period() * time.Duration(i) / time.Duration(used)})
	}
	for i := range o.Stations {
		c, err := o.dial()
		if err != nil {
			return flights, fmt.Errorf("station %d of %d to %s: %w%s", i+1, o.Stations, o.To, err, hint(err))
		}
		s := flights[i%used]
		s.sockets = append(s.sockets, c)
		if udp, ok := c.(*net.UDPConn); ok && o.Opened != nil {
			o.Opened(udp.LocalAddr().(*net.UDPAddr).AddrPort())
		}
	}
	return flights, nil
}

func hint(err error) string {
	if errors.Is(err, syscall.EMFILE) {
		return "; ask for fewer stations or raise the limit of open files (ulimit -n)"
	}
	return ""
}

func closeAll(flights []*flight) {
	for _, s := range flights {
		for _, c := range s.sockets {
			c.Close()
		}
	}
}

// period is the time between two datagrams of a station.
func (o *Options) period() time.Duration {
	return time.Duration(float64(time.Second) / (o.Rate * o.Pace))
}

// send is one worker: it serves its flights round by round. The moment of each round is
// counted from the start, so that no rounding or delay adds up.
func send(ctx context.Context, o Options, start time.Time, flights []*flight, a *arrival, c *Counts) {
	timer := time.NewTimer(0)
	defer timer.Stop()
	flying := len(flights)
	for round := 0; flying > 0; round++ {
		begin := start.Add(time.Duration(float64(round) / (o.Rate * o.Pace) * float64(time.Second)))
		for _, s := range flights {
			if s.over {
				continue
			}
			wait := time.Until(begin.Add(s.offset))
			switch {
			case wait < -time.Second: // the machine was asleep: continue from now instead of sending a burst
				start = start.Add(-wait)
				begin = begin.Add(-wait)
				c.Late++
			case wait < -100*time.Millisecond:
				c.Late++
			}
			timer.Reset(max(wait, 0))
			select {
			case <-ctx.Done():
				return
			case <-timer.C:
			}
			s.over = !s.round(1/o.Rate, a, c)
			a.look(time.Now())
			if s.over {
				flying--
			}
		}
	}
}

// round flies one step and sends it to all stations. It returns false when the flight is over.
func (s *flight) round(dt float64, a *arrival, c *Counts) bool {
	more := s.pilot.Step(dt, &s.sample)
	if p := s.encoder.Preamble(); p != nil {
		if now := time.Now(); s.spoken.IsZero() || now.Sub(s.spoken) >= again {
			s.spoken = now
			s.broadcast(p, a, c)
		}
	}
	if split, ok := s.encoder.(encode.Splitter); ok {
		split.Datagrams(&s.sample, func(b []byte) { s.broadcast(b, a, c) })
	} else if s.buffer = s.encoder.Append(s.buffer[:0], &s.sample); len(s.buffer) > 0 {
		s.broadcast(s.buffer, a, c)
	}
	return more
}

func (s *flight) broadcast(b []byte, a *arrival, c *Counts) {
	for _, socket := range s.sockets {
		n, err := socket.Write(b)
		if errors.Is(err, syscall.ECONNREFUSED) {
			// The answer to an earlier datagram; this one has not been sent yet.
			c.Refused++
			a.failed(ErrNobody, time.Now())
			n, err = socket.Write(b)
		}
		if err != nil {
			c.Failed++
			c.LastError = err
			a.failed(err, time.Now())
			continue
		}
		c.Datagrams++
		c.Bytes += uint64(n)
	}
}
