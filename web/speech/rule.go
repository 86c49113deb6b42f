package speech

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"time"

	"halfturn/coach"
)

// What a listener hears does not depend on where it is spoken: the pages follow the same rules
// (static/pure/voice.js and schedule.js), and web/testdata/rules holds both to them.

const (
	late      = 1.5  // s, an older callout is of no use
	patience  = 4.0  // s, what a person says waits no longer
	tolerance = 0.4  // s, words that would end later than this after their checkpoint are not begun
	blind     = 1.5  // s, an older frame says nothing about the time left
	setBack   = 1.0  // s, a clock that goes back by more was set back: the simulator started again
	step      = 0.05 // s between two looks at the waiting cues
)

// rank orders the kinds of callout, from the one that interrupts everything to the one that waits.
var rank = map[string]int{
	coach.Safety:    0,
	coach.Clear:     1,
	coach.Said:      2,
	coach.Watch:     3,
	coach.Cue:       4,
	coach.After:     5,
	coach.Result:    6,
	coach.NextTime:  7,
	coach.SetUpSaid: 8,
	coach.Done:      9,
	coach.Again:     10,
}

// A Level is how much is spoken, besides safety.
type Level string

// The levels.
const (
	Tones       Level = "tones"       // nothing
	Checkpoints Level = "checkpoints" // cues and results
	Full        Level = "full"        // watches, and what to do next time
	ByEar       Level = "ear"         // the set-up too: a whole session without a look at the page
)

// wants reports whether a kind is spoken. What was asked for is, and what a person says.
func (l Level) wants(kind string) bool {
	switch {
	case kind == coach.Again || kind == coach.Done || kind == coach.Said || l == ByEar:
		return true
	case l == Tones || kind == coach.SetUpSaid:
		return false
	}
	return l == Full || kind == coach.Cue || kind == coach.Result
}

// order is what is to be done about a callout.
type order struct{ cancel, say, wait bool }

// ofCue reports whether a clear takes back a cue.
func ofCue(c *coach.Callout) bool { return strings.HasPrefix(c.ID, "cue-") }

// decide says what to do about a callout of an age (s) while another kind, or "", is being spoken.
func decide(c *coach.Callout, level Level, age float64, speaking string) order {
	switch {
	case c.Kind == coach.Safety:
		return order{cancel: true, say: c.Words != ""}
	case c.Kind == coach.Clear:
		return order{cancel: speaking == coach.Safety && !ofCue(c)}
	case age > late || c.Words == "" || !level.wants(c.Kind):
		return order{}
	case speaking == "":
		return order{say: true}
	case waits(c.Kind, speaking):
		return order{say: true, wait: true}
	case c.Kind == coach.Again:
		return order{cancel: true, say: true}
	case speaking == coach.Safety || c.Kind == coach.After || rank[c.Kind] > rank[speaking]:
		return order{}
	}
	return order{cancel: true, say: true}
}

// waits reports whether a kind is said after what is being spoken.
func waits(kind, speaking string) bool {
	switch kind {
	case coach.Result, coach.NextTime, coach.SetUpSaid, coach.Done:
		return true
	case coach.Said:
		return speaking == coach.Safety || speaking == coach.Said
	case coach.Again:
		return speaking == coach.Safety || speaking == coach.Said || speaking == coach.Watch
	}
	return false
}

// wordsOf returns what is spoken of a callout: what is for the next leg begins with that.
func wordsOf(c *coach.Callout) string {
	if c.Kind == coach.NextTime || c.Kind == coach.Again && c.ID == coach.NextTime {
		return "Next time: " + c.Words
	}
	return c.Words
}

// glance is what the speaker keeps of the latest frame.
type glance struct {
	time   float64 // s, of the stream
	turn   float64
	flying bool
	cues   []coach.NextCue
	seen   time.Time
}

func look(f *coach.Frame, now time.Time) *glance {
	return &glance{
		time:   f.Time,
		turn:   f.Turn,
		flying: f.State == "turn" || f.State == "leg",
		cues:   slices.Clone(f.Cues),
		seen:   now,
	}
}

// left returns the seconds to a cue's checkpoint, so long after the frame.
func (g *glance) left(c *coach.Callout, age float64) float64 {
	for _, q := range g.cues {
		if c.To != nil && q.To == *c.To {
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

// of decides about a waiting cue whose words take this long. g may be nil.
func (g *glance) of(c *coach.Callout, now time.Time, length float64) fate {
	if g == nil {
		return keep
	}
	age := now.Sub(g.seen).Seconds()
	switch {
	case age > blind:
		return keep
	case !g.flying && g.time > c.Time, g.time < c.Time-setBack:
		return over
	case !g.flying:
		return keep
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

// How espeak-ng 1.51 speaks at 175 words a minute, s: before the first sound and after the last, at a comma,
// a syllable.
const (
	edges = 0.4
	pause = 0.45
	usual = 0.2
)

const rememberFor = 200 // phrases; the cards have fewer

// newLengths begins with what words a minute make of a syllable.
func newLengths(wordsPerMinute float64) *lengths {
	return &lengths{heard: map[string]float64{}, syllable: usual * 175 / wordsPerMinute}
}

func (l *lengths) of(words string) float64 {
	if s, ok := l.heard[words]; ok {
		return s
	}
	return l.syllable * beats(words)
}

// learn takes how long words took.
func (l *lengths) learn(words string, seconds float64) {
	if len(l.heard) >= rememberFor {
		clear(l.heard)
	}
	l.heard[words] = seconds
	l.syllable += 0.3 * (math.Max(0.03, seconds/beats(words)) - l.syllable)
}

// beats is how many syllables words take, with the pauses around and within them.
func beats(words string) float64 {
	pauses := 0.0
	for i := 1; i < len(words); i++ {
		if words[i] == ' ' && strings.IndexByte(",.;:", words[i-1]) >= 0 {
			pauses++
		}
	}
	return math.Max(1, syllables(words)) + (edges+pause*pauses)/usual
}

// unheard is the e that ends most words unheard.
var unheard = regexp.MustCompile(`e\b`)

// syllables counts rows of vowels, and numbers as they are spoken.
func syllables(words string) float64 {
	n, within, number := 0.0, false, -1
	for _, r := range unheard.ReplaceAllString(strings.ToLower(words), "") + " " {
		vowel := strings.ContainsRune("aeiouyäöü", r)
		switch {
		case r >= '0' && r <= '9':
			number = max(0, number)*10%1_000_000 + int(r-'0')
			continue
		case vowel && !within:
			n++
		case r == '°':
			n += 2
		}
		if number >= 0 {
			n += float64(ofNumber(number))
			number = -1
		}
		within = vowel
	}
	return math.Max(n, float64(len(strings.Fields(words))))
}

// ofNumber counts the syllables of a number.
func ofNumber(n int) int {
	rest := func(n int) int {
		if n == 0 {
			return 0
		}
		return ofNumber(n)
	}
	switch {
	case n < 20:
		return [...]int{2, 1, 1, 1, 1, 1, 1, 2, 1, 1, 1, 3, 1, 2, 2, 2, 2, 3, 2, 2}[n]
	case n < 100:
		tens := 2
		if n/10 == 7 {
			tens = 3
		}
		return tens + rest(n%10)
	case n < 1000:
		return ofNumber(n/100) + 2 + rest(n%100)
	}
	return ofNumber(n/1000) + 2 + rest(n%1000)
}
