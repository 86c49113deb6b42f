package web

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

// MostOpen is how many connections may be open at once where the Config does not say.
const MostOpen = 2048

// fewest is the least that one address may open: what a browser opens for one page, and a live socket.
const fewest = 8

// Those turned away are told why, a few at once.
const (
	toldAtOnce = 8
	toldWait   = time.Second
)

// A crowd is a listener that limits the connections that are open at once, in all and from one address. This
// machine itself may have three quarters of them, as whatever passes requests on is here; another address a quarter.
// Each connection counts until it is closed, a live socket too.
//
// An IPv6 address counts by itself: all of a local network share one prefix.
type crowd struct {
	net.Listener
	most    int
	log     zerolog.Logger
	counted func() // for each that is turned away

	mu      sync.Mutex
	open    int
	from    map[netip.Addr]int
	warned  time.Time // when it was logged last that some are turned away
	refused int       // since then
	telling chan struct{}
	wait    sync.WaitGroup
}

func newCrowd(l net.Listener, most int, log zerolog.Logger, counted func()) *crowd {
	return &crowd{Listener: l, most: most, log: log, counted: counted, from: map[netip.Addr]int{},
		telling: make(chan struct{}, toldAtOnce)}
}

// share is how many connections one address may have open.
func (c *crowd) share(a netip.Addr) int {
	share := c.most / 4
	if a.IsLoopback() {
		share = c.most - share
	}
	return min(max(share, fewest), c.most)
}

// Accept returns the next connection for which there is room.
func (c *crowd) Accept() (net.Conn, error) {
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

// admit counts a connection in, or says why it cannot be.
func (c *crowd) admit(who netip.Addr, now time.Time) *Problem {
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

func (c *crowd) left(who netip.Addr) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.open--
	if c.from[who]--; c.from[who] == 0 {
		delete(c.from, who)
	}
}

// turnAway answers a connection that is not let in, and closes it.
func (c *crowd) turnAway(conn net.Conn, p *Problem) {
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
			// Closed with something unread, the answer would be lost with the connection.
			_, _ = io.Copy(io.Discard, conn)
		}
	})
}

// Wait returns when nobody is being turned away any more.
func (c *crowd) Wait() { c.wait.Wait() }

type closeWriter interface{ CloseWrite() error }

// A guest is a connection that is counted.
type guest struct {
	net.Conn
	leave func()
}

// Close closes the connection and makes room for another.
func (g *guest) Close() error {
	defer g.leave()
	return g.Conn.Close()
}

// CloseWrite is for net/http, which ends answers to requests that were not read to their end with it.
func (g *guest) CloseWrite() error {
	if half, ok := g.Conn.(closeWriter); ok {
		return half.CloseWrite()
	}
	return nil
}
