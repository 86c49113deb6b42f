package finder

import (
	"context"
	"errors"
	"net/netip"
	"slices"
	"testing"
	"time"

	"halfturn/stream/ingest"
	"halfturn/stream/phrase"
)

// A listener answers as it is told to.
type listener struct {
	opened []string
	wrong  error
}

func (l *listener) Addresses() []netip.AddrPort {
	return []netip.AddrPort{netip.MustParseAddrPort("127.0.0.1:7181")}
}
func (l *listener) IsReachable() bool                        { return len(l.opened) > 0 }
func (l *listener) Ask(context.Context, string) error        { return l.wrong }
func (l *listener) StopAsking(context.Context, string) error { return l.wrong }
func (l *listener) Shut()                                    { l.opened = nil }

func (l *listener) Open(_ context.Context, addresses []string) error {
	if l.wrong == nil {
		l.opened = addresses
	}
	return l.wrong
}

func (l *listener) Found() ingest.Finding {
	at := netip.MustParseAddrPort("192.168.1.31:49000")
	return ingest.Finding{
		Asked: []ingest.Asked{{
			Address: at,
			By:      ingest.ByPage,
			Name:    "loft",
			Answers: true,
			Waited:  2500 * time.Millisecond,
		}},
		Announced: []ingest.Announced{{Address: at, Name: "loft"}},
	}
}

func newFinder(l *listener, machine ...string) *Finder {
	return &Finder{Listener: l, Machine: func() (list []netip.Addr) {
		for _, a := range machine {
			list = append(list, netip.MustParseAddr(a))
		}
		return list
	}}
}

func TestStatus(t *testing.T) {
	s := newFinder(&listener{}, "192.168.1.20", "fd00::2").Status()
	want := Asked{Address: "192.168.1.31:49000", By: ingest.ByPage, Name: "loft", Answers: true, Waited: 2}
	if len(s.Asked) != 1 || s.Asked[0] != want || len(s.Announced) != 1 || s.Announced[0].Name != "loft" {
		t.Errorf("%+v", s)
	}
	if s.Port != 7181 || !slices.Equal(s.Machine, []string{"192.168.1.20", "fd00::2"}) || s.Open || s.Fixed {
		t.Errorf("%+v", s)
	}
	if s := newFinder(&listener{}).Status(); s.Machine == nil || s.Asked == nil {
		t.Errorf("lists are null: %+v", s)
	}
}

// Each refusal is worded for people, with a code.
func TestRefusals(t *testing.T) {
	for wrong, want := range map[error]*phrase.Definition{
		ingest.ErrNotAsking: phrase.AskNobody, ingest.ErrTooManyAsked: phrase.AskFull,
		ingest.ErrPublic:           phrase.AskPublic,
		errors.New("no such host"): phrase.AskAddress,
	} {
		f := newFinder(&listener{wrong: wrong})
		for _, err := range []error{f.Ask(t.Context(), "seat"), f.StopAsking(t.Context(), "seat")} {
			if err == nil || !phrase.OfError(err).Is(want) {
				t.Errorf("%v: %v", wrong, err)
			}
		}
	}
	if err := newFinder(&listener{}).Ask(t.Context(), "seat"); err != nil {
		t.Error(err)
	}
}

func TestOpen(t *testing.T) {
	l := &listener{}
	f := newFinder(l, "192.168.1.20", "fd00::2")
	if err := f.Open(t.Context(), true); err != nil || !f.Status().Open ||
		!slices.Equal(l.opened, []string{"192.168.1.20:7181", "[fd00::2]:7181"}) {
		t.Errorf("%v, opened %v", err, l.opened)
	}
	if err := f.Open(t.Context(), false); err != nil || f.Status().Open {
		t.Errorf("%v, it is open", err)
	}
	if err := newFinder(l).Open(t.Context(), true); err == nil || !phrase.OfError(err).Is(phrase.NoNetwork) {
		t.Errorf("without a network: %v", err)
	}
	l.wrong = errors.New("in use")
	if err := f.Open(t.Context(), true); err == nil || !phrase.OfError(err).Is(phrase.PortTaken) {
		t.Errorf("taken: %v", err)
	}
}
