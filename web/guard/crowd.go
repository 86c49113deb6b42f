package guard

import (
	"bytes"
	"io"
	"net"
	"net/http"
	"net/netip"
	"sync"
	"time"

	"github.com/rs/zerolog"

	"halfturn/stream/phrase"
)

// MostOpen is the usual limit of connections that are open at once.
const MostOpen = 2048

// fewest is the least that one address may open: what a browser opens for one page, plus a live socket.
const fewest = 8

// Refused connections are told why, a few at a time and not for long.
const (
	toldAtOnce = 8
	toldWait   = time.Second
)

// A Crowd is a listener that limits the connections open at once, in total and per address. Loopback addresses may
// have three quarters of them, because a reverse proxy runs on this machine; any other address may have a quarter. A
// connection counts until it is closed, and so does a live socket.
//
// IPv6 addresses count one by one: a whole local network shares one prefix.
type Crowd struct {
	net.Listener
	most    int
	log     zerolog.Logger
	counted func() // called for each refused connection

	mu      sync.Mutex
	open    int
	from    map[netip.Addr]int
	warned  time.Time // when refusals were last logged
	refused int       // since then
	telling chan struct{}
	wait    sync.WaitGroup
}

// NewCrowd limits the connections of a listener. Counted is called for each one that is refused.
func NewCrowd(l net.Listener, most int, log zerolog.Logger, counted func()) *Crowd {
	return &Crowd{Listener: l, most: most, log: log, counted: counted, from: map[netip.Addr]int{},
		telling: make(chan struct{}, toldAtOnce)}
}

// share is how many connections one address may have open.
func (c *Crowd) share(a netip.Addr) int {
	share := c.most / 4
	if a.IsLoopback() {
		share = c.most - share
	}
	return min(max(share, fewest), c.most)
}

// Accept returns the next connection for which there is room.
func (c *Crowd) Accept() (net.Conn, error) {
	for {
		conn, err := c.Listener.Accept()
		if err != nil {
			return nil, err
		}
		who := addressOf(conn.RemoteAddr())
		full := c.admit(who, time.Now())
		if full == nil {
			return &guest{Conn: conn, leave: sync.OnceFunc(func() { c.left(who) })}, nil
		}
		c.turnAway(conn, full)
	}
}

// admit counts a connection, or says why it is refused.
func (c *Crowd) admit(who netip.Addr, now time.Time) *Problem {
	c.mu.Lock()
	defer c.mu.Unlock()
	share := c.share(who)
	var full *Problem
	switch {
	case c.open >= c.most:
		full = &Problem{http.StatusServiceUnavailable, phrase.TooManyConnections.Of(phrase.Int("open", c.most))}
	case c.from[who] >= share:
		full = &Problem{http.StatusServiceUnavailable, phrase.TooManyFromAddress.Of(phrase.Int("open", share))}
	default:
		c.open++
		c.from[who]++
		return nil
	}
	c.counted()
	c.refused++
	if now.Sub(c.warned) >= time.Minute { // not for each: there may be thousands
		c.log.Warn().Stringer("from", who).Int("open", c.open).Int("turned away", c.refused).
			Msg("connections are turned away: as many are open as may be; what is recorded and coached goes on")
		c.warned, c.refused = now, 0
	}
	return full
}

func (c *Crowd) left(who netip.Addr) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.open--
	if c.from[who]--; c.from[who] == 0 {
		delete(c.from, who)
	}
}

// turnAway answers a refused connection and closes it.
func (c *Crowd) turnAway(conn net.Conn, p *Problem) {
	select {
	case c.telling <- struct{}{}:
	default:
		_ = conn.Close()
		return
	}
	c.wait.Go(func() {
		defer func() { <-c.telling }()
		defer conn.Close()
		_ = conn.SetDeadline(time.Now().Add(toldWait))
		body := p.body()
		answer := http.Response{StatusCode: p.Status, ProtoMajor: 1, ProtoMinor: 1, Close: true, Header: http.Header{},
			Body: io.NopCloser(bytes.NewReader(body)), ContentLength: int64(len(body))}
		p.header(answer.Header)
		err := answer.Write(conn)
		if half, ok := conn.(closeWriter); ok && err == nil && half.CloseWrite() == nil {
			// Closing with unread data would reset the connection, and the answer would be lost.
			_, _ = io.Copy(io.Discard, conn)
		}
	})
}

// Wait returns when no connection is being refused any more.
func (c *Crowd) Wait() { c.wait.Wait() }

type closeWriter interface{ CloseWrite() error }

// A guest is a counted connection.
type guest struct {
	net.Conn
	leave func()
}

// Close closes the connection and makes room for another.
func (g *guest) Close() error {
	defer g.leave()
	return g.Conn.Close()
}

// CloseWrite is for net/http, which calls it after answering a request whose body it did not read to the end.
func (g *guest) CloseWrite() error {
	if half, ok := g.Conn.(closeWriter); ok {
		return half.CloseWrite()
	}
	return nil
}
