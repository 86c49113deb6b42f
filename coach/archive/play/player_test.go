package play_test

import (
	"fmt"
	"net/netip"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/archive/play"
	"halfturn/coach/command"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/coach/who"
	"halfturn/configs"
	"halfturn/stream/capture"
)

// plans finds shipped cards.
type plans struct{ lib *maneuver.Library }

func shipped(t *testing.T) *plans {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	must(t, err)
	return &plans{lib}
}

func (p *plans) find(c maneuver.Choice) (*plan.Plan, []*plan.Plan, error) {
	card, err := p.lib.Card(c.Maneuver)
	if err != nil {
		return nil, nil, err
	}
	a, err := p.lib.AircraftNamed(c.Aircraft)
	return plan.New(card, a), nil, err
}

// options grade by a shipped card.
func (p *plans) options(t *testing.T, name string) session.Options {
	t.Helper()
	made, _, err := p.find(maneuver.Choice{Maneuver: name})
	must(t, err)
	return session.Options{Coach: judge.Options{Plan: made}}
}

// chosen is the comment of a choice made in mid-session.
func chosen(name string) string {
	return session.CommandComment(command.New("01ARZ3NDEKTSV4RRFFQ69G5FAV", noon, "Station 3", who.Owner(),
		command.Choose{Choice: maneuver.Choice{Maneuver: name}}))
}

// finished plays a recording to its end.
func finished(t *testing.T, dir string, f play.Following) (*play.Player, error) {
	t.Helper()
	rec, err := play.Open(t.Context(), dir)
	must(t, err)
	p, err := rec.Play(t.Context(), f)
	must(t, err)
	t.Cleanup(func() { must(t, p.Close()) })
	return p, p.Run(nil)
}

// What the recording says wins over the options, which are the fallback where its cards cannot be found; without plans
// the options grade all of it.
func TestFollowed(t *testing.T) {
	for name, c := range map[string]struct {
		opening  string // maneuver; "" is a recording of another program
		mid      string // chosen in mid-session
		without  bool   // plans
		choices  string // as they were used, in order
		missing  bool
		followed bool // what was chosen in mid-session
	}{
		"another program": {
			choices:  "wing-over",
			followed: true,
		},
		"as it was chosen": {
			opening:  "chandelle-civil",
			choices:  "chandelle-civil",
			followed: true,
		},
		"chosen again in mid-session": {
			opening:  "chandelle-civil",
			mid:      "wing-over",
			choices:  "chandelle-civil wing-over",
			followed: true,
		},
		"a card that is gone": {
			opening:  "gone",
			choices:  "wing-over",
			missing:  true,
			followed: true,
		},
		"a card that is gone mid-session": {
			opening: "chandelle-civil",
			mid:     "gone",
			choices: "chandelle-civil",
		},
		"without plans": {
			opening:  "chandelle-civil",
			mid:      "gone",
			without:  true,
			choices:  "wing-over",
			followed: true,
		},
	} {
		t.Run(name, func(t *testing.T) {
			heading := ""
			if c.opening != "" {
				heading = opening(c.opening)
			}
			all := datagrams(simulator, 0, 3)
			if c.mid != "" {
				all[1].Comments = []string{chosen(c.mid)}
			}
			cards := shipped(t)
			f := play.Following{Options: cards.options(t, "wing-over"), Plans: cards.find}
			if c.without {
				f.Plans = nil
			}
			p, err := finished(t, recorded(t, heading, all), f)
			if (err == nil) != c.followed {
				t.Errorf("it says %v", err)
			}
			var got []string
			for _, choice := range p.Choices() {
				got = append(got, choice.Maneuver)
			}
			if list := strings.Join(got, " "); list != c.choices || (p.Missing() != nil) != c.missing {
				t.Errorf("it was graded by %s; must be by %s (%v)", list, c.choices, p.Missing())
			}
			if n := p.Flights()[0].Datagrams; n != 3 {
				t.Errorf("%d datagrams were taken; must be 3", n)
			}
		})
	}
}

// A session of Halfturn's own has one sender, whichever port its simulator came back with; other recordings have one
// per address.
func TestSenders(t *testing.T) {
	other := netip.MustParseAddrPort("192.168.1.20:50077")
	all := append(datagrams(simulator, 0, 2), datagrams(other, 2, 3)...)
	for heading, want := range map[string][]uint64{opening("wing-over"): {5}, "": {2, 3}} {
		cards := shipped(t)
		f := play.Following{Options: cards.options(t, "wing-over"), Plans: cards.find}
		p, err := finished(t, recorded(t, heading, all), f)
		must(t, err)
		var got []uint64
		for _, s := range p.Flights() {
			got = append(got, s.Datagrams)
		}
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("datagrams per sender with the heading %q (-want +got):\n%s", heading, d)
		}
		if name := p.Report(p.Flights()[0]).Station; heading != "" && name != "Station 3" {
			t.Errorf("the station is %q", name)
		}
	}
}

// A silence divides what another program recorded, never a session of Halfturn's own.
func TestSilence(t *testing.T) {
	late := datagrams(simulator, 1000, 2)
	all := append(datagrams(simulator, 0, 3), late...)
	for heading, want := range map[string][2]int{opening("wing-over"): {0, 1}, "": {1, 1}} {
		cards := shipped(t)
		over := 0
		p, err := finished(t, recorded(t, heading, all), play.Following{
			Options: cards.options(t, "wing-over"),
			Plans:   cards.find,
			Silence: time.Minute,
			Over: func(s *play.Flight) {
				if over++; s.Datagrams != 3 || !s.Last.Equal(all[2].Received) {
					t.Errorf("%d datagrams until %v", s.Datagrams, s.Last)
				}
			},
		})
		must(t, err)
		if got := [2]int{over, len(p.Flights())}; got != want {
			t.Errorf("sessions that a silence ended, and others: %v; must be %v (heading %q)", got, want, heading)
		}
	}
}

// Where there are too many senders, those that sent nothing that could be read make room, and are counted.
func TestMostSenders(t *testing.T) {
	var all []capture.Datagram
	for i := range play.MostSenders + 5 {
		from := netip.AddrPortFrom(netip.MustParseAddr(fmt.Sprintf("10.0.%d.%d", i/200, i%200+1)), 49001)
		all = append(all, datagrams(from, i, 1)...)
	}
	cards := shipped(t)
	p, err := finished(t, recorded(t, "", all), play.Following{Options: cards.options(t, "wing-over")})
	must(t, err)
	if len(p.Flights()) != play.MostSenders || p.Left() != 5 {
		t.Errorf("%d senders are followed, %d datagrams left out; must be %d and 5", len(p.Flights()), p.Left(),
			play.MostSenders)
	}
	if first := p.Flights()[0].Sender; first != all[5].Source {
		t.Errorf("the oldest that stays is %s; must be %s", first, all[5].Source)
	}
}

// What was chosen in the parts before a file counts where the file is played alone, as in mid-session.
func TestPartAlone(t *testing.T) {
	first := datagrams(simulator, 0, 2)
	first[1].Comments = []string{chosen("chandelle-civil")}
	dir := recorded(t, opening("wing-over"), first, datagrams(simulator, 2, 2))
	cards := shipped(t)
	p, err := finished(t, part(dir, 2), play.Following{Options: cards.options(t, "wing-over"), Plans: cards.find})
	must(t, err)
	last := p.Choices()[len(p.Choices())-1].Maneuver
	if n := p.Flights()[0].Datagrams; n != 2 || last != "chandelle-civil" {
		t.Errorf("%d datagrams, graded by %q", n, last)
	}
}

// A session that goes on is not ended, unless it is asked to be.
func TestGoesOn(t *testing.T) {
	dir := recorded(t, opening("wing-over"), datagrams(simulator, 0, 2))
	unfinished(t, dir)
	for _, ends := range []bool{false, true} {
		ended := false
		cards := shipped(t)
		_, err := finished(t, dir, play.Following{
			Options: cards.options(t, "wing-over"),
			Plans:   cards.find,
			Ends:    ends,
			Output:  func(netip.AddrPort) session.Output { return listening(func() { ended = true }) },
		})
		must(t, err)
		if ended != ends {
			t.Errorf("asked to end: %v; ended: %v", ends, ended)
		}
	}
}

// A limit that is passed is told, and what was played until then counts.
func TestLimitPassed(t *testing.T) {
	rec, err := play.Open(t.Context(), recorded(t, "", datagrams(simulator, 0, 3)))
	must(t, err)
	cards := shipped(t)
	p, err := rec.Play(t.Context(), play.Following{Options: cards.options(t, "wing-over"),
		Limits: &capture.Limits{Bytes: 1}})
	must(t, err)
	defer p.Close()
	if err := p.Run(nil); err == nil || len(p.Flights()) != 0 {
		t.Errorf("a limit of one byte: %v, %d senders", err, len(p.Flights()))
	}
}
