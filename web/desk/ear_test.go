package desk

import (
	"fmt"
	"net/netip"
	"testing"
	"time"

	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/command"
	"halfturn/coach/message"
	"halfturn/web/hub"
)

// An overhearing hub keeps what it is sent.
type overhearing struct {
	*hub.Hub
	said     []*coach.Callout
	stations []*message.Station
}

func (o *overhearing) Event(m message.Message) {
	switch b := m.Body.(type) {
	case message.Callout:
		o.said = append(o.said, b.Callout)
	case *message.Station:
		o.stations = append(o.stations, b)
	}
	o.Hub.Event(m)
}

// How much is said is set by a command, shown by the station, and refused when it is none of the choices; what was said
// last is said once more when it is asked for, and nothing before anything was said.
func TestByEar(t *testing.T) {
	out := &overhearing{Hub: hub.New("0", zerolog.Nop())}
	d, doing := changedDesk(t, func(c *Config) { c.Output = out })
	at := netip.MustParseAddrPort("192.0.2.2:1")
	s := d.Station(at).(*station)
	doing.handlers[at] = s
	now := time.Now()
	fly := func(from, to int) {
		for i := from; i < to; i++ { // banked by 10°: it is not level
			now = now.Add(100 * time.Millisecond)
			s.Datagram(fmt.Appendf(nil, `{"time": %d.%d, "heading": 90, "pitch": 2, "bank": 10}`, i/10, i%10), now)
		}
	}
	again := func() int {
		before := len(out.said)
		if err := d.Do(t.Context(), commanded(s.name, command.Again{})); err != nil {
			t.Fatal(err)
		}
		return len(out.said) - before
	}
	fly(0, 5)
	if n := again(); n != 0 {
		t.Errorf("nothing was said yet, and %d callouts say it again", n)
	}
	fly(5, 80)
	if len(out.said) == 0 {
		t.Fatal("the set-up is silent")
	}
	first := out.said[len(out.said)-1]
	if n := again(); n != 1 {
		t.Fatalf("%d callouts say it again", n)
	}
	if k := out.said[len(out.said)-1]; k.Kind != coach.Again || k.ID != first.Kind || k.Words != first.Words {
		t.Errorf("%+v is said again as %+v", first, k)
	}
	choices := map[string]bool{"fade": true, "off": true, "all": true, "card": true, "loud": false, "": false}
	for how, want := range choices {
		err := d.Do(t.Context(), commanded(s.name, command.Prompt{How: how}))
		fly(80, 81)
		if shown := out.stations[len(out.stations)-1].Prompts == how; (err == nil) != want || shown != want {
			t.Errorf("%q: %v; the station shows %q", how, err, out.stations[len(out.stations)-1].Prompts)
		}
	}
}
