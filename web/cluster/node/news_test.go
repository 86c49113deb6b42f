package node

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/rs/zerolog"

	"halfturn/web/cluster/flow/memory"
	"halfturn/web/cluster/presence"
	"halfturn/web/hub"
)

// TestNews: a log says once of each node that it came, that it left, and that it is lost, and that of no node while
// this one hears nobody.
func TestNews(t *testing.T) {
	engine := memory.New().Join("a")
	defer engine.Close()
	var log bytes.Buffer
	n, err := New(Options{Name: "a", Flow: engine, Hub: hub.New("1", zerolog.Nop()), Data: t.TempDir(),
		Log: zerolog.New(&log), Times: Times{Dead: time.Hour}})
	if err != nil {
		t.Fatal(err)
	}
	defer n.Close()
	n.grace.Store(0) // the others were heard
	heard, silent := time.Now(), time.Now().Add(-2*time.Hour)
	put := func(name string, at time.Time, leaves bool) {
		n.peers.Put(&presence.Peer{Name: name, Heard: at, Beat: presence.Beat{Leaves: leaves},
			Holds: map[string]presence.Hold{"Seat 3": {Station: "Seat 3"}}})
	}
	for _, c := range []struct {
		name string
		is   func()
		want []string // of each line
	}{
		{"they come", func() { put("b", heard, false); put("c", heard, false) }, []string{"here", "here"}},
		{"nothing is new", func() { put("b", heard, false) }, nil},
		{"this one hears nobody", func() { engine.Isolate(true); put("b", silent, false) }, nil},
		{"nor just now", func() { engine.Isolate(false) }, nil},
		{"one is lost", func() { n.grace.Store(0) },
			[]string{`"node":"b","stations":1,"message":"a node is not heard`}},
		{"it is still", func() {}, nil},
		{"it is back, and another one leaves", func() { put("b", heard, false); put("c", time.Time{}, true) },
			[]string{`"node":"b","message":"a node is here"`, `"node":"c","message":"a node has left"`}},
	} {
		log.Reset()
		c.is()
		n.tellNodes(time.Now())
		got := slices.Collect(strings.Lines(log.String()))
		if !slices.EqualFunc(got, c.want, strings.Contains) {
			t.Errorf("%s: the log says %q; must say %q", c.name, got, c.want)
		}
	}
}
