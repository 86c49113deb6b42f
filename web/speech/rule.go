package speech

import (
	"math"
	"strings"
	"time"
	"unicode"

	"halfturn/coach"
)

// The rules are those of the page (static/pure/voice.js and schedule.js): what a listener hears does
// not depend on where it is spoken.

const (
	late      = 1.5  // s, a callout older than this is of no use any more
	tolerance = 0.4  // s, words that would end so long after their checkpoint are not begun
	patience  = 2.5  // s, a cue that is due at no time, that of the exit, is begun within so long or not at all
	blind     = 1.5  // s, an older frame tells no time any more
	step      = 0.05 // s between two looks at the waiting cues
)

// rank orders the kinds of callout, from the one that interrupts everything to the one that waits.
var rank = map[string]int{coach.Safety: 0, coach.Clear: 1, coach.After: 2, coach.Cue: 3, coach.Result: 4}

// order is what is to be done about a callout.
type order struct{ cancel, say, wait bool }

// decide says what to do about a callout so many seconds old while another kind, or "", is being spoken.
func decide(c *coach.Callout, full bool, age float64, speaking string) order {
	switch {
	case c.Kind == coach.Safety:
		return order{cancel: true, say: c.Words != ""}
	case c.Kind == coach.Clear:
		return order{cancel: speaking == coach.Safety}
	case age > late || c.Words == "" || !full && c.Kind == coach.After || speaking == coach.Safety:
		return order{}
	case speaking == "":
		return order{say: true}
	case c.Kind == coach.Result:
		return order{say: true, wait: true}
	case c.Kind == coach.After || rank[c.Kind] > rank[speaking]:
		return order{}
	}
	return order{cancel: true, say: true}
}

// glance is what the speaker keeps of the latest frame.
type glance struct {
	time   float64 // s, of the stream
	turn   float64
	flying bool
	cue    *coach.NextCue
	next   *coach.NextCue // the next checkpoint, in the same form
	seen   time.Time
}

func look(f *coach.Frame, now time.Time) *glance {
	g := &glance{time: f.Time, turn: f.Turn, flying: f.State == "turn" || f.State == "leg", seen: now}
	if f.Cue != nil {
		q := *f.Cue
		g.cue = &q
	}
	if f.Next != nil && f.Next.Seconds != nil {
		g.next = &coach.NextCue{To: f.Next.Turn, Seconds: *f.Next.Seconds}
	}
	return g
}

// left returns the seconds to a cue's checkpoint, so long after the frame.
func (g *glance) left(c *coach.Callout, age float64) float64 {
	for _, q := range []*coach.NextCue{g.cue, g.next} {
		if q != nil && c.To != nil && q.To == *c.To {
			return q.Seconds - age
		}
	}
	return *c.Due - g.time - age
}

// fate is what becomes of a waiting cue.
type fate int

const (
	keep   fate = iota
	begin       // its words end with its checkpoint when begun now
	tooOld      // they would end late
	over        // the leg is over
)

// of decides about a waiting cue whose words take so many seconds. g may be nil.
func (g *glance) of(c *coach.Callout, now time.Time, length float64) fate {
	if g == nil {
		return keep
	}
	age := now.Sub(g.seen).Seconds()
	switch {
	case age > blind:
		return keep
	case !g.flying && g.time > c.Time:
		return over
	case !g.flying:
		return keep
	}
	if c.Due == nil { // that of the exit: as soon as there is room
		if g.time+age-c.Time > patience {
			return tooOld
		}
		return begin
	}
	left := g.left(c, age)
	switch {
	case left-length < -tolerance || c.To != nil && g.turn > *c.To:
		return tooOld
	case left <= length+step:
		return begin
	}
	return keep
}

// lengths knows how long the program takes for words: what it took before, else by syllables.
type lengths struct {
	heard    map[string]float64
	syllable float64 // s
}

const (
	edges       = 0.15 // s before the first sound and after the last, with the start of the program
	rememberFor = 200  // phrases; the cards have fewer
)

// newLengths begins with words a minute, at 1.5 syllables a word (from memory).
func newLengths(wordsPerMinute float64) *lengths {
	return &lengths{heard: map[string]float64{}, syllable: 60 / wordsPerMinute / 1.5}
}

func (l *lengths) of(words string) float64 {
	if s, ok := l.heard[words]; ok {
		return s
	}
	return edges + syllables(words)*l.syllable
}

// learn takes how long words took.
func (l *lengths) learn(words string, seconds float64) {
	if len(l.heard) >= rememberFor {
		clear(l.heard)
	}
	l.heard[words] = seconds
	one := math.Max(0.03, (seconds-edges)/math.Max(1, syllables(words)))
	l.syllable += 0.3 * (one - l.syllable)
}

// syllables counts rows of vowels; a digit is spoken as a word.
func syllables(words string) float64 {
	n, within := 0.0, false
	for _, r := range strings.ToLower(words) {
		vowel := strings.ContainsRune("aeiouyäöü", r)
		switch {
		case vowel && !within:
			n++
		case unicode.IsDigit(r):
			n += 1.5
		case r == '°':
			n += 2
		}
		within = vowel
	}
	return math.Max(n, float64(len(strings.Fields(words))))
}
