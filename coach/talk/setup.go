package talk

import (
	"cmp"
	"math"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// How the set-up is spoken (common practice, no source).
const (
	openFor   = 3.0  // s that the same gate stays closed before it is named
	readyFor  = 1.0  // s that all are open before it is said
	nameAgain = 10.0 // s until the same gate is named again
	nameMost  = 3    // times that it is named in a row
	turning   = 20.0 // ° of bank from where on it is no set-up, as in a clearing turn
	remindAt  = 8.0  // s after a leg from where on its one thing is said again
)

// A setup is what was said of the set-up.
type setup struct {
	next  phrase.Phrase // the one thing to change, of the leg before
	gate  string        // the first one that is closed; "" when all are open
	since float64       // since when
	named float64       // when it was last named
	times int
	begun bool

	reminded bool // of next
}

// SetUp says which gate of the set-up is not open yet, or that it is ready. It is said for those who fly by ear.
func (t *Talk) SetUp(gates []coach.Gate, ready bool, s *stream.Sample) {
	u := &t.setup
	gate := ""
	if !ready {
		if gate = closed(gates); gate == "" {
			return // nothing can be judged yet
		}
	}
	if math.Abs(s.Value(stream.Bank)) > turning {
		u.begun = false
		return
	}
	if !u.begun || gate != u.gate {
		u.gate, u.since, u.named, u.times, u.begun = gate, t.now, math.Inf(-1), 0, true
	}
	t.remind(ready)
	hold, again, most := openFor, nameAgain, nameMost
	if ready {
		hold, again, most = readyFor, math.Inf(1), 1
	}
	if t.now-u.since < hold || t.now-u.named < again || u.times >= most {
		return
	}
	words := t.gateWords(gate, gates, s)
	if words.IsZero() || !t.voice.Say(t.now, callout.CueLevel, words.String()) {
		return
	}
	u.named = t.now
	u.times++
	t.put(say(words, coach.Callout{Kind: coach.SetUpSaid, ID: cmp.Or(gate, "ready")}))
}

// remind says the one thing of the leg before once more, when all is ready for the next.
func (t *Talk) remind(ready bool) {
	u := &t.setup
	if !ready || u.reminded || u.next.IsZero() || t.voice.Busy(t.now, callout.CueLevel) {
		return
	}
	if t.now-t.ended > remindAt && t.now-u.since > readyFor && t.Prompts() != callout.PromptsOff {
		u.reminded = true
		t.sayNext(0)
	}
}

// order is that in which gates are named: what takes longest to mend first.
var order = [...]string{"hard-deck", "wings-level", "height-held", "entry-speed", "ball", "on-the-line"}

// closed returns the first gate that is known and not open.
func closed(gates []coach.Gate) string {
	for _, id := range order {
		for i := range gates {
			if g := &gates[i]; g.ID == id && g.Value != nil && !g.OK {
				return id
			}
		}
	}
	return ""
}

// gateWords words a gate that is not open; "" is the set-up that is ready.
func (t *Talk) gateWords(id string, gates []coach.Gate, s *stream.Sample) phrase.Phrase {
	switch id {
	case "":
		for i := range gates {
			if gates[i].ID == "clearing-turns" && !gates[i].OK {
				return phrase.Plain(sayUncleared)
			}
		}
		return phrase.Plain(sayReady)
	case "hard-deck":
		return phrase.Plain(sayTooLow)
	case "wings-level":
		return phrase.Plain(sayLevel)
	case "height-held":
		return phrase.Plain(sayHeight)
	case "entry-speed":
		return t.speedWords(s)
	case "ball":
		return phrase.Plain(sayBall)
	case "on-the-line":
		return phrase.Plain(sayLine)
	}
	return phrase.Phrase{}
}

// speedWords names the speed that the one aircraft wants.
func (t *Talk) speedWords(s *stream.Sample) phrase.Phrase {
	entry, within := t.plan.EntrySpeed(), t.plan.Card.Setup.Airspeed
	switch v, ok := s.Get(stream.Airspeed); {
	case ok && entry > 0 && v > entry+within:
		return phrase.Template(saySlow, phrase.Number("speed", entry, 0, ""))
	case ok && entry > 0 && v < entry-within:
		return phrase.Template(sayFast, phrase.Number("speed", entry, 0, ""))
	}
	return phrase.Plain(saySteady)
}
