package session_test

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/message"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/stream/phrase"
)

// told keeps what a listener receives of a flight.
type told struct{ list []string }

func (o *told) Event(m message.Message) {
	switch b := m.Body.(type) {
	case message.Callout:
		if b.Kind == coach.SetUpSaid {
			return // it follows the set-up every tenth of a second, wherever those fall
		}
		o.list = append(o.list, fmt.Sprintf("%s %s %q %s", b.Kind, b.ID, b.Words, b.Tone))
	case message.Leg:
		o.list = append(o.list, fmt.Sprintf("leg %s, %s, %s", b.Outcome, b.Verdict, b.Grade))
	}
}
func (*told) Frame(string, *coach.Frame) {}
func (*told) Watched(string) bool        { return false }

// TestStartedAgain: whoever starts the simulator again, so that its clock goes back, is told the
// same of the same flight as the first time; what was flown before changes nothing.
func TestStartedAgain(t *testing.T) {
	for name, w := range loadTruth(t) {
		for _, auto := range []bool{false, true} {
			out := &told{}
			opt := options(t, w.Maneuver, w.Aircraft, out)
			opt.Coach.Prompts = callout.PromptsAll // where cues fade, those of points met before are left out
			if auto {
				opt.Auto = []*plan.Plan{opt.Coach.Plan}
			}
			s := session.New(opt)
			list := datagrams(t, name)
			end := list[len(list)-1].Seconds() - list[0].Seconds()
			var flown [2][]string
			for i := range flown {
				out.list = nil
				for _, d := range list {
					s.Feed(d.Payload, d.Seconds()+float64(i)*(end+3))
				}
				s.End(phrase.Read("the recording ended"))
				flown[i] = out.list
			}
			if len(flown[0]) == 0 {
				t.Errorf("%s: nothing is told", name)
			}
			if diff := cmp.Diff(flown[0], flown[1]); diff != "" {
				t.Errorf("%s, auto %v: flown again (+) it is told otherwise:\n%s", name, auto, diff)
			}
		}
	}
}
