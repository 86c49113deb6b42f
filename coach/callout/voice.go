package callout

import (
	"math"
	"strings"
)

// Options say how the words are heard.
type Options struct {
	Rate     float64 // words a second; 0 is 2.5: 150 words a minute, conversation (from memory)
	Reaction float64 // s from the end of a cue to the hand moving; 0 is 0.25: simple reaction, 231 ms mean, Woods 2015
}

// Priorities, the higher interrupts the lower.
const (
	CueLevel    = iota
	WatchLevel  // an error that grows
	UrgentLevel // one past twice its corridor
	ResultLevel
	SaidLevel // a person speaks
	SafetyLevel
)

// again is how long the same words are not repeated, s.
const again = 4.0

// pause is how long an alert waits from the end of its words until it is said again, s: three seconds at most
// (MIL-STD-1472 5.3.5, from memory), less what a quick voice may be ahead of the average one.
const pause = 2.4

// remembered is how many phrases are kept for that; more are never said in that time.
const remembered = 16

// A Voice keeps track of what is being said. One a station.
type Voice struct {
	opt   Options
	until float64 // the words being said end then
	level int
	said  [remembered]struct {
		words string
		time  float64
	}
	next int
}

// New makes a voice.
func New(o Options) *Voice {
	if o.Rate <= 0 {
		o.Rate = 2.5
	}
	if o.Reaction <= 0 {
		o.Reaction = 0.25
	}
	v := &Voice{opt: o}
	v.Reset()
	return v
}

// Reset forgets what was said: the clock of the stream may have gone back.
func (v *Voice) Reset() {
	v.until = math.Inf(-1)
	for i := range v.said {
		v.said[i].words = ""
	}
}

// Length returns how long the words take, s.
func (v *Voice) Length(words string) float64 {
	return count(words) / v.opt.Rate
}

// Lead returns how long before a checkpoint its cue has to start so that the words end a
// reaction time before it, s.
func (v *Voice) Lead(words string) float64 { return v.Length(words) + v.opt.Reaction }

// The slow voice cues are sent early for: words a second (102 words a minute; common practice, no
// source), and what the prediction of the checkpoint may move meanwhile, s.
const (
	slowRate = 1.7
	margin   = 0.5
	reaction = 0.25
)

// LongestLead is more than Early of any phrase: five words at most are said.
const LongestLead = 6.0

// Early returns how long before its checkpoint a cue has to be sent, s, so that a slow voice can end in time.
// It does not depend on who listens.
func Early(words string) float64 { return Slowest(words) + reaction + margin }

// Slowest returns how long a slow voice takes for words, s.
func Slowest(words string) float64 { return count(words) / slowRate }

func count(words string) float64 {
	n := 0.0
	for range strings.FieldsSeq(words) {
		n++
	}
	return n
}

// Repeats reports whether the same words were said within four seconds.
func (v *Voice) Repeats(now float64, words string) bool {
	for i := range v.said {
		if v.said[i].words == words && now-v.said[i].time < again {
			return true
		}
	}
	return false
}

// Say asks to say words now and reports whether they may be said: nothing of the same or a
// higher level is being said (safety waits for nothing), and the same words were not said
// within four seconds. What may not be said now is dropped by the caller, never queued.
func (v *Voice) Say(now float64, level int, words string) bool {
	if now < v.until && level <= v.level && level != SafetyLevel {
		return false
	}
	if v.Repeats(now, words) {
		return false
	}
	v.note(now, level, words)
	return true
}

// note keeps that words are said from now on.
func (v *Voice) note(now float64, level int, words string) {
	v.said[v.next].words, v.said[v.next].time = words, now
	v.next = (v.next + 1) % remembered
	v.until, v.level = now+v.Length(words), level
}

// Tell takes what a person says: it interrupts everything but safety, whose words it waits for, and may come twice.
func (v *Voice) Tell(now float64, words string) {
	if v.Busy(now, SafetyLevel) {
		v.Append(now, words)
		return
	}
	v.note(now, SaidLevel, words)
}

// Append takes words that are to be said once those being said have ended.
func (v *Voice) Append(now float64, words string) { v.until = max(now, v.until) + v.Length(words) }

// Insist asks to say words that stand for as long as their cause does: like Say, but the same words may come again
// once the pause of an alert has passed since they ended.
func (v *Voice) Insist(now float64, level int, words string) bool {
	if now < v.until && level <= v.level && level != SafetyLevel {
		return false
	}
	for i := range v.said {
		if v.said[i].words == words && now-v.said[i].time < v.Length(words)+pause {
			return false
		}
	}
	v.note(now, level, words)
	return true
}

// Busy reports whether something of the level or above is being said.
func (v *Voice) Busy(now float64, level int) bool { return now < v.until && v.level >= level }
