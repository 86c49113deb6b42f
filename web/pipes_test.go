package web

import (
	"context"
	"net"
	"testing"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/web/hub"
	"halfturn/web/internal/pipes"
)

// A piped server listens to pipes, in the time of a synctest bubble.
type piped struct {
	*Server
	t      *testing.T
	pipes  *pipes.Listener
	said   *pipes.Log
	stop   context.CancelFunc
	served chan error
}

// logged returns a server and its log.
func logged(cfg Config) (*Server, *pipes.Log) {
	said := &pipes.Log{}
	log := zerolog.New(said)
	return New(cfg, hub.New("1.2.3", log), &fakeDesk{}, prometheus.NewRegistry(), log), said
}

// servePipes serves until end is called.
func servePipes(t *testing.T, cfg Config) *piped {
	t.Helper()
	s, said := logged(cfg)
	ctx, cancel := context.WithCancel(context.Background())
	p := &piped{Server: s, t: t, said: said, pipes: pipes.Listen(), stop: cancel, served: make(chan error, 1)}
	go func() { p.served <- s.Serve(ctx, p.pipes) }()
	return p
}

// end stops the server; it must end without an error.
func (p *piped) end() {
	p.t.Helper()
	p.stop()
	if err := <-p.served; err != nil {
		p.t.Error(err)
	}
}

// ask connects and sends the beginning of a request.
func (p *piped) ask(text string) net.Conn {
	p.t.Helper()
	c := p.pipes.Dial("127.0.0.1")
	if _, err := c.Write([]byte(text)); err != nil {
		p.t.Fatal(err)
	}
	return c
}
